import type { Columns } from './columns.ts';
import type { ScatterSize } from './scatter.ts';

/** What may have changed. Source: the project's own vocabulary. */
export type CauseName =
  | 'none'
  | 'soil-moisture'
  | 'series-joint'
  | 'lost-radials'
  | 'element-length'
  | 'feedline'
  | 'intermittent'
  | 'instrument';

/** Every cause. */
export const CAUSES: readonly CauseName[] = [
  'none',
  'soil-moisture',
  'series-joint',
  'lost-radials',
  'element-length',
  'feedline',
  'intermittent',
  'instrument',
];

/** What an estimate is called and measured in. */
export interface EstimateKind {
  readonly name: string;
  readonly unit: string;
}

/**
 * A cause as a model of the change in Γ over all bins: one amplitude, taken exactly, and up to a few further
 * parameters near zero, taken as Gaussian shapes.
 */
export interface CauseModel {
  readonly cause: CauseName;
  readonly estimate: EstimateKind | null;
  /** Amplitudes at which the model is first looked at, rising. Whole numbers only when `discrete`. */
  readonly amplitudes: Float64Array;
  readonly discrete: boolean;
  /** ln of the prior density of the amplitude (of its probability when discrete). */
  logPrior(amplitude: number): number;
  /**
   * ln of how much likelier the amplitude makes data other than the change (shots against each other, the reference
   * load) than a healthy state does; absent for a model that says nothing of them.
   */
  logOther?(amplitude: number): number;
  /**
   * ln likelihood of the visits after against each other under a size of the ordinary scatter; absent for a model that
   * lets them scatter as healthy ones do.
   */
  logAfter?(amplitude: number, size: ScatterSize): number;
  /** What the amplitude does to Γ. */
  effect(amplitude: number): CauseEffect;
}

/** What a cause of a given size does to Γ over frequency. */
export interface CauseEffect {
  /** Mean change of Γ. */
  readonly shift: Columns;
  /** Change of Γ for one standard deviation of each further parameter. */
  readonly free: readonly Columns[];
}
