import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { FigureDifference, Pair } from './pair.ts';
import { createRandomSource, type RandomSource } from './random.ts';
import { withReflectionError } from './reflection-error.ts';
import { CONFIDENCE } from './student.ts';
import type { Component } from './welch.ts';

const DRAWS = 2000;
const SEED = 20_231_107;

/** A figure that vanishes in more than this share of the draws has no uncertainty that could be stated. */
const MISSING_AT_MOST = 0.05;

/**
 * Difference of a figure between two visits by propagating distributions, for figures that bend within the
 * errors, such as the least SWR near 1. Errors estimated from few repeats are drawn from Student's t.
 *
 * Source: JCGM 101:2008, clauses 6.4.9 and 7.
 *
 * @returns null where the figure cannot be had at one of the visits, or vanishes under its own errors
 */
export function monteCarlo(pair: Pair, draws: number = DRAWS, seed: number = SEED): FigureDifference | null {
  const { measure, visits, errors } = pair;
  const [b, a] = [visits.before.figures[measure], visits.after.figures[measure]];
  if (b === null || a === null) return null;
  const random = createRandomSource(seed);
  const sides = { before: [] as number[], after: [] as number[], difference: [] as number[] };
  for (let draw = 0; draw < draws; draw++) {
    const visitScale = studentScale(errors.visit, random);
    const shotScale = {
      before: studentScale(errors.shotReflection.before, random),
      after: studentScale(errors.shotReflection.after, random),
    };
    if (errors.shot.before === errors.shot.after) shotScale.after = shotScale.before;
    const figureOf = (side: 'before' | 'after'): number | null => {
      const visit = visits[side];
      const variance =
        errors.visit.variance * visitScale +
        ((errors.shotReflection[side]?.variance ?? 0) * shotScale[side]) / visit.shotCount;
      const size = Math.sqrt(variance);
      return visit.reread(
        measure,
        withReflectionError(visit.sweep, {
          shiftRe: size * random.normal(),
          shiftIm: size * random.normal(),
          trackingRe: size * random.normal(),
          trackingIm: Math.hypot(size, errors.turnRad) * random.normal(),
        }),
      );
    };
    const [before, after] = [figureOf('before'), figureOf('after')];
    const shared = pair.shared.map((change) => ({ change, size: random.normal() }));
    const extra = Math.sqrt(pair.extraVariance) * random.normal();
    if (before === null || after === null) continue;
    const moved = (side: 'before' | 'after'): number =>
      shared.reduce((sum, { change, size }) => sum + size * change[side], 0);
    sides.before.push(before + moved('before'));
    sides.after.push(after + moved('after'));
    sides.difference.push(after - before + moved('after') - moved('before') + extra);
  }
  const found = sides.difference.length;
  if (found < (1 - MISSING_AT_MOST) * draws) return null;
  const value = a - b;
  const difference = covering(sides.difference, value);
  return {
    before: covering(sides.before, b),
    after: covering(sides.after, a),
    difference,
    standardUncertainty: (difference.expandedUncertainty ?? 0) / difference.coverageFactor,
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    probability: (2 * (1 + rarerSide(sides.difference))) / (found + 2),
    method: 'Monte Carlo',
  };
}

/** How many draws lie on the rarer side of zero. */
function rarerSide(differences: readonly number[]): number {
  const above = differences.filter((difference) => difference > 0).length;
  return Math.min(above, differences.length - above);
}

/** The half-width about the value that holds the stated share of the draws. */
function covering(draws: readonly number[], value: number): Quantity {
  const off = Float64Array.from(draws, (draw) => Math.abs(draw - value)).sort();
  const expandedUncertainty = off[Math.ceil(CONFIDENCE * off.length) - 1] as number;
  const squares = off.reduce((sum, distance) => sum + distance * distance, 0);
  const standard = Math.sqrt(squares / off.length);
  return { value, expandedUncertainty, coverageFactor: standard > 0 ? expandedUncertainty / standard : 2 };
}

/** ν/χ²(ν): by how much the variance may be larger or smaller than its estimate; 1 where it is well known. */
function studentScale(component: Component | null, random: RandomSource): number {
  const df = component?.degreesOfFreedom ?? Number.POSITIVE_INFINITY;
  if (df > 60) return 1;
  let chiSquare = 0;
  for (let i = 0; i < Math.round(df); i++) chiSquare += random.normal() ** 2;
  return df / chiSquare;
}
