/**
 * One-port error correction with three standards.
 *
 * Source: D. Rytting, "Network Analyzer Error Models and Calibration Methods": the closed form for an ideal open, short
 * and load. Status: memory (the form stands in most texts on network analysis).
 * Source: L. Ahlfors, Complex Analysis, ch. 3.3: the error box is a Möbius map, and such a map keeps the cross ratio of
 * four points. The figures are worked out outside this project in exact rational arithmetic from the cross ratio,
 * without solving for error terms. Status: computed.
 * Source: lumped terminations: an open with C has the angle −2·atan(ωCR0), a short with L π − 2·atan(ωL/R0), an offset
 * delay adds −2ωτ. Status: computed, an identity.
 *
 * Tolerance: 1e-12, double precision with a well-conditioned system.
 */
import { describe, expect, it } from 'vitest';
import { angleRad, type Complex, complex, magnitude, polar } from '../../src/core/complex.ts';
import { correctReflection, errorTerms } from '../../src/core/sweep/calibration.ts';
import { idealStandard, standardReflection } from '../../src/core/sweep/calibration-standards.ts';
import { expectClose } from '../support/expect-close.ts';

const NEAR = { absolute: 1e-12 };

function expectComplex(actual: Complex, expected: Complex): void {
  expectClose(actual.re, expected.re, NEAR);
  expectClose(actual.im, expected.im, NEAR);
}

const OPEN_SHORT_LOAD = [complex(1), complex(-1), complex(0)] as const;
const MEASURED = [complex(0.913, -0.207), complex(-0.894, 0.168), complex(0.031, -0.022)] as const;

describe('with ideal standards the closed form holds', () => {
  const terms = errorTerms(OPEN_SHORT_LOAD, MEASURED);

  it('directivity is what the load shows', () => expectComplex(terms.directivity, complex(0.031, -0.022)));

  // (m_o + m_s − 2 m_l)/(m_o − m_s), worked out by hand: (−0.043 + 0.005i)/(1.807 − 0.375i)
  it('source match is the unbalance of open and short about the load', () => {
    const size = 1.807 ** 2 + 0.375 ** 2;
    expectComplex(terms.sourceMatch, {
      re: (-0.043 * 1.807 - 0.005 * 0.375) / size,
      im: (0.005 * 1.807 - 0.043 * 0.375) / size,
    });
  });
});

describe('with real standards the cross ratio is kept', () => {
  const actual = [complex(0.9968, -0.0799), complex(-0.9984, 0.0566), complex(0.0099, 0.0151)] as const;
  const terms = errorTerms(actual, MEASURED);

  it('the error terms', () => {
    expectComplex(terms.directivity, complex(0.02006776073184788, -0.0345593755583486));
    expectComplex(terms.sourceMatch, complex(-0.01622071712580378, 0.024278499543336905));
    expectComplex(terms.tracking, complex(0.9141554608231421, -0.12502027220789366));
  });

  it('a corrected reflection', () => {
    const corrected = correctReflection(complex(-0.182, 0.347), terms);
    expectComplex(corrected, complex(-0.2791984953477613, 0.37829523446637536));
  });
});

describe('standards that are not ideal', () => {
  const omega = 2 * Math.PI * 28e6;

  it('a shunt capacitance turns the open', () => {
    const open = standardReflection({ ...idealStandard('open'), shuntCapacitanceF: 50e-15 }, 28e6, 50);
    expectClose(magnitude(open), 1, NEAR);
    expectClose(angleRad(open), -2 * Math.atan(omega * 50e-15 * 50), NEAR);
  });

  it('a series inductance turns the short', () => {
    const short = standardReflection({ ...idealStandard('short'), seriesInductanceH: 2e-9 }, 28e6, 50);
    expectClose(magnitude(short), 1, NEAR);
    expectClose(angleRad(short), Math.PI - 2 * Math.atan((omega * 2e-9) / 50), NEAR);
  });

  it('an offset delay turns every standard by −2ωτ', () => {
    const short = standardReflection({ ...idealStandard('short'), offsetDelayS: 30e-12 }, 28e6, 50);
    expectComplex(short, polar(1, Math.PI - 2 * omega * 30e-12));
  });

  it('a load of 49.2 ohm reflects −0.8/99.2', () => {
    expectComplex(
      standardReflection({ ...idealStandard('load'), loadOhm: 49.2 }, 28e6, 50),
      complex(-0.8 / 99.2),
    );
  });

  it('a perfect short is −1, a perfect open 1', () => {
    expect(standardReflection(idealStandard('short'), 28e6, 50)).toEqual({ re: -1, im: 0 });
    expectComplex(standardReflection(idealStandard('open'), 28e6, 50), complex(1));
  });
});
