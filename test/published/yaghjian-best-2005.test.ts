/**
 * Source: A. D. Yaghjian and S. R. Best, "Impedance, Bandwidth, and Q of Antennas", IEEE Trans. AP 53(4), 1298–1324,
 * 2005: Q ≈ (ω/2R)·√(R′² + (X′ + |X|/ω)²), eq. (96), and FBW(s) = 2√β/Q with √β = (s − 1)/(2√s). Status: published.
 * Source: the same formulas: values for a 10.285 m wire of 1 mm radius over perfect ground, resonant near 7.1 MHz, by
 * an independent program. Status: computed.
 *
 * Tolerance: half the last printed digit.
 */
import { describe, test } from 'vitest';
import { monopoleImpedanceOhm } from '../../src/core/ground/monopole.ts';
import { monopoleResonance } from '../../src/core/ground/monopole-resonance.ts';
import { expectClose } from '../support/expect-close.ts';

const wire = { heightM: 10.285, radiusM: 1e-3 };
const { frequencyHz, resistanceOhm } = monopoleResonance(wire);

/** Slope of R and X per Hz, by a central difference of 100 Hz. */
function slope(part: 're' | 'im'): number {
  const step = 100;
  const above = monopoleImpedanceOhm(wire, frequencyHz + step)[part];
  return (above - monopoleImpedanceOhm(wire, frequencyHz - step)[part]) / (2 * step);
}

function quality(lossOhm: number): number {
  return (frequencyHz / (2 * (resistanceOhm + lossOhm))) * Math.hypot(slope('re'), slope('im'));
}

test('the wire is resonant near 7.1 MHz', () => {
  expectClose(frequencyHz, 7.1e6, { absolute: 500 });
});

/** Frequency on one side of resonance at which the SWR is 2, the line being matched at resonance. */
function edge(lossOhm: number, side: 1 | -1): number {
  let inside = frequencyHz;
  let outside = frequencyHz + side * 1e6;
  for (let step = 0; step < 50; step += 1) {
    const middle = (inside + outside) / 2;
    const { re, im } = monopoleImpedanceOhm(wire, middle);
    const reflection =
      Math.hypot(re - resistanceOhm, im) / Math.hypot(re + lossOhm + resistanceOhm + lossOhm, im);
    if (reflection < 1 / 3) inside = middle;
    else outside = middle;
  }
  return inside;
}

describe('with a series loss', () => {
  test.each([
    [0, 11.98, 420],
    [5, 10.44, 482],
    [13.5, 8.57, 587],
    [30, 6.35, 791],
  ])('%f Ω: Q %f, 2:1 bandwidth %f kHz', (lossOhm, expected, bandwidthKhz) => {
    const q = quality(lossOhm);
    expectClose(q, expected, { absolute: 0.005 });
    expectClose(q * (resistanceOhm + lossOhm), 406, { absolute: 0.5 });
    const bandwidthHz = edge(lossOhm, 1) - edge(lossOhm, -1);
    expectClose(bandwidthHz, bandwidthKhz * 1e3, { absolute: 500 });
    // The formula is the narrow-band limit of the curve: 0.3 % at a bandwidth of a tenth.
    expectClose((q * bandwidthHz) / frequencyHz, Math.SQRT1_2, { relative: 0.003 });
  });
});
