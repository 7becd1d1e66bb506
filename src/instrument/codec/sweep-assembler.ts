import { type Grid, gridFrequenciesHz } from './grid.ts';
import type { Again, End, Message, Point } from './messages.ts';
import { sweepChecksum } from './sweep-checksum.ts';

/** A whole sweep. All columns have one entry a point; the reflection coefficient is a plain number. */
export interface AssembledSweep {
  readonly frequencyHz: Float64Array;
  readonly reflectionRe: Float64Array;
  readonly reflectionIm: Float64Array;
}

/**
 * What became of a message:
 * - `taken`: it is of this sweep and told something new; `duplicate`: it is of this sweep, and known
 * - `conflict`: a point came twice with different values; both are dropped and it is missing again, unless
 *   the checksum of the whole sweep has already told which is right
 * - `checksum-mismatch`: all points are there but not as they were sent; all are dropped and missing again
 * - `other-grid`: the instrument speaks of this sweep, but sweeps other frequencies; give up
 * - `not-ours`: another sweep, or no part of a sweep
 */
export type Acceptance = 'taken' | 'duplicate' | 'conflict' | 'checksum-mismatch' | 'other-grid' | 'not-ours';

/** Points asked for once more although known, when that joins two gaps: cheaper than a request of its own. */
const BRIDGED_POINTS = 4;

/** Collects the points of one sweep, in any order and however often they come, and says what to ask for again. */
export class SweepAssembler {
  readonly #id: number;
  readonly #grid: Grid;
  readonly #reMicro: Int32Array;
  readonly #imMicro: Int32Array;
  readonly #known: Uint8Array;
  #received = 0;
  #checksum: number | undefined;
  #complete = false;

  /**
   * @param id - the identifier of the `walk` request
   * @param grid - what that request asked for
   */
  constructor(id: number, grid: Grid) {
    this.#id = id;
    this.#grid = { startHz: grid.startHz, stopHz: grid.stopHz, points: grid.points };
    this.#reMicro = new Int32Array(grid.points);
    this.#imMicro = new Int32Array(grid.points);
    this.#known = new Uint8Array(grid.points);
  }

  /** Points known so far. */
  get received(): number {
    return this.#received;
  }

  /** Whether the instrument has said that it sent everything. */
  get ended(): boolean {
    return this.#checksum !== undefined;
  }

  /** Every point is known and the checksum of the whole sweep is right. */
  get complete(): boolean {
    return this.#complete;
  }

  accept(message: Message): Acceptance {
    switch (message.kind) {
      case 'point':
        return message.id === this.#id ? this.#acceptPoint(message) : 'not-ours';
      case 'end':
        return message.id === this.#id ? this.#acceptEnd(message) : 'not-ours';
      case 'begin':
        if (message.id !== this.#id) return 'not-ours';
        return sameGrid(message, this.#grid) ? 'taken' : 'other-grid';
      default:
        return 'not-ours';
    }
  }

  /**
   * The request that brings the first missing points, or the last point when only the `end` is missing
   * (its answer closes with one); null when nothing is.
   */
  nextAgain(): Again | null {
    if (this.#complete) return null;
    const lastNumber = this.#grid.points - 1;
    const first = this.#known.indexOf(0);
    if (first === -1) return { kind: 'again', id: this.#id, first: lastNumber, last: lastNumber };
    let last = first;
    for (let number = first + 1; number <= lastNumber && number - last <= BRIDGED_POINTS + 1; number++) {
      if (this.#known[number] === 0) last = number;
    }
    return { kind: 'again', id: this.#id, first, last };
  }

  /** @returns null until the sweep is complete */
  sweep(): AssembledSweep | null {
    if (!this.#complete) return null;
    return {
      frequencyHz: gridFrequenciesHz(this.#grid),
      reflectionRe: fromMicro(this.#reMicro),
      reflectionIm: fromMicro(this.#imMicro),
    };
  }

  #acceptPoint({ number, reMicro, imMicro }: Point): Acceptance {
    if (number >= this.#grid.points) return 'other-grid';
    if (this.#known[number] === 1) {
      if (this.#reMicro[number] === reMicro && this.#imMicro[number] === imMicro) return 'duplicate';
      if (!this.#complete) this.#forget(number);
      return 'conflict';
    }
    this.#reMicro[number] = reMicro;
    this.#imMicro[number] = imMicro;
    this.#known[number] = 1;
    this.#received++;
    return this.#verify();
  }

  #acceptEnd({ points, checksum }: End): Acceptance {
    if (points !== this.#grid.points) return 'other-grid';
    if (this.#checksum === checksum) return 'duplicate';
    this.#checksum = checksum;
    return this.#verify();
  }

  #verify(): Acceptance {
    if (this.#checksum === undefined || this.#received < this.#grid.points) return 'taken';
    this.#complete = sweepChecksum(this.#grid, this.#reMicro, this.#imMicro) === this.#checksum;
    if (this.#complete) return 'taken';
    this.#known.fill(0);
    this.#received = 0;
    this.#checksum = undefined;
    return 'checksum-mismatch';
  }

  #forget(number: number): void {
    this.#known[number] = 0;
    this.#received--;
  }
}

function sameGrid(a: Grid, b: Grid): boolean {
  return a.startHz === b.startHz && a.stopHz === b.stopHz && a.points === b.points;
}

function fromMicro(micro: Int32Array): Float64Array {
  return Float64Array.from(micro, (value) => value / 1e6);
}
