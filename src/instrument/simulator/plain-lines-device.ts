import { reflectionToImpedance } from '../../core/sweep/reflection.ts';
import { type Grid, gridFrequencyHz } from '../codec/grid.ts';
import { LineSplitter } from '../codec/line-splitter.ts';
import {
  type Device,
  type ReflectionAt,
  SIMULATED_HIGHEST_HZ,
  SIMULATED_LOWEST_HZ,
  SIMULATED_MOST_POINTS,
} from './device.ts';

/** A homely instrument: `sweep START STOP POINTS` prints `frequency,R,X` lines, anything else `error …`. */
export class PlainLinesDevice implements Device {
  readonly #reflectionAt: ReflectionAt;
  readonly #send: (line: string) => void;
  readonly #splitter = new LineSplitter();

  constructor(reflectionAt: ReflectionAt, send: (line: string) => void) {
    this.#reflectionAt = reflectionAt;
    this.#send = send;
  }

  powerUp(): void {
    this.#send('ready\r\n');
  }

  powerDown(): void {}

  receive(chunk: Uint8Array): void {
    for (const line of this.#splitter.push(chunk)) this.#obey(Buffer.from(line).toString('latin1'));
  }

  #obey(line: string): void {
    const grid = requestedGrid(line);
    if (line === 'id') this.#send('simulated plain lines\r\n');
    else if (grid === null) this.#send('error: I know "id" and "sweep START STOP POINTS"\r\n');
    else this.#print(grid);
  }

  #print(grid: Grid): void {
    for (let number = 0; number < grid.points; number++) {
      const frequencyHz = gridFrequencyHz(grid, number);
      const impedance = reflectionToImpedance(this.#reflectionAt(frequencyHz), 50);
      const columns =
        impedance === null ? ['inf', 'inf'] : [impedance.re.toFixed(3), impedance.im.toFixed(3)];
      this.#send(`${frequencyHz},${columns.join(',')}\r\n`);
    }
  }
}

function requestedGrid(line: string): Grid | null {
  const numbers = /^sweep (\d+) (\d+) (\d+)$/u.exec(line)?.slice(1).map(Number);
  const [startHz = 0, stopHz = 0, points = 0] = numbers ?? [];
  const fits =
    startHz >= SIMULATED_LOWEST_HZ && stopHz <= SIMULATED_HIGHEST_HZ && points <= SIMULATED_MOST_POINTS;
  return fits && points >= 2 && stopHz - startHz >= points - 1 ? { startHz, stopHz, points } : null;
}
