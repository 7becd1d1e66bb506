import { textLines } from './lines.ts';
import type { ProblemList } from './problem.ts';

/** Larger files are refused: a sweep of 10,000 points is about half a megabyte. */
export const MAX_FILE_BYTES: number = 8 * 1024 * 1024;

/** More lines are refused: no sweep has so many points, and each takes a hundred times its bytes while it is read. */
export const MAX_LINES = 200_000;

/** Longer lines are refused: no table of one sweep has them, and they hide what a message should show. */
export const MAX_LINE_CHARACTERS = 10_000;

/**
 * Bytes of unknown origin as text: a byte order mark decides; else UTF-8 if it is valid; else windows-1252, noted.
 *
 * @returns the text without its mark, or null when the file is refused (too large, a line too long or too many, binary)
 */
export function decodeText(bytes: Uint8Array, problems: ProblemList): string | null {
  if (bytes.length > MAX_FILE_BYTES) {
    problems.refuse('file-too-large', `a file may have ${MAX_FILE_BYTES} bytes, got ${bytes.length}`);
    return null;
  }
  return checkText(decode(bytes, problems), problems);
}

/** The checks of {@link decodeText} for text that is decoded already. */
export function checkText(text: string, problems: ProblemList): string | null {
  if (text.includes('\0')) {
    problems.refuse(
      'file-binary',
      'needs a text file, got binary data (save a spreadsheet as CSV; UTF-16 needs its byte order mark)',
    );
    return null;
  }
  const line = findLineTooFar(text);
  if (line === null) return text;
  if (line > MAX_LINES)
    problems.refuse('too-many-lines', `a file may have ${MAX_LINES} lines, got more`, line);
  else {
    const message = `a line may have ${MAX_LINE_CHARACTERS} characters, got more`;
    problems.refuse('line-too-long', message, line, MAX_LINE_CHARACTERS + 1);
  }
  return null;
}

function decode(bytes: Uint8Array, problems: ProblemList): string {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    problems.note('encoding-assumed', 'is not UTF-8, read as windows-1252');
    return fromWindows1252(bytes);
  }
}

/** 0x80 to 0x9f in windows-1252; the five that it does not define stay as they are. */
const HIGH_CONTROLS = '€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ';

/** Node 20 decodes windows-1252 as Latin-1; this puts the difference right and changes nothing elsewhere. */
function fromWindows1252(bytes: Uint8Array): string {
  const text = new TextDecoder('windows-1252').decode(bytes);
  return text.replace(
    /[\u0080-\u009f]/gu,
    (character) => HIGH_CONTROLS[character.charCodeAt(0) - 0x80] ?? character,
  );
}

/** Number of the first line that is too long or one too many, or null. Lines end in LF, CR LF or CR. */
function findLineTooFar(text: string): number | null {
  if (text.length <= MAX_LINE_CHARACTERS) return null;
  const tooFar = (length: number, line: number) => length > MAX_LINE_CHARACTERS || line > MAX_LINES;
  if (/\r(?!\n)/u.test(text)) {
    for (const line of textLines(text)) if (tooFar(line.text.length, line.number)) return line.number;
    return null;
  }
  // Nearly every file: several times faster than the general way.
  for (let [from, line] = [0, 1]; from < text.length; line++) {
    const end = text.indexOf('\n', from);
    const to = end < 0 ? text.length : text[end - 1] === '\r' ? end - 1 : end;
    if (tooFar(to - from, line)) return line;
    if (end < 0) return null;
    from = end + 1;
  }
  return null;
}
