import type { Complex } from '../complex.ts';
import { groundIntegrals } from '../ground/ground-integrals.ts';
import { uniformField } from '../ground/radial-field.ts';
import type { Soil } from '../ground/soil.ts';
import type { AntennaGuess } from './antenna-guess.ts';
import type { Columns } from './columns.ts';
import { between, chebyshevNodes, interpolate, type NodeSet } from './smooth-table.ts';

/** Frequencies of the bins, stretch by stretch. */
export interface Grid {
  readonly frequencyHz: Float64Array;
  readonly spans: readonly { readonly from: number; readonly to: number }[];
}

/** What the ground adds to the base impedance, over all bins, as the soil or the count of radials changes. */
export interface GroundTable {
  /** @param logConductivityRatio - ln of σ over the guess's σ; permittivity follows as εr·ratio^{@link PERMITTIVITY_EXPONENT} */
  ofSoil(logConductivityRatio: number): Columns;
  /** The same soil with permittivity alone off by this ln ratio, near the guess. */
  ofPermittivity(logRatio: number): Columns;
  /** Evenly spread radials; the count may be any positive number. */
  ofCount(count: number): Columns;
}

/**
 * εr follows σ as moisture changes: ln εr moves about 0.55 times as much as ln σ. Between the reference soils
 * 0.002/8 and 0.015/22 it is 0.50, between 0.003/9 and 0.005/13 0.72. A working figure; the model lets it vary.
 */
export const PERMITTIVITY_EXPONENT = 0.55;

const SOIL_STEPS = Float64Array.of(-2.6, -2, -1.4, -0.9, -0.5, -0.2, 0, 0.2, 0.5, 0.9, 1.4, 2, 2.6);

/**
 * Tabulates the ground's part through the surface-impedance method once, since every cause asks for it many times.
 * About 300 ground integrals for one band.
 */
export function groundTable(guess: AntennaGuess, grid: Grid): GroundTable {
  const nodes = grid.spans.map(({ from, to }) =>
    chebyshevNodes(grid.frequencyHz[from] as number, grid.frequencyHz[to - 1] as number),
  );
  const curve = (soil: Soil, count: number): Columns => overBins(guess, grid, nodes, soil, count);
  const soils = lazily(() =>
    [...SOIL_STEPS].map((step) => curve(moistened(guess.soil, step), guess.radialCount)),
  );
  const counts = countSteps(guess.radialCount);
  const fields = lazily(() => counts.map((count) => curve(guess.soil, count)));
  const logCounts = Float64Array.from(counts, Math.log);
  const drier = lazily(() => [
    curve(guess.soil, guess.radialCount),
    curve(
      { ...guess.soil, relativePermittivity: Math.max(1.5, guess.soil.relativePermittivity * Math.exp(0.3)) },
      guess.radialCount,
    ),
  ]);
  return {
    ofSoil: (ratio) => between(SOIL_STEPS, soils(), ratio),
    ofCount: (count) => between(logCounts, fields(), Math.log(count)),
    ofPermittivity: (ratio) => {
      const [plain, changed] = drier() as [Columns, Columns];
      const share = ratio / 0.3;
      return {
        re: plain.re.map((x, i) => x + share * ((changed.re[i] as number) - x)),
        im: plain.im.map((x, i) => x + share * ((changed.im[i] as number) - x)),
      };
    },
  };
}

/** A soil made wetter or drier by ln of the conductivity ratio. */
export function moistened(soil: Soil, logConductivityRatio: number): Soil {
  const permittivity = soil.relativePermittivity * Math.exp(PERMITTIVITY_EXPONENT * logConductivityRatio);
  return {
    conductivitySPerM: soil.conductivitySPerM * Math.exp(logConductivityRatio),
    relativePermittivity: Math.min(81, Math.max(1.5, permittivity)),
  };
}

function overBins(
  guess: AntennaGuess,
  grid: Grid,
  nodes: readonly NodeSet[],
  soil: Soil,
  count: number,
): Columns {
  const monopole = { heightM: guess.heightM, radiusM: guess.radiusM };
  const field = uniformField(count, guess.radialLengthM, guess.radialRadiusM);
  const all = {
    re: new Float64Array(grid.frequencyHz.length),
    im: new Float64Array(grid.frequencyHz.length),
  };
  grid.spans.forEach(({ from, to }, i) => {
    const set = nodes[i] as NodeSet;
    const values = [...set.frequencyHz].map((frequencyHz): Complex => {
      const { reactionOhm, conductorOhm } = groundIntegrals({ monopole, soil, field, frequencyHz });
      return { re: reactionOhm.re + conductorOhm, im: reactionOhm.im };
    });
    const part = interpolate(set, values, grid.frequencyHz.subarray(from, to));
    all.re.set(part.re, from);
    all.im.set(part.im, from);
  });
  return all;
}

/** 1, 2, 3, 4, 6, 8 … up to the count itself, with its nearest neighbours, where most losses lie. */
function countSteps(count: number): number[] {
  const steps = new Set([1, 2, 3, 4, 6, 8, 12, 16, 24, 32, 48, 64, 96, 128].filter((step) => step < count));
  for (const share of [0.6, 0.75, 0.85, 0.92]) steps.add(Math.max(1, Math.round(count * share)));
  if (count > 1) steps.add(count - 1);
  steps.add(count);
  steps.add(count + Math.max(1, Math.round(count / 8)));
  return [...steps].sort((a, b) => a - b);
}

function lazily<T>(make: () => T): () => T {
  let made: T | undefined;
  return () => {
    made ??= make();
    return made;
  };
}
