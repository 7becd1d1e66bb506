import { UserError } from '../../core/user-error.ts';
import type { Grid } from '../codec/grid.ts';
import { DEFAULT_LINE_CAP_BYTES } from '../codec/line-splitter.ts';
import { deviceName, deviceText } from '../device-text.ts';
import type { CollectedSweep, Identity, Instrument, Progress } from '../instrument.ts';
import { latin1Bytes } from '../latin1.ts';
import { LineLink, type LinkOptions } from '../line-link.ts';
import type { LineTransport } from '../line-transport.ts';
import { DescribedWire, sameAnswer } from './described-wire.ts';
import type { Description, Step } from './description.ts';
import { fillPlaceholders } from './placeholders.ts';
import { PointCollector } from './point-collector.ts';

/** More than any spelling of a figure with its separator. */
const BYTES_A_FIGURE = 32;
const MOST_POINTS = 10_001;
/** A text protocol has no checksum to mend a sweep with, so a sweep that is not whole is taken anew, so often in all. */
const SWEEP_TRIES = 3;

/** Options of an instrument that a description drives. */
export interface DescribedOptions extends Omit<LinkOptions, 'capBytes'> {
  /** Multiplies every waiting time. */
  readonly patience?: number;
}

/**
 * Opens an instrument that answers in text lines, as its description says.
 * @throws UserError of kind `instrument`
 */
export async function openDescribed(
  transport: LineTransport,
  description: Description,
  options: DescribedOptions = {},
): Promise<Instrument> {
  const link = await LineLink.open(transport, { ...options, capBytes: longestLine(description) });
  const wire = new DescribedWire(link, description, options.patience ?? 1);
  try {
    await wire.greet();
    return new DescribedInstrument(wire, description, await identify(wire, description));
  } catch (error) {
    await link.close();
    throw error;
  }
}

function longestLine({ points, limits }: Description): number {
  if (points.layout === 'line-each') return DEFAULT_LINE_CAP_BYTES;
  const figures = (limits.points ?? MOST_POINTS) * points.columns.length;
  return Math.max(DEFAULT_LINE_CAP_BYTES, figures * BYTES_A_FIGURE);
}

class DescribedInstrument implements Instrument {
  readonly identity: Identity;
  readonly #wire: DescribedWire;
  readonly #description: Description;
  #badLines = 0;
  #firstBadLine: string | null = null;

  constructor(wire: DescribedWire, description: Description, identity: Identity) {
    this.#wire = wire;
    this.#description = description;
    this.identity = identity;
  }

  async sweep(grid: Grid, progress: Progress = () => undefined): Promise<CollectedSweep> {
    for (let attempt = 1; ; attempt++) {
      try {
        return await this.#attempt(grid, progress, attempt - 1);
      } catch (error) {
        const maySucceed = error instanceof UserError && error.code === 'sweep-incomplete';
        if (!maySucceed || attempt === SWEEP_TRIES) throw error;
      }
    }
  }

  async close(): Promise<void> {
    await this.#wire.link.close();
  }

  async #attempt(grid: Grid, progress: Progress, reAsks: number): Promise<CollectedSweep> {
    this.#badLines = 0;
    this.#firstBadLine = null;
    await this.#wire.awaitQuiet();
    await this.#wire.forgetOldErrors();
    for (const step of this.#description.sweep) {
      if (step.read !== null) return await this.#readPoints(step, grid, progress, reAsks);
      await this.#take(step, grid);
      await this.#wire.pace();
    }
    throw new Error('a description always ends with the points');
  }

  async #take({ send, expect, waitMs }: Step, grid: Grid): Promise<void> {
    const command = fillPlaceholders(send, grid);
    if (expect === null) return await this.#wire.tell(command);
    const wanted = fillPlaceholders(expect, grid);
    const answer = await this.#wire.ask(command, waitMs ?? this.#description.pacing.replyMs);
    if (sameAnswer(answer, wanted)) return;
    await this.#wire.requireNoError();
    throw this.#wire.failure(
      'instrument-answer',
      `answered ${deviceText(latin1Bytes(answer))} to "${command}", where "${wanted}" was expected`,
      'ask for a range and a number of points that it takes, or correct the description',
    );
  }

  async #readPoints(step: Step, grid: Grid, progress: Progress, reAsks: number): Promise<CollectedSweep> {
    await this.#wire.requireNoError();
    const { points, pacing, referenceOhm, echo } = this.#description;
    const collector = new PointCollector(points, grid);
    const command = fillPlaceholders(step.send, grid);
    const { end } = points;
    const idleMs = end.by === 'silence' ? end.waitMs : pacing.betweenPointsMs;
    const outcome = await this.#wire.exchange<true>({
      send: command + this.#description.commandEnd,
      firstMs: step.waitMs ?? Math.max(pacing.replyMs, pacing.betweenPointsMs),
      idleMs,
      totalMs: pacing.sweepMs,
      take: (bytes) => {
        const line = this.#wire.textOf(bytes);
        if (echo && line === command) return 'heard';
        this.#wire.refuseErrorLine(bytes);
        if (end.by === 'line' && line === end.line) return { result: true };
        if (!collector.take(line)) this.#countBad(bytes);
        progress(Math.min(collector.received, grid.points), grid.points);
        const done =
          points.layout === 'one-line' ? collector.received > 0 : end.by === 'count' && collector.full;
        return done ? { result: true } : 'heard';
      },
    });
    await this.#wire.requireNoError();
    if ('silentAfter' in outcome && outcome.silentAfter === 'nothing') throw this.#wire.silent(command);
    const raw = collector.finish(referenceOhm);
    if ('kind' in raw) return { raw, effort: { badLines: this.#badLines, reAsks } };
    const bad =
      this.#badLines > 0
        ? `, and ${this.#badLines} lines that are not points (first ${this.#firstBadLine})`
        : '';
    throw this.#wire.failure(
      'sweep-incomplete',
      raw.problem + bad,
      'check the cable, --baud and the description, and measure again',
    );
  }

  #countBad(line: Uint8Array): void {
    this.#badLines++;
    this.#firstBadLine ??= deviceText(line);
  }
}

async function identify(wire: DescribedWire, description: Description): Promise<Identity> {
  const { identity, limits, corrected, referenceOhm } = description;
  const texts = { model: null as string | null, serial: null as string | null };
  if (identity !== null) {
    const answer = await wire.ask(identity.send, description.pacing.replyMs);
    const cells = identity.separator === null ? [answer] : answer.split(identity.separator);
    identity.fields.forEach((field, i) => {
      if (field !== 'ignore') texts[field] = deviceName(cells[i] ?? '');
    });
  }
  return {
    ...texts,
    serial: texts.serial === '0' ? null : texts.serial,
    lowestHz: limits.lowestHz,
    highestHz: limits.highestHz,
    mostPoints: limits.points,
    corrected,
    referenceOhm,
  };
}
