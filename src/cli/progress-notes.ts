import { statedResistance } from '../core/ground/stated-resistance.ts';
import { isSameField } from '../core/layout/same-field.ts';
import { lostNotes, sparedNotes } from './logbook-visits.ts';
import type { ProgressFound } from './progress.ts';
import { simulatedNotes } from './simulated-apart.ts';

/** What a doubter should read beside the table. */
export function progressNotes({
  logbook,
  states,
  oddVisits,
  progress,
  strength,
  band,
  otherBands,
  lost,
  spared,
  levelNotes,
}: ProgressFound): string[] {
  const numbers = states.flatMap(({ visits }) => visits.map(({ visit }) => visit));
  const notes = [
    ...simulatedNotes(logbook, numbers),
    ...progress.poorGuide,
    ...lostNotes(lost),
    ...sparedNotes(spared),
    ...levelNotes,
  ];
  if (otherBands.length > 0) {
    const names = otherBands.map((other) => other.band);
    notes.push(`the logbook holds ${names.join(' and ')} too: ask with --band ${names[0]}`);
  }
  if (oddVisits.length > 0) {
    notes.push(
      `left out, because far from the other visits of the same field state: ${oddVisits.join(', ')}; ask diagnose why`,
    );
  }
  const { fit, whyNotGround, steps } = progress;
  if (
    steps.some(
      ({ repeated, resistanceAtResonanceOhm }) => !repeated && resistanceAtResonanceOhm.value !== null,
    )
  ) {
    notes.push(
      'single shots tell nothing of how well they repeat: take three or more a visit, or keep a logbook whose repeats can stand behind one shot',
    );
  }
  if (whyNotGround !== null && fit !== null) {
    notes.push(
      `a power law stands in for the physics, because ${whyNotGround}; it knows nothing of the length of wires`,
    );
  }
  if (fit?.name === 'soil and ground loss') {
    notes.push(
      `the fit takes ${LAYOUTS[layoutKnown(states)]}; what more wires would be worth is told of even, straight fields`,
    );
  }
  const stated = statedResistance(logbook.site, band).note;
  if (stated !== null) notes.push(stated);
  const [newest, measured] = [logbook.fieldStates.at(-1), states.at(-1)?.state];
  const unmeasured = newest !== undefined && (measured === undefined || !isSameField(newest, measured));
  if (unmeasured && newest.radials.length > 0) {
    notes.push(
      measured === undefined
        ? 'wires lie there that no visit has measured yet: measure before the next handful'
        : 'wires were laid or lifted since the last visit: measure before the next handful',
    );
  }
  if (steps.some(({ point, radials }) => point === null && radials > 0)) {
    notes.push(`a step without a fit had no R at a rising X = 0 at the feed point near ${band.band}`);
  }
  if (steps.filter(({ gainDb }) => gainDb.value !== null).length > 1) {
    notes.push(
      'dB against the first step is 10·log10 of the ratio of R: a lower estimate, which a logged field strength outranks',
    );
  }
  const read = strength.filter((found) => found !== null);
  if (read.length > 0 && read.every(({ intervalDb }) => intervalDb === null)) {
    notes.push(...new Set(read.flatMap((found) => found.notes)));
  }
  const moist = moistures(states);
  if (moist.length > 1) {
    const [least, most] = [Math.min(...moist), Math.max(...moist)].map((m) => (100 * m).toFixed(0));
    const corrected = steps.some(({ soilCorrectionOhm }) => soilCorrectionOhm !== 0)
      ? 'R stands as it was measured; dB by R and the fit are corrected to the moisture of the first state, as compare does, by how this logbook’s figures follow moisture'
      : 'the logbook holds too few visits of one field state at different moisture to correct it, so that dB by R is the less sure';
    notes.push(
      `soil moisture lay between ${least} and ${most} % from visit to visit, which moves R as well: ${corrected}`,
    );
  }
  return notes;
}

function moistures(states: ProgressFound['states']): number[] {
  const all = states.flatMap(({ visits }) => visits.map(({ conditions }) => conditions.moistureFraction));
  return [...new Set(all.filter((moisture) => moisture !== null))];
}

const LAYOUTS = {
  all: 'every field as it was laid',
  some: 'the wires as they were laid where the journal tells, and the others in the gaps between',
  none: 'every field as even and straight, for the journal tells no bearing or route',
} as const;

function layoutKnown(states: ProgressFound['states']): keyof typeof LAYOUTS {
  const radials = states.flatMap(({ state }) => state.radials);
  const known = radials.filter(({ route, bearingDeg }) => route !== null || bearingDeg !== null);
  return known.length === 0 ? 'none' : known.length === radials.length ? 'all' : 'some';
}
