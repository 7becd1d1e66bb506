import type { Reading } from '../record.ts';
import type { SiteJoint } from '../site.ts';
import { assessJoint } from './joints.ts';

/** When a joint should be looked at next. */
export interface DueInspection {
  readonly joint: string;
  readonly everyMonths: number;
  /** ISO 8601; null when the journal knows of no inspection or repair of it. */
  readonly last: string | null;
  /** ISO 8601; null when it was never inspected, and so is due now. */
  readonly due: string | null;
  readonly overdue: boolean;
}

/**
 * What is due for inspection, the longest overdue first. An inspection or a repair that names the joint counts;
 * a joint never inspected is due at once.
 *
 * @param readings - of the journal, in any order; those after `now` do not count
 * @param now - ISO 8601 with zone
 */
export function dueInspections(
  joints: readonly SiteJoint[],
  readings: readonly Reading[],
  now: string,
): DueInspection[] {
  const nowMs = Date.parse(now);
  return joints
    .map((joint, i): DueInspection => {
      const { inspectionMonths } = assessJoint(joint, `joints[${i}]`);
      const last = lastLook(joint.name, readings, nowMs);
      const due = last === null ? null : monthsAfter(last, inspectionMonths);
      return {
        joint: joint.name,
        everyMonths: inspectionMonths,
        last,
        due,
        overdue: due === null || Date.parse(due) <= nowMs,
      };
    })
    .sort((a, b) => dueMs(a) - dueMs(b));
}

/** Whether a note speaks of a joint: neither case nor spaces around a name matter. */
export function sameJoint(a: string, b: string): boolean {
  return a.trim().toLowerCase() === b.trim().toLowerCase();
}

function lastLook(joint: string, readings: readonly Reading[], nowMs: number): string | null {
  const named = readings.filter(
    ({ kind, subject, time }) =>
      (kind === 'inspection' || kind === 'repair') &&
      sameJoint(subject ?? '', joint) &&
      Date.parse(time) <= nowMs,
  );
  const latest = named.reduce<Reading | null>(
    (a, b) => (a !== null && Date.parse(a.time) >= Date.parse(b.time) ? a : b),
    null,
  );
  return latest?.time ?? null;
}

/** Calendar months later on the clock of the same zone; a day that the month lacks becomes its last. */
function monthsAfter(time: string, months: number): string {
  const [day, clock] = [time.slice(0, 10), time.slice(10)];
  const date = new Date(`${day}T00:00:00Z`);
  date.setUTCMonth(date.getUTCMonth() + months);
  if (date.getUTCDate() !== Number(day.slice(8))) date.setUTCDate(0);
  return date.toISOString().slice(0, 10) + clock;
}

function dueMs({ due }: DueInspection): number {
  return due === null ? Number.NEGATIVE_INFINITY : Date.parse(due);
}
