import { execFile } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, readFile, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { promisify } from 'node:util';
import fc from 'fast-check';
import { SerialPort } from 'serialport';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { decodeLine } from '../../src/instrument/codec/decode-line.ts';
import { encodeMessage, withChecksum } from '../../src/instrument/codec/encode-message.ts';
import { LineSplitter } from '../../src/instrument/codec/line-splitter.ts';
import { SweepAssembler } from '../../src/instrument/codec/sweep-assembler.ts';
import { arbitraryMessage } from '../support/arbitrary-message.ts';
import { compileC, STRICT_C99 } from '../support/compile-c.ts';
import { expectClose } from '../support/expect-close.ts';
import {
  compileFirmwareTest,
  compileModelledAntenna,
  FIRMWARE_LIBRARY,
  modelledReflectionMicro,
} from '../support/firmware.ts';
import { describeOutcome, escapeBytes, readWorkedExchangeRows } from '../support/protocol-vectors.ts';
import { openProgramWire } from '../support/pty.ts';

const run = promisify(execFile);
const vectorsFolder = new URL('../../firmware-protocol/vectors/', import.meta.url).pathname;
let folder: string;

beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'turfwire-'));
});

afterAll(() => rm(folder, { recursive: true }));

/** Runs a test program; a difference or a report of a sanitizer is its failure, with all it printed. */
async function succeed(program: string, args: readonly string[]): Promise<string> {
  const { stdout } = await run(program, args, { maxBuffer: 1 << 24 }).catch((failure) => {
    throw new Error(`${failure.stdout}${failure.stderr}`);
  });
  return stdout;
}

describe('the C reference, under the address and undefined sanitizers', () => {
  it('agrees with the vectors of lines and frequencies', async () => {
    const vectors = await compileFirmwareTest('vectors', 201);
    expect(await succeed(vectors, ['lines', `${vectorsFolder}lines.txt`])).toMatch(/^\d{3} vectors, 0 wrong/);
    expect(await succeed(vectors, ['grids', `${vectorsFolder}grids.txt`])).toMatch(/^\d+ vectors, 0 wrong/);
  });

  it('plays the exchanges of the vectors and those of the prose', async () => {
    const exchanges = await compileFirmwareTest('exchanges', 401);
    await succeed(exchanges, [`${vectorsFolder}exchanges.txt`]);
    const worked = join(folder, 'worked.txt');
    await writeFile(worked, readWorkedExchangeRows().join('\n'));
    expect(await succeed(exchanges, [worked])).toContain(' 0 wrong');
  });

  it('fails when a vector is wrong, so the checks above are checks', async () => {
    const wrong = join(folder, 'wrong.txt');
    await writeFile(wrong, `there 2\t${withChecksum('there,1')}\n`);
    await expect(succeed(await compileFirmwareTest('vectors', 201), ['lines', wrong])).rejects.toThrow(
      '1 wrong',
    );
    await writeFile(wrong, `exchange\n> ${withChecksum('there,1')}\n< ${withChecksum('alive,2,0,0')}\n`);
    await expect(succeed(await compileFirmwareTest('exchanges', 401), [wrong])).rejects.toThrow('1 wrong');
  });

  it.each([1, 2])('withstands 100,000 rounds of damaged input, seed %i', async (seed) => {
    const fuzz = await compileFirmwareTest('fuzz', 8);
    expect(await succeed(fuzz, ['100000', String(seed)])).toContain('100000 rounds');
  });

  it('makes of any line the same as the TypeScript codec', async () => {
    const lines = fc.sample(arbitraryLine, { seed: 20_260_101, numRuns: 5000 });
    const file = join(folder, 'lines.txt');
    await writeFile(file, lines.map((line) => `\t${escapeBytes(line)}\n`).join(''));
    const outcomes = await succeed(await compileFirmwareTest('vectors', 201), ['outcomes', file]);
    expect(outcomes.trimEnd().split('\n')).toEqual(lines.map((line) => describeOutcome(decodeLine(line))));
  });
});

