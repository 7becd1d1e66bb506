import { type BandComparison, type MeasureComparison, measureOf } from './compare-visits.ts';
import { signedText, toldMeasure, toldText } from './told-measure.ts';

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
  const r = measureOf(comparison, 'resistanceAtResonanceOhm');
  const { before, after, difference, verdict } = r;
  const band = `${comparison.band.band}${beside.isReversal === true ? ', with the new wires against without' : ''}`;
  if (before.value === null || after.value === null || difference.value === null) {
    const which = [before.value === null ? 'before' : '', after.value === null ? 'after' : ''].filter(
      Boolean,
    );
    return `${band}: R at X = 0 cannot be compared, because it cannot be had ${which.join(' and ')}; not shown.`;
  }
  const by = beside.strengthDecides === true ? ', by the resistance alone' : '';
  const said = beside.sameField === true && verdict !== 'not shown' ? `changed, and not by wires` : verdict;
  return `${band}${by}: ${said}. ${changeWords(r)}.`;
}

/** `R at X = 0 fell from 52.3 to 39.3 ohm, -13.0 ± 3.3 ohm (k = 2.3)`, with what moisture accounts for. */
function changeWords({ before, after, ...r }: MeasureComparison): string {
  const told = toldMeasure({ before, after, ...r });
  if (told.difference.as === 'nothing') {
    return 'R at X = 0 cannot be told from this: its uncertainty is as large as R itself';
  }
  const [from, to] = [told.before, told.after].map((figure) => toldText(figure));
  const verb = Number(after.value) < Number(before.value) ? 'fell' : 'rose';
  const went = from === to ? `stayed at ${from} ohm` : `${verb} from ${from} to ${to} ohm`;
  const uncertainty = toldText(told.uncertainty);
  const left =
    told.uncertainty.as === 'none'
      ? `${signedText(told.difference)} ohm (uncertainty unknown)`
      : `${signedText(told.difference)} ± ${uncertainty} ohm (k = ${r.difference.coverageFactor.toFixed(1)})`;
  return told.byMoisture.as === 'none'
    ? `R at X = 0 ${went}, ${left}`
    : `R at X = 0 ${went}; the soil moisture accounts for ${signedText(told.byMoisture)} ohm, which leaves ${left}`;
}
