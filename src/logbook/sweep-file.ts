import { createHash } from 'node:crypto';
import type { ShotRecord } from '../core/record.ts';
import type { ReflectionSweep } from '../core/sweep/reflection-sweep.ts';
import type { Sweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';
import { readCanonical, writeCanonical } from '../formats/canonical.ts';
import { writeReflections } from '../formats/reflection-file.ts';

/** Where sweeps are stored. */
export const SWEEPS_FOLDER = 'sweeps';

/** A sweep as the bytes that are stored. */
export function sweepBytes(sweep: Sweep): Uint8Array {
  return new TextEncoder().encode(writeCanonical(sweep));
}

/** Uncorrected readings as the bytes that are stored. */
export function reflectionBytes(sweep: ReflectionSweep): Uint8Array {
  return new TextEncoder().encode(writeReflections(sweep));
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
 * Where a sweep is stored, from what it is alone: month, day, what it is of and the first 8 digits of its hash,
 * so that a name is never used for two different sweeps.
 *
 * @param what - as {@link shotName}, or `standard-open`
 */
export function sweepFileName(time: string, what: string, sha256: string): string {
  const name = `${time.slice(0, 10)}-${what}-${sha256.slice(0, 8)}.csv`;
  return `${SWEEPS_FOLDER}/${time.slice(0, 7)}/${name}`;
}

/** `visit-0003-shot-1` */
export function shotName(visit: number, shot: number): string {
  return `visit-${String(visit).padStart(4, '0')}-shot-${shot}`;
}

/** What is wrong with a stored sweep that was changed, and its cure. */
export const SWEEP_CHANGED: string =
  'the file is not the one that was stored (its SHA-256 differs), and is left as it is: move it out of the logbook and ' +
  'import its original again, which restores what was stored, or bring it back from a copy';

/** @throws UserError `sweep-changed` */
export function requireUnchanged(bytes: Uint8Array, shot: Pick<ShotRecord, 'file' | 'sha256'>): void {
  if (sha256Of(bytes) === shot.sha256) return;
  throw new UserError('sweep-changed', SWEEP_CHANGED, { kind: 'logbook', place: { file: shot.file } });
}
