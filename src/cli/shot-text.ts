import { figuresOf } from '../core/proof/figures.ts';
import type { Band } from '../core/sweep/bands.ts';
import type { Sweep } from '../core/sweep/sweep.ts';
import { figure } from './answer.ts';

/** One shot in a line, as soon as it is taken. */
export function shotText(sweep: Sweep, band: Band): string {
  const { minSwr, resonanceHz, resistanceAtResonanceOhm } = figuresOf(sweep, band);
  if (resonanceHz === null) return `least SWR ${figure(minSwr, 2)}; X never crosses zero near ${band.band}`;
  return `least SWR ${figure(minSwr, 2)}; R ${figure(resistanceAtResonanceOhm, 1)} ohm at X = 0 (${figure(resonanceHz / 1e6, 3)} MHz)`;
}
