import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import type { JournalEvent } from '../../../src/core/journal-event.ts';
import { type Journal, readJournal } from '../../../src/logbook/journal-reader.ts';
import { appendEvents } from '../../../src/logbook/logbook.ts';
import { newLogbook } from '../../support/logbooks.ts';

const remark = (text: string): JournalEvent => ({
  event: 'text',
  time: '2026-03-01T10:00:00Z',
  text,
  value: null,
  subject: null,
  powerW: null,
});

/** A journal of a first row and four single remarks, as lines without their ends. */
async function journalLines(): Promise<string[]> {
  const folder = await newLogbook();
  for (const text of ['a', 'b', 'c', 'd']) await appendEvents(folder, [remark(text)]);
  return readFileSync(join(folder, 'journal.csv'), 'utf8').trimEnd().split('\r\n');
}

const read = (lines: readonly string[], end = '\r\n'): Journal =>
  readJournal(Buffer.from(lines.map((line) => line + end).join('')));
const found = ({ problems }: Journal) => problems.map(({ code, place }) => `${code} line ${place.line}`);
const remarks = ({ entries }: Journal) => entries.map(({ event }) => event.text).join('');

describe('reading a journal', () => {
  it('finds nothing wrong with what was written', async () => {
    expect(found(read(await journalLines()))).toEqual([]);
  });

  it.each(['\n', '\r', '\r\r\n'])(
    'names changed line ends once (%j), and reads and verifies every row',
    async (end) => {
      const lines = await journalLines();
      const journal = read(lines, end);
      expect(found(journal)).toEqual(['line-ends-changed line 1']);
      expect(journal.problems[0]?.message).toBe(
        'line ends were changed, by a spreadsheet or an editor; the rows themselves are as they were written, and nothing is ' +
          'lost: saving it with CRLF line ends satisfies check, and only the commands of this program should write to it',
      );
      expect(remarks(journal)).toBe('abcd');
      lines[3] = lines[3]?.replace(',b,', ',B,') ?? '';
      expect(found(read(lines, end))).toEqual(['line-ends-changed line 1', 'row-changed line 4']);
    },
  );

  it.each<[string, (line: string, i: number) => string, string]>([
    ['a byte order mark', (line, i) => (i === 0 ? `\uFEFF${line}` : line), 'byte-order-mark-added line 1'],
    ['semicolons', (line) => line.replaceAll(',', ';'), 'delimiter-changed line 1'],
    ['tabs', (line) => line.replaceAll(',', '\t'), 'delimiter-changed line 1'],
    ['empty cells at the end of each row', (line) => `${line},,`, 'empty-cells-added line 1'],
    ['quotes that no cell needs', (line) => `"${line.replaceAll(',', '","')}"`, ''],
  ])('names %s once, and reads and verifies every row', async (_, save, expected) => {
    const lines = await journalLines();
    const journal = read(lines.map(save));
    expect(found(journal)).toEqual(expected === '' ? [] : [expected]);
    expect(remarks(journal)).toBe('abcd');
    expect(journal.tail).toMatchObject({ sequence: 5, check: read(lines).tail.check });
  });

  it('goes on after a row whose form was changed, and after one that ends in a CR alone', async () => {
    const folder = await newLogbook();
    const path = join(folder, 'journal.csv');
    for (const change of [/,/gu, /\n/gu] as const) {
      const text = readFileSync(path, 'utf8').replace(change, change.source === ',' ? ';' : '');
      writeFileSync(path, text);
      await appendEvents(folder, [remark('a')]);
    }
    const journal = readJournal(readFileSync(path));
    expect(remarks(journal)).toBe('aa');
    expect(found(journal)).toEqual(['line-ends-changed line 1', 'delimiter-changed line 1']);
  });

  it('names a row changed by hand, reads it as it stands, and trusts the rows after it', async () => {
    const lines = await journalLines();
    lines[3] = lines[3]?.replace(',b,', ',B,') ?? '';
    const journal = read(lines);
    expect(found(journal)).toEqual(['row-changed line 4']);
    expect(remarks(journal)).toBe('aBcd');
  });

  it('names rows removed by hand', async () => {
    const lines = await journalLines();
    const journal = read(lines.toSpliced(2, 2));
    expect(journal.problems).toHaveLength(1);
    expect(journal.problems[0]).toMatchObject({
      code: 'row-missing',
      message: 'rows 2 to 3 are missing before row 4',
      place: { line: 3 },
    });
  });

  it('names rows swapped by hand', async () => {
    const [header = '', first = '', second = '', third = '', ...rest] = await journalLines();
    const codes = found(read([header, first, third, second, ...rest]));
    expect(codes).toContain('row-missing line 3');
    expect(codes).toContain('row-out-of-place line 4');
  });

  it('names a row added by hand', async () => {
    const lines = await journalLines();
    expect(found(read(lines.toSpliced(3, 0, lines[2] as string)))).toEqual(['row-out-of-place line 4']);
  });

  it('names a line that is no row, even with an open quote, and reads the rest', async () => {
    const lines = await journalLines();
    lines[3] = `"${lines[3]}`;
    const journal = read(lines);
    expect(found(journal)).toEqual(['row-unreadable line 4']);
    expect(remarks(journal)).toBe('acd');
  });

  it('names an empty line, a missing header and an empty file', async () => {
    const lines = await journalLines();
    expect(found(read(lines.toSpliced(3, 0, '')))).toEqual(['row-empty line 4']);
    expect(found(read(lines.toSpliced(3, 0, ','.repeat(22))))).toEqual(['row-empty line 4']);
    expect(found(read(lines.slice(1)))).toEqual(['journal-header line 1']);
    expect(found(readJournal(new Uint8Array()))).toEqual(['journal-header line 0']);
  });

  it('names an event that it does not know, as a newer program may write', async () => {
    const lines = await journalLines();
    lines[5] = lines[5]?.replace(',text,', ',eclipse,') ?? '';
    expect(found(read(lines))).toEqual(['row-changed line 6', 'row-not-understood line 6']);
  });

  it('sets a torn last row aside and keeps every row before it', async () => {
    const lines = await journalLines();
    const whole = Buffer.from(`${lines.slice(0, -1).join('\r\n')}\r\n`);
    const last = Buffer.from(`${lines.at(-1)}\r\n`);
    for (let kept = 1; kept < last.length - 2; kept++) {
      const journal = readJournal(Buffer.concat([whole, last.subarray(0, kept)]));
      expect(found(journal)).toEqual(['journal-torn line 6']);
      expect(remarks(journal)).toBe('abc');
      expect(journal.tail.wholeBytes).toBe(whole.length);
    }
  });

  it('takes a last row that lacks nothing but its line end as whole', async () => {
    const text = `${(await journalLines()).join('\r\n')}\r\n`;
    for (const [cut, missing] of [
      [1, '\n'],
      [2, '\r\n'],
    ] as const) {
      const journal = readJournal(Buffer.from(text.slice(0, -cut)));
      expect(found(journal)).toEqual([]);
      expect(remarks(journal)).toBe('abcd');
      expect(journal.tail.missingLineEnd).toBe(missing);
    }
  });

  it('takes the rows of one command all or not at all', async () => {
    const folder = await newLogbook();
    await appendEvents(folder, [remark('a')]);
    await appendEvents(folder, ['b', 'c', 'd'].map(remark));
    const path = join(folder, 'journal.csv');
    const lines = readFileSync(path, 'utf8').trimEnd().split('\r\n');
    const journal = read(lines.slice(0, -1));
    expect(found(journal)).toEqual(['journal-torn line 5']);
    expect(remarks(journal)).toBe('a');

    writeFileSync(
      path,
      lines
        .slice(0, -1)
        .map((line) => `${line}\r\n`)
        .join(''),
    );
    await appendEvents(folder, [remark('e')]);
    expect(remarks(readJournal(readFileSync(path)))).toBe('ae');
  });
});
