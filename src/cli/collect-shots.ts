import { setTimeout as sleep } from 'node:timers/promises';
import type { ReferencePlane } from '../core/record.ts';
import { impedanceSweepOf } from '../core/sweep/reflection-sweep.ts';
import { createSweep, type Sweep } from '../core/sweep/sweep.ts';
import { bestSwr } from '../core/sweep/swr-summary.ts';
import { UserError } from '../core/user-error.ts';
import type { Grid } from '../instrument/codec/grid.ts';
import type { Instrument, RawSweep, WireEffort } from '../instrument/instrument.ts';
import { interrupted } from '../instrument/line-link.ts';
import type { NewShot } from '../logbook/logbook.ts';
import { figure } from './answer.ts';
import type { Correction } from './correction.ts';

/** One whole sweep, ready to be stored. */
export interface CollectedShot {
  readonly sweep: Sweep;
  readonly raw: NewShot['raw'];
  readonly effort: WireEffort;
}

/** What is wanted of an instrument, once it is open. */
export interface ShotsWanted {
  readonly grid: Grid;
  readonly count: number;
  /** Time between two shots. */
  readonly pauseMs: number;
  readonly plane: ReferencePlane;
  readonly correction: Correction | null;
  readonly signal: AbortSignal;
}

/** Told as the shots come in. */
export interface ShotsHeard {
  /** Before each shot but the first, when there is time to do something. */
  pause(this: void, next: number): void;
  progress(this: void, shot: number, received: number, points: number): void;
  done(this: void, shot: number, taken: CollectedShot): void;
}

/** The whole shots, and what ended them early. */
export interface Shots {
  readonly shots: readonly CollectedShot[];
  readonly failure: UserError | null;
}

/** Takes shots one after another. A failure does not cost the ones that are whole already. */
export async function collectShots(
  instrument: Instrument,
  wanted: ShotsWanted,
  heard: ShotsHeard,
): Promise<Shots> {
  const shots: CollectedShot[] = [];
  try {
    for (let shot = 1; shot <= wanted.count; shot++) {
      if (shot > 1 && wanted.pauseMs > 0) {
        heard.pause(shot);
        await pause(wanted.pauseMs, wanted.signal);
      }
      const { raw, effort } = await instrument.sweep(wanted.grid, (received, points) =>
        heard.progress(shot, received, points),
      );
      const taken = { ...corrected(raw, wanted), effort };
      shots.push(taken);
      heard.done(shot, taken);
    }
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    return { shots, failure: error };
  }
  return { shots, failure: null };
}

function corrected(raw: RawSweep, { plane, correction }: ShotsWanted): Pick<CollectedShot, 'sweep' | 'raw'> {
  if (raw.kind === 'swr') {
    const { swr, frequencyHz } = bestSwr(raw);
    throw new UserError(
      'sweep-scalar',
      `this instrument gives only the SWR (least ${figure(swr, 2)} at ${frequencyHz} Hz), and a logbook needs R and X, which SWR cannot give`,
      { kind: 'instrument' },
    );
  }
  if (correction !== null) {
    const { sweep, readings } = correction.apply(raw);
    return { sweep: impedanceSweepOf(sweep, plane), raw: { sweep: readings, correction: correction.text } };
  }
  const sweep = raw.kind === 'reflection' ? impedanceSweepOf(raw, plane) : createSweep({ ...raw, plane });
  return { sweep, raw: undefined };
}

async function pause(ms: number, signal: AbortSignal): Promise<void> {
  await sleep(ms, undefined, { signal }).catch(() => {
    throw interrupted();
  });
}
