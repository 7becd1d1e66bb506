import { UserError } from '../../core/user-error.ts';
import { deviceText } from '../device-text.ts';
import { latin1Bytes, latin1Text } from '../latin1.ts';
import type { Exchange, LineLink, Outcome } from '../line-link.ts';
import type { Description } from './description.ts';

const QUIET_MS = 100;
const LONGEST_NOISE_MS = 5000;
const MOST_OLD_ERRORS = 30;

/** The wire to a described instrument: commands and answers in its words, one at a time, and its errors in ours. */
export class DescribedWire {
  readonly link: LineLink;
  readonly #description: Description;
  readonly #patience: number;

  /** @param patience - multiplies every waiting time */
  constructor(link: LineLink, description: Description, patience: number) {
    this.link = link;
    this.#description = description;
    this.#patience = patience;
  }

  async greet(): Promise<void> {
    const { line: begins, waitMs } = this.#description.greeting;
    await this.exchange<true>({
      firstMs: waitMs,
      idleMs: waitMs,
      totalMs: waitMs,
      take: (line) =>
        begins !== null && this.textOf(line).startsWith(begins) ? { result: true } : 'ignored',
    });
  }

  /** A line without its prompt. */
  textOf(line: Uint8Array): string {
    const { prompt } = this.#description;
    const text = latin1Text(line).trim();
    return prompt !== null && text.startsWith(prompt) ? text.slice(prompt.length).trim() : text;
  }

  /** Sends a command that has no answer. */
  async tell(command: string): Promise<void> {
    await this.exchange<true>({
      send: command + this.#description.commandEnd,
      firstMs: 0,
      idleMs: 0,
      take: (line) => {
        this.refuseErrorLine(line);
        return 'ignored';
      },
    });
  }

  /** Sends a command and gives the line that answers it. */
  async ask(command: string, waitMs: number): Promise<string> {
    const outcome = await this.exchange<string>({
      send: command + this.#description.commandEnd,
      firstMs: waitMs,
      idleMs: waitMs,
      take: (bytes) => {
        const line = this.textOf(bytes);
        if (this.#description.echo && line === command) return 'ignored';
        this.refuseErrorLine(bytes);
        return { result: line };
      },
    });
    if ('result' in outcome) return outcome.result;
    throw this.silent(command);
  }

  /** Whatever still comes from an earlier request has to end before the next one. */
  async awaitQuiet(): Promise<void> {
    const quiet = { firstMs: QUIET_MS, idleMs: QUIET_MS, totalMs: LONGEST_NOISE_MS };
    await this.exchange<never>({ ...quiet, take: () => 'heard' });
  }

  /** The error queue is emptied first, so that an error of yesterday does not spoil today's sweep. */
  async forgetOldErrors(): Promise<void> {
    for (let i = 0; i < MOST_OLD_ERRORS; i++) if ((await this.#queryError()) === null) return;
  }

  async requireNoError(): Promise<void> {
    const error = await this.#queryError();
    if (error !== null) throw this.#reported(latin1Bytes(error));
  }

  refuseErrorLine(line: Uint8Array): void {
    const text = this.textOf(line).toLowerCase();
    if (this.#description.errors.lines.some((begin) => text.startsWith(begin.toLowerCase())))
      throw this.#reported(line);
  }

  async pace(): Promise<void> {
    const { betweenCommandsMs } = this.#description.pacing;
    if (betweenCommandsMs > 0) await new Promise((resolve) => setTimeout(resolve, betweenCommandsMs));
  }

  async exchange<T>(exchange: Exchange<T>): Promise<Outcome<T>> {
    const { firstMs, idleMs, totalMs } = exchange;
    return await this.link.exchange({
      ...exchange,
      firstMs: firstMs * this.#patience,
      idleMs: idleMs * this.#patience,
      ...(totalMs === undefined ? {} : { totalMs: totalMs * this.#patience }),
    });
  }

  silent(command: string): UserError {
    const { bytes, lines, overlongLines } = this.link.counts;
    if (overlongLines > 0 || (bytes > 0 && lines === 0)) {
      return this.failure(
        'instrument-unreadable',
        `sent ${bytes} bytes but no whole line of a sensible length`,
        'check --baud and the cable',
      );
    }
    const what = bytes === 0 ? 'sent nothing at all' : `sent ${bytes} bytes in all`;
    return this.failure(
      'instrument-silent',
      `did not answer "${command}" (it ${what})`,
      'is it switched on, are the port and --baud right, and is this its description?',
    );
  }

  failure(code: string, what: string, advice: string): UserError {
    return new UserError(
      code,
      `the instrument at ${this.link.name} ${what}; nothing was stored of this sweep: ${advice}`,
      {
        kind: 'instrument',
      },
    );
  }

  async #queryError(): Promise<string | null> {
    const { query, none } = this.#description.errors;
    if (query === null) return null;
    const answer = await this.ask(query, this.#description.pacing.replyMs);
    return sameAnswer(answer.split(',')[0] ?? '', none) || answer === none ? null : answer;
  }

  #reported(line: Uint8Array): UserError {
    return this.failure(
      'instrument-fault',
      `reports ${deviceText(line)}`,
      'correct the request, or see its manual',
    );
  }
}

/** `7.0E+06` is the same answer as `7000000`. */
export function sameAnswer(answer: string, wanted: string): boolean {
  if (answer === wanted) return true;
  if (answer.trim() === '' || wanted.trim() === '') return false;
  return Math.abs(Number(answer) - Number(wanted)) <= 1e-9 * Math.abs(Number(wanted));
}
