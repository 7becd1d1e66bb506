import type { UnitSystem } from '../quantity.ts';
import type { Radial } from '../record.ts';
import { UserError } from '../user-error.ts';
import { type Candidate, candidateOf, MOST_RADIALS, noRoom, spendWire } from './budget.ts';
import { cutRadials } from './cutting.ts';
import type { FreeArea } from './free-area.ts';
import { type Leaning, leaningOf, type PlannedPattern, patternsOf } from './leaning.ts';
import { type Lesson, lessonOf } from './lesson.ts';
import { type GainRange, gainRange, type WireWorth, worthOfMore } from './next-wire.ts';
import { type LyingField, lyingField, type PlanSetting, withRoutes } from './planned-field.ts';
import { type RangedEfficiency, rangedEfficiencies } from './ranged-efficiency.ts';
import { layEvenly } from './spread.ts';

/** A count and a length that the user wants to see, instead of what the stock gives. */
export interface WantedField {
  readonly count: number;
  readonly lengthM: number;
}

/** What a plan may use, and what it is to weigh. */
export interface PlanRequest {
  readonly area: FreeArea;
  readonly setting: PlanSetting;
  /** Single lengths of wire at hand; null when the site names none. */
  readonly stockM: readonly number[] | null;
  /** Wire that each radial is cut with beyond its route, m. */
  readonly allowanceM: number;
  readonly wanted: WantedField | null;
  /** Other fields to set beside the plan. */
  readonly compared: readonly WantedField[];
  /** Radials that lie there already. */
  readonly laid: readonly Radial[];
  /** Of the pattern; fields side by side are compared at the first. */
  readonly elevationsDeg: readonly number[];
  /** In which messages speak. */
  readonly units: UnitSystem;
}

/** One field of those that were weighed, with what it is judged by. */
export interface WeighedField extends Omit<Candidate, 'bands'> {
  readonly bands: readonly RangedEfficiency[];
  /** At the first elevation, one a band. */
  readonly leaning: readonly Leaning[];
}

/** The field of least loss, and what was weighed beside it. */
export interface Plan {
  readonly chosen: WeighedField;
  /** Other ways of using the wire and the compared fields, least loss first. */
  readonly others: readonly WeighedField[];
  readonly pattern: readonly PlannedPattern[];
  /** What the plan gains over what lies there, mean over the bands; null where nothing does. */
  readonly overLaid: GainRange | null;
  readonly worth: readonly WireWorth[];
  /** Whether more wires beat longer ones here; null when only one field was computed. */
  readonly lesson: Lesson | null;
}

/** Steps of further wire, round in the user's units. */
const EXTRAS_M: Readonly<Record<UnitSystem, readonly number[]>> = {
  metric: [10, 20, 50],
  imperial: [30, 75, 150].map((feet) => feet * 0.3048),
};

/** So many of the ways of using the wire are told; the others lie between them. */
const MOST_TOLD = 5;

/**
 * Plans where wires go: the wanted field, or the count and length that use the stock with the least loss.
 *
 * @throws UserError `plan-no-stock`, `plan-no-room`, `plan-too-many`, and as the ground physics
 */
export function makePlan(request: PlanRequest): Plan {
  const { area, setting, laid, stockM, wanted, elevationsDeg } = request;
  const lying = lyingField(laid, setting.wireRadiusM);
  const ranked =
    wanted === null
      ? spendWire({ ...request, stockM: stockM ?? [], lying })
      : [layWanted(request, wanted, lying)];
  const [chosen, ...rest] = ranked as [Candidate, ...Candidate[]];
  const compared = request.compared.map((field) => layWanted({ ...request, stockM: null }, field, lying));
  const weigh = (candidate: Candidate): WeighedField => {
    const field = withRoutes(lying, candidate.routes, setting.wireRadiusM);
    const leaning = patternsOf(setting, field, elevationsDeg.slice(0, 1)).map(leaningOf);
    return { ...candidate, bands: rangedEfficiencies(setting, field), leaning };
  };
  const then = withRoutes(lying, chosen.routes, setting.wireRadiusM);
  const lesson = lessonOf(ranked);
  // What the lesson weighs the plan against stands in the table too.
  const told = new Set([...thinned(rest), ...(lesson?.rival ? [lesson.rival] : [])]);
  return {
    chosen: weigh(chosen),
    others: [...told, ...compared].sort((a, b) => a.meanLossDb - b.meanLossDb).map(weigh),
    pattern: patternsOf(setting, then, elevationsDeg),
    overLaid: laid.length === 0 ? null : gainRange(setting, lying, then),
    worth: worthOfMore(area, then, chosen.nominalLengthM, setting, EXTRAS_M[request.units]),
    lesson,
  };
}

/** A few of many, evenly picked, the first among them. */
function thinned<T>(all: readonly T[]): T[] {
  const every = Math.ceil(all.length / MOST_TOLD);
  return all.filter((_, i) => i % every === 0);
}

/** A field of a stated count and length, as far as the lot has room for it; cut from the stock where that gives it. */
function layWanted(request: PlanRequest, { count, lengthM }: WantedField, lying: LyingField): Candidate {
  const { area, setting, stockM, allowanceM, units } = request;
  if (count > MOST_RADIALS) {
    throw new UserError('plan-too-many', `plans at most ${MOST_RADIALS} radials, got ${count}`, {
      place: { field: 'count' },
    });
  }
  const routes = layEvenly(area, count, lengthM, lying);
  if (routes.length === 0) throw noRoom({ area, units, lying });
  const cuts = stockM === null ? null : cutRadials(stockM, routes, allowanceM);
  return candidateOf(routes, cuts ?? [], lengthM, { setting, lying });
}
