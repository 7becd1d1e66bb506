import { UserError } from '../core/user-error.ts';
import { describeProblem, type Problem } from '../formats/problem.ts';
import { DELIMITER_NAMES, type ReadOptions } from '../formats/read-options.ts';
import { pasteable } from './pasteable.ts';

/** A problem of a file with its place, and the flags that settle it. */
export function problemText(problem: Problem, file: string): string {
  return describeProblem(problem, file) + flagsText(problem);
}

/** The flags that settle a problem, one text a choice: `--delimiter semicolon --decimal comma`. */
export function settlingFlags({ settledBy }: Problem): string[] {
  return settledBy?.choices.map((choice) => pasteable(wordsOf(choice))) ?? [];
}

/** The first refusal of a file as an error, with the count of the others; null when nothing was refused. */
export function refusalOf(problems: readonly Problem[], file: string): UserError | null {
  const refused = problems.filter(({ severity }) => severity === 'refused');
  const first = refused[0];
  if (first === undefined) return null;
  const others = refused.length === 1 ? '' : ` (and ${refused.length - 1} more in this file)`;
  const place = { file, line: first.line ?? undefined, column: first.column ?? undefined };
  return new UserError(first.code, `${first.message}${flagsText(first)}${others}`, { place });
}

function flagsText(problem: Problem): string {
  const flags = settlingFlags(problem);
  if (flags.length === 0) return '';
  if (problem.severity === 'note') return ` (${flags[0]?.replace(/ .*/u, '')} says otherwise)`;
  return `; say ${problem.settledBy?.examples === true ? 'which, such as ' : ''}${flags.join(' or ')}`;
}

function wordsOf({ columns, delimiter, decimal, unit, angle, referenceOhm, port }: ReadOptions): string[] {
  const flags = {
    '--columns': columns,
    '--delimiter': delimiter === undefined ? undefined : DELIMITER_NAMES[delimiter],
    '--decimal': decimal,
    '--unit': unit,
    '--angle': angle,
    '--reference': referenceOhm,
    '--port-of-file': port,
  };
  return Object.entries(flags).flatMap(([flag, value]) => (value === undefined ? [] : [flag, `${value}`]));
}
