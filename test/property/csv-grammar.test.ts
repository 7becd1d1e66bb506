import { CsvError as LibraryError, parse as libraryParse, type Options } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { CsvError, parse } from '../../web/csv-grammar.ts';

const SEED = 20_261_125;

/** As `formats` asks for tables with quotes. */
const ASKED = { relax_column_count: true, skip_empty_lines: true, relax_quotes: true } as const;

type Cut = readonly unknown[] | { readonly code: string; readonly lines: unknown };

function cut(how: () => readonly unknown[]): Cut {
  try {
    return how();
  } catch (error) {
    if (error instanceof CsvError) return { code: error.code, lines: error.lines };
    if (error instanceof LibraryError) return { code: error.code, lines: error['lines'] };
    throw error;
  }
}

function textOf(...pieces: string[]): fc.Arbitrary<string> {
  const piece = fc.constantFrom('"', '"', ',', ';', ' ', 'a', '1.5', 'Ω', '""', ...pieces);
  return fc.array(piece, { maxLength: 24 }).map((some) => some.join(''));
}

describe('the small CSV grammar of the page', () => {
  it('cuts and counts as the library of the commands does, quotes broken in any way included', () => {
    fc.assert(
      fc.property(textOf('\n', '\n'), fc.constantFrom(',', ';'), fc.boolean(), (text, delimiter, info) => {
        const options: Options & { info: boolean } = { ...ASKED, delimiter, record_delimiter: '\n', info };
        const library = cut(() => libraryParse(text, options));
        const wanted = info && Array.isArray(library) ? library.map(withLinesAlone) : library;
        expect(cut(() => parse(text, { delimiter, record_delimiter: '\n', info }))).toEqual(wanted);
      }),
      { seed: SEED, numRuns: 4000 },
    );
  });

  it('cuts alike whatever ends the lines', () => {
    const record_delimiter = ['\r\n', '\n', '\r'];
    fc.assert(
      fc.property(textOf('\r\n', '\n', '\r'), (text) => {
        const library = cut(() => libraryParse(text, { ...ASKED, delimiter: ',', record_delimiter }));
        const own = cut(() => parse(text, { delimiter: ',', record_delimiter }));
        expect('code' in own ? own.code : own).toEqual('code' in library ? library.code : library);
      }),
      { seed: SEED, numRuns: 4000 },
    );
  });

  // The library takes a CR LF within quotes for two lines, an editor for one.
  it('counts lines as an editor does', () => {
    const rows = parse('"a\r\nb",1\r\n"c",2\r\n', {
      delimiter: ',',
      record_delimiter: ['\r\n', '\n', '\r'],
      info: true,
    });
    expect(rows).toEqual([
      { record: ['a\r\nb', '1'], info: { lines: 2 } },
      { record: ['c', '2'], info: { lines: 3 } },
    ]);
  });
});

function withLinesAlone(row: unknown): unknown {
  const { record, info } = row as { record: string[]; info: { lines: number } };
  return { record, info: { lines: info.lines } };
}
