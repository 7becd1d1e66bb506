import { type Curve, type FieldFit, fieldFit, parameterQuantity, type Wires } from './field-fit.ts';
import { leastSquares } from './least-squares.ts';
import type { FitPoint } from './progress-steps.ts';

/**
 * What is believed of any field before it is measured: the part of R that wires can take away falls about in
 * proportion to their number, and of the least R seen most is the floor. Wide standard uncertainties.
 */
const EXPONENT = 1.2;
const EXPONENT_UNCERTAINTY = 0.5;
const FLOOR_SHARE = 0.85;
const FLOOR_SHARE_UNCERTAINTY = 0.15;

/** Soil from visit to visit: a part of R. */
const SOIL_SCATTER = 0.015;

/**
 * A real field follows no power law over more than an octave or two of wires: its R falls evenly with the logarithm
 * of their number, then bends to the floor. Points count less by this part of R an octave beyond the first.
 */
const STRAY_AN_OCTAVE = 0.15;

/** A field need not follow the law: what that may do to a gain, dB. */
const SHAPE_DB = 0.03;

/**
 * Fits R = floor + amount·N^−exponent to measured resistances, for sites whose antenna is not known or whose points
 * no soil explains. It knows nothing of length: wires count as long as those there are.
 *
 * @returns null for fewer than two different numbers of radials, or when the fit does not converge
 */
export function powerLawFit(points: readonly FitPoint[]): FieldFit | null {
  if (new Set(points.map(({ radials }) => radials)).size < 2) return null;
  const least = Math.min(...points.map(({ resistanceOhm }) => resistanceOhm));
  const [first, last] = [points[0] as FitPoint, points.at(-1) as FitPoint];
  const floor = FLOOR_SHARE * least;
  const fit = leastSquares({
    start: [Math.log(Math.max(first.resistanceOhm - floor, 1) * first.radials ** EXPONENT), EXPONENT, floor],
    observed: [...points.map(({ resistanceOhm }) => resistanceOhm), EXPONENT, floor],
    uncertainty: [
      ...points.map((point) => uncertaintyOf(point, last)),
      EXPONENT_UNCERTAINTY,
      FLOOR_SHARE_UNCERTAINTY * least,
    ],
    predict: (parameters) => [
      ...points.map((point) => resistanceOhm(parameters, point)),
      parameters[1] as number,
      parameters[2] as number,
    ],
  });
  const [logAmount = 0, exponent = 0, floorOhm = 0] = fit.parameters;
  return fieldFit(POWER_LAW, fit, ([u0 = 0, u1 = 0, u2 = 0]) => ({
    amountOhm: parameterQuantity(Math.exp(logAmount), Math.exp(logAmount) * u0),
    exponent: parameterQuantity(exponent, u1),
    floorOhm: parameterQuantity(floorOhm, u2),
  }));
}

function uncertaintyOf(
  { resistanceOhm: r, resistanceUncertaintyOhm, radials }: FitPoint,
  last: FitPoint,
): number {
  const octaves = Math.abs(Math.log2(last.radials / radials));
  return Math.hypot(
    resistanceUncertaintyOhm,
    SOIL_SCATTER * r,
    STRAY_AN_OCTAVE * Math.max(0, octaves - 1) * r,
  );
}

/** The logarithm of the amount keeps it positive: wires take resistance away. */
function resistanceOhm(
  [logAmount = 0, exponent = 0, floor = 0]: readonly number[],
  { radials }: Wires,
): number {
  return floor + Math.exp(logAmount) * radials ** -exponent;
}

const POWER_LAW: Curve = {
  name: 'power law with a floor',
  gainMeans: 'by the ratio of R, a lower estimate of the gain in the field',
  resistanceOhm,
  levelDb: (parameters, wires) => -10 * Math.log10(resistanceOhm(parameters, wires)),
  ownUncertaintyDb: () => SHAPE_DB,
  stepsToStop: 4,
};
