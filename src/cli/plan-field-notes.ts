import { formatLength } from '../core/quantity.ts';
import type { Radial } from '../core/record.ts';
import { type FieldAtPlace, plannedFieldAtPlaces } from '../core/safety/planned-ends.ts';
import { keptLengthM, presentLengthM } from '../core/safety/rounding.ts';
import type { Site } from '../core/site.ts';
import { UserError } from '../core/user-error.ts';
import { allowedPowerWords } from '../formats/careful-figures.ts';
import type { NumberedRoute } from './plan-numbers.ts';

/** The places that the field of planned wires reaches at the powers of the site, a line each. */
export function fieldNotes(site: Site, routes: readonly NumberedRoute[], laid: readonly Radial[]): string[] {
  const planned = routes.map(({ points, ...route }): Radial => ({ ...route, route: points, since: null }));
  try {
    return plannedFieldAtPlaces(site, planned, laid).map((found) => fieldNote(found, site));
  } catch (error) {
    // A plan can be made without; `safety` itself asks for what it lacks.
    if (error instanceof UserError) return [`no field at the places is told: ${error.message}`];
    throw error;
  }
}

function fieldNote(found: FieldAtPlace, { units }: Site): string {
  const { place, radial, distanceM, keepOffM, maxPowerW, onceAllLie, band, peakPowerW, mode } = found;
  const sent = `${peakPowerW} W ${mode} on ${band}`;
  const away = formatLength(presentLengthM(distanceM, units), units);
  const kept = (lengthM: number | null): string => formatLength(keptLengthM(lengthM ?? 0, units), units);
  const allowed = (powerW: number | null): string => allowedPowerWords(powerW ?? 0, String);
  const instead = 'send less, or keep people away from there while you transmit';
  return keepOffM === null
    ? `radial ${radial} passes ${distanceM === 0 ? 'right by' : `${away} from`} "${place}", where its field is over the limit at ${sent} (allowed there: ${firstAndAll(allowed(maxPowerW), allowed(onceAllLie.maxPowerW))}): ${instead}`
    : `radial ${radial} ends ${away} from "${place}", and at ${sent} people keep off its end by ${firstAndAll(kept(keepOffM), kept(onceAllLie.keepOffM))}: shorten it, ${instead}`;
}

/** The first of the wires carries the current that all of them share in the end. */
function firstAndAll(first: string, all: string): string {
  return first === all ? first : `${first} while no other wire of this plan lies, ${all} once all do`;
}
