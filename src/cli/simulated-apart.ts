import { bySimulation } from '../core/simulated.ts';
import { UserError } from '../core/user-error.ts';
import { isSimulatedPort } from '../instrument/open-instrument.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { numbered } from './numbers.ts';

/**
 * Keeps what is simulated apart from what was measured, because every later answer would mix them.
 *
 * @returns what to tell before an antenna is measured into a logbook that was tried with the simulator; else null
 * @throws UserError `simulated-among-real`, of kind `command-line`, for the simulator in a logbook with real visits
 */
export function simulatedApart(port: string, { visits }: Logbook): string | null {
  const { simulated, real } = bySimulation(visits);
  if (!isSimulatedPort(port)) {
    if (simulated.length === 0) return null;
    const numbers = numbered(
      'visit',
      simulated.map(({ visit }) => visit),
    );
    return `${numbers} of this logbook came from the simulator: begin another one for the antenna, or every answer mixes them`;
  }
  if (real.length === 0) return null;
  throw new UserError(
    'simulated-among-real',
    'the logbook has visits of the real antenna, and simulated ones would be mixed with them for good: leave them unstored with --no-store, or name a logbook that is for trials',
    { kind: 'command-line', place: { field: '--port' } },
  );
}
