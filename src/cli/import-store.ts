import { type Amiss, lastShots, type Writer } from '../logbook/logbook.ts';
import { sha256Of, sweepBytes } from '../logbook/sweep-file.ts';
import type { VisitToImport } from './import-visit.ts';
import { simulatedApart } from './simulated-apart.ts';

/** What an import did; also its JSON. */
export interface ImportReport {
  readonly visits: { readonly visit: number; readonly time: string; readonly shots: number }[];
  /** Sweeps that the logbook had already. */
  readonly duplicates: { readonly file: string; readonly visit: number; readonly shot: number }[];
  /** Stored sweeps of these files that were gone, and are back, or that were changed, and are left as they stand. */
  readonly amiss: Amiss[];
  /** `kept` is relative to the logbook, null when there was nothing to keep. */
  readonly refused: { readonly file: string; readonly kept: string | null; readonly why: string }[];
}

/**
 * Stores visits and adds what was done to `report`. A sweep that the logbook holds is not stored again; where a
 * visit is there in part, the rest joins it as further shots; where its file was lost, it is restored.
 *
 * @throws UserError `real-among-simulated`, before anything is stored
 */
export async function storeVisits(
  writer: Writer,
  visits: readonly VisitToImport[],
  text: string,
  report: ImportReport,
): Promise<void> {
  const known = new Map<string, { visit: number; shot: number }>();
  const stored = new Map<number, { time: string; lastShot: number }>();
  const last = lastShots(writer.logbook.journal);
  for (const { visit, time, shots } of writer.logbook.visits) {
    stored.set(visit, { time, lastShot: last.get(visit) ?? 0 });
    for (const { sha256, shot } of shots) known.set(sha256, { visit, shot });
  }
  for (const { time, shots, refused } of visits) {
    for (const { file, bytes, why } of refused) {
      const kept = bytes === null ? null : await writer.setAside(file, bytes, why);
      report.refused.push({ file, kept, why });
    }
    const hashed = shots.map((shot) => {
      const bytes = sweepBytes(shot.sweep);
      return { ...shot, bytes, sha256: sha256Of(bytes) };
    });
    for (const { bytes } of hashed) report.amiss.push(...(await writer.restore(bytes)));
    const there = hashed.map(({ sha256 }) => known.get(sha256)?.visit).find((visit) => visit !== undefined);
    const earlier = there === undefined ? undefined : stored.get(there);
    const fresh = hashed.filter(({ sha256 }, i) => {
      return !known.has(sha256) && hashed.findIndex((other) => other.sha256 === sha256) === i;
    });
    if (fresh.length > 0) {
      simulatedApart(false, writer.logbook);
      const joins =
        there === undefined || earlier === undefined
          ? undefined
          : { visit: there, lastShot: earlier.lastShot };
      const visitTime = earlier?.time ?? time;
      const visit = await writer.addVisit({ time: visitTime, shots: fresh, text, joins });
      const before = joins?.lastShot ?? 0;
      stored.set(visit, { time: visitTime, lastShot: before + fresh.length });
      fresh.forEach(({ sha256 }, i) => {
        known.set(sha256, { visit, shot: before + i + 1 });
      });
      report.visits.push({ visit, time: visitTime, shots: fresh.length });
    }
    for (const shot of hashed) {
      const place = known.get(shot.sha256);
      if (!fresh.includes(shot) && place !== undefined) report.duplicates.push({ file: shot.file, ...place });
    }
  }
}
