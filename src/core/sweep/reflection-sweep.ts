import type { ReferencePlane } from '../record.ts';
import { UserError } from '../user-error.ts';
import { reflectionColumns, reflectionToImpedance } from './reflection.ts';
import { checkColumn, checkFrequencies, createSweep, type Sweep } from './sweep.ts';

/**
 * A sweep as reflection coefficients, which is what an instrument sees: three columns of length n ≥ 2.
 * Unlike a {@link Sweep} it can hold an open circuit, so calibration standards are kept in this form.
 */
export interface ReflectionSweep {
  readonly kind: 'reflection';
  /** Strictly rising. */
  readonly frequencyHz: Float64Array;
  readonly reflectionRe: Float64Array;
  readonly reflectionIm: Float64Array;
  readonly referenceOhm: number;
}

/**
 * Checks three columns and makes a reflection sweep of them.
 * @throws UserError `sweep-too-short`, `sweep-lengths-differ`, `sweep-not-rising`, `sweep-not-finite`
 */
export function createReflectionSweep(columns: Omit<ReflectionSweep, 'kind'>): ReflectionSweep {
  const { frequencyHz, reflectionRe, reflectionIm } = columns;
  checkFrequencies(frequencyHz);
  checkColumn(reflectionRe, frequencyHz.length, 'real part', '');
  checkColumn(reflectionIm, frequencyHz.length, 'imaginary part', '');
  return { kind: 'reflection', ...columns };
}

/** The reflection coefficients of an impedance sweep in its own reference. */
export function reflectionSweepOf(sweep: Sweep): ReflectionSweep {
  const { re, im } = reflectionColumns(sweep);
  const { frequencyHz, referenceOhm } = sweep;
  return { kind: 'reflection', frequencyHz, reflectionRe: re, reflectionIm: im, referenceOhm };
}

/**
 * The impedances behind a reflection sweep.
 * @throws UserError `sweep-open` where Γ = 1 exactly, and as {@link createSweep}
 */
export function impedanceSweepOf(sweep: ReflectionSweep, plane: ReferencePlane): Sweep {
  const { frequencyHz, reflectionRe, reflectionIm, referenceOhm } = sweep;
  const n = frequencyHz.length;
  const resistanceOhm = new Float64Array(n);
  const reactanceOhm = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const reflection = { re: reflectionRe[i] as number, im: reflectionIm[i] as number };
    const impedance = reflectionToImpedance(reflection, referenceOhm);
    if (impedance === null) {
      throw new UserError(
        'sweep-open',
        `point ${i + 1} (${frequencyHz[i]} Hz) is an open circuit: no impedance can be stored; is the antenna connected?`,
      );
    }
    resistanceOhm[i] = impedance.re;
    reactanceOhm[i] = impedance.im;
  }
  return createSweep({ frequencyHz, resistanceOhm, reactanceOhm, referenceOhm, plane });
}
