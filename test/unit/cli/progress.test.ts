import { rm } from 'node:fs/promises';
import { describe, expect, it, onTestFinished } from 'vitest';
import { createRandomSource } from '../../../src/core/proof/random.ts';
import { addVisit, appendEvents } from '../../../src/logbook/logbook.ts';
import { demoLogbook } from '../../support/demo-logbook.ts';
import { expectClose } from '../../support/expect-close.ts';
import { runCommand } from '../../support/fake-io.ts';
import { newLogbook, SITE } from '../../support/logbooks.ts';
import { simulateState } from '../../support/simulated-build.ts';

const GARDEN = {
  monopole: { heightM: 10.1, radiusM: 0.0125 },
  wireRadiusM: 0.0008,
  lengthM: 8,
  soil: { conductivitySPerM: 0.004, relativePermittivity: 12 },
  extraOhm: 1.5,
  bias: 0.5,
  frequencyHz: 7.1e6,
};

const FULL_SITE = {
  ...SITE,
  antenna: { kind: 'quarter-wave', bands: ['40m'], height: '10.1m', diameter: '25mm' },
};

interface Answer {
  readonly band: string;
  readonly steps: readonly Record<string, unknown>[];
  readonly model: { readonly name: string | null; readonly parameters: Record<string, unknown> };
  readonly next: {
    readonly radials: number | null;
    readonly wireM: number | null;
    readonly gainDb: { value: number | null };
  };
  readonly advice: string;
  readonly why: string;
  readonly reversal: readonly string[] | null;
  readonly planned: string | null;
  readonly notes: readonly string[];
}

/** A logbook of a simulated build. */
async function built(
  counts: readonly number[],
  site: Readonly<Record<string, unknown>> = FULL_SITE,
  layout: 'planned' | 'by hand' = 'by hand',
): Promise<string> {
  const random = createRandomSource(71);
  const folder = await newLogbook(site);
  let laid = 0;
  for (const [i, radials] of counts.entries()) {
    const day = String(i + 1).padStart(2, '0');
    const from = laid;
    await appendEvents(folder, () =>
      Array.from({ length: radials - from }, (_, k) => ({
        event: 'lay' as const,
        time: `2026-03-${day}T10:00:00Z`,
        text: '',
        number: from + k + 1,
        lengthM: GARDEN.lengthM,
        ...(layout === 'planned'
          ? straightRoute(180 * (k + from) * (Math.sqrt(5) - 1))
          : { bearingDeg: null, route: null }),
      })),
    );
    laid = radials;
    const [visit] = simulateState(GARDEN, radials, 1, random).visits;
    await addVisit(folder, {
      time: `2026-03-${day}T12:00:00Z`,
      shots: (visit?.shots ?? []).flatMap((sweep, k) =>
        sweep.kind === 'swr'
          ? []
          : [{ sweep, plane: 'feedpoint' as const, target: 'antenna' as const, source: `${day}-${k}.csv` }],
      ),
    });
  }
  return folder;
}

/** Straight out at a bearing, as a plan would write it. */
function straightRoute(bearingDeg: number) {
  const [sine, cosine] = [Math.sin((bearingDeg * Math.PI) / 180), Math.cos((bearingDeg * Math.PI) / 180)];
  return {
    bearingDeg,
    route: [
      [0, 0],
      [GARDEN.lengthM * sine, GARDEN.lengthM * cosine],
    ] as const,
  };
}

interface PlannedStep {
  readonly lowOhm: number;
  readonly highOhm: number;
  readonly beyondOhm: number;
}

async function ask(folder: string, ...words: string[]): Promise<Answer> {
  const ran = await runCommand(['progress', '--logbook', folder, '--json', ...words]);
  expect(ran.code).toBe(0);
  return ran.json<Answer>();
}

