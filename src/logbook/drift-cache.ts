import { endianness } from 'node:os';
import { COARSE_BINS } from '../core/drift/coarse-curve.ts';
import { readSealed, writeSealed } from './sealed-file.ts';

const CACHE_FILE = 'drift-figures.bin';

/** Figures kept for one sweep in one band: four features (NaN where it does not show one), the range, the coarse curve. */
export const FIGURES_KEPT: number = 6 + 2 * COARSE_BINS;

/** A SHA-256 and the index of a band. */
const KEY_BYTES = 33;
const KEPT_BYTES = 8 * FIGURES_KEPT;

/** Figures by {@link figuresKey}. */
export type KeptFigures = Map<string, Float64Array>;

/** @param sha256 - of the stored sweep, as the journal holds it, so that the figures can never speak of another one */
export function figuresKey(sha256: string, band: number): string {
  return sha256 + band.toString(16).padStart(2, '0');
}

/**
 * Reads the cache; empty when there is none that is good. Under its seal the file holds every key, then every figure.
 *
 * @param question - all that the figures depend on besides the sweeps themselves
 */
export function readKeptFigures(folder: string, question: string): KeptFigures {
  const kept: KeptFigures = new Map();
  const body = readSealed(folder, CACHE_FILE, inThisOrder(question));
  if (body === null) return kept;
  const count = Math.floor(body.length / (KEY_BYTES + KEPT_BYTES));
  const keys = body.toString('hex', 0, count * KEY_BYTES);
  // Copied, because numbers of eight bytes must begin at a multiple of eight.
  const figures = new Float64Array(Uint8Array.from(body.subarray(count * KEY_BYTES)).buffer);
  for (let i = 0; i < count; i++) {
    const key = keys.slice(2 * i * KEY_BYTES, 2 * (i + 1) * KEY_BYTES);
    kept.set(key, figures.subarray(i * FIGURES_KEPT, (i + 1) * FIGURES_KEPT));
  }
  return kept;
}

/** Writes the cache anew; a logbook that cannot be written to goes without one. */
export function writeKeptFigures(folder: string, question: string, kept: KeptFigures): void {
  const figures = new Float64Array(kept.size * FIGURES_KEPT);
  let at = 0;
  for (const values of kept.values()) {
    figures.set(values, at);
    at += FIGURES_KEPT;
  }
  const keys = Buffer.from([...kept.keys()].join(''), 'hex');
  const body = Buffer.concat([keys, new Uint8Array(figures.buffer)]);
  writeSealed(folder, CACHE_FILE, inThisOrder(question), body);
}

/** Numbers lie in the file as this processor has them. */
function inThisOrder(question: string): string {
  return `${endianness()} ${question}`;
}
