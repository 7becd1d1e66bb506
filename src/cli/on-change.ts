import { spawn } from 'node:child_process';
import { CAUSES, type CauseName } from '../core/drift/cause.ts';
import { type ProbableCause, type SteadyCauses, steadyCauses } from '../core/drift/steady-causes.ts';
import { UserError } from '../core/user-error.ts';
import { systemWords } from '../formats/system-words.ts';
import { readDerived, writeDerived } from '../logbook/derived-folder.ts';

const LONGEST_MS = 60_000;
const MEMORY_FILE = 'watched-causes.txt';

/** The causes of what a logbook shows now. */
export type CausesOf = (folder: string) => Promise<readonly ProbableCause[]>;

/** Looks at the causes after each round and runs the user's command when they change. */
export class CauseWatcher {
  readonly #command: string;
  readonly #causesOf: CausesOf;
  readonly #tell: (text: string) => void;
  #steady: SteadyCauses | null = null;
  #trouble: string | null = null;

  /** @param command - the user's own, run by the shell */
  constructor(command: string, causesOf: CausesOf, tell: (text: string) => void) {
    this.#command = command;
    this.#causesOf = causesOf;
    this.#tell = tell;
  }

  /**
   * Runs the command when a cause has come or gone (see {@link steadyCauses}) since the last look, be it that of an
   * earlier watch of this logbook; the very first list is only told. The command finds the causes, most likely first, in
   * `TURFWIRE_CAUSES`, separated by spaces, and the list before in `TURFWIRE_CAUSES_BEFORE`. Whatever goes wrong here is
   * told and does the watch no harm.
   */
  async look(folder: string): Promise<void> {
    const causes = await this.#causes(folder);
    if (causes === null) return;
    const before = this.#steady ?? rememberedCauses(folder);
    const after = steadyCauses(before, causes);
    const isFirst = this.#steady === null;
    const isChanged = before !== null && !isSameSet(before.named, after.named);
    this.#steady = after;
    const [was, is] = [before?.named.join(' ') ?? '', after.named.join(' ')];
    if (isFirst && !isChanged) this.#tell(`the likely causes: ${is}`);
    if (before === null || isChanged) writeDerived(folder, MEMORY_FILE, is);
    if (!isChanged) return;
    this.#tell(`the likely causes changed from "${was}" to "${is}"`);
    const ending = await run(this.#command, { TURFWIRE_CAUSES: is, TURFWIRE_CAUSES_BEFORE: was });
    if (ending !== null) this.#tell(`the --on-change command ${ending}`);
  }

  async #causes(folder: string): Promise<readonly ProbableCause[] | null> {
    try {
      const causes = await this.#causesOf(folder);
      this.#trouble = null;
      return causes;
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      // One message for one trouble, such as too few visits yet.
      if (error.message !== this.#trouble) this.#tell(`the causes cannot be told: ${error.message}`);
      this.#trouble = error.message;
      return null;
    }
  }
}

function isSameSet(a: readonly CauseName[], b: readonly CauseName[]): boolean {
  return a.length === b.length && a.every((cause) => b.includes(cause));
}

/** What an earlier watch named last; a change while none ran is then seen too. */
function rememberedCauses(folder: string): SteadyCauses | null {
  const words = readDerived(folder, MEMORY_FILE)?.toString().split(' ') ?? [];
  const named = CAUSES.filter((cause) => words.includes(cause));
  return named.length > 0 && named.length === words.length ? { named, waiting: [] } : null;
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
