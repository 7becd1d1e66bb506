/**
 * A figure with its expanded uncertainty at the stated coverage factor (JCGM 100:2008, clause 6).
 * `value` or `expandedUncertainty` is null when it cannot be had from the data at hand.
 */
export interface Quantity {
  readonly value: number | null;
  readonly expandedUncertainty: number | null;
  readonly coverageFactor: number;
}

/** A figure that cannot be had. */
export const UNKNOWN_QUANTITY: Quantity = { value: null, expandedUncertainty: null, coverageFactor: 2 };

/** A figure of which there may be no more than a bound: its value is then null. */
export interface BoundedQuantity extends Quantity {
  /** What it comes to at the least, and at the most; absent where nothing bounds it. */
  readonly atLeast?: number;
  readonly atMost?: number;
}
