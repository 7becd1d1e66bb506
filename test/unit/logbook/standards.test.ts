import { mkdtemp, readdir, rm, writeFile } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { idealStandard, STANDARD_NAMES } from '../../../src/core/sweep/calibration-standards.ts';
import { createReflectionSweep, type ReflectionSweep } from '../../../src/core/sweep/reflection-sweep.ts';
import { createSweep } from '../../../src/core/sweep/sweep.ts';
import {
  checkLogbook,
  createLogbook,
  newestStandards,
  openLogbook,
  withWriter,
} from '../../../src/logbook/logbook.ts';

const SITE = { version: 1, name: 'garden', antenna: { kind: 'quarter-wave', bands: ['40m'] } };
const TIME = '2026-03-01T10:15:00Z';
const DEFINITION = { ...idealStandard('open'), offsetDelayS: 3.1e-11, shuntCapacitanceF: 5.2e-14 };

let folder: string;
beforeEach(async () => {
  folder = await mkdtemp(join(tmpdir(), 'standards-'));
  await createLogbook(folder, SITE);
});
afterEach(() => rm(folder, { recursive: true, force: true }));

function readings(fromHz: number, toHz: number, re = 1): ReflectionSweep {
  return createReflectionSweep({
    frequencyHz: Float64Array.of(fromHz, toHz),
    reflectionRe: Float64Array.of(re, re),
    reflectionIm: Float64Array.of(0, 0.1 + 0.2),
    referenceOhm: 50,
  });
}

async function log(definition = DEFINITION, sweep = readings(7e6, 7.3e6), source = 'meter 7'): Promise<void> {
  await withWriter(folder, {}, (writer) => writer.addStandard({ time: TIME, definition, sweep, source }));
}

describe('a standard', () => {
  it('comes back as it was logged, an open circuit included', async () => {
    await log();
    const { standards } = await newestStandards(await openLogbook(folder), 'meter 7', 7e6, 7.2e6);
    expect(standards).toEqual([{ definition: DEFINITION, sweep: readings(7e6, 7.3e6) }]);
  });

  it('is only used for the instrument that swept it, over a range that it covers', async () => {
    await log();
    const logbook = await openLogbook(folder);
    expect((await newestStandards(logbook, 'meter 8', 7e6, 7.2e6)).missing).toEqual(STANDARD_NAMES);
    expect((await newestStandards(logbook, 'meter 7', 6.9e6, 7.2e6)).missing).toEqual(STANDARD_NAMES);
  });

  it('gives way to a newer one', async () => {
    await log();
    await log(DEFINITION, readings(7e6, 7.3e6, 0.9));
    const { standards, missing } = await newestStandards(await openLogbook(folder), 'meter 7', 7e6, 7.2e6);
    expect(standards[0]?.sweep.reflectionRe[0]).toBe(0.9);
    expect(missing).toEqual(['short', 'load']);
  });

  it('that was changed on the disk is refused, and named by the check', async () => {
    await log();
    const [month = ''] = await readdir(join(folder, 'sweeps'));
    const [file = ''] = await readdir(join(folder, 'sweeps', month));
    await writeFile(join(folder, 'sweeps', month, file), 'changed');
    await expect(newestStandards(await openLogbook(folder), 'meter 7', 7e6, 7.2e6)).rejects.toMatchObject({
      code: 'sweep-changed',
    });
    expect((await checkLogbook(folder)).damage).toMatchObject([{ code: 'sweep-changed' }]);
  });
});

it('a corrected shot keeps its raw readings beside it', async () => {
  const sweep = createSweep({
    frequencyHz: Float64Array.of(7e6, 7.2e6),
    resistanceOhm: Float64Array.of(36, 38),
    reactanceOhm: Float64Array.of(-10, 10),
  });
  const raw = { sweep: readings(7e6, 7.2e6), correction: 'corrected with open, short and load' };
  const shot = { sweep, plane: 'feedpoint', target: 'antenna', source: 'meter 7', raw } as const;
  await withWriter(folder, {}, (writer) => writer.addVisit({ time: TIME, shots: [shot] }));
  const { events, visits } = await openLogbook(folder);
  expect(events.at(-1)).toMatchObject({ event: 'raw', visit: 1, shot: 1, text: raw.correction });
  expect(visits[0]?.shots).toHaveLength(1);
  expect(await checkLogbook(folder)).toMatchObject({ sweeps: 2, damage: [] });
});
