import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { describe, expect, it } from 'vitest';
import { READING_UNITS } from '../../../src/core/journal-event.ts';
import { checkLogbook, loadShot, newestStandards, openLogbook } from '../../../src/logbook/logbook.ts';
import { runCommand } from '../../support/fake-io.ts';
import { newLogbook, temporaryFolder } from '../../support/logbooks.ts';

const OLD = resolve(import.meta.dirname, '../../old-logbooks');

/** A copy of a logbook as it was written when its version was the newest. */
function oldLogbook(version: string): string {
  const folder = join(temporaryFolder(), 'field');
  cpSync(join(OLD, version), folder, { recursive: true });
  return folder;
}

describe('a logbook of version 1', () => {
  it('holds every kind of event, is whole, and is read as on the day it was written', async () => {
    const folder = oldLogbook('version-1');
    expect(await checkLogbook(folder)).toEqual({ rows: 29, sweeps: 10, damage: [], siteError: null });
    const logbook = await openLogbook(folder);
    const kinds = new Set(logbook.events.map(({ event }) => event));
    const readings = Object.keys(READING_UNITS);
    expect(kinds).toEqual(
      new Set(['begin', 'plan', 'lay', 'lift', 'shot', 'standard', 'raw', 'baseline', ...readings]),
    );
    expect(logbook.site.name).toBe('Plot seven by the lake');
    expect(logbook.fieldStates.at(-1)).toMatchObject({ since: '2024-04-06T10:30:00+01:00', wireM: 10 });
    expect(logbook.visits).toMatchObject([{ visit: 1, baseline: true }, { visit: 2 }]);
    expect(logbook.readings).toContainEqual({
      time: '2024-04-06T10:53:00+01:00',
      kind: 'field-strength',
      value: -12.5,
      subject: '=bench',
      powerW: 100,
      text: '',
    });
    expect(logbook.readings.at(-1)?.text).toBe('two\nlines \\ and a tab\t');
    for (const shot of logbook.visits.flatMap(({ shots }) => shots)) {
      expect((await loadShot(logbook, shot)).frequencyHz[0]).toBe(shot.fromHz);
    }
    expect((await newestStandards(logbook, 'simulated', 6.8e6, 7.4e6)).missing).toEqual([]);
  });

  it('is gone on with: nothing that was written changes', async () => {
    const folder = oldLogbook('version-1');
    const before = readFileSync(join(folder, 'journal.csv'));
    expect((await runCommand(['note', 'text', 'and on', '--logbook', folder])).code).toBe(0);
    const after = readFileSync(join(folder, 'journal.csv'));
    expect(after.subarray(0, before.length)).toEqual(before);
    expect(readFileSync(join(folder, 'site.json'))).toEqual(readFileSync(join(OLD, 'version-1/site.json')));
    expect(await checkLogbook(folder)).toMatchObject({ rows: 30, damage: [] });
  });
});

describe('a logbook of a newer version', () => {
  it.each([
    ['history'],
    ['check'],
    ['note', 'text', 'hello'],
    ['lay', '--count', '1', '--length', '6m'],
    ['lift', '1'],
    ['import', 'samples/sweeps/2024-04-06-shot1.csv'],
    ['export', '--all', '--out', 'out'],
    ['measure', '--port', 'simulated', '--band', '40m'],
    ['compare', '--before', '1', '--after', '2', '--band', '40m'],
    ['progress', '--band', '40m'],
    ['diagnose'],
    ['plan', '--stock', '2x25m'],
    ['safety'],
    ['page', '--out', 'page.html'],
  ])('is refused by name and left alone: turfwire %s', async (...args) => {
    const folder = await newLogbook();
    const site = JSON.stringify({ version: 2, name: 'Lakeside', aerial: {} });
    writeFileSync(join(folder, 'site.json'), site);
    const journal = readFileSync(join(folder, 'journal.csv'));
    const ran = await runCommand([...args, '--logbook', folder]);
    expect(ran).toMatchObject({ code: 1, out: '' });
    expect(ran.err).toMatch(/site\.json: version: is of version 2, .* reads up to version 1: update it/u);
    expect(readFileSync(join(folder, 'journal.csv'))).toEqual(journal);
  });
});
