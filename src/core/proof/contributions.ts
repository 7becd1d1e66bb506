import type { Quantity } from '../quantity-with-uncertainty.ts';
import { coverageFactor } from './student.ts';
import { type Component, effectiveDegreesOfFreedom } from './welch.ts';

/** A sum of contributions to an uncertainty; those that rest on one and the same estimate share its freedom. */
export class Contributions {
  private readonly variances = new Map<Component, number>();
  private known = 0;

  /** Adds an estimated variance times a factor. */
  add(estimate: Component, factor: number): void {
    this.variances.set(estimate, (this.variances.get(estimate) ?? 0) + factor * estimate.variance);
  }

  /** Adds a variance that is taken as known. */
  addKnown(variance: number): void {
    this.known += variance;
  }

  /** Adds all that another sum holds. */
  addAll(other: Contributions): void {
    for (const [estimate, variance] of other.variances) {
      this.variances.set(estimate, (this.variances.get(estimate) ?? 0) + variance);
    }
    this.known += other.known;
  }

  standardUncertainty(): number {
    return Math.sqrt([...this.variances.values()].reduce((sum, variance) => sum + variance, this.known));
  }

  degreesOfFreedom(): number {
    const estimated = [...this.variances].map(([{ degreesOfFreedom }, variance]) => ({
      variance,
      degreesOfFreedom,
    }));
    return effectiveDegreesOfFreedom([
      ...estimated,
      { variance: this.known, degreesOfFreedom: Number.POSITIVE_INFINITY },
    ]);
  }

  /** A value with the expanded uncertainty of this sum. */
  quantity(value: number): Quantity {
    const factor = coverageFactor(this.degreesOfFreedom());
    return { value, expandedUncertainty: factor * this.standardUncertainty(), coverageFactor: factor };
  }
}
