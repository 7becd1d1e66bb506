import type { ReferencePlane } from '../record.ts';
import { UserError } from '../user-error.ts';

declare const checked: unique symbol;

/**
 * One impedance sweep: three columns of equal length n ≥ 2, frequencies finite, ≥ 0 and strictly rising.
 * Made only by {@link createSweep}.
 */
export interface Sweep {
  readonly kind: 'impedance';
  readonly frequencyHz: Float64Array;
  readonly resistanceOhm: Float64Array;
  readonly reactanceOhm: Float64Array;
  /** Real reference for reflection and SWR, ohm. */
  readonly referenceOhm: number;
  readonly plane: ReferencePlane;
  readonly [checked]: true;
}

/** A sweep of which only the size of the reflection is known: it shows the dip, never the resonance. */
export interface ScalarSweep {
  readonly kind: 'swr';
  readonly frequencyHz: Float64Array;
  /** SWR ≥ 1, NaN where the source gave none. */
  readonly swr: Float64Array;
  readonly referenceOhm: number;
  readonly plane: ReferencePlane;
  readonly [checked]: true;
}

/** A sweep of impedance, or of SWR alone. */
export type AnySweep = Sweep | ScalarSweep;

/** The reference of SWR where nothing names another. */
export const DEFAULT_REFERENCE_OHM = 50;

/**
 * Checks three columns and makes a sweep of them; the columns are kept, not copied.
 *
 * @param frequencyHz - strictly rising, length n ≥ 2
 * @param resistanceOhm - length n, finite (negative is allowed: instruments err)
 * @param reactanceOhm - length n, finite
 * @throws UserError `sweep-too-short`, `sweep-lengths-differ`, `sweep-not-rising`, `sweep-not-finite`, `reference-not-positive`
 */
export function createSweep(columns: {
  frequencyHz: Float64Array;
  resistanceOhm: Float64Array;
  reactanceOhm: Float64Array;
  referenceOhm?: number | undefined;
  plane?: ReferencePlane | undefined;
}): Sweep {
  const { frequencyHz, resistanceOhm, reactanceOhm } = columns;
  checkFrequencies(frequencyHz);
  checkColumn(resistanceOhm, frequencyHz.length, 'resistance');
  checkColumn(reactanceOhm, frequencyHz.length, 'reactance');
  return {
    kind: 'impedance',
    frequencyHz,
    resistanceOhm,
    reactanceOhm,
    referenceOhm: checkReference(columns.referenceOhm ?? DEFAULT_REFERENCE_OHM),
    plane: columns.plane ?? 'feedpoint',
  } as Sweep;
}

/**
 * Checks a scalar sweep.
 *
 * @param swr - length n, each ≥ 1 or NaN for "not given"
 * @throws UserError as {@link createSweep}, and `swr-below-one`
 */
export function createScalarSweep(columns: {
  frequencyHz: Float64Array;
  swr: Float64Array;
  referenceOhm?: number | undefined;
  plane?: ReferencePlane | undefined;
}): ScalarSweep {
  const { frequencyHz, swr } = columns;
  checkFrequencies(frequencyHz);
  if (swr.length !== frequencyHz.length) {
    throw new UserError(
      'sweep-lengths-differ',
      `${frequencyHz.length} frequencies but ${swr.length} SWR values`,
    );
  }
  for (let i = 0; i < swr.length; i++) {
    if ((swr[i] as number) < 1) {
      throw new UserError('swr-below-one', `point ${i + 1}: an SWR is 1 or more, got ${swr[i]}`);
    }
  }
  return {
    kind: 'swr',
    frequencyHz,
    swr,
    referenceOhm: checkReference(columns.referenceOhm ?? DEFAULT_REFERENCE_OHM),
    plane: columns.plane ?? 'feedpoint',
  } as ScalarSweep;
}

function checkReference(referenceOhm: number): number {
  if (Number.isFinite(referenceOhm) && referenceOhm > 0) return referenceOhm;
  throw new UserError(
    'reference-not-positive',
    `the reference must be a positive number of ohms, got ${referenceOhm}`,
  );
}

/** @throws UserError `sweep-too-short`, `sweep-not-finite`, `sweep-not-rising` */
export function checkFrequencies(frequencyHz: Float64Array): void {
  if (frequencyHz.length < 2) {
    throw new UserError('sweep-too-short', `a sweep needs at least 2 points, got ${frequencyHz.length}`);
  }
  let last = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < frequencyHz.length; i++) {
    const f = frequencyHz[i] as number;
    if (!Number.isFinite(f) || f < 0) {
      throw new UserError('sweep-not-finite', `point ${i + 1}: the frequency must be 0 Hz or more, got ${f}`);
    }
    if (f <= last) {
      throw new UserError(
        'sweep-not-rising',
        `point ${i + 1}: frequencies must rise, got ${f} Hz after ${last} Hz`,
      );
    }
    last = f;
  }
}

/** @throws UserError `sweep-lengths-differ`, `sweep-not-finite` */
export function checkColumn(column: Float64Array, length: number, name: string, unit = ' of ohms'): void {
  if (column.length !== length) {
    throw new UserError('sweep-lengths-differ', `${length} frequencies but ${column.length} ${name} values`);
  }
  for (let i = 0; i < length; i++) {
    if (!Number.isFinite(column[i])) {
      throw new UserError(
        'sweep-not-finite',
        `point ${i + 1}: ${name} must be a number${unit}, got ${column[i]}`,
      );
    }
  }
}
