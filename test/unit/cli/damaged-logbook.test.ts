import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { addVisit } from '../../../src/logbook/logbook.ts';
import { runCommand } from '../../support/fake-io.ts';
import { newLogbook, SITE, someVisit } from '../../support/logbooks.ts';

const BUILT = {
  ...SITE,
  antenna: { kind: 'quarter-wave', height: '10.1m', diameter: '25mm', bands: ['40m'] },
};

/** A logbook of two measured states with one remark that was changed by hand. */
async function damagedLogbook() {
  const folder = await newLogbook(BUILT);
  const turfwire = (...args: string[]) => runCommand(args, { cwd: folder });
  await turfwire('note', 'text', 'frost', '--at', '2026-02-01T10:00Z');
  await addVisit(folder, someVisit(1, 2, 3));
  await turfwire('lay', '--count', '4', '--length', '6m', '--at', '2026-03-02T10:00Z');
  await addVisit(folder, { ...someVisit(4, 5, 6), time: '2026-03-03T10:00:00Z' });
  await addVisit(folder, { ...someVisit(7, 8, 9), time: '2026-03-04T10:00:00Z' });
  const journal = join(folder, 'journal.csv');
  writeFileSync(journal, readFileSync(journal, 'utf8').replace(',frost,', ',thaw,'));
  return { folder, turfwire };
}

describe('a logbook with a row that was changed by hand', () => {
  it.each([
    ['history'],
    ['progress', '--json'],
    ['compare', '--before', '1', '--after', '2', '--band', '40m'],
    ['compare', '--band', '40m', '--json'],
    ['diagnose'],
    ['safety', '--power', '100W', '--mode', 'ssb'],
    ['export', '--all', '--out', 'out'],
    ['note', 'text', 'more'],
    ['lay', '--length', '6m'],
    ['lift', '1'],
  ])('answers, and says on one line that check tells what is wrong: turfwire %s', async (...args) => {
    const { turfwire } = await damagedLogbook();
    const ran = await turfwire(...args);
    expect(ran).toMatchObject({ code: 0, out: expect.stringMatching(/./u) });
    expect(ran.err.split('\n').filter((line) => line.includes('as it was written'))).toEqual([
      'turfwire: not all of this logbook is as it was written (1 finding): `turfwire check` says what',
    ]);
    expect((await turfwire('check')).code).toBe(4);
  });

  it('says so of a kept answer, too, and where the logbook has to be named', async () => {
    const { folder, turfwire } = await damagedLogbook();
    await turfwire('diagnose');
    const ran = await runCommand(['diagnose', '--logbook', folder]);
    expect(ran.err).toContain(`\`turfwire check --logbook ${folder}\` says what`);
  });
});
