import libraryChiSquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import libraryTCdf from '@stdlib/stats-base-dists-t-cdf';
import libraryTQuantile from '@stdlib/stats-base-dists-t-quantile';
import { describe, it } from 'vitest';
import { chiSquareCdf } from '../../../../web/distributions/chi-square-cdf.ts';
import { tCdf } from '../../../../web/distributions/t-cdf.ts';
import { tQuantile } from '../../../../web/distributions/t-quantile.ts';
import { expectClose } from '../../../support/expect-close.ts';

// At a million degrees of freedom the logarithms of gamma are 6e6, of which a double keeps nine decimals.
const PROBABILITY = { absolute: 1e-8 };
const QUANTILE = { relative: 1e-9 };
const FREEDOM = [0.7, 1, 2, 2.5, 4, 9.3, 30, 120, 4000, 1e6];

describe('the small distributions of the page', () => {
  it.each(FREEDOM)('say what the library of the commands says, at %d degrees of freedom', (freedom) => {
    for (const t of [-40, -6, -2.3, -1, -0.01, 0, 0.4, 1.96, 12]) {
      expectClose(tCdf(t, freedom), libraryTCdf(t, freedom), PROBABILITY);
    }
    for (const probability of [0.001, 0.01, 0.025, 0.4, 0.5, 0.9, 0.95, 0.975, 0.985]) {
      expectClose(tQuantile(probability, freedom), libraryTQuantile(probability, freedom), QUANTILE);
    }
  });

  // From 4,000 degrees of freedom on the library is off by up to 0.009 about the mean; the next test tells which is right.
  it.each(FREEDOM.filter((freedom) => freedom < 1000))('chi-square too, at %d degrees', (freedom) => {
    for (const part of [0.01, 0.3, 0.9, 1, 1.1, 2, 5]) {
      const x = part * freedom;
      expectClose(chiSquareCdf(x, freedom), libraryChiSquareCdf(x, freedom), PROBABILITY);
    }
  });

  // NIST Digital Library of Mathematical Functions, eq. 8.11.12: P(a, a) tends to 1/2 + 1/(3 sqrt(2 pi a)); from memory.
  it.each([4000, 1e6])('chi-square keeps to its asymptote at %d degrees', (freedom) => {
    const limit = 0.5 + 1 / (3 * Math.sqrt(Math.PI * freedom));
    expectClose(chiSquareCdf(freedom, freedom), limit, { absolute: 0.02 / freedom });
  });

  // NIST/SEMATECH e-Handbook of Statistical Methods, tables 1.3.6.7.2 and 1.3.6.7.4; values to three decimals, from
  // memory.
  it('meet the tables of the handbook', () => {
    expectClose(tQuantile(0.975, 10), 2.228, { absolute: 0.0005 });
    expectClose(tQuantile(0.95, 5), 2.015, { absolute: 0.0005 });
    expectClose(1 - chiSquareCdf(18.307, 10), 0.05, { absolute: 2e-5 });
    expectClose(1 - chiSquareCdf(3.841, 1), 0.05, { absolute: 2e-5 });
  });
});
