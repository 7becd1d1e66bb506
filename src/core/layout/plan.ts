import { azimuthPatterns } from '../ground/pattern.ts';
import type { RadialField, RadialWire } from '../ground/radial-field.ts';
import { groundValidity } from '../ground/validity.ts';
import type { Radial } from '../record.ts';
import { UserError } from '../user-error.ts';
import { type Candidate, MOST_RADIALS, noRoom, spendWire } from './budget.ts';
import { cutStock, type StockCut } from './cutting.ts';
import type { FreeArea } from './free-area.ts';
import { type WireWorth, worthOfMore } from './next-wire.ts';
import {
  type BandEfficiency,
  bandEfficiencies,
  laidWires,
  meanLossDb,
  type PlanSetting,
  wiresOf,
} from './planned-field.ts';
import { layRoutes, spreadBearings } from './spread.ts';

/** A count and a length that the user wants to see, instead of what the stock gives. */
export interface WantedField {
  readonly count: number;
  readonly lengthM: number;
}

export interface PlanRequest {
  readonly area: FreeArea;
  readonly setting: PlanSetting;
  /** Single lengths of wire at hand; null when the site names none. */
  readonly stockM: readonly number[] | null;
  readonly wanted: WantedField | null;
  /** Other fields to set beside the plan. */
  readonly compared: readonly WantedField[];
  /** Radials that lie there already. */
  readonly laid: readonly Radial[];
  readonly elevationsDeg: readonly number[];
}

/** Efficiency on a band, with the published error of the method. */
export interface PlannedBand extends BandEfficiency {
  /** The loss is this much larger than computed, by measurement: low and high, dB. */
  readonly biasDb: { readonly low: number; readonly high: number };
  readonly outside: readonly string[];
}

export interface PlannedPattern {
  readonly band: string;
  readonly elevationDeg: number;
  /** Compass degrees. */
  readonly azimuthDeg: readonly number[];
  /** Against the mean power around the circle at this elevation, dB. */
  readonly relativeDb: readonly number[];
}

export interface Plan {
  readonly chosen: Candidate;
  /** Other ways of using the wire (or the compared fields), least loss first. */
  readonly others: readonly Candidate[];
  readonly bands: readonly PlannedBand[];
  readonly pattern: readonly PlannedPattern[];
  readonly worth: readonly WireWorth[];
  /** Whether more wires beat longer ones here, in a sentence; null when only one field was computed. */
  readonly lesson: string | null;
}

const AZIMUTH_DEG: Float64Array = Float64Array.from({ length: 72 }, (_, i) => i * 5);

/**
 * Plans where wires go: the wanted field, or the count and length that use the stock with the least loss.
 *
 * @throws UserError `plan-no-stock`, `plan-stock-short`, `plan-no-room`, and as the ground physics
 */
export function makePlan(request: PlanRequest): Plan {
  const { area, setting, laid, stockM, wanted } = request;
  const existing = {
    wires: laidWires(laid, setting.wireRadiusM),
    bearingsDeg: laid.flatMap(({ bearingDeg }) => (bearingDeg === null ? [] : [bearingDeg])),
  };
  const ranked =
    wanted === null
      ? spendWire(area, stockM ?? [], setting, existing)
      : [layWanted(request, wanted, existing)];
  const chosen = ranked[0] as Candidate;
  const compared = request.compared.map((field) => layWanted({ ...request, stockM: null }, field, existing));
  const wires = [...existing.wires, ...wiresOf(chosen.routes, setting.wireRadiusM)];
  const field: RadialField = { wires };
  const bearingsDeg = [...existing.bearingsDeg, ...chosen.routes.map((route) => route.bearingDeg)];
  return {
    chosen,
    others: [...ranked.slice(1), ...compared].sort((a, b) => a.meanLossDb - b.meanLossDb),
    bands: chosen.bands.map((band) => {
      const { biasDb, outside } = groundValidity({ ...setting, field, frequencyHz: band.frequencyHz });
      return { ...band, biasDb, outside };
    }),
    pattern: setting.bands.flatMap(({ band, frequencyHz }) =>
      azimuthPatterns({ ...setting, field, frequencyHz }, request.elevationsDeg, AZIMUTH_DEG).map(
        ({ elevationDeg, relativeDb }) => ({
          band,
          elevationDeg,
          azimuthDeg: Array.from(AZIMUTH_DEG),
          relativeDb: Array.from(relativeDb),
        }),
      ),
    ),
    worth: worthOfMore(area, { wires, bearingsDeg }, chosen.nominalLengthM, setting),
    lesson: lesson(chosen, ranked),
  };
}

/** A field of a stated count and length, as far as the lot has room for it. */
function layWanted(
  request: PlanRequest,
  { count, lengthM }: WantedField,
  existing: { readonly wires: readonly RadialWire[]; readonly bearingsDeg: readonly number[] },
): Candidate {
  const { area, setting, stockM } = request;
  if (count > MOST_RADIALS) {
    throw new UserError('plan-too-many', `plans at most ${MOST_RADIALS} radials, got ${count}`, {
      place: { field: 'count' },
    });
  }
  const bearings = spreadBearings(area, count, existing.bearingsDeg);
  if (bearings.length === 0) throw noRoom();
  const routes = layRoutes(area, bearings, Array<number>(bearings.length).fill(lengthM));
  const lengthsM = routes.map((route) => route.lengthM);
  const wireM = lengthsM.reduce((sum, length) => sum + length, 0);
  const cuts: StockCut[] | null = stockM === null ? [] : cutStock(stockM, lengthsM);
  if (cuts === null) {
    throw new UserError(
      'plan-stock-short',
      `the stock does not give ${count} wires of up to ${lengthM.toFixed(1)} m (${wireM.toFixed(1)} m in all)`,
      { place: { field: 'stock' } },
    );
  }
  const wires = [...existing.wires, ...wiresOf(routes, setting.wireRadiusM)];
  const bands = bandEfficiencies(setting, { wires });
  return { nominalLengthM: lengthM, routes, wireM, cuts, bands, meanLossDb: meanLossDb(bands) };
}

/** Less than this between two fields is nothing anybody could measure, dB. */
const NOTHING_DB = 0.05;

/** What the comparison of lengths taught: whether many short wires beat few long ones with this wire. */
function lesson(chosen: Candidate, ranked: readonly Candidate[]): string | null {
  const longer = ranked.filter(({ nominalLengthM }) => nominalLengthM >= 1.5 * chosen.nominalLengthM);
  const rival = longer.reduce<Candidate | null>(
    (best, next) => (best === null || next.nominalLengthM > best.nominalLengthM ? next : best),
    null,
  );
  if (rival === null) {
    return ranked.length < 2
      ? null
      : 'with this wire longer is as good as more: no field of more and shorter wires does better here';
  }
  const gainDb = rival.meanLossDb - chosen.meanLossDb;
  const describe = ({ routes, nominalLengthM }: Candidate): string =>
    `${routes.length} of up to ${nominalLengthM.toFixed(1)} m`;
  return gainDb < NOTHING_DB
    ? `count and length hardly matter for this wire: ${describe(chosen)} and ${describe(rival)} are within ${NOTHING_DB} dB`
    : `more beats longer here: ${describe(chosen)} lose ${gainDb.toFixed(2)} dB less than ${describe(rival)}`;
}
