import { wayIsUnknown } from '../core/layout/planned-field.ts';
import { plural } from '../core/plural.ts';
import { formatLength } from '../core/quantity.ts';
import type { Radial } from '../core/record.ts';
import { wiresAtBorder } from '../core/safety/border.ts';
import { personAt } from '../core/safety/exposure-profile.ts';
import { TOUCH_DISTANCE_M, withinReach } from '../core/safety/keep-off.ts';
import { nearestEnd, nearestWire } from '../core/safety/nearest-wire.ts';
import { keptLengthM } from '../core/safety/rounding.ts';
import { canBeTouchedAlong, type KnownWire, wayOf } from '../core/safety/site-radiator.ts';
import type { Lot, Point, Site } from '../core/site.ts';
import { borderWords } from '../formats/border-words.ts';
import { listed } from '../formats/words.ts';
import { numbered } from './numbers.ts';
import { fieldNotes } from './plan-field-notes.ts';
import type { NumberedRoute } from './plan-numbers.ts';

/** Who can touch the wires of a plan. */
export interface PlanReach {
  /** A line for each thing that the plan could not avoid, and what it did avoid. */
  readonly notes: readonly string[];
  /** Numbers of planned radials that end within arm's reach of the border. */
  readonly endsNearBorder: readonly number[];
}

/** Looks at the planned wires, and at those that lie there, from the places and from beyond the border. */
export function planReach(
  site: Site,
  lot: Lot,
  routes: readonly NumberedRoute[],
  laid: readonly Radial[],
  wireHeightM: number,
): PlanReach {
  const reach = formatLength(keptLengthM(TOUCH_DISTANCE_M, site.units), site.units);
  const planned = routes.map(({ number, points }): KnownWire => ({ radial: number, points }));
  const places = lot.places
    .filter(({ heightM }) => withinReach(personAt(heightM), wireHeightM))
    .map(({ name, at }) => ({ name, at: [at[0] - lot.base[0], at[1] - lot.base[1]] as Point }));
  const touchable = wireHeightM > 0 || canBeTouchedAlong(site.radials);
  const reached = withinReach(personAt(0), wireHeightM) ? planned : [];
  const atBorder = wiresAtBorder(reached, lot, TOUCH_DISTANCE_M, touchable);
  const unavoided = places.flatMap(({ name, at }) => {
    const passing = within(planned, at, nearestWire);
    const lying = within(laid.flatMap(wayOf), at, nearestEnd);
    const near = `within arm’s reach (${reach}) of "${name}"`;
    return [
      ...(Math.hypot(...at) < TOUCH_DISTANCE_M
        ? [`"${name}" is within arm’s reach (${reach}) of the antenna itself, wherever wires are laid`]
        : []),
      ...(passing.length > 0 ? [passingText(passing, near, touchable, wireHeightM > 0)] : []),
      ...(lying.length > 0 ? [lyingText(lying, near)] : []),
    ];
  });
  const unknown = laid.filter(wayIsUnknown);
  const beyond = unknown.length === 0 ? '' : '; of those that lie there already it is not known';
  const avoided =
    places.length === 0 || routes.length === 0
      ? []
      : [
          `no wire of this plan ends within arm’s reach (${reach}) of ${listed(places.map(({ name }) => name))}${beyond}`,
        ];
  const border = borderWords(atBorder, `arm’s reach (${reach})`, wireHeightM > 0);
  const fields = fieldNotes(site, routes, laid);
  return {
    notes: [...avoided, ...unavoided, ...fields, ...border, ...unknownWays(unknown.length)],
    endsNearBorder: atBorder.ends,
  };
}

function passingText(
  radials: readonly number[],
  near: string,
  touchable: boolean,
  isRaised: boolean,
): string {
  const pass = `${numbered('radial', radials)} of this plan ${radials.length === 1 ? 'passes' : 'pass'} ${near}`;
  if (!touchable) {
    return `${pass}, for a plan keeps only the ends of wires clear of places: lay it another way, or leave it out, where people stay long`;
  }
  const remedy = isRaised ? 'hang it higher' : 'bury it or use insulated wire';
  return `${pass}, where bare or low wire can be touched: ${remedy}, or keep people away from there while you transmit`;
}

function lyingText(radials: readonly number[], near: string): string {
  const [end, them] = radials.length === 1 ? ['lies there ends', 'it'] : ['lie there end', 'them'];
  return `${numbered('radial', radials)} that ${end} ${near}: new wires do not change that, so shorten ${them}, or keep people away from there while you transmit`;
}

function unknownWays(count: number): string[] {
  if (count === 0) return [];
  return [
    `the directions of ${plural(count, 'radial')} that ${count === 1 ? 'lies' : 'lie'} there already are assumed, because nobody logged them: ${count === 1 ? 'it is' : 'they are'} dotted in the drawing, and may pass or end near a place or the border`,
  ];
}

function within(wires: readonly KnownWire[], at: Point, distance: typeof nearestEnd): number[] {
  return wires
    .filter((wire) => (distance([wire], at)?.distanceM ?? Number.POSITIVE_INFINITY) < TOUCH_DISTANCE_M)
    .map(({ radial }) => radial);
}
