import { END_EFFECT, quarterWaveM } from '../ground/wire-velocity.ts';
import { radialsHang } from '../layout/raised.ts';
import type { FieldState, Radial } from '../record.ts';
import type { Point, Site } from '../site.ts';
import { UserError } from '../user-error.ts';
import type { Radiator } from './arrangement.ts';
import { type HeightSpan, personAt } from './exposure-profile.ts';
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
  /**
   * One, or two where the site speaks for both: with its radials in the air, and with them on the ground. The band
   * decides the length of elevated radials that the site gives no length for.
   */
  at(frequencyHz: number): readonly Radiator[];
  /** Height of the foot as the user gave it, m. */
  readonly baseHeightM: number;
  readonly elevated: boolean;
  readonly grounded: GroundedRadials | null;
  /** Between which heights over the ground the radials may run. */
  readonly radialHeights: HeightSpan;
  /** Radials whose way is known. */
  readonly knownWires: readonly KnownWire[];
  /** Of how many radials nobody knows the way, null where not even that is known. */
  readonly unplacedCount: number | null;
  /** Whether wire on the ground can be touched along its length, being neither insulated nor covered. */
  readonly bareOnSurface: boolean;
  /** Whether radials may hang, where any part of them can be touched that is not out of reach. */
  readonly mayHang: boolean;
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
  const depthGiven = radials?.depthM != null;
  const mayLie = !elevated || depthGiven;
  const mayHang = elevated || (baseHeightM > 0 && !depthGiven);
  const wires = radialsOf(site, fieldState);
  const wireRadiusM = radials?.diameterM == null ? ASSUMED_RADIUS_M : radials.diameterM / 2;

  if (elevated && depthGiven) {
    assumptions.push(
      'the base is raised, so that radials would hang there, yet radials.depth is given: they are judged in the air and on the ground, and the worse counts; leave radials.depth out where they hang',
    );
  } else if (mayLie && baseHeightM > 0) {
    assumptions.push(
      ...(depthGiven
        ? []
        : [
            'radials.depth is not given: the radials are taken to lie on or in the ground, but any part of them within arm’s reach counts as touchable, for they may hang',
          ]),
      'the lead from the raised base down to the radials is taken as part of the element',
    );
  }
  if (elevated && wires.count === 0) {
    assumptions.push(
      `${fieldState !== null && radials?.count != null ? 'the journal tells of no radial that hangs, and what lies or hangs is taken from it, not from radials.count' : 'no elevated radials are given'}: taken as ${ASSUMED_ELEVATED_COUNT}, the fewest, which carry the most each`,
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
  const radialHeights = { fromM: mayLie ? 0 : baseHeightM, toM: mayHang ? baseHeightM : 0 };
  const count = wires.count === 0 ? ASSUMED_ELEVATED_COUNT : wires.count;
  const unplaced = unplacedCount(site, fieldState, knownWires);
  const inAir = (frequencyHz: number): Radiator => ({
    heightM: antenna.heightM as number,
    radiusM,
    baseHeightM,
    elevated: {
      count,
      ...(unplaced === 0 && knownWires.length > 0 ? { spreadOver: evenlySpread(knownWires) } : {}),
      lengthM: wires.longestM ?? quarterWaveM(frequencyHz, END_EFFECT),
      radiusM: wireRadiusM,
    },
  });
  // Where radials lie on the ground under a raised base, a lead goes down to them.
  const onGround = {
    heightM: (antenna.heightM as number) + baseHeightM,
    radiusM,
    baseHeightM: 0,
    elevated: null,
  };
  return {
    at: (frequencyHz) => [...(elevated ? [inAir(frequencyHz)] : []), ...(mayLie ? [onGround] : [])],
    baseHeightM,
    elevated,
    grounded:
      !mayLie || wires.longestM === null || wires.count === 0
        ? null
        : { count: wires.count, lengthM: wires.longestM, radiusM: wireRadiusM },
    radialHeights,
    knownWires,
    unplacedCount: wires.count === 0 && elevated ? null : unplaced,
    bareOnSurface,
    mayHang,
    touchableAlong:
      bareOnSurface || (mayHang && withinReach(personAt(0), radialHeights.fromM, radialHeights.toM)),
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

/** Wires whose ends lie within this part of the gap between evenly spread ones count as one bunch. */
const BUNCH_PART = 0.9;

/** How many evenly spread radials carry, each, no less than the densest bunch of these would as one. */
function evenlySpread(wires: readonly KnownWire[]): number {
  const turn = 2 * Math.PI;
  const sector = (BUNCH_PART * turn) / wires.length;
  const bearings = wires.map(({ points }) => {
    const [east, north] = points.at(-1) as Point;
    return Math.atan2(east, north);
  });
  const densest = bearings.map(
    (from) => bearings.filter((bearing) => (bearing - from + turn) % turn <= sector).length,
  );
  return Math.max(1, Math.floor(wires.length / Math.max(...densest)));
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
