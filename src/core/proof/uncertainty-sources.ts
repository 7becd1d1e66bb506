import type { BandComparison } from './compare-visits.ts';
import { SIDES } from './pair.ts';

/** Where the uncertainties of a comparison come from: its repeats, and what the shots of a visit share. */
export function uncertaintySources({
  repeats,
  visitErrors,
  sides,
  accuracy,
  oddVisits,
}: BandComparison): string[] {
  const stated = accuracy.stated ? 'as the site states' : 'a default, for the site states none';
  const notes: string[] = [];
  if (repeats === 'none') {
    const counts = SIDES.map((side) => sides[side].map(({ visit }) => visit.shotCount));
    if (!counts.flat().includes(1)) return [];
    const [before, after] = counts.map((side) => side.join(' + '));
    notes.push(
      `single shots (${before} before, ${after} after) tell nothing of how well they repeat: no claim is made from them${
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
