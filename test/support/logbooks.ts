import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { onTestFinished } from 'vitest';
import type { RadialEvent } from '../../src/core/journal-event.ts';
import { createSweep, type Sweep } from '../../src/core/sweep/sweep.ts';
import { createLogbook, type NewVisit } from '../../src/logbook/logbook.ts';

export const SITE: Readonly<Record<string, unknown>> = {
  version: 1,
  name: 'Lakeside',
  antenna: { kind: 'quarter-wave', bands: ['40m'] },
};

/** A square of 40 m with the antenna in its middle, as a site file gives it. */
export const SQUARE_LOT = {
  outline: [
    ['0m', '0m'],
    ['40m', '0m'],
    ['40m', '40m'],
    ['0m', '40m'],
  ],
  base: ['20m', '20m'],
} as const;

/** A folder that somebody else removes. */
export function lastingFolder(): string {
  return mkdtempSync(join(tmpdir(), 'turfwire-test-'));
}

/** A folder that is gone when the test is over. */
export function temporaryFolder(): string {
  const folder = lastingFolder();
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

/** The folder of a fresh logbook, begun now or at a time. */
export async function newLogbook(
  site: Readonly<Record<string, unknown>> = SITE,
  begun: { readonly time?: string } = {},
): Promise<string> {
  const folder = join(temporaryFolder(), 'field');
  await createLogbook(folder, site, begun);
  return folder;
}

/** A small sweep round 7 MHz; each number gives another one. */
export function someSweep(number = 1, points = 3): Sweep {
  return createSweep({
    frequencyHz: Float64Array.from({ length: points }, (_, i) => 7e6 + i * 1e5),
    resistanceOhm: Float64Array.from({ length: points }, (_, i) => 36 + number / 8 + i / 3),
    reactanceOhm: Float64Array.from({ length: points }, (_, i) => (i - 1) * 5.1),
  });
}

/** A visit of one shot for each number. */
export function someVisit(...numbers: number[]): NewVisit {
  return {
    time: '2026-03-01T10:15:00Z',
    shots: numbers.map((number) => ({
      sweep: someSweep(number),
      plane: 'feedpoint',
      target: 'antenna',
      source: `shot${number}.csv`,
    })),
  };
}

/** Radials laid at a time, of 6 m each. */
export function layEvents(time: string, from: number, count: number): RadialEvent[] {
  return Array.from({ length: count }, (_, i) => ({
    event: 'lay',
    time,
    text: '',
    number: from + i,
    lengthM: 6,
    bearingDeg: null,
    route: null,
  }));
}
