import { type ElevatedAdvice, elevatedAdvice } from '../ground/elevated.ts';
import { type ThirdHarmonicUse, thirdHarmonicUse } from '../ground/third-harmonic.ts';
import type { UnitSystem } from '../quantity.ts';
import type { Radial } from '../record.ts';
import type { Band } from '../sweep/bands.ts';
import { bandCentreHz } from '../sweep/bands.ts';
import { noRoom } from './budget.ts';
import { cutRadials, type StockCut } from './cutting.ts';
import type { FreeArea } from './free-area.ts';
import { shareOutHanging } from './hanging-radials.ts';
import { layRoutes } from './lay-routes.ts';
import { endOutOfReach } from './open-end.ts';
import { laidRoutes } from './planned-field.ts';
import { directionOf, firstHit, lengthOf, type Route } from './route.ts';

/** Part of its length under which a wire cannot be trimmed to resonance any more. */
const SHORTEST_PART = 0.98;

/** Tuned radials of one band. */
export interface ElevatedBand {
  readonly band: Band;
  readonly advice: ElevatedAdvice;
  /** The band whose radials may serve this one near their third harmonic, so that it needs none of its own. */
  readonly servedBy: { readonly band: string; readonly use: ThirdHarmonicUse } | null;
  /** Radials that hang already and are tuned to it. */
  readonly hanging: readonly Radial[];
  /** What is to be hung beside them. */
  readonly routes: readonly Route[];
  /** True where a wire had to bend: it then is retuned, and its field no longer cancels its partner's. */
  readonly bent: boolean;
  /** True where a wire comes out shorter than it must be to resonate. */
  readonly tooShort: boolean;
}

/** Tuned radials in the air: what to hang, and which bands need none of their own. */
export interface ElevatedPlan {
  readonly bands: readonly ElevatedBand[];
  /** Radials that hang already and are tuned to none of the bands. */
  readonly otherHanging: readonly Radial[];
  readonly routes: readonly Route[];
  readonly wireM: number;
  /** Null where the stock does not suffice. */
  readonly cuts: readonly StockCut[] | null;
}

/**
 * Lays out elevated radials: a set per band, evenly around in the directions that leave the shortest of them the
 * longest straight way, less those of it that hang already. A band near the third harmonic of a lower one shares its
 * wires.
 * There is no loss here: the surface-impedance method is for wires on the ground (see the advice).
 *
 * @param heightM - of base and wires
 * @param countPerBand - 2 or more, those that hang among them
 * @param hanging - radials that hang already
 * @throws UserError `plan-no-room`, and as the advice
 */
export function planElevated(request: {
  readonly area: FreeArea;
  readonly bands: readonly Band[];
  readonly heightM: number;
  readonly wireDiameterM: number;
  readonly insulated: boolean;
  readonly countPerBand: number;
  readonly hanging: readonly Radial[];
  readonly stockM: readonly number[] | null;
  /** Wire that each radial is cut with beyond its route, m. */
  readonly allowanceM: number;
  readonly units: UnitSystem;
}): ElevatedPlan {
  const { area, countPerBand, stockM } = request;
  const bands = [...request.bands].sort((a, b) => a.fromHz - b.fromHz);
  const advices = bands.map((band) =>
    elevatedAdvice({ frequencyHz: bandCentreHz(band), wire: wireOf(request) }),
  );
  const shared = shareOutHanging(
    request.hanging,
    advices.map(({ cutLengthM }) => cutLengthM),
  );
  // Of one whose way is not known nobody can say what it is near.
  const placed = request.hanging.filter(({ route, bearingDeg }) => route !== null || bearingDeg !== null);
  const there = laidRoutes(placed);
  const taken = bearingsOf(request.hanging);
  const done: ElevatedBand[] = [];
  bands.forEach((band, i) => {
    const advice = advices[i] as ElevatedAdvice;
    const hanging = shared.byBand[i] as readonly Radial[];
    const servedBy = hanging.length > 0 ? null : sharing(band, done);
    const missing = servedBy === null ? Math.max(0, countPerBand - hanging.length) : 0;
    const bearings = missing === 0 ? [] : missingOf(area, countPerBand, advice.cutLengthM, hanging, taken);
    if (bearings === null) throw noRoom(request);
    taken.push(...bearings);
    const others = [...there, ...done.flatMap((lower) => lower.routes.map(({ points }) => points))];
    const routes = layRoutes(area, bearings, Array<number>(missing).fill(advice.cutLengthM), others);
    const bent = routes.some(({ points }) => points.length > 2);
    const tooShort =
      routes.length < missing || routes.some(({ lengthM }) => lengthM < SHORTEST_PART * advice.cutLengthM);
    done.push({ band, advice, servedBy, hanging, routes, bent, tooShort });
  });
  const routes = done.flatMap((band) => band.routes);
  return {
    bands: done,
    otherHanging: shared.others,
    routes,
    wireM: routes.reduce((sum, { lengthM }) => sum + lengthM, 0),
    cuts: stockM === null ? [] : cutRadials(stockM, routes, request.allowanceM),
  };
}

