import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { createRandomSource } from '../../../src/core/proof/random.ts';
import type { Sweep } from '../../../src/core/sweep/sweep.ts';
import {
  addVisit,
  appendEvents,
  createLogbook,
  type NewVisit,
  openLogbook,
} from '../../../src/logbook/logbook.ts';
import { grid } from '../../support/antenna-model.ts';
import { measuredVisitOf, vertical } from '../../support/compared.ts';
import { expectClose } from '../../support/expect-close.ts';
import { runCommand } from '../../support/fake-io.ts';
import { lastingFolder, layEvents, newLogbook, SITE, temporaryFolder } from '../../support/logbooks.ts';

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

function visitOfShots(time: string, sweeps: readonly Sweep[]): NewVisit {
  const told = { plane: 'feedpoint', target: 'antenna' } as const;
  return { time, shots: sweeps.map((sweep, i) => ({ sweep, ...told, source: `${time}-${i}.csv` })) };
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
    expect(out).toContain('A lower SWR alone is no proof');
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
    expect(answer.measures[1]?.verdict).toBe('improved');
    expect(answer.notes[0]).toContain('before is without the new wires, after is with them');
    const words = (await runCommand(['compare', '--reversal', ...visits.flat(), '--band', '40m'], { cwd }))
      .out;
    expect(words).toMatch(/^40m, with the new wires against without: improved\. R at X = 0 fell from 5/u);
    expect(words).toContain('Before, the new wires disconnected: off');
    expect(words).not.toContain('bad joint');
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
    await addVisit(folder, visitOfShots(time, shotsOf(resistanceOhm, shots)));
  };
  const lay = (time: string, from: number, to: number) =>
    appendEvents(folder, () => layEvents(time, from, to - from + 1));
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
    expect((await ask()).out).toContain(
      'Before: visits 1 and 2, 2026-03-02 to 2026-03-09, 8 radials, 48.0 m of wire. ' +
        'After: visit 3, 2026-04-02, 16 radials, 96.0 m of wire.',
    );
  });

  it('compares the last two visits of one field where there is no other, and says that nothing was laid', async () => {
    folder = await newLogbook();
    await lay('2026-03-01T10:00:00Z', 1, 8);
    await visit('2026-03-02T10:00:00Z', 52);
    const one = await ask();
    expect([one.code, one.err]).toEqual([1, expect.stringContaining('40m is held by visit 1')]);
    await visit('2026-03-09T10:00:00Z', 42);
    const { out } = await ask();
    expect(out).toMatch(/^No wire was laid or lifted between these visits: .*diagnose weighs which\./u);
    expect(out).toContain('40m: changed, and not by wires.');
    expect(out).toMatch(/^R at X = 0, ohm .* changed$/mu);
    expect((await ask('--json')).json()).toMatchObject({ sameField: true, verdict: 'improved' });
  });

  it('goes on without a sweep that is gone, and names it', async () => {
    const { visits } = await openLogbook(folder);
    rmSync(join(folder, visits[0]?.shots[0]?.file ?? ''));
    const { code, out, err } = await ask();
    expect(out).toContain('R at X = 0 fell');
    expect(out).toContain('left out, because the file is gone');
    expect([code, err]).toEqual([4, expect.stringContaining('the file is gone')]);
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
    expect([unknown.code, unknown.err]).toEqual([2, expect.stringContaining('there are 1-3')]);
    const same = await ask('--before', '1', '--after', '1');
    expect([same.code, same.err]).toEqual([2, expect.stringContaining('is on both sides')]);
  });
});

