import type { JournalEvent } from './journal-event.ts';
import { requireFieldConsistent } from './layout/field-state.ts';
import { UserError } from './user-error.ts';

/** An event with the number of its row. */
interface Row {
  readonly sequence: number;
  readonly event: JournalEvent;
}

/**
 * Which rows are taken back, each with the row that did it. A journal is never rewritten, so what was logged by mistake
 * stays in it; a later row withdraws it, and then it is as if it had never been. A withdrawal may be withdrawn in its
 * turn: then what it took back stands again.
 */
export function withdrawals(rows: readonly Row[]): ReadonlyMap<number, number> {
  const withdrawn = new Map<number, number>();
  const reaching: { readonly sequence: number; readonly row: number }[] = [];
  for (const { sequence, event } of rows) {
    if (event.event === 'withdraw' && event.row < sequence) reaching.push({ sequence, row: event.row });
  }
  // From the last one back, so that whether a withdrawal stands is known before it is applied.
  for (const { sequence, row } of reaching.sort((a, b) => b.sequence - a.sequence)) {
    if (!withdrawn.has(sequence) && !withdrawn.has(row)) withdrawn.set(row, sequence);
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
    if (earlier !== undefined) {
      throw new UserError('row-withdrawn', `row ${number} was withdrawn before, by row ${earlier}`);
    }
  }
  const next = rows.reduce((last, { sequence }) => Math.max(last, sequence), 0) + 1;
  const taken: Row[] = wanted.map((row, i) => ({
    sequence: next + i,
    event: { event: 'withdraw', time: '', text: '', row },
  }));
  try {
    requireFieldConsistent(standingEvents(rows), standingEvents([...rows, ...taken]));
  } catch (cause) {
    if (!(cause instanceof UserError)) throw cause;
    const again = laidAgain(rows, wanted);
    if (again !== null) throw new UserError(cause.code, again, { cause });
    throw new UserError(cause.code, `other rows rest on these; without them, ${cause.message}`, { cause });
  }
}

/** Why a laying cannot stand again: under its number another row was laid meanwhile; null where that is not why. */
function laidAgain(rows: readonly Row[], wanted: readonly number[]): string | null {
  const withdrawn = withdrawals(rows);
  const eventOf = (row: number) => rows.find(({ sequence }) => sequence === row)?.event;
  for (const row of wanted) {
    const undone = eventOf(row);
    const first = undone?.event === 'withdraw' ? eventOf(undone.row) : undefined;
    if (first?.event !== 'lay') continue;
    const again = rows.find(
      ({ sequence, event }) =>
        event.event === 'lay' &&
        event.number === first.number &&
        event !== first &&
        !withdrawn.has(sequence) &&
        !wanted.includes(sequence),
    );
    if (again === undefined) continue;
    const { sequence } = again;
    return `radial ${first.number} was laid again in row ${sequence}; withdraw row ${sequence} first`;
  }
  return null;
}

/**
 * The rows to withdraw when a user names some. A plan withdraws what an older one left open; with the last row of the
 * plan those withdrawals go as well, so that the older plan is open again.
 */
export function withReplacedPlans(rows: readonly Row[], wanted: readonly number[]): number[] {
  const before = withdrawals(rows);
  const all = new Set(wanted);
  for (const { replaced, planned } of replacingPlans(rows)) {
    const isWithdrawnNow = planned.some((row) => all.has(row));
    if (!isWithdrawnNow || !planned.every((row) => all.has(row) || before.has(row))) continue;
    for (const row of replaced) if (!before.has(row)) all.add(row);
  }
  return [...all];
}

interface ReplacingPlan {
  /** Rows that withdraw an older plan. */
  readonly replaced: readonly number[];
  /** Rows of the plan that follows them. */
  readonly planned: readonly number[];
}

/** One append withdraws the older plan and then plans anew: rows without a gap, of one time. */
function replacingPlans(rows: readonly Row[]): ReplacingPlan[] {
  const plans = new Set(rows.filter(({ event }) => event.event === 'plan').map(({ sequence }) => sequence));
  const found: ReplacingPlan[] = [];
  for (let i = 0; i < rows.length; i++) {
    const { time } = (rows[i] as Row).event;
    const run = (accepts: (event: JournalEvent) => boolean): number[] => {
      const from = i;
      while (rows[i]?.event.time === time && accepts((rows[i] as Row).event)) i++;
      return rows.slice(from, i).map(({ sequence }) => sequence);
    };
    const replaced = run((event) => event.event === 'withdraw' && plans.has(event.row));
    if (replaced.length === 0) continue;
    const planned = run(({ event }) => event === 'plan');
    if (planned.length > 0) found.push({ replaced, planned });
    i--;
  }
  return found;
}
