import { wavelengthM } from '../ground/free-space.ts';
import { formatLength, type UnitSystem } from '../quantity.ts';
import { UserError } from '../user-error.ts';
import { cutRadials, type StockCut } from './cutting.ts';
import type { FreeArea } from './free-area.ts';
import { APART_M, layRoutes } from './lay-routes.ts';
import {
  type BandEfficiency,
  bandEfficiencies,
  type LyingField,
  meanLossDb,
  type PlanSetting,
  withRoutes,
} from './planned-field.ts';
import { type Route, SHORTEST_STRAIGHT_M } from './route.ts';
import { chainsOf, layEvenly, spreadBearings } from './spread.ts';

/** One way of using the wire at hand. */
export interface Candidate {
  /** The most wire that one radial of it gets, m. */
  readonly nominalLengthM: number;
  readonly routes: readonly Route[];
  readonly wireM: number;
  readonly cuts: readonly StockCut[];
  readonly bands: readonly BandEfficiency[];
  readonly meanLossDb: number;
}

/** Beyond this many wires nobody measures a difference (the handbook's table ends at 120). */
export const MOST_RADIALS = 120;

/** How many lengths are tried between the shortest and the longest that make sense. */
const LENGTHS_TRIED = 10;

/** Wire at hand, and where it may go. */
export interface Budget {
  readonly area: FreeArea;
  /** Single lengths at hand, m. */
  readonly stockM: readonly number[];
  /** Wire that each radial is cut with beyond its route, m. */
  readonly allowanceM: number;
  readonly setting: PlanSetting;
  /** What lies there already. */
  readonly lying: LyingField;
  /** In which messages speak. */
  readonly units: UnitSystem;
}

/**
 * Chooses count and length together so that the predicted loss is least: for a row of lengths it lays as many
 * wires as the stock gives, computes the loss of each field, and refines around the best.
 *
 * @returns every candidate tried, least loss first; at least one
 * @throws UserError `plan-no-stock`, `plan-no-room`
 */
export function spendWire(budget: Budget): Candidate[] {
  const { stockM, allowanceM, setting, units } = budget;
  const longestM = Math.max(0, ...stockM) - allowanceM;
  if (!(longestM >= SHORTEST_STRAIGHT_M)) {
    const least = formatLength(SHORTEST_STRAIGHT_M + allowanceM, units, 2);
    const got = stockM.length === 0 ? 'none' : `none above ${formatLength(Math.max(...stockM), units, 2)}`;
    throw new UserError('plan-no-stock', `needs a piece of wire of at least ${least}, got ${got}`, {
      place: { field: 'stock' },
    });
  }
  const tried = new Map<string, Candidate>();
  const attempt = (lengthM: number): void => {
    const key = lengthM.toFixed(2);
    if (tried.has(key)) return;
    const candidate = useLength(budget, lengthM);
    if (candidate !== null) tried.set(key, candidate);
  };
  const lowestHz = Math.min(...setting.bands.map(({ frequencyHz }) => frequencyHz));
  const topM = Math.min(longestM, wavelengthM(lowestHz) / 2);
  const bottomM = Math.min(topM, Math.max(SHORTEST_STRAIGHT_M, topM / 16));
  const ratio = (topM / bottomM) ** (1 / (LENGTHS_TRIED - 1));
  for (let i = 0; i < LENGTHS_TRIED; i++) attempt(topM / ratio ** i);
  if (tried.size === 0) throw noRoom(budget);
  for (let step = Math.sqrt(ratio); step > 1.02; step = Math.sqrt(step)) {
    const { nominalLengthM } = ranked(tried)[0] as Candidate;
    attempt(Math.min(topM, nominalLengthM * step));
    attempt(Math.max(bottomM, nominalLengthM / step));
  }
  return ranked(tried);
}

function ranked(tried: ReadonlyMap<string, Candidate>): Candidate[] {
  return [...tried.values()].sort((a, b) => a.meanLossDb - b.meanLossDb);
}

