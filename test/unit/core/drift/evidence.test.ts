import { describe, expect, it } from 'vitest';
import type { CauseModel } from '../../../../src/core/drift/cause.ts';
import { choleskyInPlace, dot, whiten } from '../../../../src/core/drift/cholesky.ts';
import { evidenceOf, prepareCause } from '../../../../src/core/drift/evidence.ts';
import type { ModelError } from '../../../../src/core/drift/shape-covariance.ts';
import { logNormalDensity, logSignedDensity } from '../../../../src/core/drift/size-prior.ts';
import { expectClose } from '../../../support/expect-close.ts';

const NO_ERROR: readonly ModelError[] = [{ relative: 0, weight: 1 }];

/** A covariance s² on the diagonal of 2n rows, and its factor. */
function diagonal(rows: number, variance: number) {
  const matrix = new Float64Array(rows * rows);
  for (let i = 0; i < rows; i++) matrix[i * (rows + 1)] = variance;
  return choleskyInPlace(matrix, rows);
}

/** A shift of Γ in proportion to the amplitude, with a normal prior of mean 0 and standard deviation `prior`. */
function linearModel(prior: number, discrete = false): CauseModel {
  return {
    cause: 'series-joint',
    estimate: null,
    amplitudes: Float64Array.from({ length: 25 }, (_, i) => (i - 12) * 1.7),
    discrete,
    logPrior: (a) => -0.5 * (a / prior) ** 2 - Math.log(prior * Math.sqrt(2 * Math.PI)),
    effect: (a) => ({ shift: { re: Float64Array.of(a, 0), im: Float64Array.of(0, 0) }, free: [] }),
  };
}

describe('the evidence of a cause', () => {
  it('of a linear model with a normal prior is the normal density with both variances', () => {
    const change = { re: Float64Array.of(3.1, 0), im: Float64Array.of(0, 0) };
    const factor = diagonal(4, 0.25);
    const position = Float64Array.of(-1, 1);
    const prepared = prepareCause(linearModel(2), change, position, factor, NO_ERROR);
    const { logEvidence, nodes } = evidenceOf(prepared, factor, NO_ERROR);
    // ∫ N(3.1 | a, 0.25) N(a | 0, 4) da = N(3.1 | 0, 4.25), less the constants that all causes share
    const exact = -0.5 * (3.1 ** 2 / 4.25 + Math.log(4.25) + 3 * Math.log(0.25));
    expectClose(logEvidence, exact, { absolute: 0.01 });
    const total = nodes.reduce((sum, { logMass }) => sum + Math.exp(logMass - logEvidence), 0);
    expectClose(total, 1, { absolute: 1e-9 });
    const mean = nodes.reduce(
      (sum, { amplitude, logMass }) => sum + amplitude * Math.exp(logMass - logEvidence),
      0,
    );
    expectClose(mean, (3.1 * 4) / 4.25, { absolute: 0.01 });
  });

  it('finds a narrow peak that lies midway between two nodes of like height', () => {
    const change = { re: Float64Array.of(0.85, 0), im: Float64Array.of(0, 0) };
    const factor = diagonal(4, 1e-4);
    const prepared = prepareCause(linearModel(2), change, Float64Array.of(-1, 1), factor, NO_ERROR);
    const exact = -0.5 * (0.85 ** 2 / 4.0001 + Math.log(4.0001) + 3 * Math.log(1e-4));
    expectClose(evidenceOf(prepared, factor, NO_ERROR).logEvidence, exact, { absolute: 0.05 });
  });

  it('counts free shapes as further variance', () => {
    const model: CauseModel = {
      ...linearModel(1, true),
      amplitudes: Float64Array.of(0),
      logPrior: () => 0,
      effect: () => ({
        shift: { re: Float64Array.of(0, 0), im: Float64Array.of(0, 0) },
        free: [{ re: Float64Array.of(2, 0), im: Float64Array.of(0, 0) }],
      }),
    };
    const change = { re: Float64Array.of(1.5, 0), im: Float64Array.of(0, 0) };
    const factor = diagonal(4, 1);
    const prepared = prepareCause(model, change, Float64Array.of(-1, 1), factor, NO_ERROR);
    const exact = -0.5 * (1.5 ** 2 / 5 + Math.log(5));
    expectClose(evidenceOf(prepared, factor, NO_ERROR).logEvidence, exact, { absolute: 1e-9 });
  });
});

describe('whitening', () => {
  it('gives the quadratic form and the determinant of the covariance', () => {
    // [[4, 2], [2, 3]]: determinant 8, inverse [[3, −2], [−2, 4]]/8; for (1, 2) the form is (3 − 8 + 16)/8.
    const factor = choleskyInPlace(Float64Array.of(4, 2, 2, 3), 2);
    const white = whiten(factor, Float64Array.of(1, 2));
    expectClose(dot(white, white), 11 / 8, { relative: 1e-12 });
    expectClose(factor.logDeterminant, Math.log(8), { relative: 1e-12 });
  });

  it('refuses what is no covariance', () => {
    expect(() => choleskyInPlace(Float64Array.of(1, 2, 2, 1), 2)).toThrow('not positive definite');
  });
});

describe('priors of size', () => {
  it('integrate to one, and half of it on each side where the sign is free', () => {
    let [one, half] = [0, 0];
    for (let x = 0.0005; x < 60; x += 0.001) {
      one += 0.001 * Math.exp(logNormalDensity(x, 1, 1));
      half += 0.001 * Math.exp(logSignedDensity(-x, 1, 1));
    }
    expectClose(one, 1, { absolute: 1e-3 });
    expectClose(half, 0.5, { absolute: 1e-3 });
  });
});
