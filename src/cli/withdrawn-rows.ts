import type { JournalEvent } from '../core/journal-event.ts';
import type { UnitSystem } from '../core/quantity.ts';
import { withdrawals } from '../core/withdrawal.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { eventText } from './event-text.ts';

/** What a row was that a withdrawal is about. */
export interface WithdrawnRow {
  readonly row: number;
  readonly event: JournalEvent['event'];
  readonly time: string;
  /** In words. */
  readonly what: string;
  /** True when it counts now: a withdrawal of it was withdrawn. */
  readonly stands: boolean;
}

/**
 * The rows behind withdrawals just made. Of the withdrawal of a withdrawal, the row behind both: that one stands again.
 *
 * @param events - those that were noted; what is no withdrawal is passed over
 * @param logbook - with them in it
 */
export function withdrawnRows(events: readonly JournalEvent[], { journal, site }: Logbook): WithdrawnRow[] {
  const byRow = new Map(journal.entries.map(({ sequence, event }) => [sequence, event]));
  const withdrawn = withdrawals(journal.entries);
  return events.flatMap((noted) => {
    let [row, event]: [number, JournalEvent | undefined] = [0, noted];
    while (event?.event === 'withdraw') [row, event] = [event.row, byRow.get(event.row)];
    if (event === undefined || event === noted) return [];
    return [rowOf(row, event, site.units, !withdrawn.has(row))];
  });
}

function rowOf(row: number, event: JournalEvent, units: UnitSystem, stands: boolean): WithdrawnRow {
  return { row, event: event.event, time: event.time, what: eventText(event, units), stands };
}

/** `Row 4 was: radial 3 laid, 60.0 m (2026-05-01T12:00:00Z).` */
export function withdrawnText({ row, what, time, stands }: WithdrawnRow): string {
  return `Row ${row} ${stands ? 'stands again' : 'was'}: ${what} (${time}).`;
}

/** A warning where rows of different kinds were taken together, as one number too many in a range does; null where not. */
export function mixedKinds(rows: readonly WithdrawnRow[]): string | null {
  // The uncorrected readings belong to their shot.
  const kinds = new Set(rows.map(({ event }) => KINDS[event] ?? (event === 'raw' ? KINDS.shot : event)));
  if (kinds.size < 2) return null;
  return `rows of different kinds were taken together (${[...kinds].join(', ')}): check below that each was meant`;
}

const KINDS: Readonly<Partial<Record<JournalEvent['event'], string>>> & { readonly shot: string } = {
  lay: 'laid radials',
  plan: 'planned radials',
  lift: 'lifted radials',
  shot: 'shots of visits',
  standard: 'calibration standards',
};
