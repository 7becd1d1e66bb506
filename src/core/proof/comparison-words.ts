import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { Band } from '../sweep/bands.ts';
import type { BandComparison, MeasureComparison } from './compare-visits.ts';
import { coverage } from './coverage.ts';
import type { Measure } from './figures.ts';
import { SIDES } from './pair.ts';
import type { VisitInBand } from './visit-in-band.ts';

/** How a figure is shown to people: its name, its unit and how many units make one SI unit. */
export interface ShownAs {
  readonly name: string;
  readonly unit: string;
  readonly perSi: number;
  readonly decimals: number;
  readonly differenceUnit: string;
  readonly differencePerSi: number;
  readonly differenceDecimals: number;
}

const plain = (name: string, unit: string, decimals: number): ShownAs => ({
  name,
  unit,
  perSi: 1,
  decimals,
  differenceUnit: unit,
  differencePerSi: 1,
  differenceDecimals: decimals,
});

export const SHOWN_AS: Readonly<Record<Measure, ShownAs>> = {
  resonanceHz: {
    ...plain('resonance', 'MHz', 4),
    perSi: 1e-6,
    differenceUnit: 'kHz',
    differencePerSi: 1e-3,
    differenceDecimals: 1,
  },
  resistanceAtResonanceOhm: plain('R at X = 0', 'ohm', 2),
  minSwr: plain('least SWR', '', 3),
  worstSwr: plain('worst SWR', '', 3),
  meanReturnLossDb: plain('mean return loss', 'dB', 2),
  swr2BandwidthHz: {
    ...plain('bandwidth at 2:1', 'kHz', 1),
    perSi: 1e-3,
    differencePerSi: 1e-3,
  },
  qualityFactor: plain('Q', '', 2),
};

/** The answer in one sentence: what happened to R at X = 0, or why that cannot be told. */
export function headline(comparison: BandComparison): string {
  const found = measureOf(comparison, 'resistanceAtResonanceOhm');
  const { before, after, difference, verdict, soilCorrection } = found;
  const { band } = comparison.band;
  if (before.value === null || after.value === null || difference.value === null) {
    const which = [before.value === null ? 'before' : '', after.value === null ? 'after' : ''].filter(
      Boolean,
    );
    return `${band}: R at X = 0 cannot be compared, because it cannot be had ${which.join(' and ')}; not shown.`;
  }
  const verb = after.value < before.value ? 'fell' : 'rose';
  const corrected = soilCorrection === 0 ? '' : ' when corrected for the soil moisture';
  return (
    `${band}: ${verdict}. R at X = 0 ${verb} from ${before.value.toFixed(2)} to ${after.value.toFixed(2)} ohm, ` +
    `${plusMinus(difference, 1, 2)} ohm${corrected}.`
  );
}

/** A value with its expanded uncertainty, `−5.80 ± 1.41 (k = 2.2)`, with a sign. */
export function plusMinus(quantity: Quantity, perSi: number, decimals: number): string {
  const { value, expandedUncertainty, coverageFactor } = quantity;
  if (value === null) return '-';
  const signed = `${value < 0 ? '-' : '+'}${Math.abs(value * perSi).toFixed(decimals)}`;
  if (expandedUncertainty === null) return `${signed} (uncertainty unknown)`;
  return `${signed} ± ${(expandedUncertainty * perSi).toFixed(decimals)} (k = ${coverageFactor.toFixed(1)})`;
}

/** What a doubter should read beside the table. */
export function comparisonNotes(comparison: BandComparison): string[] {
  return [
    ...crossingNotes(comparison),
    ...coverageNotes(comparison),
    ...wherefromNotes(comparison),
    ...comparison.soilNotes,
    ...sensitivityNotes(comparison),
    ...matchNotes(comparison),
  ];
}

function crossingNotes({ sides, measures, band }: BandComparison): string[] {
  const visits = SIDES.flatMap((side) => sides[side].map(({ visit }) => ({ side, visit })));
  const notes = visits
    .map(({ side, visit }) => crossingNote(side, visit, band))
    .filter((note) => note !== null);
  if (visits.some(({ visit }) => visit.resonance?.kind === 'parallel')) {
    notes.push(measures[1]?.direction.meaning ?? '');
  }
  return [...new Set(notes)];
}

function crossingNote(side: string, { resonance, sweep }: VisitInBand, band: Band): string | null {
  if (sweep.kind === 'swr') {
    return `the ${side} sweep holds only SWR or return loss: its dip can be compared, but resonance, R and Q cannot be had from it, so that no proof of less loss is possible`;
  }
  // A sweep that covers nothing of the band is told of elsewhere.
  if (resonance === null && coverage(band, [sweep]) === null) return null;
  if (resonance === null) {
    const positive = (sweep.reactanceOhm[0] as number) > 0;
    const [sign, where] = positive ? ['positive', 'lower'] : ['negative', 'higher'];
    return `the ${side} sweep never crosses X = 0 near ${band.band} (X stays ${sign}): sweep ${where} in frequency; the SWR figures still hold`;
  }
  const { frequencyHz } = resonance;
  if (frequencyHz >= band.fromHz && frequencyHz <= band.toHz) return null;
  return `${side}: X = 0 lies outside the band, at ${(frequencyHz / 1e6).toFixed(3)} MHz; R is taken there all the same`;
}

