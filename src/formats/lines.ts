/** One line of a text, without its end. */
export interface TextLine {
  readonly text: string;
  /** Counted from 1. */
  readonly number: number;
  /** Where it begins in the whole text. */
  readonly offset: number;
}

/** Walks through the lines of a text, whatever ends them: LF, CR LF or CR. An empty last line is none. */
export function* textLines(text: string): Generator<TextLine> {
  const end = /\r\n|\n|\r/gu;
  let offset = 0;
  for (let number = 1; offset < text.length; number++) {
    end.lastIndex = offset;
    const found = end.exec(text);
    yield { text: text.slice(offset, found?.index ?? text.length), number, offset };
    if (found === null) return;
    offset = end.lastIndex;
  }
}
