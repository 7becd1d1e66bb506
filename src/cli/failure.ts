import type { CommanderError } from 'commander';
import { describePlace, EXIT_CODES, UserError } from '../core/user-error.ts';
import { type Answer, printAnswer } from './answer.ts';
import type { Io } from './io.ts';

/** What `--json` prints of a failure, alone or beside what was done all the same. Unknown parts of `where` are null. */
export interface FailureJson {
  readonly error: {
    /** Stable, kebab-case. */
    readonly code: string;
    readonly exitCode: number;
    readonly where: {
      readonly file: string | null;
      readonly line: number | null;
      readonly column: number | null;
      readonly field: string | null;
    };
    /** The sentence of standard error without its place: what came, and what is needed. */
    readonly message: string;
  };
}

/** A failure in the form for programs. */
export function failureJson(error: UserError | CommanderError): FailureJson {
  const {
    file = null,
    line = null,
    column = null,
    field = null,
  } = error instanceof UserError ? error.place : {};
  return {
    error: {
      code: error instanceof UserError ? error.code : wordsOfCommander(error.code),
      exitCode: exitCodeOf(error),
      where: { file, line, column, field },
      message: error.message.replace(/^error: /u, ''),
    },
  };
}

/** The sentence for people. */
export function failureText({ place, message }: UserError): string {
  return `turfwire: ${describePlace(place)}${message}`;
}

/** 0 for what is no failure, such as help that was asked for. */
export function exitCodeOf(error: UserError | CommanderError): number {
  if (error instanceof UserError) return EXIT_CODES[isOfCommandLine(error) ? 'command-line' : error.kind];
  return error.exitCode === 0 ? 0 : EXIT_CODES['command-line'];
}

/**
 * Prints what was done or found although something failed, then fails: with `--json`, one document holds both.
 * @throws UserError the failure, always
 */
export function printAndFail(io: Io, { json, text }: Answer, asJson: boolean, failure: UserError): never {
  if (asJson || text !== '') {
    printAnswer(io, { json: { ...(json as object), ...failureJson(failure) }, text }, asJson);
  }
  throw failure;
}

/**
 * Prints what was found without sweeps that are lost; then fails by the first of them, where there are any.
 * @throws UserError the first loss
 */
export function printWithoutLost(io: Io, answer: Answer, lost: readonly UserError[], asJson: boolean): void {
  const [first] = lost;
  if (first === undefined) printAnswer(io, answer, asJson);
  else printAndFail(io, answer, asJson, first);
}

/** Whether the trouble is an option (`--power`) or an argument (`RADIAL`), whoever found it. */
function isOfCommandLine({ kind, place }: UserError): boolean {
  return kind === 'input' && place.file === undefined && /^(?:--|[A-Z]+$)/u.test(place.field ?? '');
}

/** `commander.missingArgument` as `missing-argument`. */
function wordsOfCommander(code: string): string {
  return code.replace(/^commander\./u, '').replace(/[A-Z]/gu, (letter) => `-${letter.toLowerCase()}`);
}
