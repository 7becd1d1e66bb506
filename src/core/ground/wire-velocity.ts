import { UserError } from '../user-error.ts';
import { requirePositive, wavelengthM } from './free-space.ts';

/** A round wire in its insulation, at a height over ground. */
export interface InsulatedWire {
  readonly conductorDiameterM: number;
  /** Over the insulation; equal to the conductor's for bare wire. */
  readonly outerDiameterM: number;
  /** K of the insulation, 1 or more. */
  readonly dielectricConstant: number;
  readonly heightM: number;
}

/**
 * Velocity factor of an insulated wire above ground, 1/√P with
 * P = K·ln(4H/d)/(K·ln(4H/D) + ln(D/d)): the insulation is a layer in series with the capacitance to
 * the ground. For wires in the air; the loss and the capacitance of real soil are not in it, so that
 * lower than about a metre it is too high.
 *
 * @throws UserError `not-positive`, `bad-insulation`
 * Source: transmission-line theory of a coated wire over a plane; the form of the handbooks (memory).
 */
export function insulatedVelocityFactor(wire: InsulatedWire): number {
  const { conductorDiameterM: inner, outerDiameterM: outer, dielectricConstant: constant, heightM } = wire;
  requirePositive(inner, 'radials.diameter', 'metres');
  requirePositive(heightM, 'radials.height', 'metres');
  if (!(outer >= inner && outer < 2 * heightM && constant >= 1)) {
    throw new UserError(
      'bad-insulation',
      `insulation of a dielectric constant of 1 or more, between the wire and the ground, is needed; got ${constant} and ${outer} m over a wire of ${inner} m at ${heightM} m`,
      { place: { field: 'radials.insulation' } },
    );
  }
  const bare = constant * Math.log((4 * heightM) / inner);
  const coated = constant * Math.log((4 * heightM) / outer) + Math.log(outer / inner);
  return Math.sqrt(coated / bare);
}

/**
 * Velocity factor of a wire on the ground. There the length is not critical, and a resonance is not
 * what it is laid for.
 *
 * Source: J. Devoldere, Low-Band DXing, 5th ed., p. 9-14 (published).
 */
export const ON_SOIL_VELOCITY_FACTOR = { low: 0.5, high: 0.6 } as const;

/** What the ends of a thin wire take off its length: 71.3/f against 74.95/f m, common practice. */
export const END_EFFECT: number = 71.3 / 74.948;

/**
 * Length of a resonant quarter wave, λ/4 × velocity factor, m. Cut a hand longer and trim to the
 * instrument: height, sag and neighbours move it by a few per cent.
 *
 * @param velocityFactor - of the insulated wire, or {@link END_EFFECT} for a bare one; above 0, at most 1
 * @throws UserError `not-positive`, `bad-velocity-factor`
 */
export function quarterWaveM(frequencyHz: number, velocityFactor = 1): number {
  if (!(velocityFactor > 0 && velocityFactor <= 1)) {
    throw new UserError(
      'bad-velocity-factor',
      `a velocity factor above 0 and at most 1 is needed, got ${velocityFactor}`,
      {
        place: { field: 'radials.velocityFactor' },
      },
    );
  }
  return (velocityFactor * wavelengthM(frequencyHz)) / 4;
}
