import { describePlace, UserError } from '../core/user-error.ts';

/** `note`: it was read, but know this. `refused`: something in the file could not be taken. */
export type Severity = 'note' | 'refused';

/** One thing to know about a file; lines and columns (characters) count from 1, null where they do not apply. */
export interface Problem {
  readonly severity: Severity;
  /** Stable, kebab-case, for programs. */
  readonly code: string;
  /** For people: what is needed, what came; lower case, no final dot. */
  readonly message: string;
  readonly line: number | null;
  readonly column: number | null;
}

/** How many problems of one code are spelled out; the rest are counted. */
export const PROBLEMS_PER_CODE = 10;

/** Collects what a parser meets, so that it need not stop at the first. */
export class ProblemList {
  readonly #kept: Problem[] = [];
  readonly #counts = new Map<string, { severity: Severity; count: number; lastLine: number | null }>();

  note(code: string, message: string, line: number | null = null, column: number | null = null): void {
    this.#add({ severity: 'note', code, message, line, column });
  }

  refuse(code: string, message: string, line: number | null = null, column: number | null = null): void {
    this.#add({ severity: 'refused', code, message, line, column });
  }

  refuseBecause(error: UserError): void {
    this.refuse(error.code, error.message, error.place.line ?? null, error.place.column ?? null);
  }

  get anyRefused(): boolean {
    return this.#kept.some((problem) => problem.severity === 'refused');
  }

  /** What was met, in order; more than {@link PROBLEMS_PER_CODE} of a code end in one line with their count. */
  list(): Problem[] {
    const more = [...this.#counts]
      .filter(([, { count }]) => count > PROBLEMS_PER_CODE)
      .map(([code, { severity, count, lastLine }]) => ({
        severity,
        code,
        message: `and ${count - PROBLEMS_PER_CODE} more of this kind, the last in this line`,
        line: lastLine,
        column: null,
      }));
    return [...this.#kept, ...more];
  }

  #add(problem: Problem): void {
    const seen = this.#counts.get(problem.code) ?? { severity: problem.severity, count: 0, lastLine: null };
    seen.count++;
    seen.lastLine = problem.line;
    this.#counts.set(problem.code, seen);
    if (seen.count <= PROBLEMS_PER_CODE) this.#kept.push(problem);
  }
}

/** What leaves a whole file unread, for throwing; {@link ProblemList.refuseBecause} turns it into a problem. */
export function wholeFile(
  code: string,
  message: string,
  line?: number | null,
  column?: number | null,
): UserError {
  return new UserError(code, message, { place: { line: line ?? undefined, column: column ?? undefined } });
}

/** `file:line:column: message`, as far as known. */
export function describeProblem(problem: Problem, file: string): string {
  return `${describePlace(placeOf(problem, file))}${problem.message}`;
}

/** The first refusal of a file as an error, with the count of the others; null when nothing was refused. */
export function refusalOf(problems: readonly Problem[], file: string): UserError | null {
  const refused = problems.filter((problem) => problem.severity === 'refused');
  const first = refused[0];
  if (first === undefined) return null;
  const others = refused.length === 1 ? '' : ` (and ${refused.length - 1} more in this file)`;
  return new UserError(first.code, `${first.message}${others}`, { place: placeOf(first, file) });
}

function placeOf(problem: Problem, file: string): { file: string; line?: number; column?: number } {
  return {
    file,
    ...(problem.line === null ? {} : { line: problem.line }),
    ...(problem.column === null ? {} : { column: problem.column }),
  };
}
