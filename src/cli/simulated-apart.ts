import { bySimulation } from '../core/simulated.ts';
import { UserError } from '../core/user-error.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { numbered } from './numbers.ts';

/**
 * Keeps what is simulated apart from what was measured, because every later answer would mix them.
 *
 * @param isSimulated - what is about to be stored comes from the simulator, and not from an instrument or its files
 * @param field - the option that chose it, where one did
 * @throws UserError `simulated-among-real` or `real-among-simulated`, of kind `command-line`
 */
export function simulatedApart(
  isSimulated: boolean,
  { visits }: Pick<Logbook, 'visits'>,
  field?: string,
): void {
  const { simulated, real } = bySimulation(visits);
  const fault = { kind: 'command-line', place: field === undefined ? {} : { field } } as const;
  if (isSimulated && real.length > 0) {
    throw new UserError(
      'simulated-among-real',
      'the logbook has visits of the real antenna, and simulated ones would be mixed with them for good: leave them unstored with --no-store, or name a logbook that is for trials',
      fault,
    );
  }
  if (!isSimulated && simulated.length > 0) {
    throw new UserError(
      'real-among-simulated',
      `this is a logbook for trying, because ${cameFrom(simulated.map(({ visit }) => visit))}: begin another one for the antenna ` +
        'with `turfwire begin`, or take those visits back with `turfwire note withdraw`',
      fault,
    );
  }
}

/** A line for an answer that rests on simulated visits; none where it does not. */
export function simulatedNotes({ visits }: Pick<Logbook, 'visits'>, numbers: readonly number[]): string[] {
  const used = bySimulation(visits)
    .simulated.map(({ visit }) => visit)
    .filter((visit) => numbers.includes(visit));
  return used.length === 0
    ? []
    : [`${cameFrom(used)}: this shows how the program works, and nothing of an antenna`];
}

function cameFrom(visits: readonly number[]): string {
  return `${numbered('visit', visits)} came from the simulator`;
}
