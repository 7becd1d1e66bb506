/** Builds, runs every test, and closes with a plain line of the real counts. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { runOrExit } from './run.ts';

interface Counts {
  readonly numPassedTests: number;
  readonly numFailedTests: number;
  readonly numPendingTests: number;
  readonly numTodoTests: number;
  readonly numFailedTestSuites: number;
  readonly success: boolean;
}

runOrExit('node', ['--import', 'tsx', 'scripts/build.ts']);
const folder = mkdtempSync(join(tmpdir(), 'turfwire-test-'));
const report = join(folder, 'report.json');
const { status } = spawnSync(
  'npx',
  [
    'vitest',
    'run',
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${report}`,
    ...process.argv.slice(2),
  ],
  { stdio: 'inherit' },
);
const counts = JSON.parse(readFileSync(report, 'utf8')) as Counts;
rmSync(folder, { recursive: true, force: true });
// A file that cannot even be loaded has no tests to fail: it counts as one failure.
const failed = Math.max(counts.numFailedTests, counts.success ? 0 : 1);
const skipped = counts.numPendingTests + counts.numTodoTests;
process.stdout.write(
  `${counts.numPassedTests} passed, ${failed} failed${skipped > 0 ? `, ${skipped} skipped` : ''}\n`,
);
process.exitCode = failed > 0 || status !== 0 ? 1 : 0;
