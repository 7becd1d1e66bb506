import { readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addVisit, openLogbook } from '../../../src/logbook/logbook.ts';
import { runCommand } from '../../support/fake-io.ts';
import { newLogbook, someVisit } from '../../support/logbooks.ts';

async function onLogbook() {
  const folder = await newLogbook();
  const turfwire = (...args: string[]) => runCommand(args, { cwd: folder });
  return { folder, turfwire };
}

describe('turfwire history', () => {
  it('keeps events of one time in the order of their rows, and a word on a visit beside it', async () => {
    const { folder, turfwire } = await onLogbook();
    await addVisit(folder, someVisit(1, 2));
    await turfwire('note', 'rain', '3mm', '--at', '2026-04-05T10:00Z');
    await turfwire('note', 'text', 'then a remark', '--at', '2026-04-05T10:00Z');
    await turfwire('note', 'baseline', '1', 'no');
    const { events } = (await turfwire('history', '--json')).json<{
      events: { sequence: number; event: string }[];
    }>();
    const told = events.filter(({ event }) => event !== 'begin');
    expect(told.map(({ event }) => event)).toEqual(['shot', 'shot', 'baseline', 'rain', 'text']);
  });

  it('tells one line an event in the order of their times, and what that makes in all', async () => {
    const { folder, turfwire } = await onLogbook();
    await turfwire('note', 'rain', '3mm', '--at', '2026-03-05T10:00Z');
    await addVisit(folder, someVisit(1, 2));
    await turfwire('lay', '--count', '3', '--length', '6m', '--at', '2026-02-01T10:00Z');
    const { out } = await turfwire('history');
    const [head, ...lines] = out.split('\n');
    expect(head).toMatch(/^row {2}time {23}what$/u);
    expect(lines.map((line) => line.slice(5, 15))).toEqual([
      ...Array(3).fill('2026-02-01'),
      ...Array(2).fill('2026-03-01'),
      '2026-03-05',
      expect.stringMatching(/^20\d\d-/u),
      '',
      'ide: 1 vis',
    ]);
    expect(out).toContain(
      '1 visit, 2 sweeps, 1 note; the field has 3 radials, 18.0 m of wire (numbers 1 to 3)',
    );
    const { totals, events } = (await turfwire('history', '--json')).json<{
      totals: object;
      events: object[];
    }>();
    expect(totals).toEqual({
      events: 7,
      visits: 1,
      sweeps: 2,
      readings: 1,
      radials: 3,
      wireM: 18,
      fieldSince: '2026-02-01T10:00:00Z',
      planned: 0,
    });
    expect(events[0]).toMatchObject({ event: 'lay', number: 1, lengthM: 6 });
  });

  it('names the joints that ask to be looked at, until an inspection is logged', async () => {
    const { folder, turfwire } = await onLogbook();
    const site = JSON.parse(readFileSync(join(folder, 'site.json'), 'utf8'));
    site.joints = [{ name: 'lug', metals: ['copper', 'brass'] }];
    writeFileSync(join(folder, 'site.json'), JSON.stringify(site));
    expect((await turfwire('history')).out).toContain(
      'Look at joint "lug": due now, no inspection is logged.',
    );
    await turfwire('note', 'inspection', 'lug', 'clean');
    expect((await turfwire('history')).out).not.toContain('Look at');
  });

  it('tells the same day of a joint as safety does, with its zone', async () => {
    const { folder, turfwire } = await onLogbook();
    const site = JSON.parse(readFileSync(join(folder, 'site.json'), 'utf8'));
    site.antenna.height = '10.1m';
    site.joints = [{ name: 'lug', metals: ['copper', 'brass'] }];
    writeFileSync(join(folder, 'site.json'), JSON.stringify(site));
    await turfwire('note', 'inspection', ' LUG', 'clean', '--at', '2024-03-01T00:30:00+02:00');
    expect((await turfwire('history')).out).toContain(
      'Look at joint "lug": overdue since 2025-03-01 UTC+02:00 (last look 2024-03-01 UTC+02:00).',
    );
    const safety = ['safety', '--power', '5W', '--mode', 'cw'];
    const told = (await turfwire(...safety)).out;
    expect(told).toContain('lug: overdue since 2025-03-01 UTC+02:00.');
    expect(told).toContain('Look at this joint now: lug.');
    const { joints } = (await turfwire(...safety, '--json')).json<{ joints: { due: object }[] }>();
    expect(joints[0]?.due).toMatchObject({ due: '2025-03-01T00:30:00+02:00', overdue: true });
  });

  it('tells the rest of a damaged journal, and where to learn what is damaged', async () => {
    const { folder, turfwire } = await onLogbook();
    await turfwire('note', 'text', 'one');
    writeFileSync(join(folder, 'journal.csv'), '3,1 of 1,2026', { flag: 'a' });
    const ran = await turfwire('history');
    expect(ran).toMatchObject({ code: 0, out: expect.stringContaining('remark: one') });
    expect(ran.err).toContain('(1 finding): `turfwire check` says what');
    const { problems } = (await turfwire('history', '--json')).json<{ problems: unknown[] }>();
    expect(problems).toMatchObject([{ code: 'journal-torn', place: { line: 4 } }]);
  });
});

describe('turfwire check', () => {
  it('ends with 0 and says what it looked at when nothing is damaged', async () => {
    const { folder, turfwire } = await onLogbook();
    await addVisit(folder, someVisit(1, 2));
    const ran = await turfwire('check');
    expect(ran).toMatchObject({ code: 0, err: '' });
    expect(ran.out).toContain('3 rows and 2 sweeps checked');
    expect((await turfwire('check', '--json')).json()).toEqual({ rows: 3, sweeps: 2, damage: [] });
  });

  it('names each damage and ends with 4', async () => {
    const { folder, turfwire } = await onLogbook();
    await addVisit(folder, someVisit(1));
    const file = (await openLogbook(folder)).visits[0]?.shots[0]?.file as string;
    rmSync(join(folder, file));
    const journal = join(folder, 'journal.csv');
    writeFileSync(journal, readFileSync(journal, 'utf8').replace(',shot1.csv,', ',shot9.csv,'));
    const ran = await turfwire('check', '--json');
    expect(ran).toMatchObject({ code: 4 });
    expect(ran.json()).toMatchObject({
      damage: [
        { code: 'row-changed', file: 'journal.csv', line: 3 },
        { code: 'sweep-missing', file },
      ],
    });
    expect(ran.err).toContain('2 findings');
  });

  it('ends with 1 when only the site file is wrong', async () => {
    const { folder, turfwire } = await onLogbook();
    writeFileSync(join(folder, 'site.json'), '{ "version": 1, "name": "x", "antena": {} }');
    const ran = await turfwire('check');
    expect(ran).toMatchObject({ code: 1 });
    expect(ran.out).toContain('did you mean "antenna"?');
  });
});
