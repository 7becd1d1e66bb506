import { readFileSync } from 'node:fs';
import type { decodeLine } from '../../src/instrument/codec/decode-line.ts';
import { layoutOf } from '../../src/instrument/codec/message-layouts.ts';

/** A row of `firmware-protocol/vectors/lines.txt`. */
export interface LineVector {
  readonly outcome: string;
  readonly line: Uint8Array;
}

/** The rows of a file of the protocol's folder, without comments and empty ones. */
export function readRows(file: string): string[] {
  return rowsOf(readFileSync(new URL(`../../firmware-protocol/${file}`, import.meta.url), 'utf8'));
}

export function readLineVectors(): LineVector[] {
  return readRows('vectors/lines.txt').map((row) => {
    const tab = row.indexOf('\t');
    return { outcome: row.slice(0, tab), line: unescapeBytes(row.slice(tab + 1)) };
  });
}

/** What became of a line, in the notation of the vectors: the failure, or the message's word and values. */
export function describeOutcome(decoded: ReturnType<typeof decodeLine>): string {
  if (decoded.kind === 'unreadable') return decoded.reason;
  const { word, fields } = layoutOf(decoded.kind);
  const values = new Map<string, unknown>(Object.entries(decoded));
  const spelled = fields.map(({ name, form }) =>
    form === 'text' ? `"${values.get(name)}"` : values.get(name),
  );
  return [word, ...spelled].join(' ');
}

/** `\xHH` stands for a byte and `\\` for a backslash. */
function unescapeBytes(text: string): Uint8Array {
  const plain = text.replace(/\\(?:x([0-9A-F]{2})|(\\))/g, (_, hex: string | undefined) =>
    hex === undefined ? '\\' : String.fromCharCode(Number.parseInt(hex, 16)),
  );
  return Uint8Array.from(plain, (character) => character.charCodeAt(0));
}

/** As the vectors are written: all but letters, digits and a few marks becomes `\xHH`. */
export function escapeBytes(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => {
    const character = String.fromCharCode(byte);
    return /[A-Za-z0-9,*.-]/.test(character)
      ? character
      : `\\x${byte.toString(16).toUpperCase().padStart(2, '0')}`;
  }).join('');
}

/** One row of an exchange: its mark and the rest. */
export interface ExchangeRow {
  readonly mark: string;
  readonly text: string;
}

export interface Exchange {
  readonly title: string;
  readonly rows: readonly ExchangeRow[];
}

/** The exchanges in the notation of `firmware-protocol/vectors/exchanges.txt`. */
export function parseExchanges(rows: readonly string[]): Exchange[] {
  const exchanges: { title: string; rows: ExchangeRow[] }[] = [];
  for (const row of rows) {
    const [mark = '', ...rest] = row.split(' ');
    const text = rest.join(' ');
    if (mark === 'exchange') exchanges.push({ title: text, rows: [] });
    else exchanges.at(-1)?.rows.push({ mark, text });
  }
  return exchanges;
}

/** The worked exchanges of the prose, as rows of an exchange file. */
export function readWorkedExchangeRows(): string[] {
  const prose = readFileSync(new URL('../../firmware-protocol/README.md', import.meta.url), 'utf8');
  const blocks = [...prose.matchAll(/^```exchange\n(.*?)^```/gms)].map(([, block = '']) => block);
  return blocks.flatMap((block, index) => [`exchange README ${index + 1}`, ...rowsOf(block)]);
}

function rowsOf(text: string): string[] {
  return text.split('\n').filter((row) => row !== '' && !row.startsWith('#'));
}
