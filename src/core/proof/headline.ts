import type { BandComparison } from './compare-visits.ts';
import { measureOf } from './compare-visits.ts';
import { decimalsFor, plusMinus } from './shown-as.ts';

/** What stands beside a comparison and changes how its answer is worded. */
export interface Beside {
  /** Nothing was laid or lifted between the sides, so that wires improved nothing. */
  readonly sameField?: boolean;
  /** Before is without the new wires and after with them, in one field. */
  readonly isReversal?: boolean;
  /** Received strength was read too, and it decides. */
  readonly strengthDecides?: boolean;
}

/** The answer in one sentence: what happened to R at X = 0, or why that cannot be told. */
export function headline(comparison: BandComparison, beside: Beside = {}): string {
  const { before, after, difference, verdict, soilCorrection } = measureOf(
    comparison,
    'resistanceAtResonanceOhm',
  );
  const band = `${comparison.band.band}${beside.isReversal === true ? ', with the new wires against without' : ''}`;
  if (before.value === null || after.value === null || difference.value === null) {
    const which = [before.value === null ? 'before' : '', after.value === null ? 'after' : ''].filter(
      Boolean,
    );
    return `${band}: R at X = 0 cannot be compared, because it cannot be had ${which.join(' and ')}; not shown.`;
  }
  const by = beside.strengthDecides === true ? ', by the resistance alone' : '';
  const said = beside.sameField === true && verdict !== 'not shown' ? `changed, and not by wires` : verdict;
  const decimals = decimalsFor(difference.expandedUncertainty, 2);
  const [from, to] = [before.value.toFixed(decimals), after.value.toFixed(decimals)];
  const verb = after.value < before.value ? 'fell' : 'rose';
  const measured = `R at X = 0 ${from === to ? `stayed at ${from} ohm` : `${verb} from ${from} to ${to} ohm`}`;
  const change =
    soilCorrection === 0
      ? `${plusMinus(difference, 1, 2)} ohm`
      : `of which the soil moisture leaves ${plusMinus(difference, 1, 2)} ohm`;
  return `${band}${by}: ${said}. ${measured}, ${change}.`;
}