describe('turfwire progress', () => {
  it('answers with the keys of the interface, and stops where a doubling is not worth it', async () => {
    const answer = await ask(await built([8, 16, 32, 64]));
    expect(answer.band).toBe('40m');
    expect(answer.steps.map((step) => step['radials'])).toEqual([8, 16, 32, 64]);
    for (const key of ['radials', 'wireM', 'time', 'resistanceAtResonanceOhm', 'resonanceHz']) {
      expect(answer.steps[0]).toHaveProperty(key);
    }
    expect(answer.model.name).toBe('soil and ground loss');
    expect(Object.keys(answer.model.parameters)).toContain('conductivitySPerM');
    expect(answer.next).toMatchObject({ radials: 64, wireM: 512 });
    expect(answer.advice).toBe('stop');
  });

  it('goes on while it is', async () => {
    const answer = await ask(await built([8, 12]), '--next', '4', '--length', '10m');
    expect(answer.advice).toBe('go on');
    expect(answer.next).toMatchObject({ radials: 4, wireM: 40 });
    expect(answer.next.gainDb.value).toBeGreaterThan(0);
  });

  it('works without heights, by the power law, and says so', async () => {
    const answer = await ask(await built([4, 8, 16], SITE));
    expect(answer.model.name).toBe('power law with a floor');
    expect(answer.notes.join()).toContain('height and diameter');
  });

  it('says below eight radials that R is a poor guide', async () => {
    const answer = await ask(await built([4]));
    expect(answer.advice).toBe('go on');
    expect(answer.notes.join()).toContain('R is a poor guide');
  });

  it('proposes a reversal, with commands to paste, where the last step is not shown', async () => {
    const folder = await built([16, 17]);
    const answer = await ask(folder);
    const measure = `turfwire measure --port /dev/ttyACM0 --band 40m --shots 3 --logbook ${folder}`;
    expect(answer.reversal?.filter((line) => !line.startsWith('#'))).toEqual([
      measure,
      measure,
      `turfwire note baseline 4 no --logbook ${folder}`,
      measure,
      `turfwire compare --reversal 3 4 5 --band 40m --logbook ${folder}`,
    ]);
    expect(answer.reversal?.join()).toContain('disconnect radial 17 at the base');
  });

  it('sets what was planned beside what was measured, and says whether the two agree', async () => {
    const folder = await built([8, 16], { ...FULL_SITE, soil: 'average' }, 'planned');
    const answer = await ask(folder);
    expect(answer.planned).toMatch(/^Planned and measured agree: at all 2 states/u);
    for (const { planned, resistanceAtResonanceOhm: r } of answer.steps) {
      const [{ lowOhm, highOhm, beyondOhm }, { value }] = [planned, r] as [PlannedStep, { value: number }];
      expect(value).toBeGreaterThan(lowOhm);
      expect(value).toBeLessThan(highOhm);
      expect(beyondOhm).toBe(0);
    }
    expect(answer.notes.join()).toContain('the fit takes every field as it was laid');
    const byHand = await ask(await built([8, 16], { ...FULL_SITE, soil: 'average' }));
    expect([byHand.planned, byHand.steps[0]?.['planned']]).toEqual([null, null]);
    expect(byHand.notes.join()).toContain('as even and straight, for the journal tells no bearing or route');
  });

  it('tells gains as compare does, soil moisture taken out', async () => {
    const folder = await demoLogbook();
    onTestFinished(() => rm(folder, { recursive: true }));
    const { steps } = await ask(folder);
    const compared = async (before: number): Promise<number> => {
      const words = [
        'compare',
        '--logbook',
        folder,
        '--state',
        '--before',
        `${before}`,
        '--after',
        '4',
        '--json',
      ];
      return (await runCommand(words)).json<{ resistanceGainDb: number }>().resistanceGainDb;
    };
    const fourth = steps[3] as {
      gainDb: { value: number };
      stepDb: { value: number };
      soilCorrectionOhm: number;
    };
    expectClose(fourth.gainDb.value, await compared(1), { absolute: 0.01 });
    expectClose(fourth.stepDb.value, await compared(3), { absolute: 0.01 });
    expect(fourth.soilCorrectionOhm).not.toBe(0);
  });

  it('tells lengths in the units of the site', async () => {
    const { out } = await runCommand([
      'progress',
      '--logbook',
      await built([8, 16], { ...FULL_SITE, units: 'imperial' }),
    ]);
    expect(out).toContain('dB a foot');
    expect(out).not.toMatch(/ m\b| metre/u);
  });

  it('tells people the advice first, then a row a field state', async () => {
    const { out } = await runCommand(['progress', '--logbook', await built([8, 16])]);
    expect(out).toMatch(/^40m: (go on|stop|measure again), because /u);
    expect(out).toMatch(/^\s+2 {2}2026-03-02\s+16/mu);
    expect(out).toContain('lower estimate');
  });

  it('answers an empty logbook in words and nulls', async () => {
    const answer = await ask(await newLogbook());
    expect(answer).toMatchObject({ steps: [], advice: 'measure again', next: { radials: null } });
    expect(answer.why).toContain('nothing was measured yet');
  });

  it('refuses what it cannot mean', async () => {
    const folder = await newLogbook();
    const refused = async (...words: string[]) => {
      const { code, err } = await runCommand(['progress', '--logbook', folder, ...words]);
      return [code, err];
    };
    expect(await refused('--next', '0')).toEqual([2, expect.stringContaining('needs a count of wires')]);
    expect(await refused('--next', '4')).toEqual([2, expect.stringContaining('needs a length above 0')]);
    expect(await refused('--band', '41m')).toEqual([2, expect.stringContaining('not one of')]);
  });
});
