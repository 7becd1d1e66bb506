import { radialsHang } from '../layout/raised.ts';
import type { Radial } from '../record.ts';
import type { LotPlace, Point, Site } from '../site.ts';
import { assessSafety, type BandAssessment } from './assess.ts';
import { personAt } from './exposure-profile.ts';
import { type NearWire, nearestEnd, nearestWire } from './nearest-wire.ts';
import { DISTANCE_STEPS_PER_M, roundDown } from './rounding.ts';
import { wayOf } from './site-radiator.ts';

/** What one transmission asks for beside a planned radial. */
export interface AskedBeside {
  /** How far people keep off its end, m; null where the wire decides, as it passes. */
  readonly keepOffM: number | null;
  /** Where the wire decides, the power up to which the place is within the limits, W. */
  readonly maxPowerW: number | null;
}

/** A planned radial whose field at a place asks for something. */
export interface FieldAtPlace extends AskedBeside {
  readonly place: string;
  readonly radial: number;
  /** From the radial's end, or from the wire where it passes, to the place, rounded down, m. */
  readonly distanceM: number;
  /** The same once every wire of the plan lies and has its share of the current. */
  readonly onceAllLie: AskedBeside;
  readonly band: string;
  readonly peakPowerW: number;
  readonly mode: string;
}

/**
 * The places that the field of planned radials reaches at the powers that the site names, before a wire of them is laid:
 * what `safety` would say while the one that comes nearest is the only one of them that lies, and so carries most, and
 * once all do. Its field falls as the number of those that share the current: a plan laid by handfuls passes from the
 * one to the other. Arm's reach is not told here, for it does not ask for power.
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
  const wires = planned.flatMap(wayOf);
  if (lot === null || transmit.length === 0 || antenna.heightM === null || wires.length === 0) return [];
  const wireHeightM = radialsHang(antenna) ? (antenna.baseHeightM ?? 0) : 0;
  const assessWith = (radials: readonly Radial[]): readonly BandAssessment[] => {
    const wireM = radials.reduce((sum, { lengthM }) => sum + lengthM, 0);
    return assessSafety(site, { fieldState: { since: null, radials, wireM } }).bands;
  };
  const all = assessWith([...laid, ...planned]);
  const first = new Map<number, readonly BandAssessment[]>();
  const whileFirst = ({ radial }: NearWire): readonly BandAssessment[] => {
    const only = planned.filter(({ number }) => number === radial);
    const assessed = first.get(radial) ?? assessWith([...laid, ...only]);
    first.set(radial, assessed);
    return assessed;
  };
  return all.flatMap((onceAll, band) =>
    lot.places.flatMap((place, i): FieldAtPlace[] => {
      const at: Point = [place.at[0] - lot.base[0], place.at[1] - lot.base[1]];
      const end = nearestEnd(wires, at) as NearWire;
      const wire = nearestWire(wires, at) as NearWire;
      const upM = apartUpM(place, wireHeightM);
      const byEnd = nearEnd(end, upM, whileFirst(end)[band] as BandAssessment, onceAll);
      const byWire = passing(wire, i, whileFirst(wire)[band] as BandAssessment, onceAll);
      // A wire that comes no nearer than with its end does not pass.
      const found = wire.distanceM < end.distanceM ? (byWire ?? byEnd) : (byEnd ?? byWire);
      if (found === null) return [];
      const { band: sentOn, peakPowerW, mode } = onceAll.transmission;
      return [{ place: place.name, ...found, band: sentOn.band, peakPowerW, mode: mode.mode }];
    }),
  );
}

type Found = Omit<FieldAtPlace, 'place' | 'band' | 'peakPowerW' | 'mode'>;

/** An end, where it is nearer than people keep off it. */
function nearEnd(end: NearWire, upM: number, first: BandAssessment, all: BandAssessment): Found | null {
  const distanceM = Math.hypot(end.distanceM, upM);
  const asked = ({ wireEnds }: BandAssessment): AskedBeside => ({
    keepOffM: wireEnds.find((each) => each.end === 'radial end')?.keepOffM ?? 0,
    maxPowerW: null,
  });
  if (distanceM >= (asked(first).keepOffM ?? 0)) return null;
  return { radial: end.radial, distanceM: toldM(distanceM), ...asked(first), onceAllLie: asked(all) };
}

/** A wire that decides over a place by its field, as it passes. */
function passing(wire: NearWire, place: number, first: BandAssessment, all: BandAssessment): Found | null {
  const judged = first.places[place];
  if (judged === undefined || judged.verdict === 'clear' || judged.basis === 'arm’s reach') return null;
  if (judged.decidingRadial !== wire.radial) return null;
  const asked = ({ places }: BandAssessment): AskedBeside => ({
    keepOffM: null,
    maxPowerW: places[place]?.maxPowerW ?? null,
  });
  return { radial: wire.radial, distanceM: toldM(wire.distanceM), ...asked(first), onceAllLie: asked(all) };
}

/** How far a wire hangs over a person's head or under their feet, m. */
function apartUpM({ heightM }: LotPlace, wireHeightM: number): number {
  const { fromM, toM } = personAt(heightM);
  return Math.max(0, fromM - wireHeightM, wireHeightM - toM);
}

function toldM(distanceM: number): number {
  return roundDown(distanceM, DISTANCE_STEPS_PER_M);
}
