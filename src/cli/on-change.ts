import { spawn } from 'node:child_process';
import { CAUSES } from '../core/drift/cause.ts';
import { UserError } from '../core/user-error.ts';
import { systemWords } from '../formats/system-words.ts';
import { readDerived, writeDerived } from '../logbook/derived-folder.ts';

const LONGEST_MS = 60_000;
const MEMORY_FILE = 'watched-causes.txt';

/** The likely causes of what a logbook shows now, likeliest first. */
export type CausesOf = (folder: string) => Promise<readonly string[]>;

/** Looks at the causes after each round and runs the user's command when they change. */
export class CauseWatcher {
  readonly #command: string;
  readonly #causesOf: CausesOf;
  readonly #tell: (text: string) => void;
  #last: string | null = null;
  #trouble: string | null = null;

  /** @param command - the user's own, run by the shell */
  constructor(command: string, causesOf: CausesOf, tell: (text: string) => void) {
    this.#command = command;
    this.#causesOf = causesOf;
    this.#tell = tell;
  }

  /**
   * Runs the command when the list differs from the last one, be it that of an earlier watch of this logbook; the very
   * first list is only told. The command finds the causes, most likely first, in `TURFWIRE_CAUSES`, separated by spaces,
   * and the list before in `TURFWIRE_CAUSES_BEFORE`. Whatever goes wrong here is told and does the watch no harm.
   */
  async look(folder: string): Promise<void> {
    const causes = await this.#causes(folder);
    if (causes === null) return;
    const before = this.#last ?? rememberedCauses(folder);
    if (this.#last === null && (before === null || before === causes))
      this.#tell(`the likely causes: ${causes}`);
    this.#last = causes;
    if (before === causes) return;
    writeDerived(folder, MEMORY_FILE, causes);
    if (before === null) return;
    this.#tell(`the likely causes changed from "${before}" to "${causes}"`);
    const ending = await run(this.#command, { TURFWIRE_CAUSES: causes, TURFWIRE_CAUSES_BEFORE: before });
    if (ending !== null) this.#tell(`the --on-change command ${ending}`);
  }

  async #causes(folder: string): Promise<string | null> {
    try {
      const causes = await this.#causesOf(folder);
      this.#trouble = null;
      return causes.join(' ');
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      // One message for one trouble, such as too few visits yet.
      if (error.message !== this.#trouble) this.#tell(`the causes cannot be told: ${error.message}`);
      this.#trouble = error.message;
      return null;
    }
  }
}

/** What an earlier watch saw last; a change while none ran is then seen too. */
function rememberedCauses(folder: string): string | null {
  const text = readDerived(folder, MEMORY_FILE)?.toString() ?? '';
  return text.split(' ').every((word) => CAUSES.some((cause) => cause === word)) ? text : null;
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
    child.once('error', (error) => resolve(`could not be run: ${systemWords(error)}`));
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
