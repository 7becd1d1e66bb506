import { createSweep, type Sweep } from '../sweep/sweep.ts';

/** Half-widths tried for the local fit, as fractions of the frequency, widest first. */
const HALF_WIDTHS: readonly number[] = [0.04, 0.02, 0.01, 0.005];

/** How far around the band the windows are judged: more points judge better. */
const AROUND = 0.03;

/** A local quadratic needs this many points to leave some over for averaging. */
const LEAST_POINTS = 5;

/** Misfit below this fraction of |Z| does not matter: it is a tenth of what good instruments promise. */
const NEGLIGIBLE_MISFIT = 1e-3;

/**
 * A misfit beyond the points' own noise variance by this over the root of their count means that the curve bends
 * inside the window: about three standard deviations of the ratio of two variances.
 */
const BENDING = 4;

/** One smoothed point: coefficients on neighbouring points, the first of which is `start`. */
interface Row {
  readonly start: number;
  readonly coefficients: Float64Array;
}

/** Local fits prepared for one grid, ready to be applied to any sweep on that grid. */
export interface Smoother {
  /** The part of the grid that is smoothed, rising. */
  readonly frequencyHz: Float64Array;
  /** Index of the first smoothed point in the grid. */
  readonly from: number;
  readonly rows: readonly Row[];
}

/** The local fit around one point of a grid, in a window of this half-width as a fraction of the frequency. */
export type LocalFits = (centre: number, halfWidth: number) => Row;

/** The local fits of one grid, each prepared when it is first asked for. */
export function localFitsOf(gridHz: Float64Array): LocalFits {
  const known = new Map<number, Row[]>();
  return (centre, halfWidth) => {
    const rows = known.get(halfWidth) ?? [];
    known.set(halfWidth, rows);
    rows[centre] ??= localFit(gridHz, centre, halfWidth * (gridHz[centre] as number));
    return rows[centre];
  };
}

/** The same for sweeps of any grid: those on one grid, as the visits of a logbook mostly are, share their fits. */
export function sharedLocalFits(): (gridHz: Float64Array) => LocalFits {
  const known: { readonly gridHz: Float64Array; readonly fits: LocalFits }[] = [];
  return (gridHz) => {
    const same = known.find((one) => isSameGrid(one.gridHz, gridHz));
    if (same !== undefined) return same.fits;
    const fits = localFitsOf(gridHz);
    known.push({ gridHz, fits });
    return fits;
  };
}

/**
 * Prepares local quadratic fits with tricube weights around each point of a range.
 * Around a resonance R and X bend so little over a few per cent that a quadratic follows them, and a dozen
 * points share the noise that a single pair would bear alone.
 *
 * Source: W. S. Cleveland, Robust Locally Weighted Regression and Smoothing Scatterplots, JASA 74 (1979).
 *
 * @param gridHz - rising
 * @param halfWidth - of the window as a fraction of the frequency; grown where it would hold too few points
 */
export function createSmoother(
  gridHz: Float64Array,
  fromHz: number,
  toHz: number,
  halfWidth: number,
  fits: LocalFits = localFitsOf(gridHz),
): Smoother {
  let from = 0;
  while (from < gridHz.length - 2 && (gridHz[from] as number) < fromHz) from++;
  let to = gridHz.length;
  while (to > from + 2 && (gridHz[to - 1] as number) > toHz) to--;
  const rows: Row[] = [];
  for (let i = from; i < to; i++) rows.push(fits(i, halfWidth));
  return { frequencyHz: gridHz.slice(from, to), from, rows };
}

/** A sweep with every point of the smoother's range replaced by its local fit; the rest is left out. */
export function smooth(sweep: Sweep, smoother: Smoother): Sweep {
  return createSweep({
    frequencyHz: smoother.frequencyHz,
    resistanceOhm: smoothColumn(sweep.resistanceOhm, smoother),
    reactanceOhm: smoothColumn(sweep.reactanceOhm, smoother),
    referenceOhm: sweep.referenceOhm,
    plane: sweep.plane,
  });
}

/**
 * The widest window in which the local fit leaves no more than the points' own noise.
 * The noise is judged from each point against the straight line between its neighbours.
 */
export function chooseHalfWidth(
  sweep: Sweep,
  fromHz: number,
  toHz: number,
  fits: LocalFits = localFitsOf(sweep.frequencyHz),
): number {
  for (const halfWidth of HALF_WIDTHS) {
    const around = [fromHz * (1 - AROUND), toHz * (1 + AROUND)] as const;
    const smoother = createSmoother(sweep.frequencyHz, ...around, halfWidth, fits);
    if (!bends(sweep.resistanceOhm, sweep, smoother) && !bends(sweep.reactanceOhm, sweep, smoother)) {
      return halfWidth;
    }
  }
  return HALF_WIDTHS[HALF_WIDTHS.length - 1] as number;
}

