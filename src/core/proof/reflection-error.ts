import { reflectionColumns, reflectionOfSwr, swrOfReflection } from '../sweep/reflection.ts';
import { type AnySweep, createScalarSweep, createSweep, type Sweep } from '../sweep/sweep.ts';

/**
 * An error of a whole sweep in the reflection plane, where an instrument's errors live and are bounded:
 * a shift (one calibration's residual, one mating of the connector) and a turn of the phase.
 */
export interface ReflectionError {
  readonly re: number;
  readonly im: number;
  readonly turnRad: number;
}

/** Stands in for an open circuit, which no sweep can hold. */
const NEARLY_OPEN = 1e-9;

/**
 * A sweep as it would read with an error added. Of a scalar sweep only the size of the reflection exists,
 * so that `re` lengthens it and the rest does nothing.
 */
export function withReflectionError<S extends AnySweep>(sweep: S, error: ReflectionError): S;
export function withReflectionError(sweep: AnySweep, error: ReflectionError): AnySweep {
  return sweep.kind === 'swr' ? scalarWithError(sweep, error.re) : impedanceWithError(sweep, error);
}

function impedanceWithError(sweep: Sweep, error: ReflectionError): Sweep {
  const { referenceOhm } = sweep;
  const { re, im } = reflectionColumns(sweep);
  const [cos, sin] = [Math.cos(error.turnRad), Math.sin(error.turnRad)];
  const resistanceOhm = new Float64Array(re.length);
  const reactanceOhm = new Float64Array(re.length);
  for (let i = 0; i < re.length; i++) {
    const a = (re[i] as number) * cos - (im[i] as number) * sin + error.re;
    const b = (re[i] as number) * sin + (im[i] as number) * cos + error.im;
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

function scalarWithError(sweep: AnySweep & { kind: 'swr' }, longer: number): AnySweep {
  const swr = sweep.swr.map(
    (value) => swrOfReflection(Math.abs(reflectionOfSwr(value) + longer)) ?? Number.NaN,
  );
  const { frequencyHz, referenceOhm, plane } = sweep;
  return createScalarSweep({ frequencyHz, swr, referenceOhm, plane });
}
