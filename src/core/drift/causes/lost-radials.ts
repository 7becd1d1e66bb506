import type { AntennaState } from '../antenna-state.ts';
import type { CauseModel } from '../cause.ts';
import type { Columns } from '../columns.ts';

/**
 * How far the losses lie side by side, from evenly spread (0) to all neighbours (1), with prior weights. Weighed one by
 * one, for beyond the ends there is nothing: a shape that went on below 0 would stand for radials that were gained.
 */
export const CLUSTERINGS: readonly (readonly [clustering: number, weight: number])[] = [
  [0, 0.4],
  [0.33, 0.25],
  [0.67, 0.2],
  [1, 0.15],
];
/** Likeliest part of the field to be gone. */
const TYPICAL_SHARE = 0.15;
/** At most this part of the field is thought to be gone. */
const GREATEST_SHARE = 0.85;

/**
 * k of N radials without contact. Spread evenly, N − k are left; side by side they leave one gap k + 1 spacings wide.
 * The ground's part is linear in the surface impedance of each ring, so a field with one gap is a weighted mean of two
 * even fields, of N and of N/(k + 1) radials. Prior ∝ x·e^(−x/0.15), x = k/N: a
 * few in a field of many cannot be seen and are left to `none`.
 */
export function lostRadials(state: AntennaState, clustering: number): CauseModel {
  const { radialCount: count } = state.fitted.guess;
  const most = Math.max(1, Math.floor(count * GREATEST_SHARE));
  const amplitudes = Float64Array.from({ length: most }, (_, i) => i + 1);
  const weight = (lost: number): number => lost * Math.exp(-lost / count / TYPICAL_SHARE);
  const total = amplitudes.reduce((sum, lost) => sum + weight(lost), 0);
  return {
    cause: 'lost-radials',
    estimate: { name: 'radials without contact', unit: 'count' },
    amplitudes,
    discrete: true,
    // Of a single radial none can be lost and leave a field.
    logPrior: (lost) => (count > 1 ? Math.log(weight(lost) / total) : Number.NEGATIVE_INFINITY),
    effect(lost) {
      return { shift: state.changeFor(fieldChange(state, lost, clustering)), free: [] };
    },
  };
}

/** What the loss of some radials adds to the base impedance, between evenly spread (0) and side by side (1). */
function fieldChange(state: AntennaState, lost: number, clustering: number): Columns {
  const { ground, fitted } = state;
  const count = fitted.guess.radialCount;
  const whole = ground.ofCount(count);
  const even = ground.ofCount(count - lost);
  const gap = ground.ofCount(Math.max(1, count / (lost + 1)));
  const share = (lost + 1) / count;
  const mix = (part: 're' | 'im'): Float64Array =>
    whole[part].map((full, i) => {
      const ifEven = (even[part][i] as number) - full;
      const ifGap = share * ((gap[part][i] as number) - full);
      return (1 - clustering) * ifEven + clustering * ifGap;
    });
  return { re: mix('re'), im: mix('im') };
}
