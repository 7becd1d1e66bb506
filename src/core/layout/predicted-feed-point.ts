import { type FeedPointSystem, feedPointImpedanceOhm } from '../ground/feed-point.ts';
import { monopoleResonance } from '../ground/monopole-resonance.ts';
import { groundValidity } from '../ground/validity.ts';
import type { Radial } from '../record.ts';
import { laidWires, type PlanSetting } from './planned-field.ts';
import { soilsInQuestion } from './soils-in-question.ts';

/** What an instrument at the base should read at X = 0 if the radials do what was planned. */
export interface PredictedFeedPoint {
  readonly resonanceHz: number;
  readonly resistanceOhm: number;
  /** From the best to the worst that soil and method leave open, ohm. */
  readonly lowOhm: number;
  readonly highOhm: number;
  /** In words, each way in which the field is outside what the method is good for; then R is often higher still. */
  readonly outside: readonly string[];
}

/** The antenna and its ground, on whatever band the antenna is resonant in. */
export interface FeedPointSetting extends Omit<PlanSetting, 'bands'> {
  /** At the base; undefined for the computed one. */
  readonly radiationResistanceOhm: number | undefined;
}

/** The method met a handbook's feed resistances of 16 and more radials within this; with fewer it is worse in proportion. */
const METHOD_OHM = 3;
const FEW_RADIALS = 16;

/** Where, in parts of the first resonance over perfect ground, the antenna over real ground is resonant. */
const SEARCHED = [0.8, 1.1] as const;
const NEAR_HZ = 100;
const MOST_ROUNDS = 60;

/**
 * Predicts R where X = 0 for a field of laid radials, as planned: ΔZ form, with the soil of the site as it stands. The
 * range is that of a soil of half to twice the conductivity and of the method. Joints, the radiator's own loss and
 * coils are not in it: a measured R above the range speaks of them, or of the soil.
 *
 * Nothing of it is kept in a journal, which holds every route: it is computed anew from what lies there.
 *
 * @param radials - with a base on the ground; those without a bearing are taken to lie in the largest gaps
 * @returns null without radials, and where there is no such resonance to be told
 * @throws UserError as the ground physics
 */
export function predictedFeedPoint(
  setting: FeedPointSetting,
  radials: readonly Radial[],
): PredictedFeedPoint | null {
  if (radials.length === 0) return null;
  const { monopole, soil, wireRadiusM, radiationResistanceOhm } = setting;
  const field = { wires: laidWires(radials, wireRadiusM) };
  const found = soilsInQuestion(soil).map((each) =>
    atResonance({ monopole, soil: each, field, radiationResistanceOhm }),
  );
  const [, expected] = found;
  if (expected === null || expected === undefined) return null;
  const resistancesOhm = found.flatMap((each) => (each === null ? [] : [each.resistanceOhm]));
  const methodOhm = METHOD_OHM * Math.max(1, FEW_RADIALS / radials.length);
  return {
    ...expected,
    lowOhm: Math.max(0, Math.min(...resistancesOhm) - methodOhm),
    highOhm: Math.max(...resistancesOhm) + methodOhm,
    outside: groundValidity({ monopole, soil, field, frequencyHz: expected.resonanceHz }).outside,
  };
}

/** Where X passes zero, by false position: X is nearly straight there. */
function atResonance(
  system: Omit<FeedPointSystem, 'frequencyHz'>,
): { readonly resonanceHz: number; readonly resistanceOhm: number } | null {
  const freeHz = monopoleResonance(system.monopole).frequencyHz;
  const at = (frequencyHz: number) => ({
    frequencyHz,
    ...feedPointImpedanceOhm({ ...system, frequencyHz }),
  });
  let below = at(SEARCHED[0] * freeHz);
  let above = at(SEARCHED[1] * freeHz);
  if (below.im >= 0 || above.im <= 0) return null;
  for (let round = 0; round < MOST_ROUNDS; round++) {
    const share = below.im / (below.im - above.im);
    const middle = at(below.frequencyHz + share * (above.frequencyHz - below.frequencyHz));
    const movedHz = Math.min(middle.frequencyHz - below.frequencyHz, above.frequencyHz - middle.frequencyHz);
    if (movedHz < NEAR_HZ) return { resonanceHz: middle.frequencyHz, resistanceOhm: middle.re };
    if (middle.im < 0) below = middle;
    else above = middle;
  }
  return null;
}
