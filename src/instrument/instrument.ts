import type { ReflectionSweep } from '../core/sweep/reflection-sweep.ts';
import type { ScalarSweep, Sweep } from '../core/sweep/sweep.ts';
import type { Grid } from './codec/grid.ts';

/** What an instrument says of itself; null where it does not say. All texts are harmless to show and to store. */
export interface Identity {
  readonly model: string | null;
  readonly serial: string | null;
  readonly lowestHz: number | null;
  readonly highestHz: number | null;
  readonly mostPoints: number | null;
  /** False when readings are raw and need the sweeps of an open, a short and a load. */
  readonly corrected: boolean;
  readonly referenceOhm: number;
}

/** A complete sweep in the form in which the instrument gives it. */
export type RawSweep = ReflectionSweep | Sweep | ScalarSweep;

/** What it took to get a sweep over the wire. */
export interface WireEffort {
  /** Lines that could not be read. */
  readonly badLines: number;
  /** Requests for missing points. */
  readonly reAsks: number;
}

/** A whole sweep, and what it took to get it. */
export interface CollectedSweep {
  readonly raw: RawSweep;
  readonly effort: WireEffort;
}

/** Told as points arrive. */
export type Progress = (received: number, points: number) => void;

/**
 * An open and identified instrument. All failures are `UserError`s of kind `instrument`, and a sweep is given whole
 * or not at all.
 */
export interface Instrument {
  readonly identity: Identity;
  sweep(grid: Grid, progress?: Progress): Promise<CollectedSweep>;
  /** Lets go of the port. */
  close(): Promise<void>;
}
