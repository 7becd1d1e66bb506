import { createHash } from 'node:crypto';
import type { ReferencePlane, ShotRecord } from '../core/record.ts';
import { createSweep, type Sweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';

const SWEEP_HEADER = 'frequency_hz,resistance_ohm,reactance_ohm';

export const SWEEPS_FOLDER = 'sweeps';

/** A sweep as the bytes that are stored. */
export function sweepBytes(sweep: Sweep): Uint8Array {
  const lines = [SWEEP_HEADER];
  for (let i = 0; i < sweep.frequencyHz.length; i++) {
    lines.push(`${sweep.frequencyHz[i]},${sweep.resistanceOhm[i]},${sweep.reactanceOhm[i]}`);
  }
  return new TextEncoder().encode(`${lines.join('\n')}\n`);
}

export function parseSweepBytes(bytes: Uint8Array, plane: ReferencePlane, referenceOhm: number): Sweep {
  const rows = new TextDecoder().decode(bytes).trimEnd().split('\n').slice(1);
  const column = (i: number) => Float64Array.from(rows, (row) => Number(row.split(',')[i]));
  return createSweep({
    frequencyHz: column(0),
    resistanceOhm: column(1),
    reactanceOhm: column(2),
    plane,
    referenceOhm,
  });
}

/** SHA-256 as 64 hexadecimal digits. */
export function sha256Of(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

/**
 * Where a sweep is stored, from what it is alone: month, day, visit, shot and the first 8 digits of its hash,
 * so that a name is never used for two different sweeps.
 */
export function sweepFileName(time: string, visit: number, shot: number, sha256: string): string {
  const number = String(visit).padStart(4, '0');
  const name = `${time.slice(0, 10)}-visit-${number}-shot-${shot}-${sha256.slice(0, 8)}.csv`;
  return `${SWEEPS_FOLDER}/${time.slice(0, 7)}/${name}`;
}

/** @throws UserError `sweep-changed` */
export function requireUnchanged(bytes: Uint8Array, shot: ShotRecord): void {
  if (sha256Of(bytes) === shot.sha256) return;
  throw new UserError('sweep-changed', 'the file is not the one that was stored: its SHA-256 differs', {
    kind: 'logbook',
    place: { file: shot.file },
  });
}
