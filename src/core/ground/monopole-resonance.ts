import { requirePositive, SPEED_OF_LIGHT } from './free-space.ts';
import { type Monopole, monopoleImpedance } from './monopole.ts';

/** Where a monopole over perfect ground is first resonant. */
export interface MonopoleResonance {
  readonly frequencyHz: number;
  readonly heightWavelengths: number;
  /** Height over a quarter wave: the end effect K of the handbooks. */
  readonly quarterWaveFraction: number;
  readonly resistanceOhm: number;
}

/** Heights between which the first resonance of any conductor this form holds for lies, in λ. */
const SHORTEST = 0.15;
const LONGEST = 0.25;

/**
 * First frequency at which the monopole has no reactance, by bisection of the induced-EMF form.
 * A thick conductor resonates shorter: 0.2442 λ at a/λ = 1e−5, 0.239 λ at 1e−3.
 *
 * @throws UserError `not-positive`
 */
export function monopoleResonance(monopole: Monopole): MonopoleResonance {
  requirePositive(monopole.heightM, 'antenna.height', 'metres');
  requirePositive(monopole.radiusM, 'antenna.diameter', 'metres');
  return resonanceBetween((wavelengths) => ({
    monopole,
    frequencyHz: (wavelengths * SPEED_OF_LIGHT) / monopole.heightM,
  }));
}

/**
 * Height at which a conductor of this radius is resonant at a frequency.
 *
 * @throws UserError `not-positive`
 */
export function resonantHeightM(radiusM: number, frequencyHz: number): number {
  requirePositive(radiusM, 'antenna.diameter', 'metres');
  requirePositive(frequencyHz, 'frequency', 'hertz');
  const wavelength = SPEED_OF_LIGHT / frequencyHz;
  const found = resonanceBetween((wavelengths) => ({
    monopole: { heightM: wavelengths * wavelength, radiusM },
    frequencyHz,
  }));
  return found.heightWavelengths * wavelength;
}

function resonanceBetween(
  at: (wavelengths: number) => { monopole: Monopole; frequencyHz: number },
): MonopoleResonance {
  let low = SHORTEST;
  let high = LONGEST;
  for (let step = 0; step < 50; step += 1) {
    const middle = (low + high) / 2;
    const { monopole, frequencyHz } = at(middle);
    if (monopoleImpedance(monopole, frequencyHz).atLoopOhm.im < 0) low = middle;
    else high = middle;
  }
  const heightWavelengths = (low + high) / 2;
  const { monopole, frequencyHz } = at(heightWavelengths);
  return {
    frequencyHz,
    heightWavelengths,
    quarterWaveFraction: 4 * heightWavelengths,
    resistanceOhm:
      monopoleImpedance(monopole, frequencyHz).atLoopOhm.re / Math.sin(2 * Math.PI * heightWavelengths) ** 2,
  };
}
