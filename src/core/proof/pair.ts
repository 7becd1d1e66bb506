import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { Measure } from './figures.ts';
import type { VisitInBand } from './visit-in-band.ts';
import type { Component } from './welch.ts';

/** Something of each visit of a pair. */
export interface BeforeAfter<T> {
  readonly before: T;
  readonly after: T;
}

/** Errors of reflection, as variances per component, that stand behind one figure of a pair of visits. */
export interface PairErrors {
  /** Of one shot, as this figure feels it; one object twice when it was pooled, null without any repeats. */
  readonly shot: BeforeAfter<Component | null>;
  /** Of one shot, as the reflection shows it: for figures that bend, which cannot be traced back. */
  readonly shotReflection: BeforeAfter<Component | null>;
  /** Of one visit, independent from visit to visit. */
  readonly visit: Component;
  /** The same for a visit's figure by itself, where what all visits have wrong in common counts too. */
  readonly visitAlone: Component;
  readonly turnRad: number;
}

/** One figure of two visits and all that makes it uncertain. */
export interface Pair {
  readonly measure: Measure;
  readonly visits: BeforeAfter<VisitInBand>;
  readonly errors: PairErrors;
  /** Standard changes that one cause makes in both visits together (the line's constants), in the figure's unit. */
  readonly shared: readonly BeforeAfter<number>[];
  /** Variance of the difference alone (the soil between the visits), in the figure's unit squared. */
  readonly extraVariance: number;
}

/** An after-minus-before difference of one figure, before anyone has judged it. */
export interface FigureDifference {
  readonly before: Quantity;
  readonly after: Quantity;
  readonly difference: Quantity;
  readonly standardUncertainty: number | null;
  readonly degreesOfFreedom: number;
  /** Two-sided probability of a difference at least as large when there is none; null when it cannot be told. */
  readonly probability: number | null;
  readonly method: 'first order' | 'Monte Carlo';
}
