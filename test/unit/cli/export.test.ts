import { appendFileSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readSweeps } from '../../../src/formats/read-sweeps.ts';
import { addVisit } from '../../../src/logbook/logbook.ts';
import { runCommand } from '../../support/fake-io.ts';
import { newLogbook, SITE, someSweep, someVisit, temporaryFolder } from '../../support/logbooks.ts';

async function setUp(site = SITE) {
  const folder = await newLogbook(site);
  await addVisit(folder, someVisit(1, 2));
  await addVisit(folder, { ...someVisit(3), time: '2026-04-01T10:00:00Z' });
  const cwd = temporaryFolder();
  const turfwire = (...args: string[]) => runCommand(['export', '--logbook', folder, ...args], { cwd });
  return { folder, cwd, turfwire, names: () => readdirSync(join(cwd, 'out')).sort() };
}

describe('turfwire export', () => {
  it.each(['touchstone', 'csv'])('writes %s that reads back to the stored sweep', async (format) => {
    const { cwd, turfwire } = await setUp();
    const ran = await turfwire('--all', '--format', format, '--out', 'out', '--json');
    const { files } = ran.json<{ files: { file: string; visit: number; shot: number }[] }>();
    expect(files.map(({ visit, shot }) => [visit, shot])).toEqual([
      [1, 1],
      [1, 2],
      [2, 1],
    ]);
    for (const [i, { file }] of files.entries()) {
      const [sweep] = readSweeps(readFileSync(join(cwd, 'out', file)), file).sweeps;
      const expected = someSweep(i + 1);
      if (sweep?.kind !== 'impedance') throw new Error('no impedance');
      expected.resistanceOhm.forEach((ohm, k) => {
        expect(Math.abs((sweep.resistanceOhm[k] as number) - ohm)).toBeLessThan(1e-12 * ohm);
      });
    }
  });

  it('says how many it wrote beside those that were there', async () => {
    const { turfwire } = await setUp();
    await turfwire('--visit', '1', '--out', 'out');
    expect((await turfwire('--all', '--out', 'out')).out).toMatch(
      /^1 sweep written to .*; 2 there already\.$/mu,
    );
    const ran = await turfwire('--all', '--out', 'out', '--json');
    const { files } = ran.json<{ files: { written: boolean }[] }>();
    expect(files.map(({ written }) => written)).toEqual([false, false, false]);
  });

  it('writes the visits that are named, or those since a time', async () => {
    const one = await setUp();
    await one.turfwire('--visit', '2', '--out', 'out');
    expect(one.names()).toEqual(['visit-0002-shot-1.s1p']);
    const since = await setUp();
    await since.turfwire('--since', '2026-03-15T00:00Z', '--out', 'out');
    expect(since.names()).toEqual(['visit-0002-shot-1.s1p']);
  });

  it('overwrites nothing: the same content is left, another refused before anything is written', async () => {
    const { cwd, turfwire, names } = await setUp();
    await turfwire('--visit', '1', '--out', 'out');
    const again = await turfwire('--visit', '1', '--out', 'out');
    expect(again).toMatchObject({ code: 0 });
    expect(again.out).toContain('Nothing written: 2 sweeps there already');
    writeFileSync(join(cwd, 'out/visit-0002-shot-1.s1p'), 'mine');
    writeFileSync(join(cwd, 'out/visit-0001-shot-1.s1p'), 'mine too');
    expect((await turfwire('--all', '--out', 'out')).err).toContain('another file of that name is there');
    expect(names()).toHaveLength(3);
    expect(readFileSync(join(cwd, 'out/visit-0002-shot-1.s1p'), 'utf8')).toBe('mine');
  });

  it('writes the rest where a stored sweep is gone or changed, names each such file and ends in 4', async () => {
    const { folder, turfwire, names } = await setUp();
    const stored = readdirSync(join(folder, 'sweeps/2026-03')).sort();
    const [gone, changed] = stored.map((name) => `sweeps/2026-03/${name}`) as [string, string];
    rmSync(join(folder, gone));
    appendFileSync(join(folder, changed), ' ');
    const ran = await turfwire('--all', '--out', 'out');
    expect(ran.code).toBe(4);
    expect(ran.out).toMatch(/^1 sweep written to /u);
    expect(ran.out).toContain(`${gone}: left out, because the file is gone`);
    expect(ran.out).toContain(`${changed}: left out, because`);
    expect(ran.err).toContain(`${gone}: the file is gone`);
    expect(names()).toEqual(['visit-0002-shot-1.s1p']);
    expect((await turfwire('--all', '--out', 'out', '--json')).json()).toMatchObject({
      files: [{ visit: 2, shot: 1 }],
      notes: [expect.stringContaining(gone), expect.stringContaining(changed)],
      error: { code: 'sweep-missing', exitCode: 4, where: { file: gone } },
    });
  });

  it('writes nothing where every sweep asked for is gone', async () => {
    const { folder, cwd, turfwire } = await setUp();
    rmSync(join(folder, 'sweeps'), { recursive: true });
    expect(await turfwire('--all', '--out', 'out')).toMatchObject({ code: 4, out: '' });
    expect(readdirSync(cwd)).toEqual([]);
  });

  it.each([
    [['--out', 'out'], 2, 'needs one of --visit, --all and --since'],
    [['--all', '--visit', '1', '--out', 'out'], 2, 'needs one of'],
    [['--visit', '9', '--out', 'out'], 1, 'there is no visit 9'],
    [['--all'], 2, '--out'],
    [['--all', '--out', 'out', '--plane', 'shack'], 1, 'give the type and length of the line'],
  ])('refuses %j', async (args, code, text) => {
    const { turfwire } = await setUp();
    const ran = await turfwire(...args);
    expect(ran).toMatchObject({ code, out: '' });
    expect(ran.err).toContain(text);
  });
});
