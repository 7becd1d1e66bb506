import { decodeLine } from '../codec/decode-line.ts';
import { encodeMessage } from '../codec/encode-message.ts';
import { type Grid, gridFrequencyHz } from '../codec/grid.ts';
import { LineSplitter } from '../codec/line-splitter.ts';
import { PROTOCOL_VERSION, REFLECTION_MICRO_LIMIT } from '../codec/message-layouts.ts';
import type { Again, FaultCode, IAm, Reply, Walk } from '../codec/messages.ts';
import { sweepChecksum } from '../codec/sweep-checksum.ts';
import type { Device, ReflectionAt } from './device.ts';

/** What a simulated instrument is and sees. */
export interface DeviceOptions {
  readonly identity: Omit<IAm, 'kind' | 'id' | 'version'>;
  /** Reflection at its port. */
  readonly reflectionAt: ReflectionAt;
  /** Time that one point takes, ms; at 0 points come in bursts. */
  readonly pointMs: number;
  /** Reports this instead of the given point of a sweep. */
  readonly fault?: { readonly atPoint: number; readonly code: FaultCode; readonly text: string } | undefined;
  /** Is reset before the given point of a sweep, as by a brown-out. */
  readonly resetAtPoint?: number | undefined;
}

interface Kept {
  readonly id: number;
  readonly grid: Grid;
  readonly reMicro: Int32Array;
  readonly imMicro: Int32Array;
}

/** A sweep under way, and how many of its points have been sent. */
type Running = Kept & { sent: number };

/** Points that leave at once before the device looks at its input again. */
const BURST_POINTS = 64;

/**
 * The instrument's side of the line protocol (firmware-protocol/README.md, section 8), for demonstrations and tests.
 * Bytes go in by {@link receive}; lines come out by the function given.
 */
export class SimulatedDevice implements Device {
  readonly #options: DeviceOptions;
  readonly #send: (line: string) => void;
  #splitter = new LineSplitter(95);
  #met = false;
  #mayComplain = true;
  #running: Running | null = null;
  #kept: Kept | null = null;
  #cancel: () => void = () => undefined;

  constructor(options: DeviceOptions, send: (line: string) => void) {
    this.#options = options;
    this.#send = send;
  }

  /** Power comes on, or comes back. */
  powerUp(): void {
    this.powerDown();
    this.#send('\n');
    this.#reply({ kind: 'woke', oldest: PROTOCOL_VERSION, newest: PROTOCOL_VERSION });
  }

  powerDown(): void {
    this.#stop();
    this.#splitter = new LineSplitter(95);
    this.#met = false;
    this.#kept = null;
  }