/** Insulation of hook-up wire where the site says insulated: twice the conductor's diameter, K = 3 (common practice). */
function wireOf(request: { heightM: number; wireDiameterM: number; insulated: boolean }) {
  const { heightM, wireDiameterM, insulated } = request;
  return {
    heightM,
    conductorDiameterM: wireDiameterM,
    outerDiameterM: insulated ? 2 * wireDiameterM : wireDiameterM,
    dielectricConstant: insulated ? 3 : 1,
  };
}

function sharing(band: Band, done: readonly ElevatedBand[]): ElevatedBand['servedBy'] {
  for (const lower of done) {
    if (lower.servedBy !== null) continue;
    const use = thirdHarmonicUse(bandCentreHz(lower.band), band);
    if (use.verdict !== 'does not serve') return { band: lower.band.band, use };
  }
  return null;
}

/**
 * Bearings of the wires that an even set still lacks. Where the way of one that hangs is known, the set is turned to it;
 * of one whose way is not known the place with the shortest way is taken to be filled.
 *
 * @returns null where there is no room
 */
function missingOf(
  area: FreeArea,
  count: number,
  lengthM: number,
  hanging: readonly Radial[],
  taken: readonly number[],
): number[] | null {
  const known = bearingsOf(hanging);
  const [first] = known;
  const start = first === undefined ? bestStart(area, count, lengthM, taken) : first % (360 / count);
  if (start === null) return null;
  const open = around(start, count);
  for (const bearing of known) {
    const off = open.map((each) => Math.cos(((each - bearing) * Math.PI) / 180));
    open.splice(off.indexOf(Math.max(...off)), 1);
  }
  return open
    .sort((a, b) => straightM(area, b, lengthM) - straightM(area, a, lengthM))
    .slice(0, count - hanging.length)
    .sort((a, b) => a - b);
}

function bearingsOf(radials: readonly Radial[]): number[] {
  return radials.flatMap(({ bearingDeg }) => (bearingDeg === null ? [] : [bearingDeg]));
}

/** The bearing from which an even set has the longest straight way for its shortest member; away from other wires. */
function bestStart(area: FreeArea, count: number, lengthM: number, taken: readonly number[]): number | null {
  const reachM = Array.from({ length: 360 }, (_, deg) => straightM(area, deg, lengthM));
  let best: number | null = null;
  let bestScore = 0;
  for (let start = 0; start < 360 / count; start++) {
    const set = around(start, count);
    const shortestM = Math.min(...set.map((deg) => reachM[Math.round(deg) % 360] as number));
    const crowded = set.some((deg) =>
      taken.some((other) => Math.cos(((deg - other) * Math.PI) / 180) > 0.966),
    );
    const score = crowded ? shortestM / 2 : shortestM;
    if (score > bestScore) [best, bestScore] = [start, score];
  }
  return best;
}

/** How long a wire can be that runs straight on a bearing and ends out of reach of the places. */
function straightM(area: FreeArea, bearingDeg: number, lengthM: number): number {
  const [east, north] = directionOf(bearingDeg);
  const freeM = Math.min(lengthM, firstHit(area, [0, 0], [east, north])?.distanceM ?? 0);
  const wire = [
    [0, 0],
    [freeM * east, freeM * north],
  ] as const;
  return lengthOf(endOutOfReach(wire, area.touchedFrom));
}

function around(startDeg: number, count: number): number[] {
  return Array.from({ length: count }, (_, i) => (startDeg + (i * 360) / count) % 360);
}
