import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { readGrownJournal } from '../../../src/logbook/journal-cache.ts';
import { eventToCells } from '../../../src/logbook/journal-csv.ts';
import { readJournal } from '../../../src/logbook/journal-reader.ts';
import { checkOf, FIRST_CHECK, HEADER, rowText } from '../../../src/logbook/journal-row.ts';
import { temporaryFolder } from '../../support/logbooks.ts';

/** A journal of so many lifted radials. */
function journalOf(rows: number): Buffer {
  let check = FIRST_CHECK;
  let text = HEADER;
  for (let i = 1; i <= rows; i++) {
    const time = new Date(60_000 * i).toISOString();
    const event = eventToCells({ event: 'lift', time, text: `remark ${i}`, number: i });
    const cells = { ...event, sequence: String(i), part: '1 of 1', recorded: time };
    check = checkOf(check, cells);
    text += rowText({ ...cells, check });
  }
  return Buffer.from(text);
}

const journal = journalOf(1100);
const beginning = journal.subarray(0, journalOf(1040).length);
const changed = Buffer.from(journal.toString().replace('remark 7,', 'remark 8,'));

/** A folder in which the first rows are remembered, and the file that does. */
function remembering(): { folder: string; file: string } {
  const folder = temporaryFolder();
  readGrownJournal(folder, beginning);
  return { folder, file: join(folder, 'derived', 'journal-rows.json') };
}

describe('reading a journal that has grown', () => {
  it('reads the rows that were added to a remembered beginning', () => {
    const { folder, file } = remembering();
    const kept = readFileSync(file);
    expect(readGrownJournal(folder, journal)).toEqual(readJournal(journal));
    expect(kept.includes('remark 1040')).toBe(true);
  });

  it.each<[string, (bytes: Buffer) => Buffer]>([
    ['a flipped bit', (bytes) => Buffer.from(bytes.map((byte, i) => (i === 5000 ? byte ^ 1 : byte)))],
    ['an end cut off', (bytes) => bytes.subarray(0, -10)],
    ['other content', () => Buffer.from('spoilt')],
    ['nothing', () => Buffer.alloc(0)],
  ])('is not led astray by %s in what it remembers', (_, spoil) => {
    const { folder, file } = remembering();
    writeFileSync(file, spoil(readFileSync(file)));
    expect(readGrownJournal(folder, journal)).toEqual(readJournal(journal));
  });

  it('sees a remembered row that was changed since, a journal that was cut, and another journal', () => {
    const { folder } = remembering();
    const codes = (bytes: Buffer) => readGrownJournal(folder, bytes).problems.map(({ code }) => code);
    expect(codes(changed)).toEqual(['row-changed']);
    expect(codes(journal.subarray(0, 5000))).toEqual(['journal-torn']);
    expect(codes(journalOf(3))).toEqual([]);
  });

  it('remembers nothing of a journal in which something is wrong, that lacks a line end, or that is short', () => {
    for (const bytes of [changed, journal.subarray(0, -2), journalOf(20)]) {
      const folder = temporaryFolder();
      readGrownJournal(folder, bytes);
      expect(existsSync(join(folder, 'derived'))).toBe(false);
    }
  });

  it('does without where the folder is not its own to write to', () => {
    const folder = temporaryFolder();
    writeFileSync(join(folder, 'derived'), '');
    expect(readGrownJournal(folder, journal)).toEqual(readJournal(journal));
  });
});
