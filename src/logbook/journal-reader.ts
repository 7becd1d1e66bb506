import type { JournalEvent } from '../core/journal-event.ts';
import { quoted } from '../core/quoted.ts';
import type { Damage } from './damage.ts';
import { cellsToEvent } from './journal-csv.ts';
import { FORM_CHANGES, type FormChange, formedRow, isEmptyRow } from './journal-form.ts';
import { type Line, linesOf } from './journal-lines.ts';
import { type Cells, COLUMNS, checkOf, FIRST_CHECK } from './journal-row.ts';

/** The journal's name in its logbook. */
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
  /** Bytes after the last whole command. */
  readonly tornBytes: number;
}

/** Where the next row goes. */
export interface JournalTail {
  readonly sequence: number;
  readonly check: string;
  /** Bytes up to the end of the last whole command; what follows is torn. */
  readonly wholeBytes: number;
  /** What a last row without its line end still needs before another may follow. */
  readonly missingLineEnd: Line['missingEnd'];
}

/** The rows of whole commands at the beginning of a journal in which nothing is wrong. */
export interface JournalBeginning {
  readonly entries: readonly JournalEntry[];
  readonly tail: JournalTail;
}

/**
 * Reads the bytes of a journal. Nothing stops it: what is wrong becomes damage with its line, and the rest
 * is read. A journal that was saved anew in another form, as a spreadsheet does, is read and verified cell by
 * cell, and each change of its form is named once. A command writes all of its rows or none: when the last row, or the
 * last command, was not written to its end, those bytes are left out and named.
 *
 * @param known - what an earlier reading made of the first of these very bytes: only the rest is read
 */
export function readJournal(bytes: Uint8Array, known: JournalBeginning = NOTHING_KNOWN): Journal {
  const reader = new JournalReader(known);
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length);
  for (const line of linesOf(buffer, { lines: linesIn(known), bytes: known.tail.wholeBytes }))
    reader.take(line);
  return reader.end(bytes.length);
}

const NOTHING_KNOWN: JournalBeginning = {
  entries: [],
  tail: { sequence: 0, check: FIRST_CHECK, wholeBytes: 0, missingLineEnd: '' },
};

/** Where nothing is wrong, there is one line for the header and one for each row. */
function linesIn({ entries, tail }: JournalBeginning): number {
  return tail.wholeBytes === 0 ? 0 : entries.length + 1;
}

class JournalReader {
  readonly #entries: JournalEntry[];
  readonly #problems: Damage[] = [];
  #tail: JournalTail;
  /** True between the first and the last row of one command. */
  #inCommand = false;
  /** What was known after the last whole command. */
  #whole: { readonly tail: JournalTail; readonly entries: number; readonly problems: number };
  /** Where each change of the form was first seen. */
  readonly #changes = new Map<FormChange, number>();
  #line = 0;

  constructor({ entries, tail }: JournalBeginning) {
    this.#entries = [...entries];
    this.#tail = tail;
    this.#whole = { tail, entries: entries.length, problems: 0 };
  }

