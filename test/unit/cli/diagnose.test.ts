import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it, onTestFinished } from 'vitest';
import { logbookDriftText } from '../../../src/cli/drift-text.ts';
import { diagnoseLogbook } from '../../../src/cli/logbook-drift.ts';
import { CAUSES } from '../../../src/core/drift/cause.ts';
import type { MeasuredVisit } from '../../../src/core/record.ts';
import type { Site } from '../../../src/core/site.ts';
import { createSweep, type Sweep } from '../../../src/core/sweep/sweep.ts';
import { addVisit, createLogbook, openLogbook } from '../../../src/logbook/logbook.ts';
import { demoLogbook } from '../../support/demo-logbook.ts';
import {
  type Answer,
  caseOf,
  joint,
  type LogbookAnswer,
  logbookOf,
  visitOf,
} from '../../support/drift/diagnosed.ts';
import type { DriftCase } from '../../support/drift/generate-case.ts';
import { siteText, writeVisits } from '../../support/drift/write-case.ts';
import { runCommand } from '../../support/fake-io.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

function filesOf({ before, after, site }: DriftCase): { cwd: string; args: string[] } {
  const cwd = temporaryFolder();
  writeFileSync(join(cwd, 'site.json'), siteText(site as Site));
  const args = [
    '--before',
    ...writeVisits(cwd, 'before', before),
    '--after',
    ...writeVisits(cwd, 'after', after),
  ];
  return { cwd, args: ['diagnose', ...args, '--site', 'site.json'] };
}

describe('diagnose on loose files', () => {
  it('prints exactly the public shape, and the joint first', async () => {
    const { cwd, args } = filesOf(joint);
    const ran = await runCommand([...args, '--json'], { cwd });
    expect(ran.code).toBe(0);
    const { causes } = ran.json<Answer>();
    expect(causes.map(({ cause }) => cause).sort()).toEqual([...CAUSES].sort());
    expect(causes[0]?.cause).toBe('series-joint');
    for (const cause of causes) {
      expect(Object.keys(cause).sort()).toEqual(
        ['cause', 'checkFirst', 'estimate', 'evidence', 'probability'].sort(),
      );
      if (cause.estimate !== null) {
        expect(Object.keys(cause.estimate).sort()).toEqual(['expandedUncertainty', 'name', 'unit', 'value']);
      }
    }
    expect(Math.abs(causes.reduce((sum, { probability }) => sum + probability, 0) - 1)).toBeLessThan(1e-9);
  });

  it('says to people what, how sure, what it cannot tell and what to check first', async () => {
    const { cwd, args } = filesOf(joint);
    const { out } = await runCommand(args, { cwd });
    expect(out).toMatch(/^Most likely a joint in the common path has gained resistance/u);
    expect(out).toContain('Check first: ');
    expect(out).toContain('Cannot be told:\n  - ');
    expect(out).toContain('a corroding common joint first lowers the SWR');
  });

  it('answers without a site file, and says what stood in', async () => {
    const { cwd, args } = filesOf(joint);
    const { out } = await runCommand(args.slice(0, -2), { cwd });
    expect(out).toContain('a guess stands in');
  });

  it('uses the reference load where it is swept', async () => {
    const moved = caseOf('instrument', 300);
    const { cwd, args } = filesOf(moved);
    const load = (group: string, visits: readonly MeasuredVisit[]) => writeVisits(cwd, group, visits);
    const ran = await runCommand(
      [
        ...args,
        ...['--reference-before', ...load('load-before', moved.referenceBefore)],
        ...['--reference-after', ...load('load-after', moved.referenceAfter), '--json'],
      ],
      { cwd },
    );
    const [first] = ran.json<Answer>().causes;
    expect(first?.cause).toBe('instrument');
    expect(first?.estimate).not.toBeNull();
    expect(first?.evidence.join()).toContain('the reference load moved too');
  });

  it('is told what is missing', async () => {
    const { cwd, args } = filesOf(joint);
    const half = await runCommand(['diagnose', '--before', args[2] as string], { cwd });
    expect(half.code).toBe(2);
    expect(half.err).toContain('--after');
    writeFileSync(join(cwd, 'far.csv'), 'frequency_hz,resistance_ohm,reactance_ohm\n1e9,50,0\n2e9,50,0\n');
    const apart = await runCommand(['diagnose', '--before', args[2] as string, '--after', 'far.csv'], {
      cwd,
    });
    expect(apart.code).toBe(1);
    writeFileSync(join(cwd, 'swr.csv'), 'MHz,SWR\n7.0,1.5\n7.1,1.2\n7.2,1.4\n');
    const scalar = await runCommand(['diagnose', '--before', 'swr.csv', '--after', 'swr.csv'], { cwd });
    expect(scalar.code).toBe(1);
    expect(scalar.err).toContain('resistance and reactance are needed');
  });
});

