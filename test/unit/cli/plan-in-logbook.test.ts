import { rmSync } from 'node:fs';
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { lastingFolder } from '../../support/logbooks.ts';
import { onPlanningDay, SAMPLE_SITE as SITE } from '../../support/planning.ts';

const folder = lastingFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const turfwire = onPlanningDay(folder);

describe('turfwire plan in a logbook', () => {
  it('writes planned radials into a logbook, and lay logs them as laid', async () => {
    const logbook = join(folder, 'book');
    const at = ['--at', '2026-02-01T10:00:00Z'];
    await turfwire('begin', logbook, '--name', 'test', '--kind', 'quarter-wave', ...at);
    await writeFile(join(logbook, 'site.json'), await readFile(SITE));
    const planned = await turfwire(
      'plan',
      '--logbook',
      logbook,
      '--count',
      '8',
      '--length',
      '6m',
      '--apply',
      ...at,
    );
    expect(planned.err).toContain('planned radials 1 to 8');
    const laid = await turfwire(
      'lay',
      '--logbook',
      logbook,
      '--planned',
      '1,5',
      '--at',
      '2026-02-02T10:00:00Z',
    );
    expect([laid.code, laid.err]).toEqual([0, '']);
    expect(laid.out).toContain('2 radials');
    const next = JSON.parse((await turfwire('plan', '--logbook', logbook, '--json')).out);
    expect(next.alreadyLaid).toBe(2);
  });

  describe('whose stock is spent', () => {
    const book = (...args: string[]) => turfwire(...args, '--logbook', join(folder, 'spent'));
    const planJson = async (...args: string[]) => JSON.parse((await book('plan', '--json', ...args)).out);
    beforeAll(async () => {
      await turfwire('begin', join(folder, 'spent'), '--name', 'test');
      await writeFile(join(folder, 'spent', 'site.json'), await readFile(SITE));
    });

    it('one plan takes the place of another, also at the same time', async () => {
      const at = ['--at', '2026-02-01T10:00:00Z'];
      const apply = () => book('plan', '--count', '16', '--length', '6m', '--apply', ...at);
      expect((await apply()).err).not.toContain('takes the place');
      expect((await apply()).err).toContain('takes the place of the open plan: radials 1 to 16 withdrawn');
      const { err } = await apply();
      expect(err).toContain('planned radials 33 to 48');
      expect((await book('history')).out).toContain('16 more planned');
    });

    it('a plan that is withdrawn brings back the one that it took the place of, under its own numbers', async () => {
      const withdrawn = async (rows: string) =>
        (await book('note', 'withdraw', rows, 'a slip')).out.match(/Row \d+ stands again/gu)?.length ?? 0;
      const planned = async () => JSON.parse((await book('history', '--json')).out).totals.planned as number;
      const before = await planned();
      const { err } = await book('plan', '--count', '4', '--length', '6m', '--apply');
      expect(err).toContain('planned radials 49 to 52');
      const [, rows = ''] = /note withdraw (\S+)/u.exec(err) ?? [];
      const [first = 0, last = 0] = rows.split('-').map(Number);
      expect([await withdrawn(`${first}`), await planned()]).toEqual([0, 3]);
      expect([await withdrawn(`${first + 1}-${last}`), await planned()]).toEqual([16, before]);
      const again = await book('plan', '--count', '4', '--length', '6m', '--apply');
      expect(again.err).toContain('radials 33 to 48 withdrawn');
      expect(again.err).toContain('planned radials 53 to 56');
      const [, newer = ''] = /note withdraw (\S+)/u.exec(again.err) ?? [];
      expect([await withdrawn(newer), await planned()]).toEqual([16, before]);
    });

    it('numbers a plan as the journal would, in table, JSON, drawing and notes', async () => {
      const args = ['--count', '5', '--length', '6m', '--svg', 'numbered.svg'];
      const next = [57, 58, 59, 60, 61];
      const { radials, notes, endsNearBorder } = await planJson(...args);
      expect(radials.map(({ number }: { number: number }) => number)).toEqual(next);
      for (const number of endsNearBorder) expect(next).toContain(number);
      const drawn = await readFile(join(folder, 'numbered.svg'), 'utf8');
      expect([...drawn.matchAll(/class="lot-number"[^>]*>(\d+)</gu)].map(([, n]) => Number(n))).toEqual(next);
      expect(drawn).toContain('<title>radial 57, planned, 6.00 m toward');
      const { out } = await book('plan', ...args);
      expect(out).toMatch(/^ +57 +36° +6\.00 m/mu);
      expect(notes.join()).toContain('the journal holds another plan, radials 33 to 48');
      const applied = await book('plan', ...args, '--apply');
      expect(applied.err).toContain('planned radials 57 to 61');
      expect(applied.out).toMatch(/^ +57 +36° /mu);
      // Shown again, it is still the plan of the journal.
      const again = await planJson(...args);
      expect(again.radials.map(({ number }: { number: number }) => number)).toEqual(next);
      expect(again.notes.join()).toContain('this very plan, under the same numbers');
      const [, rows = ''] = /note withdraw (\S+)/u.exec(applied.err) ?? [];
      await book('note', 'withdraw', rows, 'a slip');
    });

    it('spends what the laid radials have left of the stock, beside them', async () => {
      await book('lay', '--planned', '33-48', '--at', '2026-02-02T10:00:00Z');
      const plan = await planJson();
      const laidM = 16 * 6;
      expect(plan.alreadyLaid).toBe(16);
      expect(plan.wireM).toBeGreaterThan(50);
      expect(plan.wireM).toBeLessThan(225 - laidM + 25);
      expect(plan.gainOverLaidDb.gainDb).toBeGreaterThan(0);
      expect(plan.notes.join()).toContain('16 laid radials used some of it');
    });

    it('asks for wire when the stock is used up, and takes what the command line says is at hand', async () => {
      const site = JSON.parse(await readFile(SITE, 'utf8'));
      site.stock = [{ length: '6.3m', count: 1 }];
      await writeFile(join(folder, 'spent', 'site.json'), JSON.stringify(site));
      const { code, err } = await book('plan');
      expect([code, err]).toEqual([1, expect.stringContaining('16 laid radials used up the 6.3 m')]);
      expect((await planJson('--stock', '2x8m')).wireM).toBeLessThan(16);
    });
  });
});
