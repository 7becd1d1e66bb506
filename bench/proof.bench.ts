import type { BenchCase } from './bench-case.ts';
import { hourlyYear, secondsOn } from './year-logbook.ts';

async function ratioToCheck(...args: readonly string[]): Promise<number> {
  const year = await hourlyYear();
  secondsOn(year, 'check');
  const check = secondsOn(year, 'check');
  return secondsOn(year, ...args) / check;
}

export const cases: readonly BenchCase[] = [
  {
    name: 'compare two visits of a year of hourly ones',
    against: 'check of the same logbook',
    target: { atMost: 3 },
    run: () => ratioToCheck('compare', '--before', '8000', '--after', '8001', '--band', '40m'),
  },
  {
    name: 'progress over a year of hourly visits',
    against: 'check of the same logbook',
    target: { atMost: 3 },
    run: () => ratioToCheck('progress'),
  },
];
