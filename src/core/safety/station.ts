import { wavelengthM, wavenumberPerM } from '../ground/free-space.ts';
import type { Antenna } from '../site.ts';
import { type Arrangement, arrange, type Radiator } from './arrangement.ts';
import { largestGain, loopResistanceOhm } from './radiation.ts';

/** The antenna of a site at one frequency: its wires, and how much current a watt drives in them. */
export interface Station {
  readonly frequencyHz: number;
  readonly radiator: Radiator;
  readonly arrangement: Arrangement;
  /** Current at the element's loop squared, rms, per watt into the antenna, A²/W. */
  readonly currentSquaredPerW: number;
  /** Resistance at the feed point with the losses that the efficiency stands for, ohm. */
  readonly feedOhm: number;
  /** Largest gain over isotropic over perfect ground, as a ratio. */
  readonly gain: number;
}

/** Beyond this height in wavelengths a resistance given for the base says little of the current loop. */
const TALLEST_FOR_GIVEN_RESISTANCE = 0.35;

/** Near a half wave the base value runs off; its sine is held at this, our own choice. */
const LEAST_BASE_SINE = 0.3;

/**
 * The current comes from the power radiated, P·efficiency, and the radiation resistance: computed for the wires,
 * and the one that the site gives where that means more current. For kind `other` on a single band the given one
 * counts alone, for only the user knows what their coil or hat does.
 *
 * @param efficiency - power radiated over power accepted, above 0 to 1
 */
export function stationAt(
  parts: Radiator,
  antenna: Antenna,
  frequencyHz: number,
  efficiency: number,
): Station {
  const arrangement = arrange(parts, frequencyHz);
  const computedOhm = loopResistanceOhm(arrangement);
  const baseSine = Math.sin(wavenumberPerM(frequencyHz) * parts.heightM);
  const loopOhm = loopResistance(antenna, parts, frequencyHz, computedOhm, baseSine ** 2);
  return {
    frequencyHz,
    radiator: parts,
    arrangement,
    currentSquaredPerW: efficiency / loopOhm,
    feedOhm: loopOhm / Math.max(baseSine ** 2, LEAST_BASE_SINE ** 2) / efficiency,
    gain: largestGain(arrangement, computedOhm),
  };
}

function loopResistance(
  antenna: Antenna,
  { heightM }: Radiator,
  frequencyHz: number,
  computedOhm: number,
  baseSineSquared: number,
): number {
  const given = antenna.radiationResistanceOhm;
  if (given === null || heightM > TALLEST_FOR_GIVEN_RESISTANCE * wavelengthM(frequencyHz)) return computedOhm;
  const givenOhm = given * baseSineSquared;
  return antenna.kind === 'other' && antenna.bands.length === 1 ? givenOhm : Math.min(givenOhm, computedOhm);
}
