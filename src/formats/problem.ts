import { describePlace, UserError } from '../core/user-error.ts';
import type { ReadOptions } from './read-options.ts';

/** `note`: it was read, but know this. `refused`: something in the file could not be taken. */
export type Severity = 'note' | 'refused';

/** One thing to know about a file; lines and columns (characters) count from 1, null where they do not apply. */
export interface Problem {
  readonly severity: Severity;
  /** Stable, kebab-case, for programs. */
  readonly code: string;
  /** For people: what is needed, what came; lower case, no final dot. Options are no part of it. */
  readonly message: string;
  readonly line: number | null;
  readonly column: number | null;
  /** The options that settle it, null where none does. */
  readonly settledBy: Settling | null;
}

/** The readings that are open, each as options with which the file is read in that way. */
export interface Settling {
  readonly choices: readonly ReadOptions[];
  /** True where there are more choices than these. */
  readonly examples: boolean;
}

/** How many problems of one code are spelled out; the rest are counted. */
export const PROBLEMS_PER_CODE = 10;

/** What a parser met, and where. */
type Met = [
  code: string,
  message: string,
  line?: number | null,
  column?: number | null,
  settledBy?: Settling | null,
];

/** Collects what a parser meets, so that it need not stop at the first. */
export class ProblemList {
  readonly #kept: Problem[] = [];
  readonly #counts = new Map<string, { severity: Severity; count: number; lastLine: number | null }>();

  note(...met: Met): void {
    this.#add('note', met);
  }

  refuse(...met: Met): void {
    this.#add('refused', met);
  }

  refuseBecause(error: UserError): void {
    const { line = null, column = null } = error.place;
    const settledBy = error instanceof OpenReading ? error.settledBy : null;
    this.refuse(error.code, error.message, line, column, settledBy);
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
        settledBy: null,
      }));
    return [...this.#kept, ...more];
  }

  #add(severity: Severity, [code, message, line = null, column = null, settledBy = null]: Met): void {
    const seen = this.#counts.get(code) ?? { severity, count: 0, lastLine: null };
    seen.count++;
    seen.lastLine = line;
    this.#counts.set(code, seen);
    if (seen.count <= PROBLEMS_PER_CODE)
      this.#kept.push({ severity, code, message, line, column, settledBy });
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

/** A file that can be read in more than one way, for throwing; an option chooses. */
export class OpenReading extends UserError {
  readonly settledBy: Settling;

  /** @param examples - there are more choices than these */
  constructor(
    code: string,
    message: string,
    choices: readonly ReadOptions[],
    { line, examples = false }: { line?: number | undefined; examples?: boolean } = {},
  ) {
    super(code, message, { place: { line } });
    this.settledBy = { choices, examples };
  }
}

/** `file:line:column: message`, as far as known. */
export function describeProblem({ line, column, message }: Problem, file: string): string {
  return `${describePlace({ file, line: line ?? undefined, column: column ?? undefined })}${message}`;
}
