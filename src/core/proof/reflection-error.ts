import { reflectionColumns, reflectionOfSwr, swrOfReflection } from '../sweep/reflection.ts';
import {
  type AnySweep,
  createScalarSweep,
  createSweep,
  type ScalarSweep,
  type Sweep,
} from '../sweep/sweep.ts';

/**
 * An error of a whole sweep in the reflection plane, where an instrument's errors live and are bounded:
 * Γ reads as shift + (1 + tracking)·Γ. The shift is what directivity and the mating of the connector leave
 * over, the tracking what the calibration leaves over; its imaginary part turns the phase.
 */
export interface ReflectionError {
  readonly shiftRe: number;
  readonly shiftIm: number;
  readonly trackingRe: number;
  readonly trackingIm: number;
}

/** Γ as it is. */
export const NO_ERROR: ReflectionError = { shiftRe: 0, shiftIm: 0, trackingRe: 0, trackingIm: 0 };

/** Stands in for an open circuit, which no sweep can hold. */
const NEARLY_OPEN = 1e-9;

/**
 * A sweep as it would read with an error added. Of a scalar sweep only the size of the reflection exists,
 * so that the real parts lengthen it and the imaginary ones do nothing.
 */
export function withReflectionError<S extends AnySweep>(sweep: S, error: ReflectionError): S;
export function withReflectionError(sweep: AnySweep, error: ReflectionError): AnySweep {
  return sweep.kind === 'swr' ? scalarWithError(sweep, error) : impedanceWithError(sweep, error);
}

function impedanceWithError(sweep: Sweep, error: ReflectionError): Sweep {
  const { referenceOhm } = sweep;
  const { re, im } = reflectionColumns(sweep);
  const [gain, turn] = [1 + error.trackingRe, error.trackingIm];
  const resistanceOhm = new Float64Array(re.length);
  const reactanceOhm = new Float64Array(re.length);
  for (let i = 0; i < re.length; i++) {
    const a = (re[i] as number) * gain - (im[i] as number) * turn + error.shiftRe;
    const b = (re[i] as number) * turn + (im[i] as number) * gain + error.shiftIm;
    const open = Math.max((1 - a) ** 2 + b * b, NEARLY_OPEN);
    resistanceOhm[i] = (referenceOhm * (1 - a * a - b * b)) / open;
    reactanceOhm[i] = (2 * referenceOhm * b) / open;
  }
  return createSweep({
    frequencyHz: sweep.frequencyHz,
    resistanceOhm,
    reactanceOhm,
    referenceOhm,
    plane: sweep.plane,
  });
}

function scalarWithError(sweep: ScalarSweep, { shiftRe, trackingRe }: ReflectionError): ScalarSweep {
  const swr = sweep.swr.map((value) => {
    const size = Math.abs(reflectionOfSwr(value) * (1 + trackingRe) + shiftRe);
    return swrOfReflection(size) ?? Number.NaN;
  });
  const { frequencyHz, referenceOhm, plane } = sweep;
  return createScalarSweep({ frequencyHz, swr, referenceOhm, plane });
}