  receive(chunk: Uint8Array): void {
    for (const line of this.#splitter.push(chunk)) this.#obey(line);
  }

  #obey(line: Uint8Array): void {
    const message = decodeLine(line);
    if (message.kind === 'unreadable') {
      if (!this.#mayComplain || message.reason === 'empty') return;
      this.#mayComplain = false;
      const code = CODE_OF_REASON[message.reason] ?? 'form';
      this.#reply({ kind: 'fault', id: 0, code, text: message.reason });
      return;
    }
    switch (message.kind) {
      case 'who':
        this.#stop();
        this.#kept = null;
        this.#met = message.oldest <= PROTOCOL_VERSION && PROTOCOL_VERSION <= message.newest;
        if (this.#met)
          this.#reply({ kind: 'iam', id: message.id, version: PROTOCOL_VERSION, ...this.#options.identity });
        else this.#refuse(message.id, 'version', `speaks ${PROTOCOL_VERSION} to ${PROTOCOL_VERSION}`);
        break;
      case 'walk':
        if (this.#met) this.#walk(message);
        else this.#refuse(message.id, 'unmet', 'say who first');
        break;
      case 'again':
        if (this.#met) this.#repeat(message);
        else this.#refuse(message.id, 'unmet', 'say who first');
        break;
      case 'halt':
        this.#stop();
        this.#reply({ kind: 'still', id: message.id });
        break;
      case 'there':
        this.#reply({
          kind: 'alive',
          id: message.id,
          sweep: this.#running?.id ?? 0,
          sent: this.#running?.sent ?? 0,
        });
        break;
      default:
        return;
    }
    this.#mayComplain = true;
  }

  #walk({ id, startHz, stopHz, points }: Walk): void {
    this.#stop();
    this.#kept = null;
    const { lowestHz, highestHz, mostPoints } = this.#options.identity;
    if (startHz < lowestHz || stopHz > highestHz || points > mostPoints) {
      this.#refuse(id, 'range', `${lowestHz} to ${highestHz} Hz in 2 to ${mostPoints}`);
      return;
    }
    const grid = { startHz, stopHz, points };
    this.#running = { id, grid, reMicro: new Int32Array(points), imMicro: new Int32Array(points), sent: 0 };
    this.#reply({ kind: 'begin', id, ...grid });
    this.#schedule(() => this.#measureSome());
  }

  #measureSome(): void {
    const { pointMs } = this.#options;
    for (let i = 0; this.#running !== null && i < (pointMs > 0 ? 1 : BURST_POINTS); i++)
      this.#measureNext(this.#running);
    if (this.#running !== null) this.#schedule(() => this.#measureSome());
  }

  #measureNext(running: Running): void {
    const { fault, resetAtPoint } = this.#options;
    if (running.sent === resetAtPoint) this.powerUp();
    else if (running.sent === fault?.atPoint) this.#fail(running.id, fault.code, fault.text);
    else this.#measurePoint(running);
  }

  #measurePoint(running: Running): void {
    const { id, grid, reMicro, imMicro, sent: number } = running;
    const reflection = this.#options.reflectionAt(gridFrequencyHz(grid, number));
    const re = Math.round(reflection.re * 1e6);
    const im = Math.round(reflection.im * 1e6);
    if (!(Math.max(Math.abs(re), Math.abs(im)) <= REFLECTION_MICRO_LIMIT)) {
      this.#fail(id, 'overload', 'off the scale');
      return;
    }
    reMicro[number] = re;
    imMicro[number] = im;
    running.sent++;
    this.#sendPoint(running, number);
    if (running.sent < grid.points) return;
    this.#running = null;
    this.#kept = running;
    this.#sendEnd(running);
  }

  #repeat({ id, first, last }: Again): void {
    const kept = this.#kept;
    if (this.#running?.id === id) return;
    if (kept?.id !== id) {
      this.#refuse(id, 'gone', 'that sweep is not kept');
      return;
    }
    this.#stop();
    if (last >= kept.grid.points) {
      this.#kept = null;
      this.#refuse(id, 'range', `it has ${kept.grid.points} points`);
      return;
    }
    for (let number = first; number <= last; number++) this.#sendPoint(kept, number);
    this.#sendEnd(kept);
  }

  #sendPoint({ id, reMicro, imMicro }: Kept, number: number): void {
    this.#reply({
      kind: 'point',
      id,
      number,
      reMicro: reMicro[number] as number,
      imMicro: imMicro[number] as number,
    });
  }

  #sendEnd({ id, grid, reMicro, imMicro }: Kept): void {
    this.#reply({ kind: 'end', id, points: grid.points, checksum: sweepChecksum(grid, reMicro, imMicro) });
  }

  #fail(id: number, code: FaultCode, text: string): void {
    this.#stop();
    this.#refuse(id, code, text);
  }

  #refuse(id: number, code: FaultCode, text: string): void {
    this.#reply({ kind: 'fault', id, code, text });
  }

  #reply(message: Reply): void {
    this.#send(encodeMessage(message));
  }

  #schedule(work: () => void): void {
    const { pointMs } = this.#options;
    if (pointMs > 0) {
      const timer = setTimeout(work, pointMs);
      this.#cancel = () => clearTimeout(timer);
    } else {
      const immediate = setImmediate(work);
      this.#cancel = () => clearImmediate(immediate);
    }
  }

  #stop(): void {
    this.#cancel();
    this.#running = null;
  }
}

/** Reasons that are no mere wrong form of a known request. */
const CODE_OF_REASON: Readonly<Record<string, FaultCode>> = {
  'too-long': 'garbled',
  'not-ascii': 'garbled',
  'no-checksum': 'garbled',
  'bad-checksum': 'garbled',
  'unknown-word': 'unknown',
};
