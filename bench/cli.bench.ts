import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import type { BenchCase } from './bench-case.ts';

const COMMAND = 'dist/cli/main.js';
const RUNS = 20;

/** Shortest of many runs of node, ms: the machine's other work only ever adds. */
function shortestMs(args: readonly string[]): number {
  let shortest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < RUNS; i++) {
    const start = performance.now();
    spawnSync(process.execPath, args, { stdio: 'ignore' });
    shortest = Math.min(shortest, performance.now() - start);
  }
  return shortest;
}

export const cases: readonly BenchCase[] = [
  {
    name: 'turfwire --help, from nothing to its end',
    against: 'a bare node -e 0',
    target: { atMost: 2.5 },
    run: async () => {
      if (!existsSync(COMMAND)) throw new Error(`${COMMAND} is not built: npm run build`);
      return shortestMs([COMMAND, '--help']) / shortestMs(['-e', '0']);
    },
  },
];