function bends(column: Float64Array, sweep: Sweep, smoother: Smoother): boolean {
  const fitted = smoothColumn(column, smoother);
  let misfit = 0;
  let freedom = 0;
  let size = 0;
  let noise = 0;
  let noiseCount = 0;
  for (let i = 0; i < fitted.length; i++) {
    const k = smoother.from + i;
    const row = smoother.rows[i] as Row;
    const own = row.coefficients[k - row.start] as number;
    let squares = 0;
    for (let j = 0; j < row.coefficients.length; j++) squares += (row.coefficients[j] as number) ** 2;
    misfit += ((column[k] as number) - (fitted[i] as number)) ** 2;
    freedom += 1 - 2 * own + squares;
    size += Math.hypot(sweep.resistanceOhm[k] as number, sweep.reactanceOhm[k] as number);
    if (k === 0 || k === column.length - 1) continue;
    const [before, here, after] = [
      sweep.frequencyHz[k - 1] as number,
      sweep.frequencyHz[k] as number,
      sweep.frequencyHz[k + 1] as number,
    ];
    const t = (here - before) / (after - before);
    const straight = (column[k - 1] as number) * (1 - t) + (column[k + 1] as number) * t;
    noise += ((column[k] as number) - straight) ** 2 / (1 + t * t + (1 - t) ** 2);
    noiseCount++;
  }
  const floor = NEGLIGIBLE_MISFIT * (size / fitted.length);
  const noiseVariance = noiseCount === 0 ? 0 : noise / noiseCount;
  return (
    freedom > 0.5 && misfit / freedom > (1 + BENDING / Math.sqrt(noiseCount)) * noiseVariance + floor * floor
  );
}

function smoothColumn(column: Float64Array, smoother: Smoother): Float64Array {
  const smoothed = new Float64Array(smoother.rows.length);
  for (let i = 0; i < smoothed.length; i++) {
    const { start, coefficients } = smoother.rows[i] as Row;
    let sum = 0;
    for (let j = 0; j < coefficients.length; j++) {
      sum += (coefficients[j] as number) * (column[start + j] as number);
    }
    smoothed[i] = sum;
  }
  return smoothed;
}

function isSameGrid(a: Float64Array, b: Float64Array): boolean {
  return a === b || (a.length === b.length && a.every((frequencyHz, i) => frequencyHz === b[i]));
}

/** Coefficients of the weighted quadratic through the window, evaluated at its middle point. */
function localFit(gridHz: Float64Array, centre: number, wantedHalfWidthHz: number): Row {
  const f = gridHz[centre] as number;
  if (gridHz.length < LEAST_POINTS) return { start: centre, coefficients: Float64Array.of(1) };
  let start = centre;
  let end = centre;
  const distance = (index: number): number => Math.abs((gridHz[index] ?? Number.POSITIVE_INFINITY) - f);
  while (
    end - start + 1 < LEAST_POINTS ||
    Math.min(distance(start - 1), distance(end + 1)) < wantedHalfWidthHz
  ) {
    if (distance(start - 1) < distance(end + 1)) start--;
    else end++;
  }
  // A little wider than the farthest point, so that this one keeps some weight.
  const halfWidthHz = Math.max(wantedHalfWidthHz, 1.1 * Math.max(distance(start), distance(end)));
  const n = end - start + 1;
  const u = new Float64Array(n);
  const weight = new Float64Array(n);
  const moments = [0, 0, 0, 0, 0] as [number, number, number, number, number];
  for (let j = 0; j < n; j++) {
    const x = ((gridHz[start + j] as number) - f) / halfWidthHz;
    const w = (1 - Math.abs(x) ** 3) ** 3;
    u[j] = x;
    weight[j] = w;
    for (let power = 0; power < 5; power++) moments[power as 0] += w * x ** power;
  }
  const [s0, s1, s2, s3, s4] = moments;
  const a = s2 * s4 - s3 * s3;
  const b = s2 * s3 - s1 * s4;
  const c = s1 * s3 - s2 * s2;
  const determinant = s0 * a + s1 * b + s2 * c;
  const coefficients = weight.map((w, j) => {
    const x = u[j] as number;
    return (w * (a + b * x + c * x * x)) / determinant;
  });
  return { start, coefficients };
}
