import type { UnitSystem } from '../../core/quantity.ts';
import type { Part } from '../../formats/page-data.ts';
import { asSentence } from '../../formats/words.ts';
import type { Logbook } from '../../logbook/logbook.ts';
import type { Run } from '../commands.ts';
import type { Io } from '../io.ts';
import { asCalled } from '../pasteable.ts';
import { pairTexts } from './pair-texts.ts';

const OTHER: Readonly<Record<UnitSystem, UnitSystem>> = { metric: 'imperial', imperial: 'metric' };

/** Asks other commands about one logbook, so that the page says what they say, in the reader's units too. */
export class Asker {
  readonly #io: Io;
  readonly #run: Run;
  readonly #folder: string;
  readonly #units: UnitSystem;
  readonly #otherUnits = new Map<string, string>();

  constructor(io: Io, run: Run, { folder, site }: Logbook) {
    this.#io = io;
    this.#run = run;
    this.#folder = folder;
    this.#units = site.units;
  }

  /** What the answers say in the units of the site, by what they say in the other ones. */
  get otherUnits(): Readonly<Record<string, string>> {
    return Object.fromEntries(this.#otherUnits);
  }

  /**
   * The `--json` document of a command.
   * @param command - what brings the answer where there is none yet
   */
  async ask<T>(args: readonly string[], command: string): Promise<Part<T>> {
    const { answer, why } = await this.#answer<T>(args, this.#units);
    if (answer === null) return missing(why, this.#folder, command);
    pairTexts(answer, (await this.#answer<T>(args, OTHER[this.#units])).answer, this.#otherUnits);
    return { data: answer, missing: null };
  }

  async #answer<T>(args: readonly string[], units: UnitSystem): Promise<{ answer: T | null; why: string }> {
    const told: string[] = [];
    const why: string[] = [];
    const code = await this.#run([...args, '--json'], {
      ...this.#io,
      units,
      // The commands run in the folder itself: what they print, and so the page, tells nothing of where it lies.
      cwd: this.#folder,
      env: {},
      out: (text) => void told.push(text),
      err: (text) => void why.push(text),
      terminal: false,
      colour: false,
    });
    const document = JSON.parse(told.join('\n') || '{}', (_, value) =>
      typeof value === 'string' ? asCalled(this.#io, value) : value,
    ) as T & object;
    // A command that does without a lost sweep gives its answer beside the failure.
    const answered = code === 0 || Object.keys(document).some((key) => key !== 'error');
    return { answer: answered ? document : null, why: (why.at(-1) ?? '').replace(/^turfwire: /u, '') };
  }
}

/** Why there is no answer, as a sentence that tells nothing of where the logbook lies. */
export function missing(why: string, folder: string, command: string): Part<never> {
  const text = why.replaceAll(`${folder}/`, '').replaceAll(folder, 'the logbook');
  return { data: null, missing: { why: asSentence(text), command } };
}