function coverageNotes({ band, covered }: BandComparison): string[] {
  const mhz = (hz: number): string => (hz / 1e6).toFixed(3);
  if (covered === null) {
    return [`the sweeps share no part of ${band.band}: each says what it can, and nothing is compared`];
  }
  if (covered.fromHz === band.fromHz && covered.toHz === band.toHz) return [];
  return [
    `the sweeps share only ${mhz(covered.fromHz)} to ${mhz(covered.toHz)} MHz of ${band.band}; the SWR figures are those of that part`,
  ];
}

function wherefromNotes({ repeats, visitErrors, sides, accuracy, oddVisits }: BandComparison): string[] {
  const stated = accuracy.stated ? 'as the site states' : 'a default, for the site states none';
  const notes: string[] = [];
  if (repeats === 'none') {
    const count = (side: 'before' | 'after'): string =>
      sides[side].map(({ visit }) => visit.shotCount).join(' + ');
    const counts = `${count('before')} before, ${count('after')} after`;
    notes.push(
      `single shots (${counts}) tell nothing of how well they repeat: no claim is made from them${
        accuracy.stated ? '; the uncertainties are those of the instrument alone' : ''
      }. Take three or more shots a visit, or keep a logbook whose repeats can stand behind one shot`,
    );
  } else if (repeats === 'pair') {
    notes.push('how well shots repeat is taken from the compared visits');
  } else {
    notes.push('how well shots repeat is pooled over all the visits at hand');
  }
  const common = 'the shots of a visit share its calibration and connector, which does not average out:';
  if (visitErrors === 'instrument') {
    if (repeats !== 'none' || accuracy.stated) {
      notes.push(`${common} ${accuracy.reflection.toFixed(4)} of reflection (${stated})`);
    }
  } else if (visitErrors === 'reference load') {
    notes.push(`${common} judged by how the reference load differed from visit to visit`);
  } else {
    notes.push(`${common} judged by how visits of one field state differed, soil included`);
  }
  if (oddVisits.length > 0) {
    notes.push(
      `not used to judge how visits repeat, because far from the others of the same field state: ${oddVisits.join(', ')}; ask diagnose why`,
    );
  }
  return notes;
}

function sensitivityNotes(comparison: BandComparison): string[] {
  const { wouldShow, difference, verdict, probability } = measureOf(comparison, 'resistanceAtResonanceOhm');
  const { smallestDifference, shotsAVisit, visitsAState } = wouldShow;
  if (smallestDifference === null) return [];
  const notes = [
    `a true change of R of ${smallestDifference.toFixed(2)} ohm is the least that this pair would show nine times in ten`,
  ];
  if (verdict !== 'not shown') return notes;
  if (probability !== null && probability > 0.05 && beyondZero(difference)) {
    notes.push(
      'R lies outside its own uncertainty, but several figures were looked at together, and by Holm’s correction one of them doing so by chance is too likely',
    );
  }
  if (shotsAVisit !== null) {
    notes.push(`${shotsAVisit} shots a visit would show a change as large as this one nine times in ten`);
  } else if (visitsAState !== null) {
    notes.push(
      `no number of shots would show a change this small, because the shots of a visit share its errors; about ${visitsAState} visits to each state would, or a reversal (disconnect, measure, reconnect, measure)`,
    );
  } else {
    notes.push(
      'a change this small cannot be shown at the feed point; compare the received strength instead',
    );
  }
  return notes;
}

function beyondZero({ value, expandedUncertainty }: Quantity): boolean {
  return value !== null && expandedUncertainty !== null && Math.abs(value) > expandedUncertainty;
}

function matchNotes(comparison: BandComparison): string[] {
  const r = measureOf(comparison, 'resistanceAtResonanceOhm');
  const swr = measureOf(comparison, 'minSwr');
  const notes = [
    'a lower SWR alone is no proof: a corroding joint lowers it too, and less ground loss can raise it; the SWR verdicts speak of the match only',
    'a resonance has no better side, and a wider 2:1 bandwidth at a vertical on the ground usually means more loss: neither is called improved',
  ];
  if (swr.verdict === 'improved' && r.verdict === 'worse') {
    notes.unshift('the SWR improved while R rose: look for a bad joint before you are glad of it');
  }
  if (swr.verdict === 'worse' && r.verdict === 'improved') {
    notes.unshift('the SWR got worse because R fell: the antenna got better, and the match can be mended');
  }
  return notes;
}

function measureOf(comparison: BandComparison, measure: Measure): MeasureComparison {
  return comparison.measures.find((found) => found.measure === measure) as MeasureComparison;
}
