/**
 * The feed line: loss on a mismatched line, impedance through a line, and the loss law.
 *
 * Source: ARRL, General class licence manual, ch. 6, table 6-1 as corrected: matched loss at 30 and 150 MHz.
 * Status: published.
 * Source: the law A = k1·√f + k2·f through those two points: values at the amateur frequencies. Status: computed.
 * Source: handbook form, a = 10^(A/10), total = 10·log10[(a² − ρ²)/(a(1 − ρ²))]: SWR at the near end and additional
 * loss. Status: memory; the values computed from it.
 * Source: loads through a line, by two independent programs that agree. Status: computed.
 *
 * Tolerance: half of the last printed digit, and a little where the source rounded twice.
 */
import { describe, it } from 'vitest';
import { type FeedLine, feedLineOf, matchedLossDb, throughLine } from '../../src/core/sweep/feed-line.ts';
import { reflectionSize, swrOfReflection } from '../../src/core/sweep/reflection.ts';
import { expectClose } from '../support/expect-close.ts';

/** A 50 ohm line of a stated loss and electrical length at 10 MHz. */
function lineOf(lossDb: number, lengthDeg: number): FeedLine {
  const lengthM = (299.792458 / 10) * (lengthDeg / 360);
  return {
    impedanceOhm: 50,
    velocityFactor: 1,
    lengthM,
    conductorLossDb: lossDb / lengthM / Math.sqrt(10e6),
    dielectricLossDb: 0,
  };
}

describe('a load through 1.18 dB and 137° of 50 ohm line', () => {
  it.each([
    // 36.5 + j0, 36.5 + j21.25, 25 and 100 ohm; printed to three decimals.
    [36.5, 0, 47.823, -11.511],
    [36.5, 21.25, 32.586, -3.717],
    [25, 0, 42.523, -23.038],
    [100, 0, 45.451, 24.624],
  ])('%f%+fj ohm is seen as %f%+fj ohm, and back', (re, im, seenRe, seenIm) => {
    const line = lineOf(1.18, 137);
    const seen = throughLine({ re, im }, line, 10e6, 'shack');
    expectClose(seen?.re, seenRe, { absolute: 0.0006 });
    expectClose(seen?.im, seenIm, { absolute: 0.0006 });
    const back = seen && throughLine(seen, line, 10e6, 'feedpoint');
    expectClose(back?.re, re, { relative: 1e-12 });
    expectClose(back?.im, im, { absolute: 1e-10 });
  });
});

describe('SWR at the near end of a lossy line', () => {
  it.each([
    [2.0, 3, 1.401],
    [3.0, 1, 2.318],
    [3.0, 3, 1.669],
    [10, 0.5, 6.386],
    [2.0, 1, 1.72],
    [1e9, 1, 8.72], // an open circuit
  ])('a load of SWR %f through %f dB reads %f', (loadSwr, lossDb, expected) => {
    const seen = throughLine({ re: 50 * loadSwr, im: 0 }, lineOf(lossDb, 90), 10e6, 'shack');
    const swr = swrOfReflection(reflectionSize(seen?.re ?? Number.NaN, seen?.im ?? Number.NaN, 50));
    expectClose(swr, expected, { absolute: expected > 8 ? 0.005 : 0.0006 });
  });
});

describe('matched loss of the cable classes, dB per 100 ft', () => {
  it.each([
    ['RG-213', [0.257, 0.365, 0.515, 0.734, 0.902, 1.052, 1.41]],
    ['RG-8X', [0.47, 0.667, 0.94, 1.337, 1.641, 1.909, 2.55]],
    ['RG-58', [0.598, 0.847, 1.192, 1.691, 2.071, 2.407, 3.203]],
    ['RG-59', [0.431, 0.611, 0.861, 1.223, 1.5, 1.744, 2.325]],
    ['RG-174', [1.11, 1.571, 2.209, 3.129, 3.828, 4.444, 5.901]],
  ])('%s from 1.8 to 50 MHz', (type, expected) => {
    const line = feedLineOf({ type, lengthM: 30.48, velocityFactor: null, impedanceOhm: null, loss: [] });
    [1.8, 3.6, 7.1, 14.2, 21.2, 28.5, 50].forEach((mhz, i) => {
      expectClose(matchedLossDb(line, mhz * 1e6), expected[i] as number, { absolute: 0.0006 });
    });
  });
});
