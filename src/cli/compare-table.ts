import type { BandComparison, MeasureComparison } from '../core/proof/compare-visits.ts';
import { SHOWN_AS, shownVerdict } from '../core/proof/shown-as.ts';
import { signedText, toldMeasure, toldText } from '../core/proof/told-measure.ts';
import { table } from './answer.ts';

/** The figures of a band before and after, one a row, and under them how the difference comes about. */
export function compareTable({ measures }: BandComparison, sameField: boolean): string {
  const isCorrected = measures.some(({ soilCorrection }) => soilCorrection !== 0);
  const head = ['', 'before', 'after', ...(isCorrected ? ['by moisture'] : []), 'difference', '± U', '', 'k'];
  const rows = table([
    [...head, 'verdict'],
    ...measures.map((measure) => row(measure, isCorrected, sameField)),
  ]);
  return isCorrected ? `${rows}\n${HOW_CORRECTED}` : rows;
}

const HOW_CORRECTED =
  'difference: after minus before, less what the change of soil moisture accounts for (by moisture).';

function row(compared: MeasureComparison, isCorrected: boolean, sameField: boolean): string[] {
  const { measure, direction, verdict } = compared;
  const { name, unit, differenceUnit } = SHOWN_AS[measure];
  const told = toldMeasure(compared);
  return [
    unit === '' ? name : `${name}, ${unit}`,
    toldText(told.before),
    toldText(told.after),
    ...(isCorrected ? [signedText(told.byMoisture)] : []),
    signedText(told.difference),
    toldText(told.uncertainty),
    differenceUnit,
    told.coverageFactor?.toFixed(1) ?? '-',
    direction.sign === 0 ? '-' : shownVerdict(measure, verdict, sameField),
  ];
}
