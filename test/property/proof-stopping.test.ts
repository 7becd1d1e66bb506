/**
 * Advice over whole simulated builds. The truth of each garden is not what the fit believes: the field goes by the
 * radiated power with the published error of the method, R at the feed point by another form, soil moves from visit
 * to visit, and every shot is seen through three error terms (see support/simulated-build.ts).
 */
import { describe, expect, it } from 'vitest';
import { progressOf } from '../../src/core/proof/progress.ts';
import { type ProgressStep, progressSteps, type StepInput } from '../../src/core/proof/progress-steps.ts';
import { createRandomSource, type RandomSource } from '../../src/core/proof/random.ts';
import {
  randomSite,
  SCHEDULE,
  type SimulatedSite,
  simulateState,
  trueDoublingDb,
} from '../support/simulated-build.ts';

const SITES = 200;
const WORTHWHILE_DB = 0.25;
const FEW_RADIALS = 8;

function build(site: SimulatedSite, random: RandomSource) {
  const band = { band: 'test', fromHz: site.frequencyHz * 0.985, toHz: site.frequencyHz * 1.02 };
  const ground = {
    monopole: site.monopole,
    wireRadiusM: site.wireRadiusM,
    soil: null,
    radiationResistanceOhm: null,
  };
  const measured: StepInput[] = [];
  /** The step as it is read beside the one before it. */
  const measure = (radials: number, visits: number): ProgressStep => {
    const input = simulateState(site, radials, visits, random);
    const beside = [...measured.slice(-1), input];
    measured.push(input);
    return progressSteps(beside, band, { instrument: null, line: null }).steps.at(-1) as ProgressStep;
  };
  const ask = (steps: readonly ProgressStep[]) =>
    progressOf(steps, { ground, worthwhileDb: null, next: null, lastStrength: null }).advice;
  const steps: ProgressStep[] = [];
  for (const [i, radials] of SCHEDULE.entries()) {
    steps.push(measure(radials, 1));
    let advice = ask(steps);
    if (advice === 'measure again') {
      measured.pop();
      steps.splice(-1, 1, measure(radials, 3));
      advice = ask(steps);
    }
    if (advice === 'stop') return i;
  }
  return SCHEDULE.length - 1;
}

/** The first handful after which the next doubling is not worth it. */
function kneeOf(site: SimulatedSite): number {
  const knee = SCHEDULE.findIndex(
    (radials) => radials >= FEW_RADIALS && trueDoublingDb(site, radials) < WORTHWHILE_DB,
  );
  return knee < 0 ? SCHEDULE.length - 1 : knee;
}

describe('200 random gardens, built by the advice', () => {
  const random = createRandomSource(20_260_202);
  const builds = Array.from({ length: SITES }, () => {
    const site = randomSite(random);
    const stopped = build(site, random);
    return { stopped, knee: kneeOf(site), leftDb: trueDoublingDb(site, SCHEDULE[stopped] as number) };
  });

  it('stop within one handful of the true knee in at least 85 %', () => {
    const near = builds.filter(({ stopped, knee }) => Math.abs(stopped - knee) <= 1).length;
    expect(near / SITES).toBeGreaterThanOrEqual(0.85);
  });

  it('stop in at most 2 % while the next doubling is truly worth 0.6 dB', () => {
    const early = builds.filter(
      ({ stopped, leftDb }) => stopped < SCHEDULE.length - 1 && leftDb >= 0.6,
    ).length;
    expect(early / SITES).toBeLessThanOrEqual(0.02);
  });

  it('stop at all: not by the end of the schedule alone', () => {
    expect(builds.filter(({ stopped }) => stopped < SCHEDULE.length - 1).length).toBeGreaterThan(0.9 * SITES);
  });
});
