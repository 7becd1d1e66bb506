import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { Band } from '../sweep/bands.ts';
import { type BandComparison, measureOf } from './compare-visits.ts';
import { coverage } from './coverage.ts';
import { SIDES } from './pair.ts';
import { placeOf, textTo } from './rounding.ts';
import { uncertaintySources } from './uncertainty-sources.ts';
import type { VisitInBand } from './visit-in-band.ts';

/** What the verdicts of the table cannot mean, whatever they are: it stands at the table's foot. */
export const TABLE_FOOT =
  'a lower SWR alone is no proof: a corroding joint lowers it too, and less ground loss can raise it; what is said of SWR and return loss is the match only, and a resonance, a bandwidth or a Q has no better side';

/**
 * What a doubter should read beside the table.
 *
 * @param isReversal - the comparison is one already, so that none is advised
 */
export function comparisonNotes(comparison: BandComparison, isReversal = false): string[] {
  return [
    ...crossingNotes(comparison),
    ...coverageNotes(comparison),
    ...bandwidthNotes(comparison),
    ...uncertaintySources(comparison),
    ...comparison.soilNotes,
    ...sensitivityNotes(comparison, isReversal),
    ...matchNotes(comparison),
  ];
}

function crossingNotes({ sides, measures, band }: BandComparison): string[] {
  const visits = SIDES.flatMap((side) => sides[side].map(({ visit }) => ({ side, visit })));
  const notes = visits
    .map(({ side, visit }) => crossingNote(side, visit, band))
    .filter((note) => note !== null);
  const scalar = SIDES.filter((side) => sides[side].some(({ visit }) => visit.sweep.kind === 'swr'));
  if (scalar.length > 0) {
    notes.push(
      `what was swept ${scalar.join(' and ')} holds only SWR or return loss: its dip can be compared, but resonance, R and Q cannot be had from it, so that no proof of less loss is possible`,
    );
  }
  if (visits.some(({ visit }) => visit.resonance?.kind === 'parallel')) {
    notes.push(measures[1]?.direction.meaning ?? '');
  }
  return [...new Set(notes)];
}

function crossingNote(side: string, { resonance, sweep }: VisitInBand, band: Band): string | null {
  if (sweep.kind === 'swr') return null;
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

function bandwidthNotes(comparison: BandComparison): string[] {
  const { before, after } = measureOf(comparison, 'swr2BandwidthHz');
  const open = [before.atLeast === undefined ? '' : 'before', after.atLeast === undefined ? '' : 'after'];
  const sides = open.filter((side) => side !== '');
  if (sides.length === 0) return [];
  const end = sides.length > 1 ? 'the sweeps before and after end' : `the ${sides[0]} sweep ends`;
  return [
    `${end} while the SWR is still 2 or less: the bandwidth is at least what stands behind ≥, and a wider sweep would tell it (measure with --from and --to)`,
  ];
}

function sensitivityNotes(comparison: BandComparison, isReversal: boolean): string[] {
  const { wouldShow, difference, verdict, probability } = measureOf(comparison, 'resistanceAtResonanceOhm');
  const { smallestDifference, shotsAVisit, visitsAState, isHiddenBySoil } = wouldShow;
  if (smallestDifference === null) return [];
  const notes = [
    `a true change of R of ${textTo(placeOf(smallestDifference, 2), smallestDifference)} ohm is the least that this pair would show nine times in ten`,
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
    const orReversal = isReversal ? '' : ', or a reversal (disconnect, measure, reconnect, measure)';
    notes.push(
      `no number of shots would show a change this small, because the shots of a visit share its errors; about ${visitsAState} visits to each state would${orReversal}`,
    );
  } else if (isHiddenBySoil) {
    const reversal = isReversal
      ? 'this reversal done again within hours would'
      : 'a reversal within hours would (disconnect, measure, reconnect, measure)';
    notes.push(
      `no number of shots or visits would show this change while it is not known what the soil did in between: ${reversal}, or received strength`,
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
  if (swr.verdict === 'improved' && r.verdict === 'worse') {
    return ['the SWR improved while R rose: look for a bad joint before you are glad of it'];
  }
  if (swr.verdict === 'worse' && r.verdict === 'improved') {
    return ['the SWR got worse because R fell: the antenna got better, and the match can be mended'];
  }
  return [];
}
