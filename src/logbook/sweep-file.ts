import { createHash } from 'node:crypto';
import type { ShotRecord } from '../core/record.ts';
import type { Sweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';
import { readCanonical, writeCanonical } from '../formats/canonical.ts';

export const SWEEPS_FOLDER = 'sweeps';

/** A sweep as the bytes that are stored. */
export function sweepBytes(sweep: Sweep): Uint8Array {
  return new TextEncoder().encode(writeCanonical(sweep));
}

/**
 * The sweep behind stored bytes; what the file does not hold, the journal tells.
 * @throws UserError `sweep-changed`
 */
export function storedSweep(bytes: Uint8Array, shot: ShotRecord): Sweep {
  requireUnchanged(bytes, shot);
  return readCanonical(new TextDecoder().decode(bytes), shot);
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
