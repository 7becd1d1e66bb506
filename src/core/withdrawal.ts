import type { JournalEvent } from './journal-event.ts';
import { requireFieldConsistent } from './layout/field-state.ts';
import { UserError } from './user-error.ts';

/** An event with the number of its row. */
interface Row {
  readonly sequence: number;
  readonly event: JournalEvent;
}

/**
 * Which rows were taken back, each with the row that did it. A journal is never rewritten, so what was logged by mistake
 * stays in it; a later row withdraws it, and then it is as if it had never been.
 */
export function withdrawals(rows: readonly Row[]): ReadonlyMap<number, number> {
  const withdrawn = new Map<number, number>();
  for (const { sequence, event } of rows) {
    if (event.event === 'withdraw' && event.row < sequence) withdrawn.set(event.row, sequence);
  }
  return withdrawn;
}

/** The events that stand: all but those that were withdrawn. */
export function standingEvents(rows: readonly Row[]): JournalEvent[] {
  const withdrawn = withdrawals(rows);
  const standing: JournalEvent[] = [];
  for (const { sequence, event } of rows) if (!withdrawn.has(sequence)) standing.push(event);
  return standing;
}

/**
 * Refuses to withdraw what cannot be, or what other rows rest on: a radial that was lifted later was laid.
 *
 * @param rows - of the whole journal
 * @param wanted - numbers of the rows to be withdrawn, all together
 * @throws UserError `row-unknown`, `row-stays`, `row-withdrawn`, `field-contradiction`
 */
export function requireWithdrawable(rows: readonly Row[], wanted: readonly number[]): void {
  const withdrawn = withdrawals(rows);
  for (const number of wanted) {
    const kind = rows.find(({ sequence }) => sequence === number)?.event.event;
    const earlier = withdrawn.get(number);
    if (kind === undefined) {
      throw new UserError(
        'row-unknown',
        `there is no row ${number}: \`turfwire history\` shows their numbers`,
      );
    }
    if (kind === 'begin') throw new UserError('row-stays', `row ${number} began the logbook: it stays`);
    if (kind === 'withdraw') {
      const message = `row ${number} is a withdrawal itself: log again what it took back`;
      throw new UserError('row-stays', message);
    }
    if (earlier !== undefined) {
      throw new UserError('row-withdrawn', `row ${number} was withdrawn before, by row ${earlier}`);
    }
  }
  const left = rows.filter(({ sequence }) => !wanted.includes(sequence));
  requireFieldConsistent(standingEvents(rows), standingEvents(left));
}
