import { describe, expect, it } from 'vitest';
import { reflectionColumns } from '../../../src/core/sweep/reflection.ts';
import { addVisit, loadShot, openLogbook } from '../../../src/logbook/logbook.ts';
import { expectClose } from '../../support/expect-close.ts';
import { type Ran, runCommand } from '../../support/fake-io.ts';
import { newLogbook, someVisit } from '../../support/logbooks.ts';

interface MeasureJson {
  readonly bands: readonly {
    readonly band: string;
    readonly visit: number | null;
    readonly fromHz: number;
    readonly toHz: number;
    readonly correction: string | null;
    readonly shots: readonly {
      readonly resonanceHz: number;
      readonly resistanceAtResonanceOhm: number;
      readonly reAsks: number;
    }[];
    readonly figures: Readonly<
      Record<string, { readonly value: number; readonly expandedUncertainty: number }>
    >;
    readonly against: {
      readonly visit: string;
      readonly sameField: boolean;
      readonly measures: readonly {
        readonly measure: string;
        readonly difference: object;
        readonly verdict: string;
      }[];
    } | null;
  }[];
}

function measure(folder: string, port: string, ...flags: string[]): Promise<Ran> {
  return runCommand(['measure', '--port', port, '--logbook', folder, '--points', '51', '--json', ...flags]);
}

