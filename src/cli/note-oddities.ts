import type { JournalEvent, ReadingEvent } from '../core/journal-event.ts';
import { fieldStateAt } from '../core/layout/field-state.ts';
import { didYouMean, nearMiss } from '../core/near-miss.ts';
import type { Radial } from '../core/record.ts';
import { sameJoint } from '../core/safety/inspections.ts';
import type { Logbook } from '../logbook/logbook.ts';
import { numbered } from './numbers.ts';

/** What looks odd about a note against the rest of the logbook. It was logged all the same. */
export function oddities(event: JournalEvent, logbook: Logbook): string[] {
  const { site, fieldStates } = logbook;
  switch (event.event) {
    case 'joint-resistance':
      return unknownName('joint', event.subject, site.joints, sameJoint);
    case 'inspection':
      return unknownName('joint', event.subject, site.joints, sameJoint, ', so it counts for none');
    case 'repair':
      // A repair may be of any part; only what seems to be meant for a joint is odd.
      return unknownName('joint', event.subject, site.joints, sameJoint, ', so it counts for none').filter(
        (odd) => odd.endsWith('?'),
      );
    case 'field-strength':
      return [
        ...unknownName('place', event.subject, site.lot?.places ?? [], (a, b) => a === b),
        ...newName('place', event, logbook),
      ];
    case 'radial-current': {
      const { radials } = fieldStateAt(fieldStates, event.time);
      if (radials.some(({ number }) => String(number) === event.subject)) return [];
      return [
        `radial ${event.subject} does not lie there at that time, as far as the journal tells${nearRadials(event, radials)}: it is logged all the same`,
      ];
    }
    default:
      return [];
  }
}

const NEAR_RADIALS = 3;

/** The radials that lie there with the nearest numbers, of which one may be meant. */
function nearRadials({ subject }: ReadingEvent, radials: readonly Radial[]): string {
  const wanted = Number(subject);
  const near = radials
    .map(({ number }) => number)
    .sort((a, b) => Math.abs(a - wanted) - Math.abs(b - wanted))
    .slice(0, NEAR_RADIALS)
    .sort((a, b) => a - b);
  if (near.length === 0) return ' (none does)';
  return radials.length > near.length
    ? ` (the nearest numbers are ${numbered('radial', near)})`
    : ` (${numbered('radial', near)} ${near.length === 1 ? 'does' : 'do'})`;
}

/** A name that no reading had before, but one had nearly: the same place is to bear the same name. */
function newName(what: string, { event, subject }: ReadingEvent, { readings }: Logbook): string[] {
  if (subject === null) return [];
  const earlier = new Set<string>();
  let times = 0;
  for (const reading of readings) {
    if (reading.kind !== event) continue;
    if (reading.subject === subject) times++;
    else if (reading.subject !== null && !isNextInLine(reading.subject, subject))
      earlier.add(reading.subject);
  }
  const meant = times > 1 ? undefined : nearMiss(subject, earlier);
  return meant === undefined ? [] : [`no earlier reading has ${what} "${subject}", did you mean "${meant}"?`];
}

/** `place 2` beside `place 1` is another place, not a slip of the pen. */
function isNextInLine(one: string, other: string): boolean {
  const withoutNumbers = (name: string): string => name.replaceAll(/\d+/gu, '#');
  return withoutNumbers(one) === withoutNumbers(other);
}

/** A site that names none of them leaves every name free. */
function unknownName(
  kind: string,
  subject: string | null,
  known: readonly { readonly name: string }[],
  same: (a: string, b: string) => boolean,
  consequence = '',
): string[] {
  const names = known.map(({ name }) => name);
  if (subject === null || names.length === 0 || names.some((name) => same(name, subject))) return [];
  return [`site.json has no ${kind} "${subject}"${consequence}${didYouMean(subject, names)}`];
}
