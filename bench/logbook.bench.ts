import { spawnSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createSweep, type Sweep } from '../src/core/sweep/sweep.ts';
import { checkLogbook, createLogbook, withWriter } from '../src/logbook/logbook.ts';
import { HASTY_DISK } from '../test/support/faulty-disk.ts';
import type { BenchCase } from './bench-case.ts';

const VISITS = 1_667;
const SHOTS = 3;
const POINTS = 201;
const ROUNDS = 5;

function sweep(number: number): Sweep {
  return createSweep({
    frequencyHz: Float64Array.from({ length: POINTS }, (_, i) => 7e6 + i * 1e3),
    resistanceOhm: Float64Array.from({ length: POINTS }, (_, i) => 36 + Math.sin(number + i)),
    reactanceOhm: Float64Array.from({ length: POINTS }, (_, i) => i / 2 - 50 + Math.cos(number * i)),
  });
}

/** A logbook of some 5,000 sweeps. */
async function fullLogbook(folder: string): Promise<void> {
  await createLogbook(folder, { version: 1, name: 'Bench', antenna: { kind: 'quarter-wave' } });
  await withWriter(folder, { disk: HASTY_DISK }, async (writer) => {
    for (let visit = 0; visit < VISITS; visit++) {
      const month = String((visit % 12) + 1).padStart(2, '0');
      const shots = Array.from({ length: SHOTS }, (_, shot) => ({
        sweep: sweep(visit * SHOTS + shot),
        plane: 'feedpoint' as const,
        target: 'antenna' as const,
        source: 'bench',
      }));
      await writer.addVisit({ time: `2025-${month}-01T10:00:00Z`, shots });
    }
  });
}

async function fastest(measure: () => Promise<void> | void): Promise<number> {
  let best = Number.POSITIVE_INFINITY;
  for (let round = 0; round < ROUNDS; round++) {
    const started = performance.now();
    await measure();
    best = Math.min(best, performance.now() - started);
  }
  return best;
}

export const cases: readonly BenchCase[] = [
  {
    name: `check of ${VISITS * SHOTS} sweeps of ${POINTS} points`,
    against: 'sha256sum over the same files',
    target: { atMost: 4 },
    run: async () => {
      const folder = mkdtempSync(join(tmpdir(), 'turfwire-bench-'));
      try {
        await fullLogbook(folder);
        const files = readdirSync(join(folder, 'sweeps'), { recursive: true, withFileTypes: true })
          .filter((entry) => entry.isFile())
          .map(({ parentPath, name }) => join(parentPath, name));
        const hashing = await fastest(() => {
          if (spawnSync('sha256sum', files, { maxBuffer: 1e8 }).status !== 0)
            throw new Error('sha256sum failed');
        });
        const checking = await fastest(async () => {
          const { damage, sweeps } = await checkLogbook(folder);
          if (damage.length > 0 || sweeps !== files.length) throw new Error('the check went wrong');
        });
        return checking / hashing;
      } finally {
        rmSync(folder, { recursive: true, force: true });
      }
    },
  },
];
