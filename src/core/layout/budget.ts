import type { RadialWire } from '../ground/radial-field.ts';
import { UserError } from '../user-error.ts';
import { cutStock, type StockCut } from './cutting.ts';
import type { FreeArea } from './free-area.ts';
import {
  type BandEfficiency,
  bandEfficiencies,
  meanLossDb,
  type PlanSetting,
  wiresOf,
} from './planned-field.ts';
import type { Route } from './route.ts';
import { layRoutes, SHORTEST_STRAIGHT_M, spreadBearings } from './spread.ts';

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

/**
 * Chooses count and length together so that the predicted loss is least: for a row of lengths it lays as many
 * wires as the stock gives, computes the loss of each field, and refines around the best.
 *
 * @param stockM - single lengths at hand, m
 * @param existing - wires that lie there already, and their bearings
 * @returns every candidate tried, least loss first; at least one
 * @throws UserError `plan-no-stock`, `plan-no-room`
 */
export function spendWire(
  area: FreeArea,
  stockM: readonly number[],
  setting: PlanSetting,
  existing: { readonly wires: readonly RadialWire[]; readonly bearingsDeg: readonly number[] },
): Candidate[] {
  const longestM = Math.max(0, ...stockM);
  if (!(longestM > 0)) {
    throw new UserError('plan-no-stock', 'needs wire to plan with, got none', { place: { field: 'stock' } });
  }
  const tried = new Map<string, Candidate>();
  const attempt = (lengthM: number): Candidate | null => {
    const key = lengthM.toFixed(2);
    const known = tried.get(key);
    if (known !== undefined) return known;
    const candidate = useLength(area, stockM, lengthM, setting, existing);
    if (candidate !== null) tried.set(key, candidate);
    return candidate;
  };
  const lowestHz = Math.min(...setting.bands.map(({ frequencyHz }) => frequencyHz));
  const halfWaveM = 299_792_458 / lowestHz / 2;
  const topM = Math.min(longestM, halfWaveM);
  const bottomM = Math.min(topM, Math.max(SHORTEST_STRAIGHT_M, topM / 16));
  const ratio = (topM / bottomM) ** (1 / (LENGTHS_TRIED - 1));
  for (let i = 0; i < LENGTHS_TRIED; i++) attempt(topM / ratio ** i);
  if (tried.size === 0) throw noRoom();
  let best = ranked(tried)[0] as Candidate;
  for (let step = Math.sqrt(ratio); step > 1.02; step = Math.sqrt(step)) {
    attempt(Math.min(topM, best.nominalLengthM * step));
    attempt(Math.max(bottomM, best.nominalLengthM / step));
    best = ranked(tried)[0] as Candidate;
  }
  return ranked(tried);
}

function ranked(tried: ReadonlyMap<string, Candidate>): Candidate[] {
  return [...tried.values()].sort((a, b) => a.meanLossDb - b.meanLossDb);
}

/** Says that not one wire can be laid. */
export function noRoom(): UserError {
  return new UserError(
    'plan-no-room',
    `no direction from the base is free for ${SHORTEST_STRAIGHT_M} m: there is no room for one radial`,
    { place: { field: 'lot' } },
  );
}

/** As many wires of one length as the stock gives; its offcuts serve as shorter wires in the widest gaps. */
function useLength(
  area: FreeArea,
  stockM: readonly number[],
  lengthM: number,
  setting: PlanSetting,
  existing: { readonly wires: readonly RadialWire[]; readonly bearingsDeg: readonly number[] },
): Candidate | null {
  const lay = (count: number): { routes: Route[]; cuts: StockCut[] } | null => {
    const bearings = spreadBearings(area, count, existing.bearingsDeg);
    const routes = layRoutes(area, bearings, Array<number>(bearings.length).fill(lengthM));
    const cuts = cutStock(
      stockM,
      routes.map((route) => route.lengthM),
    );
    return cuts === null || routes.length < count ? null : { routes, cuts };
  };
  const wireAtHandM = stockM.reduce((sum, piece) => sum + piece, 0);
  // A wire that meets a border is shorter than asked, so more of them may come out than wire/length says.
  let high = Math.min(MOST_RADIALS, Math.ceil((3 * wireAtHandM) / lengthM));
  let low = 0;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if (lay(middle) === null) high = middle - 1;
    else low = middle;
  }
  if (low === 0) return null;
  const full = lay(low) as { routes: Route[]; cuts: StockCut[] };
  const routes = [...full.routes, ...useOffcuts(area, stockM, full, lengthM, existing.bearingsDeg)];
  const cuts =
    cutStock(
      stockM,
      routes.map((route) => route.lengthM),
    ) ?? full.cuts;
  const wires = [...existing.wires, ...wiresOf(routes, setting.wireRadiusM)];
  const bands = bandEfficiencies(setting, { wires });
  return {
    nominalLengthM: lengthM,
    routes: [...routes].sort((a, b) => a.bearingDeg - b.bearingDeg),
    wireM: routes.reduce((sum, route) => sum + route.lengthM, 0),
    cuts,
    bands,
    meanLossDb: meanLossDb(bands),
  };
}

/** Offcuts of at least half the length go into the widest gaps, as long as the whole still can be cut. */
function useOffcuts(
  area: FreeArea,
  stockM: readonly number[],
  laid: { readonly routes: readonly Route[]; readonly cuts: readonly StockCut[] },
  lengthM: number,
  existingDeg: readonly number[],
): Route[] {
  const offcuts = [...laid.cuts.map((cut) => cut.offcutM), ...untouched(stockM, laid.cuts)]
    .filter((offcutM) => offcutM >= Math.max(SHORTEST_STRAIGHT_M, lengthM / 2))
    .slice(0, MOST_RADIALS - laid.routes.length);
  if (offcuts.length === 0) return [];
  const taken = [...existingDeg, ...laid.routes.map((route) => route.bearingDeg)];
  const bearings = spreadBearings(area, offcuts.length, taken);
  const added = layRoutes(
    area,
    bearings,
    offcuts.map((offcutM) => Math.min(offcutM, lengthM)),
  );
  const all = [...laid.routes, ...added].map((route) => route.lengthM);
  return cutStock(stockM, all) === null ? [] : added;
}

/** Stock that no cut used. */
function untouched(stockM: readonly number[], cuts: readonly StockCut[]): number[] {
  const rest = [...stockM];
  for (const cut of cuts) rest.splice(rest.indexOf(cut.stockM), 1);
  return rest;
}
