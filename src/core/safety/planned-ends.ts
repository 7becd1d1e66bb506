import { radialsHang } from '../layout/raised.ts';
import type { Radial } from '../record.ts';
import type { LotPlace, Point, Site } from '../site.ts';
import { assessSafety, type BandAssessment } from './assess.ts';
import { personAt } from './exposure-profile.ts';
import { nearestEnd, nearestWire } from './nearest-wire.ts';
import { DISTANCE_STEPS_PER_M, roundDown } from './rounding.ts';
import { type KnownWire, wayOf } from './site-radiator.ts';

/** A planned radial whose field at a place asks for something. */
export interface FieldAtPlace {
  readonly place: string;
  readonly radial: number;
  /** From the radial's end, or from the wire where it passes, to the place, rounded down, m. */
  readonly distanceM: number;
  /** How far people keep off the end, m; null where the wire decides, as it passes. */
  readonly keepOffM: number | null;
  /** Where the wire decides, the power up to which the place is within the limits, W. */
  readonly maxPowerW: number | null;
  readonly band: string;
  readonly peakPowerW: number;
  readonly mode: string;
}

/**
 * The places that the field of planned radials reaches at the powers that the site names, before a wire of them is laid:
 * what `safety` would say once they lie there. Arm's reach is not told here, for it does not ask for power.
 *
 * @param laid - what lies there already, with which the current is shared
 * @returns none where the site names no power, or no height to compute the fields with
 * @throws UserError as {@link assessSafety}
 */
export function plannedFieldAtPlaces(
  site: Site,
  planned: readonly Radial[],
  laid: readonly Radial[],
): FieldAtPlace[] {
  const { lot, transmit, antenna } = site;
  if (lot === null || transmit.length === 0 || antenna.heightM === null || planned.length === 0) return [];
  const radials = [...laid, ...planned];
  const wireM = radials.reduce((sum, { lengthM }) => sum + lengthM, 0);
  const { bands } = assessSafety(site, { fieldState: { since: null, radials, wireM } });
  const wires = planned.flatMap(wayOf);
  const wireHeightM = radialsHang(antenna) ? (antenna.baseHeightM ?? 0) : 0;
  return bands.flatMap((assessment) => {
    const { band, peakPowerW, mode } = assessment.transmission;
    return lot.places.flatMap((place, i) => {
      const at: Point = [place.at[0] - lot.base[0], place.at[1] - lot.base[1]];
      const found =
        nearEnd(assessment, wires, at, apartUpM(place, wireHeightM)) ?? passing(assessment, i, wires, at);
      const sent = { band: band.band, peakPowerW, mode: mode.mode };
      return found === null ? [] : [{ place: place.name, ...found, ...sent }];
    });
  });
}

type Found = Pick<FieldAtPlace, 'radial' | 'distanceM' | 'keepOffM' | 'maxPowerW'>;

/** The nearest end, where it is nearer than people keep off it. */
function nearEnd(
  { wireEnds }: BandAssessment,
  wires: readonly KnownWire[],
  at: Point,
  upM: number,
): Found | null {
  const end = nearestEnd(wires, at);
  const keepOffM = wireEnds.find((each) => each.end === 'radial end')?.keepOffM ?? 0;
  if (end === null) return null;
  const distanceM = Math.hypot(end.distanceM, upM);
  if (distanceM >= keepOffM) return null;
  return { radial: end.radial, distanceM: toldM(distanceM), keepOffM, maxPowerW: null };
}

/** A planned wire that decides over a place by its field, as it passes. */
function passing(
  { places }: BandAssessment,
  place: number,
  wires: readonly KnownWire[],
  at: Point,
): Found | null {
  const judged = places[place];
  if (judged === undefined || judged.verdict === 'clear' || judged.basis === 'arm’s reach') return null;
  const own = wires.filter(({ radial }) => radial === judged.decidingRadial);
  const wire = nearestWire(own, at);
  if (wire === null) return null;
  return {
    radial: wire.radial,
    distanceM: toldM(wire.distanceM),
    keepOffM: null,
    maxPowerW: judged.maxPowerW,
  };
}

/** How far a wire hangs over a person's head or under their feet, m. */
function apartUpM({ heightM }: LotPlace, wireHeightM: number): number {
  const { fromM, toM } = personAt(heightM);
  return Math.max(0, fromM - wireHeightM, wireHeightM - toM);
}

function toldM(distanceM: number): number {
  return roundDown(distanceM, DISTANCE_STEPS_PER_M);
}
