import { describe, expect, it } from 'vitest';
import { measuredInBand } from '../../../src/cli/logbook-visits.ts';
import { bandsOfRegion } from '../../../src/core/sweep/bands.ts';
import { openLogbook, withWriter } from '../../../src/logbook/logbook.ts';
import { newLogbook, someVisit } from '../../support/logbooks.ts';

const BAND = bandsOfRegion(1).find(({ band }) => band === '40m');
const HOUR_MS = 3_600_000;

async function logbookOf(visits: number): Promise<string> {
  const folder = await newLogbook(undefined, { time: '2026-01-01T00:00:00Z' });
  await withWriter(folder, {}, async (writer) => {
    for (let i = 0; i < visits; i++) {
      const time = new Date(Date.parse('2026-03-01T00:00:00Z') + i * HOUR_MS).toISOString();
      await writer.addVisit({ ...someVisit(i + 1), time });
    }
  });
  return folder;
}

async function readOf(
  folder: string,
  asked?: readonly number[],
): Promise<{ read: number[]; spared: number }> {
  if (BAND === undefined) throw new Error('no such band');
  const { states, spared } = await measuredInBand(await openLogbook(folder), BAND, asked);
  return { read: states.flatMap(({ visits }) => visits.map(({ visit }) => visit)), spared };
}

describe('measuredInBand', () => {
  it('reads every visit of a state of usual length', async () => {
    const { read, spared } = await readOf(await logbookOf(20));
    expect(read).toHaveLength(20);
    expect(spared).toBe(0);
  });

  it('reads of a long state 240 spread over its time, the newest two, and those asked for', async () => {
    const folder = await logbookOf(600);
    const { read, spared } = await readOf(folder);
    expect(read.length + spared).toBe(600);
    expect(read.length).toBeGreaterThanOrEqual(240);
    expect(read.length).toBeLessThanOrEqual(241);
    expect(read[0]).toBe(1);
    expect(read.slice(-2)).toEqual([599, 600]);
    const gaps = read.slice(1).map((visit, i) => visit - (read[i] as number));
    expect(Math.max(...gaps)).toBeLessThanOrEqual(3);
    const left = Array.from({ length: 600 }, (_, i) => i + 1).find(
      (visit) => !read.includes(visit),
    ) as number;
    expect((await readOf(folder, [left])).read).toContain(left);
  });
});
