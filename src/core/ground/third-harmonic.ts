import { requirePositive } from './free-space.ts';

/** Where a quarter-wave wire is resonant again, as a bracket. */
export interface ThirdHarmonic {
  readonly lowHz: number;
  readonly highHz: number;
}

/** Measured on one real ground-mounted vertical: a single case, which is why this is a bracket. */
const MEASURED_RATIO = 3.03;
/** End-effect formula: 2.95 quarter waves against 0.95. */
const FORMULA_RATIO = 2.95 / 0.95;
/** Part of the frequency by which a wire may miss and still take its share of current; common practice. */
const NEAR = 0.03;

/**
 * Third-harmonic resonance of a wire that is a quarter wave at the first: never three times it exactly,
 * since the end effect does not grow with the order.
 *
 * @throws UserError `not-positive`
 */
export function thirdHarmonic(fundamentalHz: number): ThirdHarmonic {
  requirePositive(fundamentalHz, 'frequency', 'hertz');
  return { lowHz: MEASURED_RATIO * fundamentalHz, highHz: FORMULA_RATIO * fundamentalHz };
}

/** Whether tuned radials of a low band serve a band near their third harmonic. */
export interface ThirdHarmonicUse {
  readonly harmonic: ThirdHarmonic;
  readonly verdict: 'serves' | 'nearly' | 'does not serve';
  /** How far the middle of the bracket lies above the middle of the band, as a part of it. */
  readonly offset: number;
}

/**
 * 40 m radials on 15 m, and their like. `serves`: the bracket meets the band; `nearly`: within 3 %,
 * which common practice lives with; trimming them for the low end of the low band helps.
 *
 * @throws UserError `not-positive`
 */
export function thirdHarmonicUse(
  fundamentalHz: number,
  band: { readonly fromHz: number; readonly toHz: number },
): ThirdHarmonicUse {
  const harmonic = thirdHarmonic(fundamentalHz);
  const middle = (band.fromHz + band.toHz) / 2;
  const overlaps = (slack: number): boolean =>
    harmonic.lowHz <= band.toHz * (1 + slack) && harmonic.highHz >= band.fromHz * (1 - slack);
  return {
    harmonic,
    verdict: overlaps(0) ? 'serves' : overlaps(NEAR) ? 'nearly' : 'does not serve',
    offset: (harmonic.lowHz + harmonic.highHz) / 2 / middle - 1,
  };
}
