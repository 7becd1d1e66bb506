import type { JournalEvent } from '../core/journal-event.ts';
import { fieldStateAt } from '../core/layout/field-state.ts';
import { didYouMean } from '../core/near-miss.ts';
import { sameJoint } from '../core/safety/inspections.ts';
import type { Logbook } from '../logbook/logbook.ts';

/** What looks odd about a note against the rest of the logbook. It was logged all the same. */
export function oddities(event: JournalEvent, { site, fieldStates }: Logbook): string[] {
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
      return unknownName('place', event.subject, site.lot?.places ?? [], (a, b) => a === b);
    case 'radial-current': {
      const { radials } = fieldStateAt(fieldStates, event.time);
      if (radials.some(({ number }) => String(number) === event.subject)) return [];
      return [`radial ${event.subject} does not lie there at that time, as far as the journal tells`];
    }
    default:
      return [];
  }
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
