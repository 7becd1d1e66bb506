import { spawn } from 'node:child_process';

const LONGEST_MS = 60_000;

/** What a watch remembers of the causes, to tell when they change. */
export class CauseWatcher {
  readonly #command: string;
  readonly #tell: (text: string) => void;
  #last: string | null = null;

  /** @param command - the user's own, run by the shell */
  constructor(command: string, tell: (text: string) => void) {
    this.#command = command;
    this.#tell = tell;
  }

  /**
   * Runs the command when the list differs from the last one; the first list is only remembered. The command finds the
   * causes, most likely first, in `TURFWIRE_CAUSES`, separated by spaces. Its failure is told and does no harm.
   */
  async see(causes: readonly string[]): Promise<void> {
    const list = causes.join(' ');
    const changed = this.#last !== null && this.#last !== list;
    const before = this.#last ?? '';
    this.#last = list;
    if (!changed) return;
    this.#tell(`the causes changed from "${before}" to "${list}"`);
    const ending = await run(this.#command, { TURFWIRE_CAUSES: list, TURFWIRE_CAUSES_BEFORE: before });
    if (ending !== null) this.#tell(`the --on-change command ${ending}`);
  }
}

/** @returns what went wrong, or null */
function run(command: string, variables: Readonly<Record<string, string>>): Promise<string | null> {
  return new Promise((resolve) => {
    const child = spawn(command, {
      shell: true,
      // Its output goes to the log: standard output is for data.
      stdio: ['ignore', 2, 2],
      env: { ...process.env, ...variables },
      timeout: LONGEST_MS,
    });
    child.once('error', (error) => resolve(`could not be run: ${error.message}`));
    child.once('exit', (code, signal) => {
      if (code === 0) resolve(null);
      else
        resolve(
          signal === null
            ? `ended with code ${code}`
            : `was ended by ${signal} (after at most ${LONGEST_MS / 1000} s)`,
        );
    });
  });
}