describe('measure', () => {
  it('stores the shots of one visit and tells what they show', async () => {
    const folder = await newLogbook();
    const ran = await measure(folder, 'simulated', '--shots', '3');
    expect(ran.code).toBe(0);
    const [band] = ran.json<MeasureJson>().bands;
    expect(band?.visit).toBe(1);
    expect(band?.shots).toHaveLength(3);
    expect(band?.against).toBeNull();
    expect(band?.figures['resistanceAtResonanceOhm']?.expandedUncertainty).toBeGreaterThan(0);
    expect((await openLogbook(folder)).visits[0]?.shots).toHaveLength(3);
  });

  it('sweeps the range of the last visit, and compares with it', async () => {
    const folder = await newLogbook();
    const first = (await measure(folder, 'simulated')).json<MeasureJson>().bands[0];
    const second = (await measure(folder, 'simulated:seed=2')).json<MeasureJson>().bands[0];
    expect([second?.fromHz, second?.toHz]).toEqual([first?.fromHz, first?.toHz]);
    expect(second?.against?.visit).toBe('visit 1');
    expect(second?.against?.measures.map(({ verdict }) => verdict)).toEqual([
      'not shown',
      'not shown',
      'not shown',
    ]);
  });

  it('tells the uncertainties that compare tells of the same visits', async () => {
    const folder = await newLogbook();
    for (const seed of [1, 2]) await measure(folder, `simulated:seed=${seed}`);
    const told = (await measure(folder, 'simulated:seed=3')).json<MeasureJson>().bands[0];
    const ran = await runCommand(['compare', '--before', '2', '--after', '3', '--logbook', folder, '--json']);
    const { measures } = ran.json<{ measures: { measure: string; after: object; difference: object }[] }>();
    for (const { measure, difference } of told?.against?.measures ?? []) {
      const same = measures.find((one) => one.measure === measure);
      expect(difference).toEqual(same?.difference);
      expect(told?.figures[measure]).toEqual(same?.after);
    }
    expect(told?.against?.measures).toHaveLength(3);
  });

  it('says that a visit is dated now where the last row that was just logged is of another day', async () => {
    const folder = await newLogbook();
    const note = (...at: string[]) => runCommand(['note', 'moisture', '20%', '--logbook', folder, ...at]);
    await note();
    expect((await measure(folder, 'simulated', '--shots', '1')).err).not.toContain('dated now');
    await note('--at', '2026-03-05T10:00Z');
    expect((await measure(folder, 'simulated', '--shots', '1')).err).toMatch(
      /this visit is dated now, .* though what was logged last is of 2026-03-05T10:00:00Z/u,
    );
    expect((await measure(folder, 'simulated', '--shots', '1')).err).not.toContain('dated now');
  });

  it('with --no-store needs no logbook and leaves none', async () => {
    const ran = await runCommand([
      'measure',
      '--port',
      'simulated',
      '--no-store',
      '--band',
      '40m',
      '--json',
      '--shots',
      '1',
    ]);
    expect(ran.code).toBe(0);
    expect(ran.json<MeasureJson>().bands[0]?.visit).toBeNull();
  });

  it.each([[['--band', '40m,30m']], [['--band', '40m', '--band', '30m', '--band', '40m']]])(
    'keeps the bands of %j as shots of one visit, each with its own figures',
    async (bands) => {
      const folder = await newLogbook();
      const ran = await measure(folder, 'simulated', ...bands, '--shots', '2');
      const answers = ran.json<MeasureJson>().bands;
      expect(answers.map(({ band, visit }) => [band, visit])).toEqual([
        ['40m', 1],
        ['30m', 1],
      ]);
      const { visits } = await openLogbook(folder);
      expect(visits.map(({ shots }) => shots.map(({ shot, fromHz }) => [shot, fromHz > 8e6]))).toEqual([
        [
          [1, false],
          [2, false],
          [3, true],
          [4, true],
        ],
      ]);
      const again = (await measure(folder, 'simulated', ...bands, '--shots', '2')).json<MeasureJson>().bands;
      expect(again.map(({ visit, against }) => [visit, against?.visit])).toEqual([
        [2, 'visit 1'],
        [2, 'visit 1'],
      ]);
    },
  );

  it('says which visits it compared, and that no wire was laid between them', async () => {
    const folder = await newLogbook();
    const args = ['measure', '--logbook', folder, '--port', 'simulated', '--shots', '2', '--points', '51'];
    await runCommand(args);
    const same = await runCommand(args);
    expect(same.out).toMatch(/^Visit 2, against visit 1 of \d{4}-.*No wire was laid or lifted between/mu);
    expect(same.out).not.toMatch(/improved\./u);
    const later = { now: () => new Date(Date.now() + 60_000) };
    await runCommand(['lay', '--logbook', folder, '--count', '4', '--length', '6m'], later);
    const [band] = (await runCommand([...args, '--json'], later)).json<MeasureJson>().bands;
    expect(band?.against).toMatchObject({ visit: 'visit 2', sameField: false });
  });

  it('tells a shot and the visit in the same words', async () => {
    const ran = await runCommand([
      'measure',
      '--port',
      'simulated:noise=0',
      '--no-store',
      '--band',
      '40m',
      '--shots',
      '1',
    ]);
    const [, shot] = /40m, shot 1 of 1: (.*)/u.exec(ran.err) ?? [];
    const [, visit] = /^40m: (.*)/mu.exec(ran.out) ?? [];
    const words = (text = '') =>
      text.replace(/[\d.]+|±[^;]*?(?= ohm| MHz|;|$)|\(uncertainty unknown\)/gu, '').replace(/ +/gu, ' ');
    expect(shot).toMatch(/^resonance [\d.]+ MHz; R at X = 0 [\d.]+ ohm; least SWR [\d.]+$/u);
    expect(words(visit)).toBe(words(shot));
  });

  it('takes no simulated sweep among real ones, and no real one among simulated', async () => {
    const folder = await newLogbook();
    await addVisit(folder, someVisit(2));
    for (const command of ['measure', 'watch']) {
      const ran = await runCommand([command, '--port', 'simulated', '--logbook', folder]);
      expect(ran.code).toBe(2);
      expect(ran.err).toMatch(/--port: the logbook has visits of the real antenna.*--no-store/u);
    }
    const trial = await newLogbook();
    await measure(trial, 'simulated', '--shots', '1');
    expect((await runCommand(['history', '--logbook', trial])).out).toContain(', simulated');
    for (const command of ['measure', 'watch']) {
      const ran = await runCommand([command, '--port', '/dev/nowhere', '--logbook', trial]);
      expect(ran.code).toBe(2);
      expect(ran.err).toMatch(
        /logbook for trying, because visit 1 came from the simulator: begin another one/u,
      );
    }
  });

  it('puts a reference load that was swept first into the visit of the antenna', async () => {
    const folder = await newLogbook();
    const load = await measure(folder, 'simulated', '--reference-load', '--shots', '1');
    expect(load.err).not.toContain('swept as the reference load');
    const antenna = await measure(folder, 'simulated', '--shots', '2');
    expect(antenna.err).toContain('the reference load was swept as visit 1: these shots join it');
    expect(antenna.err).not.toContain('--reference-load');
    const { visits } = await openLogbook(folder);
    expect(visits).toHaveLength(1);
    expect(visits[0]?.shots.map(({ target }) => target)).toEqual(['reference-load', 'antenna', 'antenna']);
  });

  it('stores the antenna as a reference load only with a warning', async () => {
    const folder = await newLogbook();
    const ran = await measure(folder, 'simulated:on=antenna', '--reference-load', '--shots', '1');
    expect(ran.code).toBe(0);
    expect(ran.err).toMatch(/the reference load shows SWR up to .*X passes zero at .* an antenna rather/u);
    expect((await openLogbook(folder)).visits).toHaveLength(1);
  });

  it('has the standard connected that it asks the simulator for', async () => {
    const folder = await newLogbook();
    const raw = 'simulated:raw,noise=0';
    for (const standard of ['open', 'short', 'load']) await measure(folder, raw, '--standard', standard);
    const ran = await measure(folder, raw, '--reference-load', '--shots', '1');
    expect(ran.code).toBe(0);
    expect(ran.err).not.toContain('swept as the reference load');
  });

  it('says why the range is what it is', async () => {
    const folder = await newLogbook();
    const told = async () =>
      (await runCommand(['measure', '--port', 'simulated', '--logbook', folder, '--shots', '1'])).out;
    expect(await told()).toContain('The range is 40m and 10 % beyond it on both sides; --from');
    expect(await told()).toContain('both sides, that of visit 1, and room for what it showed; --from');
  });

  it('takes the range that is asked for, and refuses one that is for no band or for several', async () => {
    const asked = ['--no-store', '--shots', '1', '--from', '6.1MHz'];
    const ran = await measure(await newLogbook(), 'simulated', '--band', '40m', ...asked, '--to', '8300kHz');
    expect(ran.json<MeasureJson>().bands).toMatchObject([{ fromHz: 6_100_000, toHz: 8_300_000 }]);
    for (const [bands, to, need] of [
      ['40m', '6MHz', 'rises and reaches into 40m'],
      ['40m', '6.5MHz', 'rises and reaches into 40m'],
      ['40m,30m', '8MHz', 'one band'],
    ] as const) {
      const refused = await measure(await newLogbook(), 'simulated', '--band', bands, ...asked, '--to', to);
      expect(refused.code).toBe(2);
      expect(refused.err).toContain(`--from: needs`);
      expect(refused.err).toContain(need);
    }
  });

  it('keeps the shots before a failure, says so, and ends with the code of an instrument', async () => {
    const folder = await newLogbook();
    const ran = await measure(folder, 'simulated:unplug=120', '--shots', '3');
    expect(ran.code).toBe(3);
    expect(ran.err).toMatch(/whole and stored: 2 shots before it/u);
    expect((await openLogbook(folder)).visits[0]?.shots).toHaveLength(2);
  });

  it('tells what the bands before a failure showed', async () => {
    const folder = await newLogbook();
    // Two bands have 54 lines each.
    const ran = await measure(folder, 'simulated:unplug=80', '--band', '40m,30m', '--shots', '1');
    expect(ran.json<MeasureJson>().bands.map(({ visit }) => visit)).toEqual([1]);
    expect(ran.err).toMatch(/whole and stored: 1 shot before it/u);
  });

  it('does not lose a sweep because its bytes cannot be kept', async () => {
    const ran = await measure(await newLogbook(), 'simulated', '--shots', '1', '--keep-raw', '/dev/full');
    expect(ran.code).toBe(0);
    expect(ran.err).toMatch(/\/dev\/full: no longer kept: no room on the disk/u);
  });

  it('tells an open circuit from an antenna', async () => {
    const ran = await measure(await newLogbook(), 'simulated:on=open,noise=0');
    expect(ran.code).toBe(1);
    expect(ran.err).toMatch(/is an open circuit.*is the antenna connected\?/u);
  });

  it.each([
    [['--port', 'simulated:dorp=0.1'], /knows no "dorp", did you mean "drop"\?/u],
    [['--port', 'simulated:drop=2'], /must be a number from 0 to 1/u],
    [['--port', 'simulated', '--description', 'scip'], /did you mean "scpi"\?/u],
    [['--port', 'simulated', '--shots', '0'], /--shots: needs a whole number/u],
    [['--port', 'simulated', '--standard-delay', '30ps'], /needs --standard/u],
  ])('refuses the command line %j', async (flags, message) => {
    const ran = await runCommand(['measure', '--no-store', '--band', '40m', ...flags]);
    expect(ran.code).toBe(2);
    expect(ran.err).toMatch(message);
  });
});

