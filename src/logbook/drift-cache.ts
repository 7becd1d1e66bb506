import { createHash } from 'node:crypto';
import { COARSE_BINS } from '../core/drift/coarse-curve.ts';
import { readDerived, writeDerived } from './derived-folder.ts';

const CACHE_FILE = 'drift-features.bin';

/** Figures kept for one sweep: four features (NaN where it does not show one), the range, the coarse curve. */
export const FIGURES_PER_SWEEP: number = 6 + 2 * COARSE_BINS;
const HASH_BYTES = 32;
const RECORD_BYTES = HASH_BYTES + 8 * FIGURES_PER_SWEEP;

/** Figures by the SHA-256 of the stored sweep, as hexadecimal digits. */
export type DriftFigures = Map<string, Float64Array>;

/**
 * Reads the cache; empty when there is none, when it was made for another question, or when a byte of it is not as it
 * was written. It is keyed by the hash that the journal holds, so it can never speak of another sweep.
 *
 * @param question - all that the figures depend on besides the sweep itself
 */
export function readDriftCache(folder: string, question: string): DriftFigures {
  const figures: DriftFigures = new Map();
  const bytes = readDerived(folder, CACHE_FILE);
  if (bytes === null || bytes.length < 2 * HASH_BYTES) return figures;
  const body = bytes.subarray(HASH_BYTES);
  if (!bytes.subarray(0, HASH_BYTES).equals(sealOf(question, body))) return figures;
  for (let at = 0; at + RECORD_BYTES <= body.length; at += RECORD_BYTES) {
    const values = new Float64Array(FIGURES_PER_SWEEP);
    for (let i = 0; i < FIGURES_PER_SWEEP; i++) values[i] = body.readDoubleLE(at + HASH_BYTES + 8 * i);
    figures.set(body.toString('hex', at, at + HASH_BYTES), values);
  }
  return figures;
}

/** Writes the cache anew; a logbook that cannot be written to goes without one. */
export function writeDriftCache(folder: string, question: string, figures: DriftFigures): void {
  const body = Buffer.alloc(figures.size * RECORD_BYTES);
  let at = 0;
  for (const [sha256, values] of figures) {
    body.write(sha256, at, 'hex');
    for (let i = 0; i < FIGURES_PER_SWEEP; i++) {
      body.writeDoubleLE(values[i] ?? Number.NaN, at + HASH_BYTES + 8 * i);
    }
    at += RECORD_BYTES;
  }
  writeDerived(folder, CACHE_FILE, Buffer.concat([sealOf(question, body), body]));
}

function sealOf(question: string, body: Buffer): Buffer {
  return createHash('sha256').update(question).update(body).digest();
}
