import chisquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import type { Quantity } from '../quantity-with-uncertainty.ts';
import type { LeastSquaresFit } from './least-squares.ts';

/** A field of equal radials, as a fitted curve sees it. */
export interface Wires {
  readonly radials: number;
  readonly lengthM: number;
}

/** A gain with its standard uncertainty. */
export interface Gain {
  readonly valueDb: number;
  readonly standardUncertaintyDb: number;
}

/** A curve of resistance against radials, fitted to what was measured. */
export interface FieldFit {
  readonly name: 'soil and ground loss' | 'power law with a floor';
  readonly parameters: Readonly<Record<string, Quantity>>;
  /** How well it explains the points. */
  readonly quality: FitQuality;
  /** What its gains are gains of, in words. */
  readonly gainMeans: string;
  /** Measured steps without which it is no ground to stop on. */
  readonly stepsToStop: number;
  resistanceOhm(wires: Wires): number;
  gain(from: Wires, to: Wires): Gain;
}

/** What a kind of curve says for some parameters. */
export interface Curve {
  readonly name: FieldFit['name'];
  readonly gainMeans: string;
  resistanceOhm(parameters: readonly number[], wires: Wires): number;
  /** Level in the field for a given power, dB against anything fixed. */
  levelDb(parameters: readonly number[], wires: Wires): number;
  /** Uncertainty that the curve's own imperfection adds to a gain, dB. */
  ownUncertaintyDb(from: Wires, to: Wires): number;
  readonly stepsToStop: number;
}

/** How well a curve explains the points. */
export interface FitQuality {
  readonly chiSquare: number;
  readonly degreesOfFreedom: number;
  /** Of a misfit at least as large when the curve is right; null without degrees of freedom. */
  readonly probability: number | null;
}

/** Below this probability the curve does not explain the points. */
export const EXPLAINS = 0.01;

/** Step of the numerical derivatives of a gain by a parameter, in its standard uncertainties. */
const STEP = 0.1;

/**
 * Makes a fitted curve out of a least-squares fit.
 *
 * @param parametersOf - the parameters as quantities, given their standard uncertainties
 */
export function fieldFit(
  curve: Curve,
  fit: LeastSquaresFit,
  parametersOf: (uncertainties: readonly number[]) => Readonly<Record<string, Quantity>>,
): FieldFit | null {
  const { covariance, parameters, sumOfSquares, degreesOfFreedom } = fit;
  if (!fit.converged || covariance === null) return null;
  // Where the points scatter more than they should, so do the parameters (the Birge ratio).
  const inflation = degreesOfFreedom > 0 ? Math.max(1, sumOfSquares / degreesOfFreedom) : 1;
  const uncertainties = covariance.map((row, i) => Math.sqrt((row[i] as number) * inflation));
  const gainWith = (values: readonly number[], from: Wires, to: Wires): number =>
    curve.levelDb(values, to) - curve.levelDb(values, from);
  return {
    name: curve.name,
    gainMeans: curve.gainMeans,
    stepsToStop: curve.stepsToStop,
    parameters: parametersOf(uncertainties),
    quality: {
      chiSquare: sumOfSquares,
      degreesOfFreedom,
      probability: degreesOfFreedom > 0 ? 1 - chisquareCdf(sumOfSquares, degreesOfFreedom) : null,
    },
    resistanceOhm: (wires) => curve.resistanceOhm(parameters, wires),
    gain: (from, to) => {
      const gradient = parameters.map((value, k) => {
        const step = STEP * (uncertainties[k] as number);
        const at = (moved: number): number =>
          gainWith(
            parameters.map((other, j) => (j === k ? moved : other)),
            from,
            to,
          );
        return step === 0 ? 0 : (at(value + step) - at(value - step)) / (2 * step);
      });
      let variance = curve.ownUncertaintyDb(from, to) ** 2;
      covariance.forEach((row, i) => {
        row.forEach((entry, j) => {
          variance += (gradient[i] as number) * entry * inflation * (gradient[j] as number);
        });
      });
      return {
        valueDb: gainWith(parameters, from, to),
        standardUncertaintyDb: Math.sqrt(Math.max(0, variance)),
      };
    },
  };
}

/** A parameter with U at k = 2. */
export function parameterQuantity(value: number, standardUncertainty: number): Quantity {
  return { value, expandedUncertainty: 2 * standardUncertainty, coverageFactor: 2 };
}
