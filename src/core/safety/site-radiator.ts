import { END_EFFECT, quarterWaveM } from '../ground/wire-velocity.ts';
import { RAISED_M } from '../layout/raised.ts';
import type { FieldState } from '../record.ts';
import type { Point, Site } from '../site.ts';
import { UserError } from '../user-error.ts';
import type { Radiator } from './arrangement.ts';
import type { GroundedRadials } from './wire-ends.ts';

/** Taken where the site gives no thickness: thin, which makes for the higher voltage. */
const ASSUMED_RADIUS_M = 1e-3;

/** Elevated radials that the site says nothing of: the fewest, which carry the most each. */
const ASSUMED_ELEVATED_COUNT = 2;

/** The antenna of a site as the fields see it. */
export interface SiteRadiator {
  /** The band decides the length of elevated radials that the site gives no length for. */
  at(frequencyHz: number): Radiator;
  /** Height of the foot as the user gave it, m. */
  readonly baseHeightM: number;
  readonly elevated: boolean;
  readonly grounded: GroundedRadials | null;
  /** Ends of radials on the ground whose place is known, east and north of the base. */
  readonly knownEnds: readonly Point[];
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
  const raised = baseHeightM >= RAISED_M;
  const elevated = raised && (radials?.depthM ?? 0) === 0;
  const wires = radialsOf(site, fieldState);
  const wireRadiusM = radials?.diameterM == null ? ASSUMED_RADIUS_M : radials.diameterM / 2;

  if (raised && !elevated) {
    assumptions.push('the radials are buried: the lead from the raised base down to them counts as element');
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
  const count = wires.count === 0 ? ASSUMED_ELEVATED_COUNT : wires.count;
  return {
    at: (frequencyHz) => ({
      heightM: (antenna.heightM as number) + (raised && !elevated ? baseHeightM : 0),
      radiusM,
      baseHeightM: elevated ? baseHeightM : 0,
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
    knownEnds: elevated ? [] : (fieldState?.radials ?? []).flatMap(endOf),
    assumptions,
  };
}

function radialsOf(site: Site, state: FieldState | null): { count: number; longestM: number | null } {
  if (state === null) return { count: site.radials?.count ?? 0, longestM: site.radials?.lengthM ?? null };
  const lengths = state.radials.map(({ lengthM }) => lengthM);
  return { count: lengths.length, longestM: lengths.length === 0 ? null : Math.max(...lengths) };
}

function endOf(radial: FieldState['radials'][number]): Point[] {
  const last = radial.route?.at(-1);
  if (last !== undefined) return [last];
  if (radial.bearingDeg === null) return [];
  const bearing = (radial.bearingDeg * Math.PI) / 180;
  return [[radial.lengthM * Math.sin(bearing), radial.lengthM * Math.cos(bearing)]];
}
