import { formatFrequency } from '../core/quantity.ts';
import { loadDoubt } from '../core/sweep/load-doubt.ts';
import type { Sweep } from '../core/sweep/sweep.ts';
import { figure } from './answer.ts';

/** Warns of sweeps of a reference load that look like another thing; null when none does. Each is stored all the same. */
export function loadDoubtText(loads: readonly Sweep[]): string | null {
  for (const sweep of loads) {
    const doubt = loadDoubt(sweep);
    if (doubt === null) continue;
    const { worstSwr, resonanceHz } = doubt;
    const swr = worstSwr === null ? 'reflects everything' : `shows SWR up to ${figure(worstSwr, 2)}`;
    const seen = `what was swept as the reference load ${swr} at ${sweep.referenceOhm} ohm`;
    return resonanceHz === null
      ? `${seen}: was the load connected? A resistor of another value serves as well, when it is the same one each time`
      : `${seen}, and its X passes zero at ${formatFrequency(resonanceHz)}: that is an antenna rather than a resistor. ` +
          'If so, take its rows back with `turfwire note withdraw`; they would be read as a drift of the instrument';
  }
  return null;
}
