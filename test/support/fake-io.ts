import type { Io } from '../../src/cli/io.ts';
import { run } from '../../src/cli/program.ts';

/** What a command line did. */
export interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
  /** Standard output as JSON. */
  json<T>(): T;
}

/** Runs a command line in this process, with a world made up for the test. */
export async function runCommand(args: readonly string[], world: Partial<Io> = {}): Promise<Ran> {
  const out: string[] = [];
  const err: string[] = [];
  const code = await run(args, {
    out: (text) => void out.push(text),
    err: (text) => void err.push(text),
    cwd: process.cwd(),
    env: {},
    terminal: false,
    colour: false,
    called: 'turfwire',
    now: () => new Date(),
    stdin: async () => new Uint8Array(),
    ...world,
  });
  return { code, out: out.join('\n'), err: err.join('\n'), json: () => JSON.parse(out.join('\n')) };
}