describe('a raw instrument', () => {
  it('is not believed before it was calibrated', async () => {
    const ran = await measure(await newLogbook(), 'simulated:raw');
    expect(ran.code).toBe(1);
    expect(ran.err).toMatch(
      /no sweep of the open, short, load.*`turfwire measure --port simulated:raw --standard open --logbook .*`.*--uncorrected/u,
    );
  });

  it('is corrected with its standards to what a calibrated one shows, and its readings are kept', async () => {
    const folder = await newLogbook();
    for (const standard of ['open', 'short', 'load']) {
      const ran = await measure(folder, `simulated:raw,noise=0,on=${standard}`, '--standard', standard);
      expect(ran.code, ran.err).toBe(0);
    }
    // After the first visit the plan knows the resonance, so the next two walk one grid.
    await measure(folder, 'simulated:noise=0', '--shots', '1');
    const corrected = await measure(folder, 'simulated:raw,noise=0', '--shots', '1');
    expect(corrected.json<MeasureJson>().bands[0]?.correction).toMatch(
      /^corrected with open of .*, short of .*, load of /u,
    );
    await measure(folder, 'simulated:noise=0', '--shots', '1');
    const logbook = await openLogbook(folder);
    const shots = logbook.visits.flatMap((visit) => visit.shots);
    const [, raw, calibrated] = await Promise.all(shots.map((shot) => loadShot(logbook, shot)));
    if (raw === undefined || calibrated === undefined) throw new Error('a visit is missing');
    expect(raw.frequencyHz).toEqual(calibrated.frequencyHz);
    const [found, expected] = [reflectionColumns(raw), reflectionColumns(calibrated)];
    raw.frequencyHz.forEach((_, i) => {
      // Four roundings to half a millionth on the wire; the chord of the standards' arcs is below 1e-7.
      expectClose(found.re[i], expected.re[i] as number, { absolute: 3e-6 });
      expectClose(found.im[i], expected.im[i] as number, { absolute: 3e-6 });
    });
    expect(logbook.events.filter(({ event }) => event === 'raw')).toHaveLength(1);
  });

  it('swept with one standard twice is refused', async () => {
    const folder = await newLogbook();
    for (const [standard, fitted] of [
      ['open', 'open'],
      ['short', 'open'],
      ['load', 'load'],
    ] as const) {
      await measure(folder, `simulated:raw,on=${fitted}`, '--standard', standard);
    }
    const ran = await measure(folder, 'simulated:raw');
    expect(ran.code).toBe(1);
    expect(ran.err).toMatch(/was one of them swept twice/u);
  });
});

describe('an answer that rests on simulated visits', () => {
  it('says so in one line: compare, progress and diagnose', async () => {
    const folder = await newLogbook();
    for (let visit = 1; visit <= 3; visit++) await measure(folder, `simulated:seed=${visit}`);
    const line = /^- visits? [\d a-z]+ came from the simulator: this shows how the program works, .*$/gmu;
    for (const command of ['compare', 'progress', 'diagnose']) {
      const ran = await runCommand([command, '--logbook', folder]);
      expect(ran.out.match(line), command + ran.err).toHaveLength(1);
    }
  });
});
