import { cpSync, existsSync, readFileSync, renameSync, truncateSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { uniformInt } from 'pure-rand/distribution/uniformInt';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { describe, expect, it } from 'vitest';
import { addVisit, appendEvents, checkLogbook, openLogbook } from '../../src/logbook/logbook.ts';
import { HASTY_DISK } from '../support/faulty-disk.ts';
import { newLogbook, someVisit, temporaryFolder } from '../support/logbooks.ts';
import { ageLock, startWatch, startWriter, toldBy } from '../support/written.ts';

/** How often a writer is killed, and at which moments; `npm run powercut` kills more. */
const KILLS = Number(process.env['TURFWIRE_KILLS'] ?? 12);
const SEED = Number(process.env['TURFWIRE_KILL_SEED'] ?? 20_260_301);

/** What is killed, in turn. The simulated instrument does not write beside what was imported: each has its logbook. */
const WRITERS: readonly {
  readonly into: 'kept' | 'tried';
  readonly commands: readonly string[] | 'watch';
}[] = [
  { into: 'kept', commands: ['note', 'lay', 'import'] },
  { into: 'tried', commands: ['note', 'lay', 'measure'] },
  { into: 'tried', commands: 'watch' },
];

const next = (folder: string, text: string) => {
  const time = '2026-03-01T10:00:00Z';
  return appendEvents(folder, [{ event: 'text', time, text, value: null, subject: null, powerW: null }], {
    disk: HASTY_DISK,
  });
};

/** A copy of a logbook, to be damaged. */
function copyOf(folder: string): string {
  const copy = join(temporaryFolder(), 'field');
  cpSync(folder, copy, { recursive: true });
  return copy;
}

const codesOf = async (folder: string) => (await checkLogbook(folder)).damage.map(({ code }) => code);

describe('a power cut', () => {
  it('at every byte of the last row of the journal loses nothing before it, and stops nothing after', async () => {
    const folder = await newLogbook();
    await next(folder, 'kept');
    const whole = readFileSync(join(folder, 'journal.csv')).length;
    await addVisit(folder, someVisit(1));
    const size = readFileSync(join(folder, 'journal.csv')).length;
    for (let bytes = whole; bytes < size; bytes++) {
      const copy = copyOf(folder);
      truncateSync(join(copy, 'journal.csv'), bytes);
      const isWhole = bytes >= size - 2;
      const isTorn = bytes > whole && !isWhole;
      // The sweep was on the disk before its row: without it, it is an orphan.
      const expected = isWhole ? [] : [...(isTorn ? ['journal-torn'] : []), 'sweep-orphan'];
      expect(await codesOf(copy), `cut at ${bytes}`).toEqual(expected);

      await next(copy, 'after');
      const { events, visits } = await openLogbook(copy);
      expect(events.filter(({ event }) => event === 'text').map(({ text }) => text)).toEqual([
        'kept',
        'after',
      ]);
      expect(visits.length).toBe(isWhole ? 1 : 0);
      expect((await codesOf(copy)).filter((code) => code !== 'sweep-orphan')).toEqual([]);
      if (isTorn) {
        const torn = readFileSync(join(folder, 'journal.csv')).subarray(whole, bytes);
        expect(readFileSync(join(copy, 'refused/journal-torn.csv'))).toEqual(torn);
      }
    }
  });

  it('at every byte of a sweep file leaves an unfinished file that is named, and the visit can be stored again', async () => {
    const folder = await newLogbook();
    await addVisit(folder, someVisit(1));
    const stored = copyOf(folder);
    await addVisit(stored, someVisit(2));
    const file = (await openLogbook(stored)).visits[1]?.shots[0]?.file as string;
    const bytes = readFileSync(join(stored, file));
    for (let kept = 0; kept <= bytes.length; kept++) {
      const copy = copyOf(folder);
      const unfinished = join(copy, 'sweeps/2026-03', '.a-sweep.csv.7.unfinished');
      writeFileSync(unfinished, bytes.subarray(0, kept));
      expect(await codesOf(copy)).toEqual(['file-unfinished']);
      expect(await addVisit(copy, someVisit(2), { disk: HASTY_DISK })).toBe(2);
      expect(await codesOf(copy)).toEqual(['file-unfinished']);
    }
  });

  it('between a sweep and its row leaves an orphan that is named, and the same visit takes it up', async () => {
    const folder = await newLogbook();
    const stored = copyOf(folder);
    await addVisit(stored, someVisit(1));
    renameSync(join(stored, 'sweeps/2026-03'), join(folder, 'sweeps/2026-03'));
    expect(await codesOf(folder)).toEqual(['sweep-orphan']);
    await addVisit(folder, someVisit(1));
    expect(await codesOf(folder)).toEqual([]);
  });

  it('that fills the end of the journal with zeros is a torn row', async () => {
    const folder = await newLogbook();
    await next(folder, 'kept');
    writeFileSync(join(folder, 'journal.csv'), new Uint8Array(100), { flag: 'a' });
    expect(await codesOf(folder)).toEqual(['journal-torn']);
    await next(folder, 'after');
    expect(await codesOf(folder)).toEqual([]);
  });

  it(`in the middle of commands, ${KILLS} times at random moments, loses nothing that was acknowledged`, {
    timeout: 60_000 + KILLS * 10_000,
  }, async () => {
    const random = xoroshiro128plus(SEED);
    const folders = { kept: await newLogbook(), tried: await newLogbook() };
    const acknowledgedIn = { kept: [] as string[], tried: [] as string[] };
    for (let kill = 1; kill <= KILLS; kill++) {
      const { into, commands } = WRITERS[kill % WRITERS.length] as (typeof WRITERS)[number];
      const [folder, acknowledged] = [folders[into], acknowledgedIn[into]];
      const writer =
        commands === 'watch'
          ? startWatch(folder, SEED + kill)
          : startWriter(folder, `writer${kill}`, 1_000, commands);
      expect(await writer.afterFirstRound(), 'it must not end by itself').toBe(true);
      await sleep(uniformInt(random, 0, commands === 'watch' ? 1_200 : 600));
      writer.process.kill('SIGKILL');
      expect(await writer.ended(), 'it must still have been writing').toBeNull();
      acknowledged.push(...writer.acknowledged());
      ageLock(folder);

      const named = new Set(await codesOf(folder));
      for (const harmless of ['journal-torn', 'sweep-orphan', 'file-unfinished']) named.delete(harmless);
      expect([...named], `after kill ${kill}`).toEqual([]);
      const told = new Set(toldBy(await openLogbook(folder)));
      expect(acknowledged.filter((what) => !told.has(what))).toEqual([]);

      await next(folder, `after${kill}`);
      acknowledged.push(`text after${kill}`);
      expect(await codesOf(folder)).not.toContain('journal-torn');
      expect(existsSync(join(folder, 'journal.csv.lock'))).toBe(false);
    }
    expect(acknowledgedIn.kept.length + acknowledgedIn.tried.length).toBeGreaterThan(2 * KILLS);
  });
});
