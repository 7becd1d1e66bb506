import { touchstoneLines } from './lexer.ts';
import { parseOptionLine } from './option-line.ts';

/** Whether a text shows itself as Touchstone: a version keyword or an option line that says something, before numbers. */
export function saysTouchstone(text: string): boolean {
  for (const line of touchstoneLines(text)) {
    if (line.kind === 'keyword' && line.keyword === 'version') return true;
    // A bare # is a whole option line, but in other files it is an empty comment.
    if (line.kind === 'option' && line.text.length > 1 && !('wrong' in parseOptionLine(line.text)))
      return true;
    if (line.kind === 'data' && /^[+-]?[.,]?\d/u.test(line.tokens[0]?.text ?? '')) return false;
  }
  return false;
}

/** Whether a file name ends as Touchstone names do: `.s1p`, `.z1p`, `.ts`. */
export function touchstoneName(name: string): boolean {
  return /\.(?:[syzgh]\d+p|ts)$/iu.test(name);
}