  take(line: Line): void {
    this.#line = line.number;
    const isMarked = line.number === 1 && line.text.startsWith('\uFEFF');
    const { cells, changes } = formedRow(isMarked ? line.text.slice(1) : line.text);
    // Without its line end a row is whole only when its check says so.
    if (line.missingEnd === '\r\n' && (cells === null || !isVouchedFor(cells, this.#tail))) return;
    if (isMarked) this.#note('byte-order-mark-added');
    if (line.isEndChanged) this.#note('line-ends-changed');
    for (const change of changes) this.#note(change);
    if (line.number === 1 && cells !== null && isHeader(cells)) {
      this.#advance({ wholeBytes: line.end, missingLineEnd: line.missingEnd });
      return;
    }
    if (line.number === 1) this.#report('journal-header', 'the first line must be the header of a journal');
    if (cells === null || isEmptyRow(line.text)) this.#takeUnreadable(line);
    else this.#takeRow(cells, line);
  }

  /** @param length - of the whole file, bytes */
  end(length: number): Journal {
    if (length === 0) this.#report('journal-header', 'the journal is empty: its rows are lost');
    const { tail, entries, problems } = this.#whole;
    const tornBytes = length - tail.wholeBytes;
    if (tornBytes > 0) {
      this.#entries.length = entries;
      this.#problems.length = problems;
      this.#report(
        'journal-torn',
        `the last command was cut short as it was written: its ${tornBytes} bytes are left out`,
      );
    }
    const rows =
      this.#problems.length === 0
        ? 'are as they were written, and nothing is lost'
        : 'are judged on their own';
    const changed = [...this.#changes].map(([code, line]) => {
      const { seen, undo } = FORM_CHANGES[code];
      const advice = `saving it ${undo} satisfies check, and only the commands of this program should write to it`;
      const message = `${seen}, by a spreadsheet or an editor; the rows themselves ${rows}: ${advice}`;
      return { code, place: { file: JOURNAL_FILE, line }, message };
    });
    return { entries: this.#entries, problems: [...changed, ...this.#problems], tail, tornBytes };
  }

  #takeRow(cells: Cells, { number: line, end: wholeBytes, missingEnd }: Line): void {
    this.#judge(cells);
    const sequence = rowNumber(cells) ?? this.#tail.sequence + 1;
    try {
      const event = cellsToEvent(cells);
      this.#entries.push({ sequence, line, recorded: cells.recorded, event });
    } catch (error) {
      this.#report('row-not-understood', `row ${sequence}: ${(error as Error).message}`);
    }
    const [part, parts] = cells.part.split(' of ');
    this.#inCommand = part !== parts;
    this.#advance({ sequence, check: cells.check, wholeBytes, missingLineEnd: missingEnd });
  }

  #takeUnreadable({ text, end, missingEnd }: Line): void {
    const isEmpty = isEmptyRow(text);
    if (isEmpty) this.#report('row-empty', 'an empty line was added');
    else this.#report('row-unreadable', 'is not a row of a journal: it was changed by hand');
    // Its check, where it still shows, lets the next row be judged for itself.
    const check = /[0-9a-f]{16}$/u.exec(text)?.[0] ?? this.#tail.check;
    const sequence = isEmpty ? this.#tail.sequence : this.#tail.sequence + 1;
    this.#advance({ sequence, check, wholeBytes: end, missingLineEnd: missingEnd });
  }

  /** Names a row that does not follow the one before. */
  #judge(cells: Cells): void {
    const sequence = rowNumber(cells);
    const expected = this.#tail.sequence + 1;
    if (sequence !== null && sequence > expected) {
      const last = sequence - 1;
      const rows = last === expected ? `row ${expected} is` : `rows ${expected} to ${last} are`;
      this.#report('row-missing', `${rows} missing before row ${sequence}`);
    } else if (sequence !== expected) {
      this.#report('row-out-of-place', `row ${expected} must stand here, got row ${quoted(cells.sequence)}`);
    } else if (!isVouchedFor(cells, this.#tail)) {
      this.#report('row-changed', `row ${sequence} does not match its check: it was changed by hand`);
    }
  }

  #advance(tail: Partial<JournalTail>): void {
    this.#tail = { ...this.#tail, ...tail };
    if (this.#inCommand) return;
    this.#whole = { tail: this.#tail, entries: this.#entries.length, problems: this.#problems.length };
  }

  #note(change: FormChange): void {
    if (!this.#changes.has(change)) this.#changes.set(change, this.#line);
  }

  #report(code: string, message: string): void {
    this.#problems.push({ code, place: { file: JOURNAL_FILE, line: this.#line }, message });
  }
}

/** The number that a row gives itself, or null for what is none. */
function rowNumber({ sequence }: Cells): number | null {
  return /^[1-9]\d{0,14}$/u.test(sequence) ? Number(sequence) : null;
}

function isHeader(cells: Cells): boolean {
  return COLUMNS.every((column) => cells[column] === column);
}

function isVouchedFor(cells: Cells, tail: JournalTail): boolean {
  return cells.check === checkOf(tail.check, cells);
}
