import type { UnitSystem } from '../core/quantity.ts';
import { type CautionJob, cautionsFor, cautionsInBrief } from '../core/safety/cautions.ts';
import type { JournalEntry } from '../logbook/journal-reader.ts';

/** One day's work: whoever did the same within it has just read the cautions. */
const DAYS_WORK_MS = 12 * 3_600_000;

/**
 * The cautions of the work at hand: every one of them, or a line that names them where the journal holds the same
 * work of the same day and all were shown with it.
 *
 * @param earlier - what was logged before this work
 * @param same - whether an entry is of the same kind of work
 */
export function workCautions(
  jobs: readonly CautionJob[],
  earlier: readonly JournalEntry[],
  same: (entry: JournalEntry) => boolean,
  now: Date,
  units: UnitSystem = 'metric',
): string[] {
  const sinceMs = now.getTime() - DAYS_WORK_MS;
  const shown = earlier.some((entry) => same(entry) && Date.parse(entry.recorded) >= sinceMs);
  if (!shown) return jobs.flatMap((job) => cautionsFor(job, units)).map((caution) => `- ${caution}`);
  const brief = jobs.map((job) => cautionsInBrief(job)).join('; ');
  return [`Cautions as before: ${brief}. All of them: \`turfwire safety --cautions ${jobs.join(' ')}\``];
}
