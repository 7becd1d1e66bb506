import { gridFrequencyHz } from '../codec/grid.ts';
import { LineSplitter } from '../codec/line-splitter.ts';
import { matchesScpiHeader } from '../description/scpi-header.ts';
import {
  type Device,
  type ReflectionAt,
  SIMULATED_HIGHEST_HZ,
  SIMULATED_LOWEST_HZ,
  SIMULATED_MOST_POINTS,
} from './device.ts';

/** Answers a query with text, obeys a command with nothing, or refuses with the number of a standard error. */
type Handler = (parameter: string) => string | number | undefined;

const ERROR_TEXTS: Readonly<Record<number, string>> = {
  0: 'No error',
  [-109]: 'Missing parameter',
  [-113]: 'Undefined header',
  [-222]: 'Data out of range',
  [-230]: 'Data corrupt or stale',
  [-350]: 'Queue overflow',
};
const QUEUE_LENGTH = 10;

/**
 * An instrument built on IEEE 488.2 and SCPI-1999, as far as one sweep needs them.
 * Source: SCPI-1999 vol. 1 and 2; error numbers and texts published, see 21.8 there.
 */
export class ScpiDevice implements Device {
  readonly #reflectionAt: ReflectionAt;
  readonly #send: (line: string) => void;
  readonly #splitter = new LineSplitter();
  readonly #errors: number[] = [];
  #startHz = SIMULATED_LOWEST_HZ;
  #stopHz = SIMULATED_HIGHEST_HZ;
  #points = 201;
  #data: string | null = null;

  constructor(reflectionAt: ReflectionAt, send: (line: string) => void) {
    this.#reflectionAt = reflectionAt;
    this.#send = send;
  }

  powerUp(): void {
    this.#forget();
  }

  powerDown(): void {}

  receive(chunk: Uint8Array): void {
    for (const line of this.#splitter.push(chunk)) {
      const answers = Buffer.from(line)
        .toString('latin1')
        .split(';')
        .map((unit) => this.#obey(unit.trim()));
      const replies = answers.filter((answer) => answer !== null);
      if (replies.length > 0) this.#send(`${replies.join(';')}\n`);
    }
  }

  #obey(unit: string): string | null {
    const [header = '', parameter = ''] = unit.split(/\s+(.*)/su);
    const handler = this.#handlers.find(([pattern]) => matchesScpiHeader(pattern, header))?.[1];
    const answer = handler === undefined ? -113 : handler(parameter);
    if (typeof answer !== 'number') return answer ?? null;
    if (this.#errors.length < QUEUE_LENGTH) this.#errors.push(answer);
    else this.#errors[QUEUE_LENGTH - 1] = -350;
    return null;
  }

  readonly #handlers: readonly (readonly [pattern: string, handler: Handler])[] = [
    ['*IDN?', () => 'SIMULATED,GARDEN SWEEPER,0,1'],
    ['*OPC?', () => '1'],
    ['*CLS', () => this.#forget()],
    ['*RST', () => this.#forget()],
    ['SYSTem:ERRor[:NEXT]?', () => this.#nextError()],
    ['SYSTem:VERSion?', () => '1999.0'],
    ['FORMat[:DATA]', (kind) => (/^asc(?:ii)?(?:,\s*\d+)?$/iu.test(kind) ? undefined : -222)],
    ['INITiate:CONTinuous', () => undefined],
    [
      '[SENSe:]FREQuency:STARt',
      (text) =>
        this.#set(text, this.#hertz, (hz) => {
          this.#startHz = hz;
        }),
    ],
    ['[SENSe:]FREQuency:STARt?', () => this.#startHz.toExponential(9).toUpperCase()],
    [
      '[SENSe:]FREQuency:STOP',
      (text) =>
        this.#set(text, this.#hertz, (hz) => {
          this.#stopHz = hz;
        }),
    ],
    ['[SENSe:]FREQuency:STOP?', () => this.#stopHz.toExponential(9).toUpperCase()],
    [
      '[SENSe:]SWEep:POINts',
      (text) =>
        this.#set(text, [2, SIMULATED_MOST_POINTS], (n) => {
          this.#points = n;
        }),
    ],
    ['[SENSe:]SWEep:POINts?', () => String(this.#points)],
    ['INITiate[:IMMediate]', () => this.#measure()],
    ['CALCulate:DATA?', () => this.#data ?? -230],
  ];

  readonly #hertz = [SIMULATED_LOWEST_HZ, SIMULATED_HIGHEST_HZ] as const;

  #set(
    text: string,
    [least, most]: readonly [number, number],
    keep: (value: number) => void,
  ): number | undefined {
    if (text === '') return -109;
    const value = Number(text);
    if (!(value >= least && value <= most)) return -222;
    keep(value);
    return undefined;
  }

  #forget(): undefined {
    this.#errors.length = 0;
    this.#data = null;
  }

  #measure(): undefined {
    const grid = { startHz: this.#startHz, stopHz: this.#stopHz, points: this.#points };
    const values: string[] = [];
    for (let number = 0; number < grid.points; number++) {
      const { re, im } = this.#reflectionAt(gridFrequencyHz(grid, number));
      values.push(re.toExponential(8).toUpperCase(), im.toExponential(8).toUpperCase());
    }
    this.#data = values.join(',');
  }

  #nextError(): string {
    const number = this.#errors.shift() ?? 0;
    return `${number},"${ERROR_TEXTS[number]}"`;
  }
}