/** A resonant circuit with a joint in series, swept in two bands. */
function antennaShot(jointOhm: number): { low: Sweep; high: Sweep } {
  const sweep = (fromHz: number, toHz: number): Sweep => {
    const frequencyHz = Float64Array.from({ length: 51 }, (_, i) => fromHz + ((toHz - fromHz) * i) / 50);
    return createSweep({
      frequencyHz,
      resistanceOhm: frequencyHz.map((f) => jointOhm + 41 * (f / 7.1e6) ** 2),
      reactanceOhm: frequencyHz.map((f) => 400 * (f / 7.1e6 - 7.1e6 / f)),
    });
  };
  return { low: sweep(6.8e6, 7.4e6), high: sweep(9.9e6, 10.3e6) };
}

describe('diagnose on a logbook whose wires were changed', () => {
  const lay = (folder: string, at: string, count = '4') =>
    runCommand(['lay', '--logbook', folder, '--count', count, '--length', '5m', '--at', at]);

  /** One visit each day over four radials. */
  async function laidAndMeasured(days: readonly number[]): Promise<string> {
    const folder = join(temporaryFolder(), 'field');
    await createLogbook(folder, JSON.parse(siteText(joint.site as Site)));
    await lay(folder, '2026-03-01T10:00Z');
    for (const day of days) await addVisit(folder, visitOf(joint.before[0] as MeasuredVisit, day));
    return folder;
  }

  const ask = (folder: string, ...args: string[]) => runCommand(['diagnose', '--logbook', folder, ...args]);

  it('keeps the baseline when wires were laid and lifted again', async () => {
    const folder = await laidAndMeasured([2, 3, 4]);
    await lay(folder, '2026-03-05T10:00Z');
    await runCommand(['lift', '5-8', '--logbook', folder, '--at', '2026-03-06T10:00Z']);
    await addVisit(folder, visitOf(joint.before[0] as MeasuredVisit, 7));
    const { visitsBefore, fieldChange } = (await ask(folder, '--json')).json<LogbookAnswer>();
    expect(visitsBefore).toEqual([1, 2, 3]);
    expect(fieldChange).toBeNull();
  });

  it('says that the field changed, and which command answers, where that leaves nothing to compare', async () => {
    const folder = await laidAndMeasured([2, 3]);
    await lay(folder, '2026-03-05T10:00Z');
    await addVisit(folder, visitOf(joint.before[0] as MeasuredVisit, 7));
    const { code, err } = await ask(folder);
    expect(code).toBe(1);
    expect(err).toContain('4 radials were laid (4 before, 8 after; 2026-03-05)');
    expect(err).toContain(`\`turfwire compare --before 2 --after 3 --logbook ${folder}\``);
  });

  it('judges across the change when asked to, and says what cannot be told', async () => {
    const folder = await laidAndMeasured([2, 3]);
    await lay(folder, '2026-03-05T10:00Z', '1');
    await addVisit(folder, visitOf(joint.before[0] as MeasuredVisit, 7));
    const asked = ['--before', '1', '2', '--after', '3'];
    const { out } = await ask(folder, ...asked);
    expect(out).toMatch(/^The field itself changed between these visits: 1 radial was laid/u);
    expect(out).toContain(`\`turfwire compare --before 1-2 --after 3 --logbook ${folder}\``);
    expect(out).toContain('no cause stands for that');
    expect((await ask(folder, ...asked, '--json')).json<LogbookAnswer>().fieldChange?.laid).toBe(1);
  });

  it('speaks of the field before where no visit was made since', async () => {
    const folder = await laidAndMeasured([2, 3, 4]);
    await lay(folder, '2026-03-05T10:00Z');
    const { out } = await ask(folder);
    expect(out).toMatch(/^No visit has been made since the field changed: 4 radials were laid/u);
  });
});

