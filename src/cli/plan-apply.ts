import type { JournalEvent } from '../core/journal-event.ts';
import { UserError } from '../core/user-error.ts';
import { appendEvents, type Logbook } from '../logbook/logbook.ts';
import type { Io } from './io.ts';
import { happening, type LoggingOptions, logbookFolder, withdrawText, writing } from './logbook-options.ts';
import { numbered, numbersText } from './numbers.ts';
import { proposal } from './pasteable.ts';
import type { NumberedRoute } from './plan-numbers.ts';

/**
 * Writes radials into the journal as planned. What an earlier plan left open is withdrawn by the same append, so that
 * there is one plan at any time, and the journal tells of both.
 * @throws UserError `plan-journal-changed` where the journal gave the plan's numbers to other wires meanwhile
 */
export async function applyPlan(
  io: Io,
  options: LoggingOptions,
  routes: readonly NumberedRoute[],
): Promise<void> {
  const common = happening(io, options);
  let replaced: readonly number[] = [];
  const { events, rows } = await appendEvents(
    logbookFolder(io, options),
    (logbook): JournalEvent[] => {
      if (logbook.nextRadial > (routes[0]?.number ?? 0)) throw changedMeanwhile();
      replaced = logbook.planned.map(({ number }) => number);
      const text = 'a new plan takes its place';
      return [
        ...openPlanRows(logbook).map((row) => ({ ...common, text, event: 'withdraw' as const, row })),
        ...routes.map(({ number, points, lengthM, bearingDeg }) => ({
          ...common,
          event: 'plan' as const,
          number,
          lengthM,
          bearingDeg,
          route: points,
        })),
      ];
    },
    writing(io),
  );
  if (replaced.length > 0) {
    io.err(`turfwire: this takes the place of the open plan: ${numbered('radial', replaced)} withdrawn`);
  }
  const planned = events.flatMap((event, i) =>
    event.event === 'plan' ? [{ number: event.number, row: rows[i] as number }] : [],
  );
  const numbers = planned.map(({ number }) => number);
  const lay = proposal(io, ['lay', '--planned', numbersText(numbers)], options);
  io.err(`turfwire: planned ${numbered('radial', numbers)}; log them when they are down: ${lay}`);
  const planRows = planned.map(({ row }) => row);
  io.err(`turfwire: ${withdrawText(io, planRows, options)}`);
}

function changedMeanwhile(): UserError {
  const message = 'the journal got other radials while this was planned: plan again';
  return new UserError('plan-journal-changed', message);
}

/** Rows of the journal that plan radials which have not been laid. */
function openPlanRows({ journal, events, planned }: Logbook): number[] {
  const open = new Set(planned.map(({ number }) => number));
  const standing = new Set(events);
  return journal.entries
    .filter(({ event }) => event.event === 'plan' && standing.has(event) && open.has(event.number))
    .map(({ sequence }) => sequence);
}