/** Good lines, and lines that went wrong behind and before the checksum. */
const arbitraryLine: fc.Arbitrary<Uint8Array> = fc
  .tuple(
    arbitraryMessage,
    fc.nat(95),
    fc.constantFrom('', ...'0123456789,-*+ \x1bZ'),
    fc.nat(2),
    fc.boolean(),
  )
  .map(([message, at, mark, cut, mended]) => {
    const line = encodeMessage(message).slice(0, -1);
    if (!mended) return `${line.slice(0, at)}${mark}${line.slice(at + cut)}`;
    const body = line.slice(0, -'*0000'.length);
    return withChecksum(`${body.slice(0, at)}${mark}${body.slice(at + cut)}`);
  })
  .map((line) => new TextEncoder().encode(line));

describe('the size of the C reference, built with -Os', () => {
  it('stays below 8 KiB of flash, with no memory of its own', async () => {
    let flashBytes = 0;
    for (const source of FIRMWARE_LIBRARY.filter((file) => file.endsWith('.c'))) {
      const headers = FIRMWARE_LIBRARY.filter((file) => file.endsWith('.h'));
      const { text, data, bss } = await sizeOf(await compileC('size', [...headers, source], small));
      expect([data, bss]).toEqual([0, 0]);
      flashBytes += text;
    }
    expect(flashBytes).toBeLessThan(8 * 1024);
    expect(flashBytes).toBeGreaterThan(2 * 1024);
  });

  it.each([2, 201])('takes below 160 bytes of memory and 8 for each of %i points', async (points) => {
    const files = ['firmware-protocol/c/turfwire.h', 'firmware-protocol/c/example/footprint.c'];
    const { bss } = await sizeOf(await compileC('footprint', files, [...small, `-DTW_POINTS=${points}`]));
    expect(bss).toBeGreaterThan(8 * points);
    expect(bss).toBeLessThanOrEqual(160 + 8 * points);
  });
});

const small = [...STRICT_C99, '-Os', '-fno-pic', '-ffunction-sections', '-c'];

async function sizeOf(object: string): Promise<{ text: number; data: number; bss: number }> {
  const { stdout } = await run('size', [object]);
  const [text = 0, data = 0, bss = 0] = (stdout.split('\n')[1] ?? '').trim().split(/\s+/).map(Number);
  return { text, data, bss };
}

describe('the C instrument on a serial wire', () => {
  it('sends the sweep of its model, exact to the last integer', async () => {
    const wire = await openProgramWire(await compileModelledAntenna());
    const port = new SerialPort({ path: wire.path, baudRate: 115_200 });
    await once(port, 'open');
    const grid = { startHz: 6_900_000, stopHz: 7_300_001, points: 201 };
    const assembler = new SweepAssembler(9, grid);
    const splitter = new LineSplitter(95);
    let unreadable = 0;
    await new Promise<void>((resolve) => {
      port.on('data', (chunk: Uint8Array) => {
        for (const line of splitter.push(chunk)) {
          const message = decodeLine(line);
          if (message.kind === 'unreadable') unreadable++;
          else assembler.accept(message);
        }
        if (assembler.complete) resolve();
      });
      port.write(`\n${encodeMessage({ kind: 'who', id: 8, oldest: 1, newest: 1 })}`);
      port.write(encodeMessage({ kind: 'walk', id: 9, ...grid }));
    });
    await new Promise((resolve) => port.close(resolve));
    await wire.unplug();
    expect(unreadable).toBe(0);
    const sweep = assembler.sweep();
    expect(sweep?.frequencyHz.length).toBe(201);
    sweep?.frequencyHz.forEach((frequencyHz, number) => {
      const expected = modelledReflectionMicro(frequencyHz);
      // Half a millionth is the rounding on the wire.
      expectClose((sweep.reflectionRe[number] as number) * 1e6, expected.re, { absolute: 0.5001 });
      expectClose((sweep.reflectionIm[number] as number) * 1e6, expected.im, { absolute: 0.5001 });
    });
  });
});

describe('the Makefile', () => {
  it('names all files of the library and builds without this project’s tests', async () => {
    const makefile = await readFile(new URL('../../firmware-protocol/c/Makefile', import.meta.url), 'utf8');
    for (const file of FIRMWARE_LIBRARY)
      expect(makefile).toContain(file.slice('firmware-protocol/c/'.length));
    const build = join(folder, 'build');
    const { stdout } = await run('make', [
      '-s',
      '-C',
      'firmware-protocol/c',
      `BUILD=${build}`,
      'all',
      'size',
    ]);
    expect(stdout).toContain('(TOTALS)');
  });
});
