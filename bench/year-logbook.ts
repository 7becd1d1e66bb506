import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import * as fs from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createSweep, type Sweep } from '../src/core/sweep/sweep.ts';
import type { Disk } from '../src/logbook/disk.ts';
import { createLogbook, type NewVisit, withWriter } from '../src/logbook/logbook.ts';
import { grid } from '../test/support/antenna-model.ts';
import { type Random, random } from '../test/support/random.ts';

const HOUR_MS = 3_600_000;
const HOURS_IN_YEAR = 8760;
const ROOT = join(import.meta.dirname, '..');

/** The disk without flushing: a logbook for a measurement need not outlive a power cut. */
const HASTY_DISK: Disk = {
  ...fs,
  open: async (...path) => {
    const handle = await fs.open(...path);
    handle.sync = async () => {};
    return handle;
  },
};

const BANDS = [grid(6.8e6, 7.5e6, 201), grid(9.9e6, 10.4e6, 201)];
const BEGUN_MS = Date.parse('2025-01-01T00:00:00Z');

let year: string | null = null;

/** The folder of a year of hourly visits, written once for all cases, and the command built. */
export async function hourlyYear(): Promise<string> {
  if (year !== null) return year;
  const compiler = join(ROOT, 'node_modules/typescript/bin/tsc');
  execFileSync(process.execPath, [compiler, '-p', join(ROOT, 'tsconfig.build.json')]);
  const folder = mkdtempSync(join(tmpdir(), 'turfwire-bench-'));
  process.once('exit', () => rmSync(folder, { recursive: true, force: true }));
  year = join(folder, 'year');
  await writeYear(year, HOURS_IN_YEAR);
  return year;
}

/** Seconds of the built command on a logbook, start of the program included. */
export function secondsOn(logbook: string, ...args: readonly string[]): number {
  const started = performance.now();
  execFileSync(process.execPath, [join(ROOT, 'dist/cli/main.js'), ...args, '--logbook', logbook]);
  return (performance.now() - started) / 1000;
}

/** Writes a logbook of hourly visits in two bands, 201 points each, with a joint that goes bad near the end. */
async function writeYear(folder: string, visits: number): Promise<void> {
  await createLogbook(folder, {
    version: 1,
    name: 'Hourly',
    antenna: { kind: 'quarter-wave', height: '10.1m', diameter: '25mm', bands: ['40m', '30m'] },
    radials: { diameter: '1.6mm', count: 24, length: '6m' },
    soil: 'average',
  });
  const r = random(1);
  await withWriter(folder, { disk: HASTY_DISK }, async (writer) => {
    for (let i = 0; i < visits; i++) await writer.addVisit(visitOfHour(r, i, i > 0.97 * visits ? 4 : 0));
  });
}

/** One more visit at its end, the joint still bad. */
export async function addHour(folder: string): Promise<void> {
  await withWriter(folder, { disk: HASTY_DISK }, async (writer) => {
    const hour = writer.logbook.visits.length;
    await writer.addVisit(visitOfHour(random(hour), hour, 4));
  });
}

function visitOfHour(r: Random, hour: number, jointOhm: number): NewVisit {
  const season = Math.cos((2 * Math.PI * hour) / 8766);
  const ohm = 41 + 1.5 * season + r.normal(0.2);
  return {
    time: new Date(BEGUN_MS + hour * HOUR_MS).toISOString(),
    shots: BANDS.map((f) => ({
      sweep: noisySweep(r, f, ohm, jointOhm, 7.1e6 * (1 - 0.001 * season)),
      plane: 'feedpoint',
      target: 'antenna',
      source: 'generated',
    })),
  };
}

function noisySweep(r: Random, f: Float64Array, ohm: number, jointOhm: number, resonanceHz: number): Sweep {
  const rounded = (x: number): number => Number(x.toFixed(4));
  return createSweep({
    frequencyHz: f.map(Math.round),
    resistanceOhm: f.map((hz) => rounded(jointOhm + ohm * (hz / resonanceHz) ** 2 + r.normal(0.05))),
    reactanceOhm: f.map((hz) => rounded(400 * (hz / resonanceHz - resonanceHz / hz) + r.normal(0.05))),
  });
}
