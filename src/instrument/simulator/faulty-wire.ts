import type { RandomSource } from '../../core/proof/random.ts';

/** What can go wrong between an instrument and the host. Numbers below 1 are probabilities for each line. */
export interface WireFaults {
  /** Lines lost. */
  readonly drop: number;
  /** Lines with one wrong byte. */
  readonly corrupt: number;
  /** Lines sent twice. */
  readonly duplicate: number;
  /** Lines that come after the next one. */
  readonly reorder: number;
  /** Lines cut in half, their line end lost. */
  readonly halve: number;
  /** Requests that the instrument never hears. */
  readonly deaf: number;
  /** Bytes of noise without a line end, once, before the first answer. */
  readonly flood: number;
  /** Lines meant to harm a terminal or a page, in front of this share of the lines. */
  readonly hostile: number;
  /** Every byte as a host hears it that is set to another speed. */
  readonly garble: boolean;
  /** The wire is cut after so many lines; null for never. */
  readonly unplug: number | null;
}

/** A wire without faults. */
export const NO_WIRE_FAULTS: WireFaults = {
  drop: 0,
  corrupt: 0,
  duplicate: 0,
  reorder: 0,
  halve: 0,
  deaf: 0,
  flood: 0,
  hostile: 0,
  garble: false,
  unplug: null,
};

const FLOOD_CHUNK_BYTES = 65_536;

/** Escape sequences that retitle and clear a terminal, a script for a page, and a line of a megabyte. */
export const HOSTILE_LINES: readonly string[] = [
  '\x1b]0;owned\x07\x1b[2J\x1b[31mERROR\x1b[0m',
  '<img src=x onerror=alert(1)><script>alert(1)</script>',
  '=HYPERLINK("http://example.invalid";"open")',
  `${'A'.repeat(1 << 20)}`,
];

/** Carries lines to the host, with the faults asked for. */
export class FaultyWire {
  readonly #faults: WireFaults;
  readonly #random: RandomSource;
  readonly #deliver: (bytes: Uint8Array) => void;
  readonly #cut: () => void;
  #held: string | null = null;
  #lines = 0;
  #flooded = false;

  constructor(
    faults: WireFaults,
    random: RandomSource,
    deliver: (bytes: Uint8Array) => void,
    cut: () => void,
  ) {
    this.#faults = faults;
    this.#random = random;
    this.#deliver = deliver;
    this.#cut = cut;
  }

  /** Whether a request gets through to the instrument. */
  hears(): boolean {
    return !this.#happens(this.#faults.deaf);
  }

  send(line: string): void {
    const { drop, corrupt, duplicate, reorder, halve, hostile, unplug } = this.#faults;
    this.#floodOnce();
    if (unplug !== null && this.#lines >= unplug) {
      this.#cut();
      return;
    }
    this.#lines++;
    if (this.#happens(hostile)) this.#write(`${HOSTILE_LINES[this.#random.below(HOSTILE_LINES.length)]}\n`);
    if (this.#happens(drop)) return;
    let sent = line;
    if (this.#happens(corrupt)) sent = this.#withWrongByte(sent);
    if (this.#happens(halve)) sent = sent.slice(0, sent.length >> 1);
    if (this.#happens(duplicate)) sent += sent;
    if (this.#held !== null) {
      sent += this.#held;
      this.#held = null;
    } else if (this.#happens(reorder)) {
      this.#held = sent;
      return;
    }
    this.#write(sent);
  }

  #happens(probability: number): boolean {
    return probability > 0 && this.#random.uniform() < probability;
  }

  #withWrongByte(line: string): string {
    const at = this.#random.below(line.length - 1);
    const wrong = 0x20 + ((line.charCodeAt(at) - 0x20 + 1 + this.#random.below(94)) % 95);
    return line.slice(0, at) + String.fromCharCode(wrong) + line.slice(at + 1);
  }

  #floodOnce(): void {
    if (this.#flooded) return;
    this.#flooded = true;
    for (let left = this.#faults.flood; left > 0; left -= FLOOD_CHUNK_BYTES) {
      const chunk = new Uint8Array(Math.min(left, FLOOD_CHUNK_BYTES));
      for (let i = 0; i < chunk.length; i++) chunk[i] = 0x80 | this.#random.below(128);
      this.#deliver(chunk);
    }
  }

  #write(text: string): void {
    const bytes = Buffer.from(text, 'latin1');
    if (this.#faults.garble) {
      for (let i = 0; i < bytes.length; i++) bytes[i] = (0x80 | ((bytes[i] as number) * 5)) & 0xfe;
    }
    this.#deliver(bytes);
  }
}
