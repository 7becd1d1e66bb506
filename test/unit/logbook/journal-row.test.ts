import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { formedRow } from '../../../src/logbook/journal-form.ts';
import { cellToText, rowText, textToCell } from '../../../src/logbook/journal-row.ts';
import { appendEvents } from '../../../src/logbook/logbook.ts';
import { newLogbook } from '../../support/logbooks.ts';

describe('a row of the journal', () => {
  it('makes what a spreadsheet takes for a formula harmless, and gives it back', () => {
    for (const text of ['=1+1', '+cmd', '-2', '@sum', '\t=1', "'quoted", '=HYPERLINK("a","b")']) {
      expect(textToCell(text)).toMatch(/^'/u);
      expect(cellToText(textToCell(text))).toBe(text);
    }
    expect(textToCell('plain')).toBe('plain');
  });

  it('keeps a text of several lines on one line, and gives it back', () => {
    const text = 'one\r\ntwo\n\\n three\\';
    expect(textToCell(text)).not.toMatch(/[\r\n]/u);
    expect(cellToText(textToCell(text))).toBe(text);
  });

  it('writes half a character pair as the replacement character, as UTF-8 must', () => {
    expect(cellToText(textToCell('a\ud800b'))).toBe('a\ufffdb');
  });

  it('is RFC 4180, and its check can be computed without us', async () => {
    const folder = await newLogbook();
    await appendEvents(folder, [
      {
        event: 'inspection',
        time: '2026-03-01T10:00:00Z',
        text: 'green, "crusty"\n=bad',
        value: null,
        subject: 'plate, strap',
        powerW: null,
      },
    ]);
    const rows: string[][] = parse(readFileSync(join(folder, 'journal.csv')), { relax_column_count: false });
    let previous = '';
    for (const cells of rows.slice(1)) {
      const expected = createHash('sha256')
        .update(JSON.stringify([previous, ...cells.slice(0, -1)]))
        .digest('hex')
        .slice(0, 16);
      expect(cells.at(-1)).toBe(expected);
      previous = expected;
    }
    expect(rows).toHaveLength(3);
    expect(rows[2]).toContain('plate, strap');
  });

  it('stays one line with CRLF at its end', () => {
    const { cells } = formedRow(Array.from({ length: 23 }, (_, i) => String(i)).join(','));
    expect(cells && rowText(cells)).toBe(`${Array.from({ length: 23 }, (_, i) => i).join(',')}\r\n`);
  });
});
