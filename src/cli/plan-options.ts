import type { Advised } from '../core/proof/advice.ts';
import type { Radial } from '../core/record.ts';
import type { Site } from '../core/site.ts';

/** The options of `plan` that shape the computation. */
export interface PlanOptions {
  readonly band?: readonly string[];
  readonly stock?: readonly string[];
  readonly count?: string;
  readonly length?: string;
  readonly compare?: readonly string[];
  readonly elevation?: readonly string[];
  readonly allowance?: string;
  readonly apply?: boolean;
}

/** A site, and what lies on it already. */
export interface PlannedSite {
  readonly site: Site;
  readonly laid: readonly Radial[];
  /** The number that the journal gives to the next radial. */
  readonly nextRadial: number;
  /** What the journal holds as planned and not laid yet. */
  readonly openPlan: readonly Radial[];
  /** Radials that a journal tells of: they were cut from the stock that the site file names. */
  readonly cutFromStock: readonly Radial[];
  /** What the measured handfuls of a logbook advise; null where nothing was measured. */
  readonly measured: Pick<Advised, 'advice' | 'why'> | null;
}
