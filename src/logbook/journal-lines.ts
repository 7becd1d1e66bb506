/** One line of a journal. */
export interface Line {
  readonly number: number;
  /** Without its line end. */
  readonly text: string;
  /** Offset of the byte after it. */
  readonly end: number;
  /** Whether it ends otherwise than by CRLF, as every line is written. */
  readonly isEndChanged: boolean;
  /** What the last line of the file still needs before another may follow. */
  readonly missingEnd: '' | '\n' | '\r\n';
}

const LF = 0x0a;
const CR = 0x0d;

/**
 * The lines of a file, whatever an editor has made of their ends: LF, CRLF, CR, or CRLF to which another CR was
 * added. No row holds a line break, so each of them ends a line.
 *
 * @param after - whole lines at the beginning that are passed over, and their bytes
 */
export function* linesOf(bytes: Buffer, after = { lines: 0, bytes: 0 }): Generator<Line> {
  let number = after.lines;
  let newline = -1;
  for (let start = after.bytes; start < bytes.length; ) {
    if (newline < start) {
      const next = bytes.indexOf(LF, start);
      newline = next === -1 ? bytes.length : next;
    }
    const untilReturn = bytes.subarray(start, newline).indexOf(CR);
    const textEnd = untilReturn === -1 ? newline : start + untilReturn;
    let end = textEnd;
    while (bytes[end] === CR) end++;
    end = bytes[end] === LF ? end + 1 : Math.min(textEnd + 1, bytes.length);
    const lineEnd = bytes.toString('latin1', textEnd, end);
    const missingEnd = end < bytes.length || lineEnd.endsWith('\n') ? '' : lineEnd === '' ? '\r\n' : '\n';
    yield {
      number: ++number,
      text: bytes.toString('utf8', start, textEnd),
      end,
      isEndChanged: missingEnd === '' && lineEnd !== '\r\n',
      missingEnd,
    };
    start = end;
  }
}