/** Says that not one wire can be laid. */
export function noRoom({
  area,
  units,
  lying,
}: Pick<Budget, 'area' | 'units'> & Partial<Pick<Budget, 'lying'>>): UserError {
  const conditions = [
    `has a clear run of ${formatLength(SHORTEST_STRAIGHT_M, units)}`,
    ...((lying?.wires.length ?? 0) === 0
      ? []
      : [`stays ${formatLength(APART_M, units)} from the wires already laid`]),
    ...(area.touchedFrom.length === 0 ? [] : ['ends out of arm’s reach of the places']),
  ];
  const message = `no direction from the base ${conditions.join(' and ')}: there is no room for a single radial`;
  return new UserError('plan-no-room', message, { place: { field: 'lot' } });
}

/** A field as a candidate: its wires and their losses, beside what lies there. */
export function candidateOf(
  routes: readonly Route[],
  cuts: readonly StockCut[],
  nominalLengthM: number,
  { setting, lying }: Pick<Budget, 'setting' | 'lying'>,
): Candidate {
  const bands = bandEfficiencies(setting, withRoutes(lying, routes, setting.wireRadiusM));
  return {
    nominalLengthM,
    routes: [...routes].sort((a, b) => a.bearingDeg - b.bearingDeg),
    wireM: routes.reduce((sum, route) => sum + route.lengthM, 0),
    cuts,
    bands,
    meanLossDb: meanLossDb(bands),
  };
}

/** As many wires of one length as the stock gives; its offcuts serve as shorter wires in the widest gaps. */
function useLength(budget: Budget, lengthM: number): Candidate | null {
  const { area, stockM, allowanceM, lying } = budget;
  const lay = (count: number): CutRoutes | null => {
    const routes = layEvenly(area, count, lengthM, lying);
    const cuts = cutRadials(stockM, routes, allowanceM);
    return cuts === null || routes.length === 0 ? null : { routes, cuts };
  };
  const wireAtHandM = stockM.reduce((sum, piece) => sum + piece, 0);
  // A wire that meets a border is shorter than asked, so more of them may come out than wire/length says.
  let high = Math.min(MOST_RADIALS, Math.ceil((3 * wireAtHandM) / lengthM));
  let low = 0;
  let most: CutRoutes | null = null;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    const laid = lay(middle);
    if (laid === null) high = middle - 1;
    else [low, most] = [middle, laid];
  }
  if (most === null) return null;
  const { routes, cuts } = useOffcuts(budget, most, lengthM);
  return candidateOf(routes, cuts, lengthM, budget);
}

/** Wires, and the stock they are cut from. */
interface CutRoutes {
  readonly routes: readonly Route[];
  readonly cuts: readonly StockCut[];
}

/** Offcuts of at least half the length go into the widest gaps, as long as the whole still can be cut. */
function useOffcuts(
  { area, stockM, allowanceM, setting, lying }: Budget,
  laid: CutRoutes,
  lengthM: number,
): CutRoutes {
  const offcuts = [...laid.cuts.map((cut) => cut.offcutM), ...untouched(stockM, laid.cuts)]
    .map((offcutM) => offcutM - allowanceM)
    .filter((offcutM) => offcutM >= Math.max(SHORTEST_STRAIGHT_M, lengthM / 2))
    .slice(0, MOST_RADIALS - laid.routes.length);
  const lyingThen = withRoutes(lying, laid.routes, setting.wireRadiusM);
  const bearings = spreadBearings(area, offcuts.length, lyingThen.bearingsDeg);
  const lengths = bearings.map((_, i) => Math.min(offcuts[i] as number, lengthM));
  const routes = [...laid.routes, ...layRoutes(area, bearings, lengths, chainsOf(lyingThen))];
  const cuts = cutRadials(stockM, routes, allowanceM);
  return cuts === null ? laid : { routes, cuts };
}

/** Stock that no cut used. */
function untouched(stockM: readonly number[], cuts: readonly StockCut[]): number[] {
  const rest = [...stockM];
  for (const cut of cuts) rest.splice(rest.indexOf(cut.stockM), 1);
  return rest;
}
