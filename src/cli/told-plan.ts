import type { HalfWaveComparison } from '../core/ground/half-wave.ts';
import type { Plan } from '../core/layout/plan.ts';
import type { UnitSystem } from '../core/quantity.ts';
import type { NumberedRoute } from './plan-numbers.ts';
import type { PlannedSite } from './plan-options.ts';
import type { PlanReach } from './plan-reach.ts';
import type { PreparedPlan } from './plan-request.ts';

/** A plan and what is told with it. */
export interface ToldPlan {
  readonly plan: Plan;
  readonly prepared: PreparedPlan;
  /** The wires of the plan, under their numbers. */
  readonly routes: readonly NumberedRoute[];
  readonly work: readonly string[];
  readonly units: UnitSystem;
  /** Radials that lie there already. */
  readonly laid: number;
  /** Who can touch its wires. */
  readonly reach: PlanReach;
  readonly measured: PlannedSite['measured'];
  readonly worthwhileDb: number | null;
  /** For a half-wave antenna, the quarter wave on the same wires beside it. */
  readonly halfWave: HalfWaveComparison | null;
}
