/** The longest line kept when nothing else is asked for; other text instruments send longer lines than ours. */
export const DEFAULT_LINE_CAP_BYTES = 4096;

/**
 * Cuts a stream of bytes into lines at LF. Time is linear in the bytes and memory is bounded by the cap,
 * whatever arrives: a line that outgrows the cap is dropped up to the next LF and counted. A CR
 * before the LF is removed, and empty lines are left out.
 */
export class LineSplitter {
  readonly #carry: Uint8Array;
  #carried = 0;
  #dropping = false;
  #droppedBytes = 0;
  #droppedLines = 0;

  /** @param capBytes - the longest line that is kept, its line end not counted */
  constructor(capBytes: number = DEFAULT_LINE_CAP_BYTES) {
    // One byte more than the cap, for the CR of a line that fills it.
    this.#carry = new Uint8Array(capBytes + 1);
  }

  /** Bytes of lines that were too long, and of tails that {@link discardTail} threw away. */
  get droppedBytes(): number {
    return this.#droppedBytes;
  }

  /** Lines that were too long. One that is still arriving is counted already. */
  get droppedLines(): number {
    return this.#droppedLines;
  }

  /**
   * Takes the next bytes and gives the lines they complete. A line that lies whole within the chunk is a view
   * of it, so a chunk must not be written over while its lines are in use.
   */
  push(chunk: Uint8Array): Uint8Array[] {
    const lines: Uint8Array[] = [];
    let start = 0;
    for (let lf = chunk.indexOf(LF); lf !== -1; lf = chunk.indexOf(LF, start)) {
      const line = this.#finish(chunk.subarray(start, lf));
      if (line !== undefined) lines.push(line);
      start = lf + 1;
    }
    this.#keep(chunk.subarray(start));
    return lines;
  }

  /** Forgets a line that has begun, as after a lost connection: its rest will never come. */
  discardTail(): void {
    this.#droppedBytes += this.#carried;
    this.#carried = 0;
    this.#dropping = false;
  }

  #finish(tail: Uint8Array): Uint8Array | undefined {
    if (this.#dropping) {
      this.#droppedBytes += tail.length;
      this.#dropping = false;
      return undefined;
    }
    const line = withoutCarriageReturn(this.#carried === 0 ? tail : this.#joined(tail));
    if (line.length < this.#carry.length) return line.length === 0 ? undefined : line;
    this.#droppedBytes += line.length;
    this.#droppedLines++;
    return undefined;
  }

  #joined(tail: Uint8Array): Uint8Array {
    const line = new Uint8Array(this.#carried + tail.length);
    line.set(this.#carry.subarray(0, this.#carried));
    line.set(tail, this.#carried);
    this.#carried = 0;
    return line;
  }

  #keep(tail: Uint8Array): void {
    if (this.#dropping) {
      this.#droppedBytes += tail.length;
    } else if (this.#carried + tail.length > this.#carry.length) {
      this.#droppedBytes += this.#carried + tail.length;
      this.#droppedLines++;
      this.#carried = 0;
      this.#dropping = true;
    } else {
      this.#carry.set(tail, this.#carried);
      this.#carried += tail.length;
    }
  }
}

const LF = 0x0a;
const CR = 0x0d;

function withoutCarriageReturn(line: Uint8Array): Uint8Array {
  return line[line.length - 1] === CR ? line.subarray(0, -1) : line;
}
