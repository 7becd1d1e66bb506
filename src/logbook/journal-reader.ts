import type { JournalEvent } from '../core/journal-event.ts';
import type { Damage } from './damage.ts';
import { cellsToEvent } from './journal-csv.ts';
import { type Cells, checkOf, FIRST_CHECK, HEADER, parseRow } from './journal-row.ts';

export const JOURNAL_FILE = 'journal.csv';

/** One row that was read. */
export interface JournalEntry {
  readonly sequence: number;
  readonly line: number;
  /** When it was written down; `event.time` is when it happened. */
  readonly recorded: string;
  readonly event: JournalEvent;
}

/** A journal as far as it can be read. */
export interface Journal {
  readonly entries: readonly JournalEntry[];
  readonly problems: readonly Damage[];
  readonly tail: JournalTail;
}

/** Where the next row goes. */
export interface JournalTail {
  readonly sequence: number;
  readonly check: string;
  /** Bytes up to the end of the last whole command; what follows is torn. */
  readonly wholeBytes: number;
  /** What a last row without its line end still needs before another may follow. */
  readonly missingLineEnd: '' | '\n' | '\r\n';
}

/** What is known after the rows so far. */
interface Progress {
  tail: JournalTail;
  entries: number;
  problems: number;
}

/**
 * Reads the bytes of a journal. Nothing stops it: what is wrong becomes a problem with its line, and the
 * rest is read. A command writes all of its rows or none: when the last row, or the last command, was
 * not written to its end, those bytes are left out and named.
 */
export function readJournal(bytes: Uint8Array): Journal {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length);
  const entries: JournalEntry[] = [];
  const problems: Damage[] = [];
  let tail: JournalTail = { sequence: 0, check: FIRST_CHECK, wholeBytes: 0, missingLineEnd: '' };
  let beforeCommand: Progress = { tail, entries: 0, problems: 0 };
  let line = 0;
  let commandIsOpen = false;
  const report = (code: string, message: string) => {
    problems.push({ code, place: { file: JOURNAL_FILE, line }, message });
  };

  for (let start = 0; start < buffer.length; ) {
    line++;
    const lineEnd = buffer.indexOf(0x0a, start);
    const end = lineEnd === -1 ? buffer.length : lineEnd + 1;
    const raw = buffer.toString('utf8', start, end);
    const text = raw.replace(/\r?\n$|\r$/u, '');
    start = end;
    if (line === 1) {
      if (text.replace(/^\uFEFF/u, '') === HEADER.trimEnd()) {
        tail = { ...tail, wholeBytes: end };
        beforeCommand = { tail, entries: 0, problems: 0 };
        continue;
      }
      report('journal-header', 'the first line must be the header of a journal');
    }
    if (text === '' && lineEnd !== -1) {
      report('row-empty', 'an empty line was added');
      continue;
    }
    const cells = parseRow(text);
    const whole = lineEnd !== -1 || (cells !== null && vouchedFor(cells, tail));
    if (!whole) {
      commandIsOpen = true;
      break;
    }
    if (!commandIsOpen) beforeCommand = { tail, entries: entries.length, problems: problems.length };
    if (cells === null) {
      report('row-unreadable', 'is not a row of a journal: it was changed by hand');
      // Its check, where it still shows, lets the next row be judged for itself.
      const check = /[0-9a-f]{16}$/u.exec(text)?.[0] ?? tail.check;
      tail = { ...tail, sequence: tail.sequence + 1, check, wholeBytes: end };
      continue;
    }
    reportPlace(cells, tail, report);
    tail = {
      sequence: Number(cells.sequence) || tail.sequence + 1,
      check: cells.check,
      wholeBytes: end,
      missingLineEnd: lineEnd !== -1 ? '' : raw.endsWith('\r') ? '\n' : '\r\n',
    };
    const [part, parts] = cells.part.split(' of ').map(Number);
    commandIsOpen = part !== parts;
    try {
      entries.push({ sequence: tail.sequence, line, recorded: cells.recorded, event: cellsToEvent(cells) });
    } catch (error) {
      report('row-not-understood', `row ${cells.sequence}: ${(error as Error).message}`);
    }
  }
  if (line === 0) report('journal-header', 'the journal is empty: its rows are lost');
  if (!commandIsOpen) return { entries, problems, tail };

  entries.length = beforeCommand.entries;
  problems.length = beforeCommand.problems;
  tail = beforeCommand.tail;
  const torn = buffer.length - tail.wholeBytes;
  report('journal-torn', `the last command was not written to its end: its ${torn} bytes are left out`);
  return { entries, problems, tail };
}

function vouchedFor(cells: Cells, tail: JournalTail): boolean {
  return cells.check === checkOf(tail.check, cells);
}

/** Tells a row that does not follow the one before. */
function reportPlace(cells: Cells, tail: JournalTail, report: (code: string, message: string) => void): void {
  const { sequence } = cells;
  const expected = tail.sequence + 1;
  if (Number(sequence) > expected) {
    const last = Number(sequence) - 1;
    const rows = last === expected ? `row ${expected} is` : `rows ${expected} to ${last} are`;
    report('row-missing', `${rows} missing before row ${sequence}`);
  } else if (Number(sequence) !== expected) {
    report(
      'row-out-of-place',
      `row ${expected} must stand here, got row "${sequence}": rows were moved by hand`,
    );
  } else if (!vouchedFor(cells, tail)) {
    report('row-changed', `row ${sequence} does not match its check: it was changed by hand`);
  }
}
