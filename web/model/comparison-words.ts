import type { Measure } from '../../src/core/proof/figures.ts';
import { SHOWN_AS } from '../../src/core/proof/shown-as.ts';
import { type ToldFigure, toldMeasure } from '../../src/core/proof/told-measure.ts';
import type {
  CompareAnswer,
  ComparedBand,
  ComparedMeasure,
  PageComparison,
  PageField,
} from '../../src/formats/page-data.ts';
import { NONE, type Reader } from '../reader.ts';

/** The answer of each band, with what is said of all of them. */
export function bandsOf(answer: CompareAnswer): readonly CompareAnswer[] {
  return (answer.bands ?? [answer]).map((band) => ({ ...answer, ...band }));
}

/** Whether any figure was corrected for the soil between the sides. */
export function isSoilCorrected({ measures }: ComparedBand): boolean {
  return measures.some(({ soilCorrection = 0 }) => soilCorrection !== 0);
}

/** All figures of a band, the quality factor last. */
export function measuresOf({ measures, qualityFactor }: ComparedBand): ComparedMeasure[] {
  return qualityFactor === undefined ? [...measures] : [...measures, qualityFactor];
}

/** How a figure is told, in the words and units of `compare`. */
export function shownAs(measure: string): (typeof SHOWN_AS)[Measure] {
  const plain = { name: measure, unit: '', perSi: 1, decimals: 2 };
  const shown = SHOWN_AS[measure as Measure] ?? {
    ...plain,
    differenceUnit: '',
    differencePerSi: 1,
    differenceDecimals: 2,
  };
  return shown.unit === 'ohm' ? { ...shown, unit: 'Ω', differenceUnit: 'Ω' } : shown;
}

/** `−5.8 ± 1.4 ohm (k = 2.2)`, with a sign. */
export function differenceText(measure: ComparedMeasure, reader: Reader): string {
  const { difference, uncertainty, coverageFactor } = toldMeasure(measure);
  const { differenceUnit } = shownAs(measure.measure);
  const suffix = differenceUnit === '' ? '' : ` ${differenceUnit}`;
  if (difference.as === 'none') return 'cannot be had';
  if (difference.as === 'nothing') return 'cannot be told from this';
  const signed = reader.signed(difference.value, difference.decimals);
  if (difference.as !== 'value') return `${difference.as} ${signed}${suffix}`;
  if (uncertainty.as === 'none') return `${signed}${suffix}, uncertainty unknown`;
  const u = reader.number(uncertainty.value, uncertainty.decimals);
  return `${signed} ± ${u}${suffix} (k = ${reader.number(coverageFactor, 1)})`;
}

/** A figure of one side: `39.3`, `at least 400`. */
export function sideText({ as, value, decimals }: ToldFigure, reader: Reader): string {
  if (as === 'none') return NONE;
  if (as === 'nothing') return 'cannot be told';
  return `${as === 'value' ? '' : `${as} `}${reader.number(value, decimals)}`;
}

/** Names a change of the field in an address. */
export function handfulKey({ before, after }: PageComparison): string {
  return [before, after].map(({ since }) => since ?? 'start').join('~');
}

/** `from 8 radials to 12 radials, Jun 8, 2024` */
export function handfulName({ before, after }: PageComparison, reader: Reader): string {
  const day = after.since === null ? '' : `, ${reader.date(after.since)}`;
  return `from ${fieldName(before)} to ${fieldName(after)}${day}`;
}

function fieldName({ radials }: PageField): string {
  return `${radials} ${radials === 1 ? 'radial' : 'radials'}`;
}

/** A comparison by the name of what was compared: `from 8 radials to 12 radials`. */
export interface NamedComparison {
  readonly name: string;
  readonly answer: CompareAnswer;
}

const OF_WIRES = { improved: 'Yes, improved', worse: 'No, it got worse', 'not shown': 'Not shown' };
/** No wire was laid or lifted, so that nothing can have been improved by wires. */
const OF_ONE_FIELD = {
  improved: 'Changed for the better, though not by wires',
  worse: 'Changed for the worse, and not by wires',
  'not shown': 'No change shown',
};

/** The answer: what may be said, on what it rests, and how large it is. */
export function comparisonSentence(
  name: string,
  { band, measures, ...answer }: CompareAnswer,
  reader: Reader,
): string {
  const verdict = (answer.sameField === true ? OF_ONE_FIELD : OF_WIRES)[answer.verdict];
  const r = measures.find(({ measure }) => measure === 'resistanceAtResonanceOhm');
  const parts = [`${verdict}, going by ${answer.basis}, ${name} on ${band}.`];
  if (r !== undefined && r.before.value !== null && r.after.value !== null) {
    const { before, after, byMoisture } = toldMeasure(r);
    const [from, to] = [before, after].map((told) => sideText(told, reader));
    const moisture =
      byMoisture.as === 'none'
        ? ''
        : ` when ${reader.signed(byMoisture.value, byMoisture.decimals)} Ω is taken off for the soil moisture`;
    parts.push(`R at X = 0 went from ${from} to ${to} Ω: ${differenceText(r, reader)}${moisture}.`);
  }
  return parts.join(' ');
}

/** What received strength says, and whether it agrees; empty where nobody read any. */
export function strengthSentence(
  { strength, agree, resistanceGainDb }: CompareAnswer,
  reader: Reader,
): string {
  const gain =
    resistanceGainDb === null
      ? ''
      : ` The resistance alone tells ${reader.signed(resistanceGainDb, 2)} dB, a lower estimate.`;
  if (strength === null || strength.medianDb === null) return gain.trim();
  const u = strength.expandedUncertaintyDb;
  const interval = u === null ? '' : ` ± ${reader.number(u, 2)}`;
  const count = strength.places.length;
  const verdict = u === null ? 'of too few places for a verdict' : strength.verdict;
  const both =
    agree === null ? '' : agree ? ' Both agree.' : ' The two disagree: look for what else changed.';
  return `Received strength, ${count} ${count === 1 ? 'place' : 'places'}: ${reader.signed(strength.medianDb, 2)}${interval} dB, ${verdict}.${gain}${both}`;
}
