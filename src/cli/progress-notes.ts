import { lostNotes } from './logbook-visits.ts';
import { numbered } from './numbers.ts';
import type { ProgressFound } from './progress.ts';

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
}: ProgressFound): string[] {
  const notes = [...progress.poorGuide, ...lostNotes(lost)];
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
  if (whyNotGround !== null && fit !== null) {
    notes.push(
      `a power law stands in for the physics, because ${whyNotGround}; it knows nothing of the length of wires`,
    );
  }
  if (fit?.name === 'soil and ground loss') {
    notes.push('the fit takes the field as even and straight, whatever its real layout');
  }
  const unmeasured = logbook.fieldStates.filter(
    (state) => !states.some((measured) => measured.state === state),
  );
  const newest = logbook.fieldStates.at(-1);
  if (newest !== undefined && unmeasured.includes(newest) && newest.radials.length > 0) {
    notes.push('wires were laid or lifted since the last visit: measure before the next handful');
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
  const moist = new Set(
    states
      .flatMap(({ visits }) => visits.map(({ conditions }) => conditions.moistureFraction))
      .filter((m) => m !== null),
  );
  if (moist.size > 1) {
    const [least, most] = [Math.min(...moist), Math.max(...moist)].map((m) => (100 * m).toFixed(0));
    notes.push(
      `soil moisture lay between ${least} and ${most} % from visit to visit, which moves R as well: compare corrects for it where it can`,
    );
  }
  return notes;
}

/** The commands of a reversal of the last step, to be pasted one by one. */
export function reversalCommands({ logbook, folder, states, band }: ProgressFound): string[] {
  const where = folder === null ? '' : ` --logbook ${folder}`;
  const next = Math.max(0, ...logbook.visits.map(({ visit }) => visit)) + 1;
  const before = new Set(states.at(-2)?.state.radials.map(({ number }) => number));
  const added = (states.at(-1)?.state.radials ?? [])
    .map(({ number }) => number)
    .filter((number) => !before.has(number));
  return [
    `turfwire measure${where}`,
    `# disconnect ${numbered('radial', added)} at the base`,
    `turfwire measure${where}`,
    `turfwire note baseline ${next + 1} no${where}`,
    '# connect them again',
    `turfwire measure${where}`,
    `turfwire compare${where} --reversal ${next} ${next + 1} ${next + 2} --band ${band.band}`,
  ];
}
