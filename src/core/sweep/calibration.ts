import { add, type Complex, divide, magnitude, multiply, subtract } from '../complex.ts';
import { UserError } from '../user-error.ts';
import {
  STANDARD_NAMES,
  type StandardDefinition,
  type StandardName,
  standardReflection,
} from './calibration-standards.ts';
import { onGrid } from './on-grid.ts';
import type { ReflectionSweep } from './reflection-sweep.ts';

/** One standard as the raw instrument saw it, and what it is known to be. */
export interface MeasuredStandard {
  readonly definition: StandardDefinition;
  readonly sweep: ReflectionSweep;
}

/** The three errors of a one-port reflectometer at one frequency. */
export interface ErrorTerms {
  /** e00: what is seen with a perfect match. */
  readonly directivity: Complex;
  /** e11: what the port itself reflects. */
  readonly sourceMatch: Complex;
  /** e10·e01: what comes back of a full reflection. */
  readonly tracking: Complex;
}

/**
 * How far apart, in |ΔΓ|, every two standards must be, as defined and as measured. The error of the result is about
 * that of one sweep divided by this distance: at 0.2, a fifth, calibrating costs more than it gives.
 */
export const LEAST_SEPARATION = 0.2;

/**
 * The error terms that turn three known reflections a into the measured ones m. The one-port model
 * m = e00 + e10e01·a/(1 − e11·a) is linear in e00, e11 and Δ = e00·e11 − e10e01:
 * m = e00 + a·m·e11 − a·Δ, one equation for each standard, solved exactly.
 *
 * Source: D. Rytting, "Network Analyzer Error Models and Calibration Methods", one-port 3-term model (memory);
 * the `OnePort` calibration of scikit-rf solves the same equations by least squares.
 *
 * @throws UserError `calibration-degenerate` when two standards cannot be told apart
 */
export function errorTerms(
  actual: readonly [Complex, Complex, Complex],
  measured: readonly [Complex, Complex, Complex],
): ErrorTerms {
  const least = Math.min(leastDistance(actual), leastDistance(measured));
  if (!(least >= LEAST_SEPARATION)) {
    throw new UserError(
      'calibration-degenerate',
      `two of the standards differ by only ${least.toFixed(3)} in reflection, at least ${LEAST_SEPARATION} is needed: was one of them swept twice, or not fitted?`,
    );
  }
  // Subtracting the first equation from the others leaves two unknowns.
  const [a1, a2, a3] = actual;
  const [m1, m2, m3] = measured;
  const p1 = multiply(a1, m1);
  const [u, v] = [subtract(multiply(a2, m2), p1), subtract(multiply(a3, m3), p1)];
  const [s, t] = [subtract(a1, a2), subtract(a1, a3)];
  const [y, z] = [subtract(m2, m1), subtract(m3, m1)];
  const determinant = subtract(multiply(u, t), multiply(v, s));
  const sourceMatch = divide(subtract(multiply(y, t), multiply(z, s)), determinant);
  const delta = divide(subtract(multiply(u, z), multiply(v, y)), determinant);
  const directivity = add(subtract(m1, multiply(p1, sourceMatch)), multiply(a1, delta));
  return { directivity, sourceMatch, tracking: subtract(multiply(directivity, sourceMatch), delta) };
}

/** The reflection behind a measured one: a = (m − e00)/(e10e01 + e11·(m − e00)). */
export function correctReflection(measured: Complex, terms: ErrorTerms): Complex {
  const above = subtract(measured, terms.directivity);
  return divide(above, add(terms.tracking, multiply(terms.sourceMatch, above)));
}

/** What a raw instrument would see of a reflection; the inverse of {@link correctReflection}. */
export function distortReflection(actual: Complex, terms: ErrorTerms): Complex {
  const below = subtract({ re: 1, im: 0 }, multiply(terms.sourceMatch, actual));
  return add(terms.directivity, divide(multiply(terms.tracking, actual), below));
}

/**
 * Corrects a raw sweep with an open, a short and a load, at its own frequencies. Standards swept on another grid
 * are interpolated linearly in Γ; they must cover the sweep, because beyond their ends nothing is known.
 *
 * @throws UserError `calibration-incomplete`, `calibration-reference`, `calibration-range`, `calibration-degenerate`
 */
export function correctSweep(raw: ReflectionSweep, standards: readonly MeasuredStandard[]): ReflectionSweep {
  const set = STANDARD_NAMES.map((name) => prepare(standards, name, raw)) as [Prepared, Prepared, Prepared];
  const n = raw.frequencyHz.length;
  const reflectionRe = new Float64Array(n);
  const reflectionIm = new Float64Array(n);
  for (let i = 0; i < n; i++) {
    const frequencyHz = raw.frequencyHz[i] as number;
    const actual = set.map(({ definition }) => standardReflection(definition, frequencyHz, raw.referenceOhm));
    const measured = set.map(({ re, im }) => ({ re: re[i] as number, im: im[i] as number }));
    const terms = errorTerms(actual as [Complex, Complex, Complex], measured as [Complex, Complex, Complex]);
    const corrected = correctReflection(
      { re: raw.reflectionRe[i] as number, im: raw.reflectionIm[i] as number },
      terms,
    );
    reflectionRe[i] = corrected.re;
    reflectionIm[i] = corrected.im;
  }
  return { ...raw, reflectionRe, reflectionIm };
}

/** A standard's measured reflection on the grid of the sweep. */
interface Prepared {
  readonly definition: StandardDefinition;
  readonly re: Float64Array;
  readonly im: Float64Array;
}

function prepare(standards: readonly MeasuredStandard[], name: StandardName, raw: ReflectionSweep): Prepared {
  const found = standards.findLast(({ definition }) => definition.standard === name);
  if (found === undefined) {
    throw new UserError(
      'calibration-incomplete',
      `needs a sweep of the ${name}: run measure --standard ${name}`,
    );
  }
  const { definition, sweep } = found;
  if (sweep.referenceOhm !== raw.referenceOhm) {
    throw new UserError(
      'calibration-reference',
      `the ${name} was swept against ${sweep.referenceOhm} ohm, the antenna against ${raw.referenceOhm} ohm: sweep the standards again`,
    );
  }
  const [from, to] = ends(sweep.frequencyHz);
  const [wantedFrom, wantedTo] = ends(raw.frequencyHz);
  if (wantedFrom < from || wantedTo > to) {
    throw new UserError(
      'calibration-range',
      `the ${name} was swept from ${from} to ${to} Hz, which does not cover ${wantedFrom} to ${wantedTo} Hz: sweep the standards over at least that`,
    );
  }
  const column = { frequencyHz: sweep.frequencyHz, re: sweep.reflectionRe, im: sweep.reflectionIm };
  return { definition, ...onGrid(column, raw.frequencyHz) };
}

function ends(frequencyHz: Float64Array): [number, number] {
  return [frequencyHz[0] as number, frequencyHz[frequencyHz.length - 1] as number];
}

function leastDistance([a, b, c]: readonly [Complex, Complex, Complex]): number {
  return Math.min(magnitude(subtract(a, b)), magnitude(subtract(b, c)), magnitude(subtract(c, a)));
}
