import { ReadlineParser } from '@serialport/parser-readline';
import { decodeLine } from '../src/instrument/codec/decode-line.ts';
import { encodeMessage } from '../src/instrument/codec/encode-message.ts';
import type { Grid } from '../src/instrument/codec/grid.ts';
import { LineSplitter } from '../src/instrument/codec/line-splitter.ts';
import { SweepAssembler } from '../src/instrument/codec/sweep-assembler.ts';
import type { BenchCase } from './bench-case.ts';

export const POINTS = 65_535;
const CHUNK_BYTES = 4096;
const ROUNDS = 9;

/** A serial wire at 115,200 baud, 8N1: ten bits a byte. */
export const WIRE_BYTES_PER_SECOND = 11_520;

export const WIRE_ID = 61_701;
export const WIRE_GRID: Grid = { startHz: 1_000_000, stopHz: 61_000_000, points: POINTS };

/** Points as a wire brings them: 4 KiB at a time, as serialport reads them. */
export function wireChunks(): Buffer[] {
  const lines = Array.from({ length: POINTS }, (_, number) =>
    encodeMessage({
      kind: 'point',
      id: WIRE_ID,
      number,
      reMicro: Math.round(9e5 * Math.cos(number)),
      imMicro: Math.round(9e5 * Math.sin(number)),
    }),
  );
  const wire = Buffer.from(lines.join(''));
  const chunks: Buffer[] = [];
  for (let i = 0; i < wire.length; i += CHUNK_BYTES) chunks.push(wire.subarray(i, i + CHUNK_BYTES));
  return chunks;
}

/** Bytes to a filed sweep: split, decode, assemble. */
function decodeAll(chunks: readonly Buffer[]): number {
  const started = performance.now();
  const splitter = new LineSplitter(95);
  const assembler = new SweepAssembler(WIRE_ID, WIRE_GRID);
  for (const chunk of chunks) {
    for (const line of splitter.push(chunk)) {
      const message = decodeLine(line);
      if (message.kind !== 'unreadable') assembler.accept(message);
    }
  }
  if (assembler.received !== POINTS) throw new Error('points were lost');
  return (performance.now() - started) / 1000;
}

/** The same bytes only cut into lines by the serial library's own parser. */
export function splitAll(chunks: readonly Buffer[]): Promise<number> {
  const parser = new ReadlineParser({ delimiter: '\n' });
  const started = performance.now();
  return new Promise((resolve) => {
    let lines = 0;
    parser.on('data', () => {
      if (++lines === POINTS) resolve((performance.now() - started) / 1000);
    });
    for (const chunk of chunks) parser.write(chunk);
  });
}

export async function medianSeconds(measure: () => number | Promise<number>): Promise<number> {
  const seconds: number[] = [];
  for (let round = 0; round < ROUNDS; round++) seconds.push(await measure());
  return seconds.sort((a, b) => a - b)[ROUNDS >> 1] as number;
}

export const lineProtocolCases: readonly BenchCase[] = [
  {
    name: 'points decoded per second',
    against: 'points that a 115,200-baud wire carries per second',
    target: { atLeast: 50 },
    run: async () => {
      const chunks = wireChunks();
      const bytes = chunks.reduce((sum, chunk) => sum + chunk.length, 0);
      return bytes / WIRE_BYTES_PER_SECOND / (await medianSeconds(() => decodeAll(chunks)));
    },
  },
  {
    name: 'time to decode and file points',
    against: 'a bare readline split of the same bytes',
    target: { atMost: 2 },
    run: async () => {
      const chunks = wireChunks();
      return (await medianSeconds(() => decodeAll(chunks))) / (await medianSeconds(() => splitAll(chunks)));
    },
  },
];
