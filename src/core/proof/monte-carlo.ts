import type { Quantity } from '../quantity-with-uncertainty.ts';
import { type FigureDifference, type Pair, SIDES, sideFigure } from './pair.ts';
import { createRandomSource, type RandomSource } from './random.ts';
import { withReflectionError } from './reflection-error.ts';
import { CONFIDENCE, studentQuantile } from './student.ts';
import type { Component } from './welch.ts';

const DRAWS = 2000;
const SEED = 20_231_107;

/** A figure that vanishes in more than this share of the draws has no uncertainty that could be stated. */
const MISSING_AT_MOST = 0.05;

/** Degrees of freedom from which on an estimate of spread is as good as known. */
const WELL_KNOWN = 60;

/**
 * Difference of a figure between two sides by propagating distributions, for figures that bend within the
 * errors, such as the least SWR near 1. Spreads estimated from few repeats are drawn as Student's t has them.
 *
 * Source: JCGM 101:2008, clauses 6.4.9 and 7.
 *
 * @returns null where the figure cannot be had at one of the visits, or vanishes under its own errors
 */
export function monteCarlo(pair: Pair, draws: number = DRAWS, seed: number = SEED): FigureDifference | null {
  const { measure, sides, common, correction } = pair;
  const [b, a] = [sideFigure(measure, sides.before), sideFigure(measure, sides.after)];
  if (b === null || a === null) return null;
  const random = createRandomSource(seed);
  const drawn = { before: [] as number[], after: [] as number[], difference: [] as number[] };
  for (let draw = 0; draw < draws; draw++) {
    const [before = null, after = null] = drawSides(pair, random);
    const moved = { before: 0, after: 0 };
    for (const change of common) {
      const size = random.normal();
      for (const side of SIDES) moved[side] += size * change[side];
    }
    const soil = correction.value + Math.sqrt(correction.variance) * random.normal();
    if (before === null || after === null) continue;
    drawn.before.push(before + moved.before);
    drawn.after.push(after + moved.after);
    drawn.difference.push(after + moved.after - before - moved.before + soil);
  }
  const found = drawn.difference.length;
  if (found < (1 - MISSING_AT_MOST) * draws) return null;
  const difference = covering(drawn.difference, a - b + correction.value);
  return {
    before: covering(drawn.before, b),
    after: covering(drawn.after, a),
    difference,
    standardUncertainty: (difference.expandedUncertainty ?? 0) / difference.coverageFactor,
    degreesOfFreedom: Number.POSITIVE_INFINITY,
    probability: (2 * (1 + rarerSide(drawn.difference))) / (found + 2),
    method: 'Monte Carlo',
  };
}

/** One draw of both sides, each visit with errors of its own. */
function drawSides({ measure, sides, errors }: Pair, random: RandomSource): (number | null)[] {
  const scales = new Map<Component, number>();
  const variance = (component: Component | null): number => {
    if (component === null) return 0;
    const scale = scales.get(component) ?? studentScale(component.degreesOfFreedom, random);
    scales.set(component, scale);
    return component.variance * scale;
  };
  return SIDES.map((side) => {
    let sum: number | null = 0;
    for (const { visit, share, shotReflection } of sides[side]) {
      const size = Math.sqrt(variance(errors.visit) + variance(shotReflection) / visit.shotCount);
      const value = visit.reread(
        measure,
        withReflectionError(visit.sweep, {
          shiftRe: size * random.normal(),
          shiftIm: size * random.normal(),
          trackingRe: size * random.normal(),
          trackingIm: Math.hypot(size, errors.turnRad) * random.normal(),
        }),
      );
      const grid = visit.gridUncertainty(measure) * random.normal();
      sum = value === null || sum === null ? null : sum + share * (value + grid);
    }
    return sum;
  });
}

/** ν/χ²(ν): by how much a variance may be larger or smaller than its estimate. */
function studentScale(degreesOfFreedom: number, random: RandomSource): number {
  if (degreesOfFreedom > WELL_KNOWN) return 1;
  let chiSquare = 0;
  for (let i = 0; i < Math.round(degreesOfFreedom); i++) chiSquare += random.normal() ** 2;
  return degreesOfFreedom / chiSquare;
}

/** How many draws lie on the rarer side of zero. */
function rarerSide(differences: readonly number[]): number {
  const above = differences.filter((difference) => difference > 0).length;
  return Math.min(above, differences.length - above);
}

/**
 * The half-width about the value that holds the stated share of the draws. A few draws far out may blow up the standard
 * deviation, and it then says nothing of that half-width; k is never told smaller than that of a normal distribution.
 */
function covering(draws: readonly number[], value: number): Quantity {
  const off = Float64Array.from(draws, (draw) => Math.abs(draw - value)).sort();
  const expandedUncertainty = off[Math.ceil(CONFIDENCE * off.length) - 1] as number;
  const standard = Math.sqrt(off.reduce((sum, distance) => sum + distance * distance, 0) / off.length);
  const ratio = standard > 0 ? expandedUncertainty / standard : 2;
  return { value, expandedUncertainty, coverageFactor: Math.max(NORMAL_FACTOR, ratio) };
}

/** What holds the stated share of a normal distribution. */
const NORMAL_FACTOR = studentQuantile((1 + CONFIDENCE) / 2, Number.POSITIVE_INFINITY);
