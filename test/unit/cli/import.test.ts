import { readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { writeTouchstone } from '../../../src/formats/touchstone/write.ts';
import { loadShot, openLogbook } from '../../../src/logbook/logbook.ts';
import { runCommand } from '../../support/fake-io.ts';
import { newLogbook, SITE, someSweep, temporaryFolder } from '../../support/logbooks.ts';

const NOW = new Date('2026-05-01T12:00:00Z');

interface Report {
  visits: { visit: number; time: string; shots: number }[];
  duplicates: { file: string; visit: number; shot: number }[];
  amiss: { file: string; was: 'lost' | 'changed' }[];
  refused: { file: string; kept: string | null; why: string }[];
}

/** A fresh logbook, and a folder with sweep files to import. */
async function setUp(files: Record<string, string>, site = SITE) {
  const folder = await newLogbook(site);
  const cwd = temporaryFolder();
  for (const [name, text] of Object.entries(files)) writeFileSync(join(cwd, name), text);
  const world = { cwd, env: { TURFWIRE_LOGBOOK: folder }, now: () => NOW };
  return { folder, cwd, turfwire: (...args: string[]) => runCommand(args, world) };
}

const csv = (r: number) => `MHz;R;X\n7,0;${r},5;-5\n7,1;${r};0\n7,2;${r};6\n`;
const SWR_ONLY = 'MHz,SWR\n7,1.5\n7.1,1.2\n7.2,2\n';

describe('turfwire import', () => {
  it('makes one visit of shots and another of each other file, at the time that is given', async () => {
    const { folder, turfwire } = await setUp({
      'spring-shot1.csv': csv(36),
      'spring-shot2.csv': csv(37),
      'may.s1p': writeTouchstone(someSweep(4)),
    });
    const files = ['spring-shot1.csv', 'spring-shot2.csv', 'may.s1p'];
    const ran = await turfwire('import', ...files, '--at', '2026-03-01T10:15+01:00', '--json');
    expect(ran).toMatchObject({ code: 0 });
    const time = '2026-03-01T10:15:00+01:00';
    expect(ran.json<Report>()).toEqual({
      visits: [
        { visit: 1, time, shots: 2 },
        { visit: 2, time, shots: 1 },
      ],
      duplicates: [],
      amiss: [],
      refused: [],
    });
    const logbook = await openLogbook(folder);
    const [shot] = logbook.visits[0]?.shots ?? [];
    if (shot === undefined) throw new Error('no shot');
    const sweep = await loadShot(logbook, shot);
    expect([...sweep.resistanceOhm]).toEqual([36.5, 36, 36]);
    expect(shot.source).toBe('spring-shot1.csv');
  });

  it('says which time it took where none was given', async () => {
    const { turfwire } = await setUp({ 'a.csv': csv(36), 'b.csv': csv(37) });
    const ran = await turfwire('import', 'a.csv', 'b.csv');
    expect(ran.out).toContain('Visit 1 at 2026-05-01T12:00:00Z');
    expect(ran.err).toContain(
      'no --at was given, so 2 visits got the present time; --at sets the time, --file-time',
    );
    const dated = await setUp({ 'a.csv': csv(36) });
    expect((await dated.turfwire('import', 'a.csv', '--file-time')).err).not.toContain('--at');
  });

  it('stores nothing twice, and says where it is, however the file is named or laid out', async () => {
    const { folder, turfwire } = await setUp({
      'a.csv': csv(36),
      'b.csv': 'frequency_hz,resistance_ohm,reactance_ohm\n7000000,36.5,-5\n7100000,36,0\n7200000,36,6\n',
    });
    await turfwire('import', 'a.csv');
    const again = await turfwire('import', 'a.csv', 'b.csv');
    expect(again).toMatchObject({ code: 0 });
    expect(again.out).toContain('a.csv is in the logbook already (visit 1, shot 1)');
    expect(again.out).toContain('b.csv is in the logbook already (visit 1, shot 1)');
    expect((await openLogbook(folder)).events).toHaveLength(2);
  });

  it('restores a stored sweep that was lost from what it came from, also one whose rows were withdrawn', async () => {
    const { folder, turfwire } = await setUp({ 'a.csv': csv(36) });
    await turfwire('import', 'a.csv');
    const file = (await openLogbook(folder)).visits[0]?.shots[0]?.file ?? '';
    const stored = readFileSync(join(folder, file));
    rmSync(join(folder, file));
    expect((await turfwire('check')).out).toContain('or import again what it came from');

    const ran = await turfwire('import', 'a.csv');
    expect(ran).toMatchObject({ code: 0 });
    expect(ran.out).toContain(`Restored ${file}: it was lost.`);
    expect(readFileSync(join(folder, file))).toEqual(stored);
    expect((await openLogbook(folder)).events).toHaveLength(2);
    expect((await turfwire('check')).code).toBe(0);

    await turfwire('note', 'withdraw', '2', 'wrong antenna');
    rmSync(join(folder, file));
    expect((await turfwire('import', 'a.csv')).out).toContain(`Restored ${file}`);
    expect((await turfwire('check')).code).toBe(0);
  });

  it('never gives the number of a withdrawn shot again: it may stand again', async () => {
    const { folder, turfwire } = await setUp({
      'a-shot1.csv': csv(36),
      'a-shot2.csv': csv(37),
      'a-shot3.csv': csv(38),
    });
    await turfwire('import', 'a-shot1.csv', 'a-shot2.csv');
    await turfwire('note', 'withdraw', '3', 'hand on the coax'); // row 4
    await turfwire('import', 'a-shot1.csv', 'a-shot3.csv');
    await turfwire('note', 'withdraw', '4', 'it was not');
    expect((await openLogbook(folder)).visits[0]?.shots.map(({ shot }) => shot)).toEqual([1, 2, 3]);
    expect((await turfwire('check')).code).toBe(0);
  });

  it('leaves a stored sweep that was changed as it stands, says so, and restores it once it is moved away', async () => {
    const { folder, turfwire } = await setUp({ 'a.csv': csv(36) });
    await turfwire('import', 'a.csv');
    const file = (await openLogbook(folder)).visits[0]?.shots[0]?.file ?? '';
    writeFileSync(join(folder, file), 'by hand');
    const ran = await turfwire('import', 'a.csv', '--json');
    expect(ran).toMatchObject({ code: 4 });
    const cure = 'move it out of the logbook and import its original again, which restores what was stored';
    expect(ran.err).toMatch(new RegExp(`${file}: the file is not the one that was stored.*${cure}`, 'u'));
    expect((await turfwire('check')).out).toContain(cure);
    expect(ran.json<Report>().amiss).toEqual([{ file, was: 'changed' }]);
    expect(readFileSync(join(folder, file), 'utf8')).toBe('by hand');

    rmSync(join(folder, file));
    expect((await turfwire('import', 'a.csv')).out).toContain(`Restored ${file}`);
    expect((await turfwire('check')).code).toBe(0);
  });

  it('stores no real sweep among simulated ones, but restores one of those', async () => {
    const { folder, cwd, turfwire } = await setUp({ 'a.csv': csv(36) });
    await turfwire('measure', '--port', 'simulated', '--shots', '1', '--points', '21');
    const ran = await turfwire('import', 'a.csv');
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(
      /this is a logbook for trying, because visit 1 came from the simulator: begin another/u,
    );
    const { visits } = await openLogbook(folder);
    expect(visits).toHaveLength(1);
    const file = join(folder, visits[0]?.shots[0]?.file ?? '');
    const bytes = readFileSync(file, 'utf8');
    rmSync(file);
    writeFileSync(join(cwd, 'again.csv'), bytes);
    expect((await turfwire('import', 'again.csv')).out).toContain('Restored');
  });

  it('keeps what it cannot read whole in refused/, stores the rest, and ends with 1', async () => {
    const { folder, cwd, turfwire } = await setUp({
      'x-shot1.csv': csv(36),
      'x-shot2.csv': 'torn',
      'swr.csv': SWR_ONLY,
    });
    const args = ['import', 'x-shot1.csv', 'x-shot2.csv', 'swr.csv', 'none.csv', '--json'];
    const ran = await turfwire(...args);
    expect(ran).toMatchObject({ code: 1 });
    expect(ran.err).toContain('x-shot2.csv, swr.csv, none.csv: not stored');
    const { visits, refused } = ran.json<Report>();
    expect(visits).toHaveLength(1);
    expect(refused).toMatchObject([
      { file: 'x-shot2.csv', kept: 'refused/x-shot2.csv' },
      { file: 'swr.csv', kept: 'refused/swr.csv', why: expect.stringContaining('only SWR') },
      { file: 'none.csv', kept: null, why: expect.stringContaining('no such file') },
    ]);
    expect(readFileSync(join(folder, 'refused/swr.csv'), 'utf8')).toBe(SWR_ONLY);
    expect(readFileSync(join(folder, 'refused/x-shot2.csv.why.txt'), 'utf8')).toMatch(/numbers/u);

    writeFileSync(join(cwd, 'x-shot2.csv'), csv(39));
    await turfwire('import', 'x-shot1.csv', 'x-shot2.csv');
    expect((await openLogbook(folder)).visits.map(({ shots }) => shots.length)).toEqual([2]);
    expect((await turfwire('check')).code).toBe(0);
  });

  it('takes every file, or all files, for one visit when told so', async () => {
    const files = { 'a-shot1.csv': csv(1), 'a-shot2.csv': csv(2), 'b.csv': csv(3) };
    const each = await setUp(files);
    const ran = await each.turfwire('import', ...Object.keys(files), '--visit-per-file', '--json');
    expect(ran.json<Report>().visits).toHaveLength(3);
    const all = await setUp(files);
    expect(
      (await all.turfwire('import', ...Object.keys(files), '--one-visit', '--json')).json<Report>(),
    ).toMatchObject({ visits: [{ visit: 1, shots: 3 }] });
    expect((await all.turfwire('import', 'b.csv', '--one-visit', '--visit-per-file')).code).toBe(2);
  });

  it('takes the time of a file only when told so', async () => {
    const { cwd, turfwire } = await setUp({ 'a.csv': csv(1), 'b.csv': csv(2) });
    utimesSync(join(cwd, 'a.csv'), 1_770_000_000, 1_770_000_000);
    const time = (ran: { json<T>(): T }) => Date.parse(ran.json<Report>().visits[0]?.time ?? '');
    expect(time(await turfwire('import', 'a.csv', '--file-time', '--json'))).toBe(1_770_000_000_000);
    expect(time(await turfwire('import', 'b.csv', '--json'))).toBe(NOW.getTime());
    expect((await turfwire('import', 'b.csv', '--file-time', '--at', '2026-03-01T10:15Z')).code).toBe(2);
  });

  it('keeps the sweep as the instrument saw it, with its plane, and moves nothing', async () => {
    const feedline = { type: 'RG-58', length: '12m' };
    const { folder, turfwire } = await setUp(
      { 'a.csv': csv(36), 'load.csv': csv(50) },
      { ...SITE, feedline },
    );
    const ran = await turfwire('import', 'a.csv', '--plane', 'shack', '--reference-load', 'load.csv');
    // X of these files swings through zero, as that of no resistor does.
    expect(ran.err).toMatch(
      /swept as the reference load .* its X passes zero at 7\.1\d* MHz: that is an antenna/u,
    );
    const logbook = await openLogbook(folder);
    const shots = logbook.visits[0]?.shots ?? [];
    expect(shots.map(({ plane, target }) => [plane, target])).toEqual([
      ['shack', 'antenna'],
      ['shack', 'reference-load'],
    ]);
    if (shots[0] === undefined) throw new Error('no shot');
    expect([...(await loadShot(logbook, shots[0])).resistanceOhm]).toEqual([36.5, 36, 36]);
  });

  it('reads standard input, and names with tricks in them only as text', async () => {
    const { folder, turfwire, cwd } = await setUp({ '=cmd()-evil.csv': csv(36), '..%2f..csv': 'none' });
    await turfwire('import', '=cmd()-evil.csv', '..%2f..csv');
    expect(readFileSync(join(folder, 'journal.csv'), 'utf8')).toContain(",'=cmd()-evil.csv,");
    expect((await openLogbook(folder)).visits[0]?.shots[0]?.source).toBe('=cmd()-evil.csv');
    expect(readFileSync(join(folder, 'refused/2f..csv'), 'utf8')).toBe('none');
    const piped = await runCommand(['import', '-', '--logbook', folder, '--json'], {
      cwd,
      stdin: async () => Buffer.from(csv(44)),
    });
    expect(piped.json<Report>().visits).toHaveLength(1);
  });
});
