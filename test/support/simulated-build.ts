import { efficiency, feedPointImpedanceOhm } from '../../src/core/ground/feed-point.ts';
import { measuredBiasDb } from '../../src/core/ground/measured-bias.ts';
import type { Monopole } from '../../src/core/ground/monopole.ts';
import { uniformField } from '../../src/core/ground/radial-field.ts';
import type { Soil } from '../../src/core/ground/soil.ts';
import type { ComparedVisit } from '../../src/core/proof/compared-visit.ts';
import { NO_CONDITIONS } from '../../src/core/proof/conditions.ts';
import type { StepInput } from '../../src/core/proof/progress-steps.ts';
import type { RandomSource } from '../../src/core/proof/random.ts';
import { createSweep, type Sweep } from '../../src/core/sweep/sweep.ts';
import { grid } from './antenna-model.ts';
import { measuredBy, randomInstrument } from './simulated-instrument.ts';

/** How many radials lie after each handful. */
export const SCHEDULE: readonly number[] = [4, 8, 12, 16, 24, 32, 48, 64, 96, 128];

/** One garden with an antenna, of which the simulated user knows only what a site file tells. */
export interface SimulatedSite {
  readonly monopole: Monopole;
  readonly wireRadiusM: number;
  readonly lengthM: number;
  readonly soil: Soil;
  readonly extraOhm: number;
  /** Where between the published bounds of the method's error this garden lies, 0 to 1. */
  readonly bias: number;
  readonly frequencyHz: number;
}

const LIGHT_M_PER_S = 299_792_458;
const WIRE_RADIUS_M = 0.0008;

/** Soil moves by so much from visit to visit, as logarithms: what nobody notes. */
const SOIL_SCATTER = { conductivity: 0.15, permittivity: 0.06 };

/** A garden out of the usual range of antennas, wires and soils. */
export function randomSite(random: RandomSource): SimulatedSite {
  const frequencyHz = [3.65e6, 7.1e6, 14.15e6][random.below(3)] as number;
  const wavelengthM = LIGHT_M_PER_S / frequencyHz;
  return {
    monopole: {
      heightM: (0.225 + 0.02 * random.uniform()) * wavelengthM,
      radiusM: 0.005 + 0.015 * random.uniform(),
    },
    wireRadiusM: WIRE_RADIUS_M,
    lengthM: (0.1 + 0.2 * random.uniform()) * wavelengthM,
    soil: {
      conductivitySPerM: 0.001 * 30 ** random.uniform(),
      relativePermittivity: 5 + 20 * random.uniform(),
    },
    extraOhm: 4 * random.uniform(),
    bias: random.uniform(),
    frequencyHz,
  };
}

/**
 * What a doubling of the wire is truly worth in the field, dB: by the power that is radiated (|H|² form), the extra
 * resistance counted as loss, and the published error of the method added. The fit under test goes by resistance
 * (H² form) and knows nothing of that error.
 */
export function trueDoublingDb(site: SimulatedSite, radials: number): number {
  return trueFieldDb(site, 2 * radials) - trueFieldDb(site, radials);
}

function trueFieldDb(site: SimulatedSite, radials: number): number {
  const { monopole, soil, lengthM, wireRadiusM, frequencyHz, extraOhm, bias } = site;
  const field = uniformField(radials, lengthM, wireRadiusM);
  const { lossOhm, conductorOhm, radiationResistanceOhm } = efficiency({
    monopole,
    soil,
    field,
    frequencyHz,
  });
  const share = radiationResistanceOhm / (radiationResistanceOhm + lossOhm + conductorOhm + extraOhm);
  const wavelengthM = LIGHT_M_PER_S / frequencyHz;
  const { low, high } = measuredBiasDb(monopole.heightM / wavelengthM, lengthM / wavelengthM, radials);
  return 10 * Math.log10(share) - (low + bias * (high - low));
}

/** One field state as its owner would have logged it, with visits of three shots. */
export function simulateState(
  site: SimulatedSite,
  radials: number,
  visits: number,
  random: RandomSource,
): StepInput {
  return {
    radials,
    wireM: radials * site.lengthM,
    time: null,
    visits: Array.from({ length: visits }, () => simulateVisit(site, radials, random)),
  };
}

function simulateVisit(site: SimulatedSite, radials: number, random: RandomSource): ComparedVisit {
  const soil = {
    conductivitySPerM: site.soil.conductivitySPerM * Math.exp(SOIL_SCATTER.conductivity * random.normal()),
    relativePermittivity: Math.max(
      2,
      site.soil.relativePermittivity * Math.exp(SOIL_SCATTER.permittivity * random.normal()),
    ),
  };
  const truth = trueSweep({ ...site, soil }, radials);
  const instrument = randomInstrument(random);
  return {
    label: `${radials} radials`,
    time: null,
    shots: Array.from({ length: 3 }, () => measuredBy(instrument, truth, random)),
    referenceLoad: [],
    conditions: NO_CONDITIONS,
  };
}

/** The impedance bends little over the sweep: computed at three frequencies and taken as a parabola between them. */
function trueSweep(site: SimulatedSite, radials: number): Sweep {
  const { monopole, soil, lengthM, wireRadiusM, frequencyHz: centreHz, extraOhm } = site;
  const field = uniformField(radials, lengthM, wireRadiusM);
  const knots = [0.93, 1.02, 1.11].map((part) => part * centreHz);
  const known = knots.map((frequencyHz) => feedPointImpedanceOhm({ monopole, soil, field, frequencyHz }));
  const frequencyHz = grid(knots[0] as number, knots[2] as number, 37);
  const column = (part: 're' | 'im'): Float64Array =>
    frequencyHz.map((f) => {
      const u = (f - (knots[1] as number)) / ((knots[2] as number) - (knots[1] as number));
      const [low = 0, middle = 0, high = 0] = known.map((impedance) => impedance[part]);
      return middle + ((high - low) / 2) * u + ((high + low) / 2 - middle) * u * u;
    });
  return createSweep({
    frequencyHz,
    resistanceOhm: column('re').map((r) => r + extraOhm),
    reactanceOhm: column('im'),
  });
}
