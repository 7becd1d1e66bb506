import { END_EFFECT, quarterWaveM } from '../ground/wire-velocity.ts';
import { radialsHang } from '../layout/raised.ts';
import type { FieldState, Radial } from '../record.ts';
import type { Point, Site } from '../site.ts';
import { UserError } from '../user-error.ts';
import type { Radiator } from './arrangement.ts';
import { personAt } from './exposure-profile.ts';
import { withinReach } from './keep-off.ts';
import type { GroundedRadials } from './radial-current.ts';

/** Taken where the site gives no thickness: thin, which makes for the higher voltage. */
const ASSUMED_RADIUS_M = 1e-3;

/** Elevated radials that the site says nothing of: the fewest, which carry the most each. */
const ASSUMED_ELEVATED_COUNT = 2;

/** A radial on the ground or in the air, from the base outwards, metres east and north of it. */
export interface KnownWire {
  readonly radial: number;
  readonly points: readonly Point[];
}

/** The antenna of a site as the fields see it. */
export interface SiteRadiator {
  /** The band decides the length of elevated radials that the site gives no length for. */
  at(frequencyHz: number): Radiator;
  /** Height of the foot as the user gave it, m. */
  readonly baseHeightM: number;
  readonly elevated: boolean;
  readonly grounded: GroundedRadials | null;
  /** Height of the radials over the ground, m. */
  readonly radialHeightM: number;
  /** Radials whose way is known. */
  readonly knownWires: readonly KnownWire[];
  /** Of how many radials nobody knows the way, null where not even that is known. */
  readonly unplacedCount: number | null;
  /** Whether wire on the ground can be touched along its length, being neither insulated nor covered. */
  readonly bareOnSurface: boolean;
  /** Whether a person on the ground can touch radials along their length: bare on the surface, or hung too low. */
  readonly touchableAlong: boolean;
  /** What was taken because the site does not say, for the user to read. */
  readonly assumptions: readonly string[];
}

/**
 * Reads the antenna and its radials from the site, the radials from the journal's latest field state where there
 * is one.
 *
 * @throws UserError `site-needs-height`: a height is never guessed
 */
export function siteRadiator(site: Site, fieldState: FieldState | null): SiteRadiator {
  const { antenna, radials } = site;
  if (antenna.heightM === null) {
    throw new UserError('site-needs-height', 'is needed to compute the fields, such as "10.1m"', {
      place: { field: 'antenna.height' },
    });
  }
  const assumptions: string[] = [];
  if (antenna.diameterM === null) {
    assumptions.push('antenna.diameter is not given: taken as 2 mm, which makes for the higher voltage');
  }
  if (antenna.baseHeightM === null) {
    assumptions.push('antenna.baseHeight is not given: the base is taken to stand on the ground');
  }
  const radiusM = antenna.diameterM === null ? ASSUMED_RADIUS_M : antenna.diameterM / 2;
  const baseHeightM = antenna.baseHeightM ?? 0;
  const elevated = radialsHang(antenna);
  // Where radials lie on the ground under a raised base, a lead goes down to them.
  const leadM = elevated ? 0 : baseHeightM;
  const wires = radialsOf(site, fieldState);
  const wireRadiusM = radials?.diameterM == null ? ASSUMED_RADIUS_M : radials.diameterM / 2;

  if (elevated && (radials?.depthM ?? 0) > 0) {
    assumptions.push('the base is raised: the radials are taken to hang there, whatever radials.depth says');
  }
  if (leadM > 0) {
    assumptions.push(
      'the radials are taken to lie on or in the ground, and the lead from the base down to them as element; where they hang, keep arm’s reach from the whole of each',
    );
  }
  if (elevated && wires.count === 0) {
    assumptions.push(
      `no elevated radials are given: taken as ${ASSUMED_ELEVATED_COUNT}, the fewest, which carry the most each`,
    );
  } else if (!elevated && wires.count === 0) {
    assumptions.push(
      'no radials are given (radials.count and radials.length): the voltage of their ends is not told',
    );
  }
  const bareOnSurface = !elevated && canBeTouchedAlong(radials);
  if (bareOnSurface && wires.count > 0 && radials?.insulated == null) {
    assumptions.push('radials.insulated is not given: taken as bare wire');
  }
  if (bareOnSurface && wires.count > 0 && radials?.depthM == null) {
    assumptions.push(
      'radials.depth is not given: taken as lying on the surface, within touch along its length',
    );
  }
  const knownWires = (fieldState?.radials ?? []).flatMap(wayOf);
  const radialHeightM = elevated ? baseHeightM : 0;
  const count = wires.count === 0 ? ASSUMED_ELEVATED_COUNT : wires.count;
  return {
    at: (frequencyHz) => ({
      heightM: (antenna.heightM as number) + leadM,
      radiusM,
      baseHeightM: radialHeightM,
      elevated: elevated
        ? {
            count,
            lengthM: wires.longestM ?? quarterWaveM(frequencyHz, END_EFFECT),
            radiusM: wireRadiusM,
          }
        : null,
    }),
    baseHeightM,
    elevated,
    grounded:
      elevated || wires.longestM === null || wires.count === 0
        ? null
        : { count: wires.count, lengthM: wires.longestM, radiusM: wireRadiusM },
    radialHeightM,
    knownWires,
    unplacedCount: wires.count === 0 && elevated ? null : unplacedCount(site, fieldState, knownWires),
    bareOnSurface,
    touchableAlong: elevated ? withinReach(personAt(0), radialHeightM) : bareOnSurface,
    assumptions,
  };
}

function unplacedCount(
  { radials }: Site,
  fieldState: FieldState | null,
  known: readonly KnownWire[],
): number | null {
  return fieldState === null ? (radials?.count ?? null) : fieldState.radials.length - known.length;
}

function radialsOf(site: Site, state: FieldState | null): { count: number; longestM: number | null } {
  if (state === null) return { count: site.radials?.count ?? 0, longestM: site.radials?.lengthM ?? null };
  const lengths = state.radials.map(({ lengthM }) => lengthM);
  return { count: lengths.length, longestM: lengths.length === 0 ? null : Math.max(...lengths) };
}

/** Whether wire on the ground can be touched along its length; what the site does not say is taken as bare, on the surface. */
export function canBeTouchedAlong(radials: Site['radials']): boolean {
  return radials?.insulated !== true && (radials?.depthM ?? 0) === 0;
}

/** A radial as a wire whose way is known; none where the journal does not tell it. */
export function wayOf({ number, lengthM, bearingDeg, route }: Radial): KnownWire[] {
  if (route !== null && route.length > 0) return [{ radial: number, points: route }];
  if (bearingDeg === null) return [];
  const bearing = (bearingDeg * Math.PI) / 180;
  const end: Point = [lengthM * Math.sin(bearing), lengthM * Math.cos(bearing)];
  return [{ radial: number, points: [[0, 0], end] }];
}
