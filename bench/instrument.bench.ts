import { execFile, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { promisify } from 'node:util';
import { decodeLine } from '../src/instrument/codec/decode-line.ts';
import { SweepAssembler } from '../src/instrument/codec/sweep-assembler.ts';
import { LineLink } from '../src/instrument/line-link.ts';
import type { TransportListener } from '../src/instrument/line-transport.ts';
import { createLogbook } from '../src/logbook/logbook.ts';
import { compileModelledAntenna } from '../test/support/firmware.ts';
import { openProgramWire } from '../test/support/pty.ts';
import type { BenchCase } from './bench-case.ts';
import {
  lineProtocolCases,
  medianSeconds,
  POINTS,
  splitAll,
  WIRE_BYTES_PER_SECOND,
  WIRE_GRID,
  WIRE_ID,
  wireChunks,
} from './line-protocol.ts';

const run = promisify(execFile);
const root = new URL('..', import.meta.url).pathname;

/** Time for the memory of a process to settle. */
const REST_MS = 3000;

/** The same bytes the whole way that the collector takes: link, exchange, decoder, assembler. */
async function collectAll(chunks: readonly Buffer[]): Promise<number> {
  let listener: TransportListener | null = null;
  const link = await LineLink.open({
    name: 'replay',
    open: async (opened) => {
      listener = opened;
    },
    write: async () => {},
    close: async () => {},
  });
  const started = performance.now();
  const assembler = new SweepAssembler(WIRE_ID, WIRE_GRID);
  const exchange = link.exchange<true>({
    firstMs: 10_000,
    idleMs: 10_000,
    take: (line) => {
      const message = decodeLine(line);
      if (message.kind === 'unreadable') return 'ignored';
      assembler.accept(message);
      return assembler.received === POINTS ? { result: true } : 'heard';
    },
  });
  for (const chunk of chunks) (listener as TransportListener | null)?.bytes(chunk);
  await exchange;
  return (performance.now() - started) / 1000;
}

/** Resident memory of a process at rest, bytes. */
async function residentBytes(processId: number): Promise<number> {
  const status = await readFile(`/proc/${processId}/status`, 'utf8').catch(() => null);
  if (status !== null) return Number(/VmRSS:\s+(\d+)/u.exec(status)?.[1]) * 1024;
  const { stdout } = await run('ps', ['-o', 'rss=', '-p', String(processId)]);
  return Number(stdout) * 1024;
}

/** Starts a program, waits for a text on its standard error, lets it rest, and weighs it. */
async function weigh(args: readonly string[], sign: string): Promise<number> {
  const child = spawn(process.execPath, args, { cwd: root, stdio: ['ignore', 'ignore', 'pipe'] });
  let text = '';
  child.stderr.setEncoding('utf8').on('data', (more: string) => {
    text += more;
  });
  const ended = once(child, 'exit').then(() => {
    throw new Error(`ended early: ${text}`);
  });
  while (!text.includes(sign)) await Promise.race([once(child.stderr, 'data'), ended]);
  await Promise.race([sleep(REST_MS), ended]);
  const bytes = await residentBytes(child.pid as number);
  ended.catch(() => undefined);
  child.kill('SIGKILL');
  return bytes;
}

/**
 * The young generation of the heap starts at the size that it would grow to anyway, so that the growth of what the
 * engine keeps for itself is not taken for a leak.
 */
const FULL_GROWN = ['--expose-gc', '--min-semi-space-size=16'];

const BARE =
  "import('serialport').then(() => { process.stderr.write('ready'); setInterval(() => {}, 1000); })";

async function watchAgainstBare(): Promise<number> {
  const folder = await mkdtemp(join(tmpdir(), 'turfwire-bench-'));
  const wire = await openProgramWire(await compileModelledAntenna());
  try {
    await run('npx', ['tsc', '-p', 'tsconfig.build.json'], { cwd: root });
    const logbook = join(folder, 'field');
    await createLogbook(logbook, {
      version: 1,
      name: 'bench',
      antenna: { kind: 'quarter-wave', bands: ['40m'] },
    });
    const flags = ['--port', wire.path, '--logbook', logbook, '--every', '1h', '--uncorrected'];
    const watching = await weigh(['dist/cli/main.js', 'watch', ...flags], '1 round;');
    return watching / (await weigh(['-e', BARE], 'ready'));
  } finally {
    await wire.unplug();
    await rm(folder, { recursive: true, force: true });
  }
}

export const cases: readonly BenchCase[] = [
  ...lineProtocolCases,
  {
    name: 'points collected per second',
    against: 'points that a 115,200-baud wire carries per second',
    target: { atLeast: 50 },
    run: async () => {
      const chunks = wireChunks();
      const bytes = chunks.reduce((sum, chunk) => sum + chunk.length, 0);
      return bytes / WIRE_BYTES_PER_SECOND / (await medianSeconds(() => collectAll(chunks)));
    },
  },
  {
    name: 'time to collect points',
    against: 'a bare readline split of the same bytes',
    target: { atMost: 2 },
    run: async () => {
      const chunks = wireChunks();
      return (await medianSeconds(() => collectAll(chunks))) / (await medianSeconds(() => splitAll(chunks)));
    },
  },
  {
    name: 'memory after 10,000 sweeps',
    against: 'memory after 500',
    target: { atMost: 1.1 },
    run: async () => {
      const { stdout } = await run(process.execPath, [...FULL_GROWN, '--import', 'tsx', 'bench/soak.ts'], {
        cwd: root,
      });
      const { warm, end } = JSON.parse(stdout) as { warm: number; end: number };
      return end / warm;
    },
  },
  {
    name: 'memory of watch at rest',
    against: 'bare node with serialport loaded',
    target: { atMost: 1.6 },
    run: watchAgainstBare,
  },
];