describe('turfwire compare, several bands in one logbook', () => {
  let folder = '';
  const ask = async (...words: string[]) => runCommand(['compare', '--logbook', folder, ...words]);

  beforeAll(async () => {
    folder = join(lastingFolder(), 'field');
    await createLogbook(folder, { ...SITE, antenna: { kind: 'quarter-wave', bands: ['40m', '20m'] } });
    for (const [day, low, high] of [
      ['01', 60, 80],
      ['02', 50, 95],
    ] as const) {
      await appendEvents(folder, () => layEvents(`2026-03-${day}T10:00:00Z`, 8 * Number(day) - 7, 8));
      await addVisit(folder, visitOfShots(`2026-03-${day}T11:00:00Z`, shotsOf(low)));
      const frequencyHz = grid(13.2e6, 15.4e6, 56);
      const high20m = Array.from({ length: 3 }, () => vertical(high, 14.2e6, frequencyHz));
      await addVisit(folder, visitOfShots(`2026-03-${day}T11:30:00Z`, high20m));
    }
  });

  afterAll(() => rmSync(dirname(folder), { recursive: true, force: true }));

  it('answers each band by the visits that hold it', async () => {
    const { bands } = (await ask('--json')).json<{ bands: (Answer & { sides: unknown })[] }>();
    expect(bands.map(({ band, measures }) => [band, measures[1]?.verdict])).toEqual([
      ['40m', 'improved'],
      ['20m', 'worse'],
    ]);
    expect(bands[1]?.sides).toMatchObject({ before: [{ visit: 2 }], after: [{ visit: 4 }] });
  });

  it('judges received strength band by band, and says which band a level without one is taken for', async () => {
    const noted = (day: string, level: number, band?: string) =>
      ['a', 'b', 'c', 'd', 'e', 'f'].map((subject, i) => ({
        event: 'field-strength' as const,
        time: `2026-03-${day}T12:00:00Z`,
        text: '',
        subject,
        value: level + 0.1 * i,
        powerW: 100,
        ...(band === undefined ? {} : { band }),
      }));
    const events = [
      ...noted('01', -30),
      ...noted('02', -29),
      ...noted('01', -40, '20m'),
      ...noted('02', -42, '20m'),
    ];
    const { rows } = await appendEvents(folder, events);
    type Heard = {
      bands: { verdict: string; basis: string; strength: { medianDb: number } }[];
      notes: string[];
    };
    const { bands, notes } = (await ask('--json')).json<Heard>();
    expect(
      bands.map(({ verdict, basis, strength }) => [verdict, basis, Math.round(strength.medianDb)]),
    ).toEqual([
      ['improved', 'received strength', 1],
      ['worse', 'received strength', -2],
    ]);
    expect(notes).toContain(
      '12 received levels name no band and are taken for 40m: note field --band says which',
    );
    expect((await ask()).out).toMatch(
      /^40m: Received strength decides: improved[\s\S]*^20m: Received strength decides: worse/mu,
    );
    const steps = async (...words: string[]) =>
      (await runCommand(['progress', '--logbook', folder, '--json', ...words])).json<{
        steps: { strengthDb: { value: number | null } }[];
      }>().steps;
    expectClose((await steps())[1]?.strengthDb.value, 1, { absolute: 1e-9 });
    expectClose((await steps('--band', '20m'))[1]?.strengthDb.value, -2, { absolute: 1e-9 });
    const withdrawn = rows.map((row) => ({
      event: 'withdraw' as const,
      time: '2026-03-03T12:00:00Z',
      text: '',
      row,
    }));
    await appendEvents(folder, withdrawn);
  });

  it('takes of the visits named those that hold the band, and names the bands it cannot answer', async () => {
    const [some, all] = [
      await ask('--before', '1', '--after', '3-4'),
      await ask('--before', '1,2', '--after', '3,4'),
    ];
    expect(some.out).toContain(
      '- 20m is not compared, because not both sides hold it: 20m is held by visits 2 and 4.',
    );
    expect(all.out).not.toContain('not compared');
  });

  it('tells which visits hold which band where those named have none in common', async () => {
    const { code, err } = await ask('--before', '1', '--after', '2');
    expect([code, err]).toEqual([
      1,
      expect.stringContaining(
        'no band in common: 40m is held by visits 1 and 3, 20m is held by visits 2 and 4',
      ),
    ]);
  });

  it('lets progress tell the build of each band by itself', async () => {
    const progress = async (...words: string[]) =>
      (await runCommand(['progress', '--logbook', folder, '--json', ...words])).json<{
        steps: { resistanceAtResonanceOhm: { value: number } }[];
        notes: string[];
      }>();
    const resistances = ({ steps }: Awaited<ReturnType<typeof progress>>) =>
      steps.map((step) => Math.round(step.resistanceAtResonanceOhm.value / 10) * 10);
    const own = await progress();
    expect(resistances(own)).toEqual([60, 50]);
    expect(own.notes).toContain('the logbook holds 20m too: ask with --band 20m');
    expect(resistances(await progress('--band', '20m'))).toEqual([80, 100]);
  });
});
