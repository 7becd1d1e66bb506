import type { UnitSystem } from '../core/quantity.ts';
import { howCalled } from './how-called.ts';
import { readAtMost } from './read-at-most.ts';

/** Everything a command may touch of the world outside, so that a test can stand in for it. */
export interface Io {
  /** Data, to standard output. A line end is added. */
  out(text: string): void;
  /** Messages, to standard error. A line end is added. */
  err(text: string): void;
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  /** What calls this program from here, such as `npx turfwire`: it stands before every command that is proposed. */
  readonly called: string;
  /** In which units a logbook's answers are told, where not in those of its site. */
  readonly units?: UnitSystem | undefined;
  /** True when standard error is a terminal: progress bars appear only then. */
  readonly terminal: boolean;
  /** True when colour is welcome on standard output (a terminal, and NO_COLOR unset or empty). */
  readonly colour: boolean;
  now(): Date;
  /** Standard input, for the file name `-`: at most so many bytes, and one more when there are more. */
  stdin(most: number): Promise<Uint8Array>;
}

/** The real world. */
export function processIo(): Io {
  return {
    out: (text) => void process.stdout.write(`${text}\n`),
    err: (text) => void process.stderr.write(`${text}\n`),
    cwd: process.cwd(),
    env: process.env,
    called: howCalled(process),
    terminal: process.stderr.isTTY === true,
    colour: process.stdout.isTTY === true && (process.env['NO_COLOR'] ?? '') === '',
    now: () => new Date(),
    stdin: (most) => readAtMost(process.stdin, most),
  };
}
