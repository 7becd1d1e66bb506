import type { Part } from '../../formats/page-data.ts';
import { asSentence } from '../../formats/words.ts';
import type { Run } from '../commands.ts';
import type { Io } from '../io.ts';

/** Asks other commands about one logbook, so that the page says what they say. */
export class Asker {
  readonly #io: Io;
  readonly #run: Run;
  readonly #folder: string;

  constructor(io: Io, run: Run, folder: string) {
    this.#io = io;
    this.#run = run;
    this.#folder = folder;
  }

  /**
   * The `--json` document of a command.
   * @param command - what brings the answer where there is none yet
   */
  async ask<T>(args: readonly string[], command: string): Promise<Part<T>> {
    const told: string[] = [];
    const why: string[] = [];
    const code = await this.#run([...args, '--json'], {
      ...this.#io,
      // The commands run in the folder itself: what they print, and so the page, tells nothing of where it lies.
      cwd: this.#folder,
      env: {},
      out: (text) => void told.push(text),
      err: (text) => void why.push(text),
      terminal: false,
      colour: false,
    });
    const document = JSON.parse(told.join('\n') || '{}') as T & object;
    // A command that does without a lost sweep gives its answer beside the failure.
    const answered = Object.keys(document).some((key) => key !== 'error');
    if (code === 0 || answered) return { data: document, missing: null };
    return missing((why.at(-1) ?? '').replace(/^turfwire: /u, ''), this.#folder, command);
  }
}

/** Why there is no answer, as a sentence that tells nothing of where the logbook lies. */
export function missing(why: string, folder: string, command: string): Part<never> {
  const text = why.replaceAll(`${folder}/`, '').replaceAll(folder, 'the logbook');
  return { data: null, missing: { why: asSentence(text), command } };
}
