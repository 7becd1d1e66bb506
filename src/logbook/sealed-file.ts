import { createHash } from 'node:crypto';
import { readDerived, writeDerived } from './derived-folder.ts';

const SEAL_BYTES = 32;

/**
 * The content of a derived file; null when there is none, when it was made for another question, or when a byte of it is
 * not as it was written. The file is a SHA-256 over question and content, then the content.
 *
 * @param question - all that the content depends on besides what it is of
 */
export function readSealed(folder: string, name: string, question: string): Buffer | null {
  const bytes = readDerived(folder, name);
  if (bytes === null) return null;
  const content = bytes.subarray(SEAL_BYTES);
  return bytes.subarray(0, SEAL_BYTES).equals(sealOf(question, content)) ? content : null;
}

/** Writes a derived file with its seal; a logbook that cannot be written to goes without. */
export function writeSealed(folder: string, name: string, question: string, content: Buffer): void {
  writeDerived(folder, name, Buffer.concat([sealOf(question, content), content]));
}

function sealOf(question: string, content: Buffer): Buffer {
  return createHash('sha256').update(question).update(content).digest();
}