describe('diagnose on a logbook', () => {
  it('finds its own baseline and the visit of the change', async () => {
    const folder = await logbookOf(joint);
    const ran = await runCommand(['diagnose', '--logbook', folder, '--json']);
    const answer = ran.json<Answer & { changeAt: number; visitsBefore: number[] }>();
    expect(answer.changeAt).toBe(2 * joint.before.length + 1);
    expect(answer.visitsBefore).toEqual(Array.from({ length: 2 * joint.before.length }, (_, i) => i + 1));
    expect(answer.causes[0]?.cause).toBe('series-joint');
  });

  it('takes visits by number', async () => {
    const folder = await logbookOf(joint);
    const args = ['diagnose', '--logbook', folder, '--before', '1', '--after', '2', '--json'];
    const ran = await runCommand(args);
    expect(ran.json<Answer>().causes[0]?.cause).toBe('none');
    const unknown = await runCommand(['diagnose', '--logbook', folder, '--before', '1', '--after', '99']);
    expect(unknown.err).toContain('no visit 99');
    expect(unknown.code).toBe(2);
  });

  it('gives one answer with a cache, without one and with a spoilt one', async () => {
    const folder = await logbookOf(joint);
    const ask = async () => (await runCommand(['diagnose', '--logbook', folder])).out;
    const first = await ask();
    expect(await ask()).toBe(first);
    writeFileSync(join(folder, 'derived/drift-figures.bin'), 'spoilt');
    writeFileSync(join(folder, 'derived/diagnosis.json'), '{');
    expect(await ask()).toBe(first);
    rmSync(join(folder, 'derived'), { recursive: true });
    expect(await ask()).toBe(first);
  });

  it('says which visits were the baseline, which are judged, and when they were', async () => {
    const { out } = await runCommand(['diagnose', '--logbook', await logbookOf(joint)]);
    const healthy = 2 * joint.before.length;
    expect(out).toContain(`Baseline: visits 1 to ${healthy} (2026-03-01 to 2026-03-`);
    expect(out).toMatch(new RegExp(`Judged: visits ${healthy + 1} to .*: all since the step\\.`, 'u'));
  });

  it('asks for healthy visits where there are none, or but one', async () => {
    const folder = join(temporaryFolder(), 'field');
    await createLogbook(folder, JSON.parse(siteText(joint.site as Site)));
    const ask = () => runCommand(['diagnose', '--logbook', folder]);
    expect((await ask()).err).toContain('no visit yet shows the antenna');
    await addVisit(folder, visitOf(joint.before[0] as MeasuredVisit, 1));
    const ran = await ask();
    expect(ran.code).toBe(1);
    expect(ran.err).toContain('there is only one visit');
  });

  it('takes each band’s own visits, and all bands of a round together', async () => {
    const folder = join(temporaryFolder(), 'field');
    const site = JSON.parse(siteText(joint.site as Site));
    await createLogbook(folder, { ...site, antenna: { ...site.antenna, bands: ['40m', '30m'] } });
    for (const day of [1, 2, 3, 4, 5, 6, 7]) {
      const { low, high } = antennaShot(day < 5 ? 0 : 4);
      await addVisit(folder, visitOf({ shots: [low] }, day));
      await addVisit(folder, visitOf({ shots: [high] }, day, 20));
    }
    const ran = await runCommand(['diagnose', '--logbook', folder, '--json']);
    const answer = ran.json<Answer & LogbookAnswer>();
    expect(answer.visitsBefore).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    expect(answer.visitsAfter).toEqual([9, 10, 11, 12, 13, 14]);
    expect(answer.ranges.map(({ visitsBefore, visitsAfter }) => [visitsBefore, visitsAfter])).toEqual([
      [4, 3],
      [4, 3],
    ]);
    expect(new Set(answer.charts.map(({ band }) => band))).toEqual(new Set(['40m', '30m']));
  });
});

describe('the words of diagnose on a logbook', () => {
  const told = async (folder: string) => {
    const found = await diagnoseLogbook(await openLogbook(folder));
    const first = (beyond: boolean) =>
      logbookDriftText({ ...found, watch: { ...found.watch, changeAt: null, beyond } }).split('\n')[0];
    return { signalling: first(true), quiet: first(false) };
  };

  it('tell both where charts of single figures and the whole curve disagree', async () => {
    const bad = await told(await logbookOf(joint));
    expect(bad.signalling).toMatch(/is beyond what this site does by itself\.$/u);
    expect(bad.quiet).toContain('no chart signals at the newest');
    expect(bad.quiet).toContain('its curve has changed all the same');
    const well = await told(await logbookOf(caseOf('none', 500)));
    expect(well.signalling).toContain('A chart of a single figure signals at the newest');
    expect(well.signalling).not.toContain('beyond what this site does');
    expect(well.quiet).toMatch(/is within what this site does by itself\.$/u);
  });

  it('name the logbook again in every command, as it was named', async () => {
    const folder = join(temporaryFolder(), 'field');
    await createLogbook(folder, JSON.parse(siteText(joint.site as Site)));
    const { err } = await runCommand(['diagnose', '--logbook', 'field'], { cwd: join(folder, '..') });
    expect(err).toContain('`turfwire measure --logbook field`');
  });

  it('send to the joint that a meter has read high, and tell of a repair amid the baseline', async () => {
    const folder = await logbookOf(joint);
    const note = (...words: string[]) => runCommand(['note', ...words, '--logbook', folder]);
    await note('repair', 'plate', 'bolted anew', '--at', '2026-03-02T12:00Z');
    await note('joint', 'plate', '1.8ohm', '--at', '2026-04-20T12:00Z');
    const { out } = await runCommand(['diagnose'], { cwd: folder });
    expect(out).toContain('Check first: with the transmitter off, open the joint "plate"');
    expect(out).toMatch(
      /- a repair was noted on 2026-03-02, amid the baseline.*`turfwire note baseline N no`\./u,
    );
  });
});

describe('the demo', () => {
  it('has its joint found in the second winter, with the first bad visit kept out of the baseline', async () => {
    const folder = await demoLogbook();
    onTestFinished(() => rmSync(folder, { recursive: true }));
    const ran = await runCommand(['diagnose', '--logbook', folder, '--json']);
    const answer = ran.json<Answer & LogbookAnswer>();
    const [first] = answer.causes;
    expect(first).toMatchObject({ cause: 'series-joint', estimate: { unit: 'ohm' } });
    expect(first?.estimate?.value).toBeGreaterThan(4);
    expect(answer.visitsAfter).toEqual([16]);
    expect(answer.visitsBefore).toEqual([7, 8, 9, 10, 11, 12, 13, 14]);
  });
});
