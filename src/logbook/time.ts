import { quoted } from '../core/quoted.ts';
import { UserError } from '../core/user-error.ts';
import { isoOnClock } from '../formats/clock.ts';

const ISO_8601 = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}:\d{2}(?::\d{2}(?:\.\d{1,3})?)?)\s*(Z|[+-]\d{2}:?\d{2})?$/iu;

/**
 * Checks a time that the user gave and writes it in one way, in the user's own zone.
 *
 * @param now - a time later than this is refused, for a journal tells what has happened
 * @returns ISO 8601 with zone, such as `2026-03-01T10:15:00+01:00`
 * @throws UserError `time-unreadable`, `time-no-zone`, `time-future`
 */
export function parseTime(text: string, now: Date, field = '--at'): string {
  const place = { field };
  const match = ISO_8601.exec(text.trim());
  const example = isoWithZone(now);
  if (match === null) {
    throw new UserError('time-unreadable', `needs a time such as ${example}, got ${quoted(text)}`, { place });
  }
  const [, date, clock = '', zone] = match;
  const seconds = clock.length === 5 ? `${clock}:00` : clock;
  if (zone === undefined) {
    const here = isoWithZone(new Date(`${date}T${seconds}`)).slice(19);
    const message = `needs a zone, such as ${date}T${clock}${here} for this computer's, got ${quoted(text)}`;
    throw new UserError('time-no-zone', message, { place });
  }
  const offset = zone.toUpperCase().replace(/^([+-]\d{2})(\d{2})$/u, '$1:$2');
  const time = `${date}T${seconds}${offset}`;
  const at = Date.parse(time);
  if (Number.isNaN(at) || !isOfCalendar(date as string)) {
    throw new UserError('time-unreadable', `there is no such time as ${quoted(text)}`, { place });
  }
  if (at > now.getTime()) {
    throw new UserError('time-future', `${quoted(text)} is in the future: give the time when it happened`, {
      place,
    });
  }
  return time;
}

/** A moment as ISO 8601 with the zone of this computer, to the second. */
export function isoWithZone(moment: Date): string {
  return isoOnClock(moment.getTime(), -moment.getTimezoneOffset());
}

/** `Date.parse` takes 30 February for 2 March. */
function isOfCalendar(date: string): boolean {
  const parsed = new Date(`${date}T00:00:00Z`);
  return !Number.isNaN(parsed.getTime()) && parsed.toISOString().startsWith(date);
}
