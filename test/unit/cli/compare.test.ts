import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { beforeEach, describe, expect, it } from 'vitest';
import { createRandomSource } from '../../../src/core/proof/random.ts';
import type { Sweep } from '../../../src/core/sweep/sweep.ts';
import { addVisit, appendEvents, createLogbook } from '../../../src/logbook/logbook.ts';
import { measuredVisitOf } from '../../support/compared.ts';
import { runCommand } from '../../support/fake-io.ts';
import { SITE, temporaryFolder } from '../../support/logbooks.ts';

interface Answer {
  readonly band: string;
  readonly measures: readonly {
    readonly measure: string;
    readonly difference: { value: number | null; expandedUncertainty: number | null; coverageFactor: number };
    readonly verdict: string;
  }[];
  readonly verdict: string;
  readonly basis: string;
  readonly notes: readonly string[];
}

const random = createRandomSource(61);

function shotsOf(resistanceOhm: number, shots = 3): Sweep[] {
  return measuredVisitOf(resistanceOhm, random, { shots }).shots as Sweep[];
}

/** Writes the shots of a visit as files, and gives their names. */
function writeShots(cwd: string, name: string, resistanceOhm: number, shots = 3): string[] {
  return shotsOf(resistanceOhm, shots).map((sweep, i) => {
    const rows = Array.from(sweep.frequencyHz, (f, k) =>
      [f, sweep.resistanceOhm[k], sweep.reactanceOhm[k]].join(),
    );
    const file = `${name}-shot${i + 1}.csv`;
    writeFileSync(join(cwd, file), `frequency_hz,resistance_ohm,reactance_ohm\n${rows.join('\n')}\n`);
    return file;
  });
}

describe('turfwire compare, loose files', () => {
  it('answers with the six measures, in the words and units of the interface', async () => {
    const cwd = temporaryFolder();
    const [old, now] = [writeShots(cwd, 'old', 55), writeShots(cwd, 'new', 45)];
    const ran = await runCommand(
      ['compare', '--before', ...old, '--after', ...now, '--band', '40m', '--json'],
      { cwd },
    );
    expect(ran.code).toBe(0);
    const answer = ran.json<Answer>();
    expect(answer.band).toBe('40m');
    expect(answer.measures.map(({ measure }) => measure)).toEqual([
      'resonanceHz',
      'resistanceAtResonanceOhm',
      'minSwr',
      'worstSwr',
      'meanReturnLossDb',
      'swr2BandwidthHz',
    ]);
    for (const { difference, verdict } of answer.measures) {
      expect(Object.keys(difference)).toEqual(['value', 'expandedUncertainty', 'coverageFactor']);
      expect(['improved', 'worse', 'not shown']).toContain(verdict);
    }
    expect(answer.measures[1]?.verdict).toBe('improved');
    expect([answer.verdict, answer.basis]).toEqual(['improved', 'resistance']);
  });

  it('tells people a sentence first, then a table, then what to doubt', async () => {
    const cwd = temporaryFolder();
    const [old, now] = [writeShots(cwd, 'old', 55), writeShots(cwd, 'new', 45)];
    const { out } = await runCommand(['compare', '--before', ...old, '--after', ...now], { cwd });
    expect(out).toMatch(/^40m: improved\. R at X = 0 fell/u);
    expect(out).toContain('a lower SWR alone is no proof');
  });

  it('gives each band its measures where several are asked for', async () => {
    const cwd = temporaryFolder();
    const [old, now] = [writeShots(cwd, 'old', 55), writeShots(cwd, 'new', 45)];
    const words = ['compare', '--before', ...old, '--after', ...now, '--band', '40m,30m', '--json'];
    const answer = (await runCommand(words, { cwd })).json<Answer & { bands: Answer[] }>();
    expect(answer.bands.map(({ band }) => band)).toEqual(['40m', '30m']);
    expect(answer.bands[1]?.measures[1]?.difference.value).toBeNull();
  });

  it('takes the instrument from a site file', async () => {
    const cwd = temporaryFolder();
    const [old, now] = [writeShots(cwd, 'old', 55, 1), writeShots(cwd, 'new', 45, 1)];
    const site = {
      version: 1,
      name: 'Lakeside',
      antenna: { kind: 'quarter-wave' },
      instrument: { reference: '50ohm', reflectionUncertainty: 0.003 },
    };
    writeFileSync(join(cwd, 'site.json'), JSON.stringify(site));
    const words = ['compare', '--before', ...old, '--after', ...now, '--band', '40m', '--json'];
    const without = (await runCommand(words, { cwd })).json<Answer>();
    expect(without.measures[1]?.difference.expandedUncertainty).toBeNull();
    const stated = (await runCommand([...words, '--site', 'site.json'], { cwd })).json<Answer>();
    expect(stated.measures[1]?.difference.expandedUncertainty).toBeGreaterThan(0.5);
    expect(stated.measures[1]?.verdict).toBe('not shown');
    expect(stated.notes.join()).toContain('single shots');
  });

  it('takes three visits as a reversal, and no other number', async () => {
    const cwd = temporaryFolder();
    const visits = [writeShots(cwd, 'on', 45), writeShots(cwd, 'off', 55), writeShots(cwd, 'again', 45.5)];
    const answer = (
      await runCommand(['compare', '--reversal', ...visits.flat(), '--band', '40m', '--json'], { cwd })
    ).json<Answer>();
    expect(answer.measures[1]?.verdict).toBe('worse');
    expect(answer.notes[0]).toContain('“worse” says that they help');
    const two = await runCommand(['compare', '--reversal', ...visits.slice(0, 2).flat()], { cwd });
    expect([two.code, two.err]).toEqual([2, expect.stringContaining('needs three visits')]);
  });

  it('lets received strength outrank the resistance', async () => {
    const cwd = temporaryFolder();
    const [old, now] = [writeShots(cwd, 'old', 55), writeShots(cwd, 'new', 54.9)];
    const places = ['bench', 'gate', 'lane', 'hill', 'quay', 'barn', 'mill'];
    const rows = places.flatMap((place, i) => [
      `2026-04-01T10:0${i}Z,${place},${-30 - 3 * i},100`,
      `2026-05-01T10:0${i}Z,${place},${-28.8 - 3 * i + 0.05 * i},100`,
    ]);
    writeFileSync(join(cwd, 'levels.csv'), `time,place,level_db,power_w\n${rows.join('\n')}\n`);
    const words = ['compare', '--before', ...old, '--after', ...now, '--field', 'levels.csv', '--json'];
    const refused = await runCommand(words, { cwd });
    expect([refused.code, refused.err]).toEqual([2, expect.stringContaining('needs --laid-at TIME')]);
    const answer = (await runCommand([...words, '--laid-at', '2026-04-15T12:00Z'], { cwd })).json<Answer>();
    expect([answer.verdict, answer.basis]).toEqual(['improved', 'received strength']);
    expect(answer.measures[1]?.verdict).toBe('not shown');
  });

  it('says what is wrong with a question', async () => {
    const cwd = temporaryFolder();
    const [file = ''] = writeShots(cwd, 'old', 55, 1);
    const ask = async (...words: string[]) => {
      const { code, err } = await runCommand(['compare', ...words], { cwd });
      return [code, err];
    };
    expect(await ask('--before', file)).toEqual([2, expect.stringContaining('got only --before')]);
    expect(await ask('--before', file, '--after', 'gone.csv')).toEqual([
      1,
      expect.stringContaining('gone.csv'),
    ]);
    expect(await ask('--before', file, '--after', file, '--band', '41m')).toEqual([
      2,
      expect.stringContaining('40m'),
    ]);
    expect(await ask('--logbook', 'x', '--before', file, '--after', file)).toEqual([
      2,
      expect.stringContaining('visits by their numbers'),
    ]);
  });
});

