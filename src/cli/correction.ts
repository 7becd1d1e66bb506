import { correctSweep } from '../core/sweep/calibration.ts';
import { type ReflectionSweep, reflectionSweepOf } from '../core/sweep/reflection-sweep.ts';
import type { Sweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';
import type { Grid } from '../instrument/codec/grid.ts';
import type { Identity } from '../instrument/instrument.ts';
import { type Logbook, newestStandards } from '../logbook/logbook.ts';
import type { ProposeMeasure } from './instrument-options.ts';

/** How raw readings become corrected ones. */
export interface Correction {
  /** What it is made with, for the journal and for people. */
  readonly text: string;
  /** The corrected sweep, and the readings it was made of. */
  apply(raw: ReflectionSweep | Sweep): { sweep: ReflectionSweep; readings: ReflectionSweep };
}

/** Model and serial: standards are good for the instrument that swept them, and for no other. */
export function sourceOf({ model, serial }: Identity): string {
  return [model ?? 'unnamed instrument', serial].filter((part) => part !== null).join(' ');
}

/**
 * The correction for an instrument with raw readings, by the newest standards that it swept; null for one that
 * corrects itself.
 *
 * @throws UserError `calibration-needed` when standards are missing
 */
export async function correctionFor(
  identity: Identity,
  logbook: Logbook | null,
  grid: Grid,
  proposeMeasure: ProposeMeasure,
): Promise<Correction | null> {
  if (identity.corrected) return null;
  const source = sourceOf(identity);
  const { standards, events, missing } =
    logbook === null
      ? { standards: [], events: [], missing: ['open', 'short', 'load'] }
      : await newestStandards(logbook, source, grid.startHz, grid.stopHz);
  if (missing.length > 0) {
    throw new UserError(
      'calibration-needed',
      `"${source}" gives raw readings, and no sweep of the ${missing.join(', ')} covers ${grid.startHz} to ${grid.stopHz} Hz: ` +
        `fit each and log it first, \`${proposeMeasure('--standard', missing[0] as string)}\`, or take the readings as they are with --uncorrected`,
    );
  }
  const sets = events.map(
    ({ definition, time, sha256 }) => `${definition.standard} of ${time} (${sha256.slice(0, 8)})`,
  );
  return {
    text: `corrected with ${sets.join(', ')}`,
    apply: (raw) => {
      const readings = raw.kind === 'reflection' ? raw : reflectionSweepOf(raw);
      return { sweep: correctSweep(readings, standards), readings };
    },
  };
}
