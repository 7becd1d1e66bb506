import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { table } from '../src/cli/answer.ts';
import { CAUSES } from '../src/core/drift/cause.ts';
import { VARIANTS, type Variant } from '../test/support/drift/variants.ts';
import type { BenchCase } from './bench-case.ts';
import { type DriftScore, scoreVariant } from './drift-score.ts';
import { addHour, hourlyYear, secondsOn } from './year-logbook.ts';

/** Cases that were never looked at while the method was made. */
const HELD_OUT = 1_000_000;
const CASES = 400;

let usual: DriftScore | null = null;

/** The usual variant, scored once and printed. */
function usualScore(): DriftScore {
  if (usual === null) {
    usual = scoreVariant(VARIANTS[0] as Variant, HELD_OUT, CASES);
    printScore('usual', usual);
  }
  return usual;
}

/** Confusion matrix (truth down, answer across) and figures, on standard error. */
export function printScore(name: string, score: DriftScore): void {
  const percent = (share: number): string => `${(100 * share).toFixed(1)} %`;
  const matrix = [
    ['truth', ...CAUSES],
    ...CAUSES.map((cause) => [cause, ...CAUSES.map((other) => String(score.confusion[cause][other]))]),
  ];
  process.stderr.write(
    `\n${name}, ${score.cases} cases\n${table(matrix)}\n` +
      `right ${percent(score.rightOverall)}, of medium and large ${percent(score.rightMediumAndLarge)}, ` +
      `false alarms ${percent(score.falseAlarms)}, calibration error ${score.calibrationError.toFixed(3)}, ` +
      `joint ${score.jointError.toFixed(2)} of 0.6 ohm or 10 %, length ${score.lengthError.toFixed(3)} %, ` +
      `within stated uncertainty ${percent(score.covered)}\n`,
  );
}

/** What became of the logbook since it was diagnosed. */
type Since = 'never diagnosed' | 'nothing new' | 'one more visit';

async function ratioToCheck(since: Since): Promise<number> {
  const year = await hourlyYear();
  secondsOn(year, 'check');
  const check = secondsOn(year, 'check');
  if (since === 'never diagnosed') rmSync(join(year, 'derived'), { recursive: true, force: true });
  else secondsOn(year, 'diagnose');
  if (since === 'one more visit') await addHour(year);
  return secondsOn(year, 'diagnose') / check;
}

export const cases: readonly BenchCase[] = [
  {
    name: 'right cause first',
    against: 'all held-out cases',
    target: { atLeast: 0.92 },
    run: async () => usualScore().rightOverall,
  },
  {
    name: 'right cause first, medium and large changes',
    against: 'their held-out cases',
    target: { atLeast: 0.96 },
    run: async () => usualScore().rightMediumAndLarge,
  },
  {
    name: 'false alarms on unchanged antennas',
    against: 'their held-out cases',
    target: { atMost: 0.03 },
    run: async () => usualScore().falseAlarms,
  },
  {
    name: 'expected calibration error',
    against: 'ten bins of the top probability',
    target: { atMost: 0.05 },
    run: async () => usualScore().calibrationError,
  },
  {
    name: 'joint resistance, 90th percentile',
    against: '0.6 ohm or 10 %',
    target: { atMost: 1 },
    run: async () => usualScore().jointError,
  },
  {
    name: 'element length, 90th percentile',
    against: '0.2 %',
    target: { atMost: 1 },
    run: async () => usualScore().lengthError / 0.2,
  },
  {
    name: 'diagnose a year of hourly visits, first time',
    against: 'check of the same logbook',
    target: { atMost: 3 },
    run: () => ratioToCheck('never diagnosed'),
  },
  {
    name: 'diagnose it again',
    against: 'check of the same logbook',
    target: { atMost: 0.3 },
    run: () => ratioToCheck('nothing new'),
  },
  {
    // Missed: one row and one sweep are read, but charts and causes are computed anew, in a program started anew.
    name: 'diagnose it after one more visit',
    against: 'check of the same logbook',
    target: { atMost: 0.3 },
    run: () => ratioToCheck('one more visit'),
  },
];
