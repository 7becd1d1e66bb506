import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import type { Readable, Writable } from 'node:stream';
import { compileC } from './compile-c.ts';

/** A serial wire on a pseudo-terminal in raw mode. */
export interface Wire {
  /** The host's end, for `new SerialPort({ path })`. */
  readonly path: string;
  /**
   * Pulls the plug: the host's end hangs up at once, and reading from it gives 0 bytes. The binding of
   * serialport 13 takes that for "nothing yet" and reads again without end when it happens between two of its
   * reads; only when it happens while it waits for bytes does it emit `close`. So a host needs a time limit too.
   */
  unplug(): Promise<void>;
}

/** A wire whose instrument is played by the test. */
export interface PlayedWire extends Wire {
  /** Bytes that the host has sent. */
  readonly fromHost: Readable;
  /** Takes bytes as from the instrument. */
  readonly toHost: Writable;
}

/** A wire with the test at the instrument's end. */
export async function openPlayedWire(): Promise<PlayedWire> {
  const child = spawn(await compilePty(), [], { stdio: ['pipe', 'pipe', 'pipe'] });
  // A write after unplugging fails; that is what unplugging means.
  child.stdin.on('error', () => {});
  return { ...(await wireOf(child, child.stderr)), fromHost: child.stdout, toHost: child.stdin };
}

/** A wire with a program at the instrument's end: the wire is its standard input and output. */
export async function openProgramWire(program: string, args: readonly string[] = []): Promise<Wire> {
  const child = spawn(await compilePty(), [program, ...args], { stdio: ['ignore', 'ignore', 'pipe'] });
  return wireOf(child, child.stderr);
}

function compilePty(): Promise<string> {
  return compileC('pty', ['test/support/pty.c'], ['-std=c99', '-Wall', '-Wextra', '-Werror', '-O1']);
}

async function wireOf(child: ChildProcess, messages: Readable): Promise<Wire> {
  const exited = once(child, 'exit');
  const path = await firstLine(messages, exited);
  return {
    path,
    unplug: async () => {
      child.kill('SIGKILL');
      await exited;
    },
  };
}

async function firstLine(stream: Readable, exited: Promise<unknown>): Promise<string> {
  let text = '';
  stream.setEncoding('utf8').on('data', (chunk: string) => {
    text += chunk;
  });
  const gone = exited.then(() => true);
  while (!text.includes('\n')) {
    if (await Promise.race([once(stream, 'data').then(() => false), gone])) break;
  }
  const path = text.slice(0, text.indexOf('\n'));
  if (!path.startsWith('/')) throw new Error(`the pseudo-terminal did not start: ${text}`);
  return path;
}
