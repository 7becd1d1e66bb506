import { parse } from 'csv-parse/sync';
import { readSweeps } from '../src/formats/read-sweeps.ts';
import type { BenchCase } from './bench-case.ts';

const POINTS = 100_000;
const ROUNDS = 7;

/** A sweep as an instrument writes it (short figures) or as computed (all digits of a double). */
function table(separator: string, header: string, digits: number | null): string {
  const figure = (value: number): string => (digits === null ? String(value) : value.toFixed(digits));
  const rows = [header];
  for (let i = 0; i < POINTS; i++) {
    const reactance = -400 + (i * Math.E) / 300;
    rows.push([1_000_000 + 50 * i, figure(36 + (i * Math.PI) / 3e4), figure(reactance)].join(separator));
  }
  return `${rows.join('\n')}\n`;
}

/** Least times of two works done in turn, ms: what the machine does when nothing else disturbs it. */
function leastTimes(one: () => unknown, other: () => unknown): [number, number] {
  const least: [number, number] = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  for (let round = 0; round < ROUNDS; round++) {
    for (const [k, work] of [one, other].entries()) {
      const start = performance.now();
      work();
      least[k] = Math.min(least[k] as number, performance.now() - start);
    }
  }
  return least;
}

function read(bytes: Uint8Array): void {
  const { sweeps, problems } = readSweeps(bytes, 'bench.csv');
  if (sweeps.length !== 1 || sweeps[0]?.frequencyHz.length !== POINTS || problems.length > 0) {
    throw new Error(`the bench file was not read whole: ${JSON.stringify(problems)}`);
  }
}

const OWN_HEADER = 'frequency_hz,resistance_ohm,reactance_ohm';

function ownFile(name: string, digits: number | null): BenchCase {
  return {
    name,
    against: 'csv-parse with numeric cast on the same bytes (rate)',
    target: { atLeast: 4 },
    run: async () => {
      const bytes = Buffer.from(table(',', OWN_HEADER, digits));
      const [library, ours] = leastTimes(
        () => parse(bytes, { cast: true }),
        () => read(bytes),
      );
      return library / ours;
    },
  };
}

function foreignFile(name: string, separator: string, text: string): BenchCase {
  return {
    name,
    against: 'csv-parse alone on the same bytes (time)',
    target: { atMost: 1.6 },
    run: async () => {
      const bytes = Buffer.from(text);
      const [library, ours] = leastTimes(
        () => parse(bytes, { delimiter: separator }),
        () => read(bytes),
      );
      return ours / library;
    },
  };
}

export const cases: readonly BenchCase[] = [
  ownFile('our own sweep file, four decimals, read and checked', 4),
  ownFile('our own sweep file, all digits, read and checked', null),
  foreignFile('comma table, read and checked', ',', table(',', 'Frequency (Hz),R (ohm),X (ohm)', 4)),
  foreignFile(
    'semicolon table with decimal commas, read and checked',
    ';',
    table(';', 'Frequency (Hz);R (ohm);X (ohm)', 4).replaceAll('.', ','),
  ),
];
