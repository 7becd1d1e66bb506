import FFT from 'fft.js';
import type { Quantity } from '../quantity-with-uncertainty.ts';
import { reflectionOnGrid } from '../sweep/repeats.ts';
import type { Sweep } from '../sweep/sweep.ts';
import { UserError } from '../user-error.ts';

/** Where along a line the reflection has changed most. */
export interface DistanceToChange {
  /** Of the strongest change, from the plane of the sweeps, m. */
  readonly strongestM: Quantity;
  /** Of the nearest change at least a quarter as strong: a fault weakens all that comes back from behind it. */
  readonly nearestM: Quantity;
  /** Two changes nearer to each other than this look like one, m. */
  readonly resolutionM: number;
  /** Farther changes would show at a wrong, shorter distance, m. */
  readonly rangeM: number;
}

const LIGHT_M_PER_S = 299_792_458;
const TRANSFORM_SIZE = 8192;
/** Width of a Hann window's main lobe at half height, in steps of 1/bandwidth. */
const HANN_WIDTH = 2;
/** Standard uncertainty of a tabled velocity factor, relative; common practice. */
const VELOCITY_UNCERTAINTY = 0.015;
/** A change this much weaker than the strongest still counts; a Hann window's side lobes are a fortieth. */
const NEAREST_SHARE = 0.25;
/** How well the top of a lobe is told, as a part of its width; our own choice, for changes well above the noise. */
const PEAK_SHARE = 0.1;

/**
 * Distance to the strongest change of reflection: the inverse transform of Γ after less Γ before, through a Hann window,
 * its peaks refined by a parabola. The change is what is transformed, so that everything that stayed, the
 * antenna included, drops out. A loss that has grown all along the line has no one place: it shows where most
 * comes back from, which is the antenna.
 *
 * @param before - at the instrument's plane, wide; the wider the finer
 * @param after - covers the same range
 * @param velocityFactor - of the line, 0 to 1
 * @throws UserError `sweep-too-short` for fewer than 16 points, `change-none` when the sweeps are equal
 * Source: R. A. Witte, Spectrum and Network Measurements, for the windowed transform; F. J. Harris, "On the use of
 * windows for harmonic analysis", Proc. IEEE 66, 1978, for the window.
 */
export function distanceToChange(before: Sweep, after: Sweep, velocityFactor: number): DistanceToChange {
  const points = before.frequencyHz.length;
  if (points < 16) {
    throw new UserError('sweep-too-short', `needs 16 points or more to tell a distance, got ${points}`);
  }
  const fromHz = Math.max(before.frequencyHz[0] as number, after.frequencyHz[0] as number);
  const toHz = Math.min(before.frequencyHz.at(-1) as number, after.frequencyHz.at(-1) as number);
  const stepHz = (toHz - fromHz) / (points - 1);
  const gridHz = Float64Array.from({ length: points }, (_, i) => Math.min(toHz, fromHz + i * stepHz));
  const response = magnitudes(changeOn(before, after, gridHz));
  const metresPerBin = (LIGHT_M_PER_S * velocityFactor) / (2 * stepHz * TRANSFORM_SIZE);
  // The second half holds negative times: what came before it was sent.
  const strongest = highest(response, TRANSFORM_SIZE / 2);
  const nearest = firstAtLeast(response, NEAREST_SHARE * (response[strongest] as number), strongest);
  const resolutionM = (HANN_WIDTH * LIGHT_M_PER_S * velocityFactor) / (2 * (toHz - fromHz));
  const placed = (peak: number): Quantity => {
    const value = between(response, peak) * metresPerBin;
    return {
      value,
      expandedUncertainty: 2 * Math.hypot(PEAK_SHARE * resolutionM, VELOCITY_UNCERTAINTY * value),
      coverageFactor: 2,
    };
  };
  return {
    strongestM: placed(strongest),
    nearestM: placed(nearest),
    resolutionM,
    rangeM: (LIGHT_M_PER_S * velocityFactor) / (2 * stepHz) / 2,
  };
}

function changeOn(before: Sweep, after: Sweep, gridHz: Float64Array): { re: Float64Array; im: Float64Array } {
  const reference = before.referenceOhm;
  const a = reflectionOnGrid(before, reference, gridHz);
  const b = reflectionOnGrid(after, reference, gridHz);
  return { re: b.re.map((x, i) => x - (a.re[i] as number)), im: b.im.map((x, i) => x - (a.im[i] as number)) };
}

/** Magnitude of the windowed, zero-padded inverse transform. */
function magnitudes(change: { re: Float64Array; im: Float64Array }): Float64Array {
  const n = change.re.length;
  const fft = new FFT(TRANSFORM_SIZE);
  const input = fft.createComplexArray();
  const output = fft.createComplexArray();
  for (let i = 0; i < 2 * TRANSFORM_SIZE; i++) input[i] = 0;
  for (let i = 0; i < Math.min(n, TRANSFORM_SIZE); i++) {
    const window = 0.5 - 0.5 * Math.cos((2 * Math.PI * (i + 0.5)) / n);
    input[2 * i] = window * (change.re[i] as number);
    input[2 * i + 1] = window * (change.im[i] as number);
  }
  fft.inverseTransform(output, input);
  return Float64Array.from({ length: TRANSFORM_SIZE }, (_, i) =>
    Math.hypot(output[2 * i] as number, output[2 * i + 1] as number),
  );
}

function highest(values: Float64Array, end: number): number {
  let top = 0;
  for (let i = 1; i < end; i++) if ((values[i] as number) > (values[top] as number)) top = i;
  if ((values[top] as number) > 0) return top;
  throw new UserError('change-none', 'the sweeps before and after are equal: there is no change to place');
}

/** The first local peak of at least this height; the highest one at the latest. */
function firstAtLeast(values: Float64Array, least: number, highestAt: number): number {
  for (let i = 1; i < highestAt; i++) {
    const here = values[i] as number;
    if (here >= least && here > (values[i - 1] as number) && here >= (values[i + 1] as number)) return i;
  }
  return highestAt;
}

/** A peak refined by the parabola through its neighbours. */
function between(values: Float64Array, top: number): number {
  if (top === 0) return 0;
  const [left, peak, right] = [values[top - 1] as number, values[top] as number, values[top + 1] as number];
  return top + (left - right) / (2 * (left - 2 * peak + right));
}

/** Whether a sweep is wide enough to part the ends of a line: its resolution is under half of the length. */
export function canPlaceChange(sweep: Sweep, velocityFactor: number, lengthM: number): boolean {
  const widthHz = (sweep.frequencyHz.at(-1) as number) - (sweep.frequencyHz[0] as number);
  return (HANN_WIDTH * LIGHT_M_PER_S * velocityFactor) / (2 * widthHz) <= lengthM / 2;
}
