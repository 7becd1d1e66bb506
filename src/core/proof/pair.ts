import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { Measure } from './figures.ts';
import type { VisitInBand } from './visit-in-band.ts';
import type { Component } from './welch.ts';

/** Something of each side of a comparison. */
export interface BeforeAfter<T> {
  readonly before: T;
  readonly after: T;
}

/** The sides of a comparison, in order. */
export const SIDES = ['before', 'after'] as const;

/** One visit's part in a side; the shares of a side sum to 1. */
export interface Share<T> {
  readonly visit: T;
  readonly share: number;
}

/** A visit with the error of one of its shots: as variance of reflection, per component. */
export interface SharedVisit extends Share<VisitInBand> {
  /** As the figure feels it; one object for all that were pooled, null without any repeats. */
  readonly shot: Component | null;
  /** As the reflection shows it: for figures that bend, which cannot be traced back. */
  readonly shotReflection: Component | null;
}

/** Errors of one visit, independent from visit to visit. */
export interface VisitErrors {
  readonly visit: Component;
  /** For a figure by itself, where what all visits have wrong in common counts too. */
  readonly visitAlone: Component;
  readonly turnRad: number;
}

/** One figure of two sides and all that makes their difference uncertain. */
export interface Pair {
  readonly measure: Measure;
  readonly sides: BeforeAfter<readonly SharedVisit[]>;
  readonly errors: VisitErrors;
  /** Standard changes that one cause makes on both sides together (the line's constants), in the figure's unit. */
  readonly common: readonly BeforeAfter<number>[];
  /** To be added to the difference (for the soil between the visits), in the figure's unit. */
  readonly correction: Correction;
}

/** What is added to a difference, with its variance and degrees of freedom, in the figure's own unit. */
export interface Correction {
  readonly value: number;
  readonly variance: number;
  readonly degreesOfFreedom: number;
}

/** Nothing is added, and that for certain. */
export const NO_CORRECTION: Correction = {
  value: 0,
  variance: 0,
  degreesOfFreedom: Number.POSITIVE_INFINITY,
};

/** An after-minus-before difference of one figure, before anyone has judged it. */
export interface FigureDifference {
  readonly before: Quantity;
  readonly after: Quantity;
  readonly difference: Quantity;
  readonly standardUncertainty: number;
  readonly degreesOfFreedom: number;
  /** Two-sided probability of a difference at least as large when there is none; null when nothing is uncertain. */
  readonly probability: number | null;
  readonly method: 'first order' | 'Monte Carlo';
}

/** Weighted mean of a figure over the visits of a side; null where one of them has none. */
export function sideFigure(measure: Measure, side: readonly Share<VisitInBand>[]): number | null {
  let sum = 0;
  for (const { visit, share } of side) {
    const value = visit.figures[measure];
    if (value === null) return null;
    sum += share * value;
  }
  return side.length === 0 ? null : sum;
}

/** What a side's figure comes to at the least, where a sweep ended too early to tell it; null where it needs no bound, or has none. */
export function sideLeast(measure: Measure, side: readonly Share<VisitInBand>[]): number | null {
  if (side.length === 0 || side.every(({ visit }) => visit.least[measure] === null)) return null;
  let sum = 0;
  for (const { visit, share } of side) {
    const value = visit.figures[measure] ?? visit.least[measure];
    if (value === null) return null;
    sum += share * value;
  }
  return sum;
}