describe('turfwire compare, a logbook', () => {
  let folder = '';
  const visit = async (time: string, resistanceOhm: number, shots = 3): Promise<void> => {
    const sweeps = shotsOf(resistanceOhm, shots);
    await addVisit(folder, {
      time,
      shots: sweeps.map((sweep, i) => ({
        sweep,
        plane: 'feedpoint',
        target: 'antenna',
        source: `${time}-${i}.csv`,
      })),
    });
  };
  const lay = (time: string, from: number, to: number) =>
    appendEvents(folder, () =>
      Array.from({ length: to - from + 1 }, (_, i) => ({
        event: 'lay' as const,
        time,
        text: '',
        number: from + i,
        lengthM: 6,
        bearingDeg: null,
        route: null,
      })),
    );
  const ask = async (...words: string[]) => runCommand(['compare', '--logbook', folder, ...words]);

  beforeEach(async ({ onTestFinished }) => {
    folder = join(mkdtempSync(join(tmpdir(), 'turfwire-test-')), 'field');
    onTestFinished(() => rmSync(dirname(folder), { recursive: true, force: true }));
    await createLogbook(folder, SITE);
    await lay('2026-03-01T10:00:00Z', 1, 8);
    await visit('2026-03-02T10:00:00Z', 52);
    await visit('2026-03-09T10:00:00Z', 52);
    await lay('2026-04-01T10:00:00Z', 9, 16);
    await visit('2026-04-02T10:00:00Z', 45, 1);
  });

  it('compares the last two field states when nothing is asked, and the repeats stand behind one shot', async () => {
    const answer = (await ask('--json')).json<Answer>();
    expect(answer.measures[1]?.verdict).toBe('improved');
  });

  it('compares visits and field states by number', async () => {
    const visits = (await ask('--before', '2', '--after', '3', '--json')).json<Answer>();
    const states = (await ask('--state', '--before', '1', '--after', '2', '--json')).json<Answer>();
    expect(visits.measures[1]?.verdict).toBe('improved');
    expect(states.measures[1]?.verdict).toBe('improved');
    expect(states.measures[1]?.difference.value).not.toBe(visits.measures[1]?.difference.value);
  });

  it('says when before is later than after, and when no wire was laid between', async () => {
    expect((await ask('--before', '3', '--after', '1')).out).toContain('was measured later');
    expect((await ask('--before', '1', '--after', '2')).out).toContain('never an improvement by wires');
  });

  it('names the visits there are, and refuses one against itself', async () => {
    const unknown = await ask('--before', '1', '--after', '9');
    expect([unknown.code, unknown.err]).toEqual([2, expect.stringContaining('there are 1, 2, 3')]);
    const same = await ask('--before', '1', '--after', '1');
    expect([same.code, same.err]).toEqual([2, expect.stringContaining('is on both sides')]);
  });
});
