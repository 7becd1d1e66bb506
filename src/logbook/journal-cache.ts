import { createHash } from 'node:crypto';
import { type Journal, type JournalBeginning, readJournal } from './journal-reader.ts';
import { readSealed, writeSealed } from './sealed-file.ts';

const CACHE_FILE = 'journal-rows.json';
/** Raised whenever a row comes to mean something else, so that older ones are never taken for it. */
const FORM = 'rows of a journal, form 1';

/** Fewer rows are read as fast as they are remembered. */
const FEWEST_ROWS = 1000;
/** Rows that may have been added before all are written down anew, as a share of those that are. */
const GROWN = 1 / 32;

/** What is kept: the beginning of a journal, and the SHA-256 of its bytes. */
interface Kept extends JournalBeginning {
  readonly sha256: string;
}

/**
 * Reads a journal of which an earlier reading may have kept the beginning: while its bytes are the very same, only the
 * rows after it are parsed and verified. Nothing is kept of a journal in which anything is wrong. For commands that
 * read; whoever writes or checks reads every row.
 */
export function readGrownJournal(folder: string, bytes: Uint8Array): Journal {
  const kept = keptBeginning(folder, bytes);
  const journal = readJournal(bytes, kept ?? undefined);
  const { entries, tail, problems } = journal;
  const isGrown = entries.length >= Math.max(FEWEST_ROWS, (1 + GROWN) * (kept?.entries.length ?? 0));
  if (isGrown && problems.length === 0 && tail.missingLineEnd === '') {
    const whole: Kept = { sha256: digestOf(bytes, tail.wholeBytes), tail, entries };
    writeSealed(folder, CACHE_FILE, FORM, Buffer.from(JSON.stringify(whole)));
  }
  return journal;
}

function keptBeginning(folder: string, bytes: Uint8Array): JournalBeginning | null {
  const content = readSealed(folder, CACHE_FILE, FORM);
  if (content === null) return null;
  const kept = JSON.parse(content.toString()) as Kept;
  return kept.sha256 === digestOf(bytes, kept.tail.wholeBytes) ? kept : null;
}

function digestOf(bytes: Uint8Array, length: number): string {
  return createHash('sha256').update(bytes.subarray(0, length)).digest('hex');
}
