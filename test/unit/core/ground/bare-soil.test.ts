import { describe, test } from 'vitest';
import { bareRingLossFactor, bareSoilReaction } from '../../../../src/core/ground/bare-soil.ts';
import { SPEED_OF_LIGHT } from '../../../../src/core/ground/free-space.ts';
import { radialCurrent } from '../../../../src/core/ground/magnetic-field.ts';
import { integrate } from '../../../../src/core/ground/quadrature.ts';
import { expectClose } from '../../../support/expect-close.ts';

const frequencyHz = 7e6;
const wavelength = SPEED_OF_LIGHT / frequencyHz;
const HEIGHTS = [0.03, 1 / 16, 1 / 8, 0.2, 1 / 4, 0.375, 1 / 2, 0.625];

describe('closed forms over bare soil against quadrature', () => {
  test.each(HEIGHTS)('loss of a ring, height %f λ', (height) => {
    const monopole = { heightM: height * wavelength, radiusM: 1e-3 };
    for (const [from, to] of [
      [0.001, 0.5],
      [0.1, 0.5],
      [0.3, 2],
    ] as const) {
      const { value } = integrate(
        (rho, out) => {
          const { re, im } = radialCurrent(monopole, frequencyHz, rho);
          out[0] = (re * re + im * im) / (2 * Math.PI * rho);
        },
        [from * wavelength, to * wavelength],
        { components: 1, relativeTolerance: 1e-11 },
      );
      const closed = bareRingLossFactor(monopole, frequencyHz, from * wavelength, to * wavelength);
      expectClose(closed, value[0] as number, { relative: 1e-9 });
    }
  });

  // The tail to infinity is taken as the difference of two, which quadrature can do.
  test.each(HEIGHTS)('reaction of a ring, height %f λ', (height) => {
    const monopole = { heightM: height * wavelength, radiusM: 1e-3 };
    const [from, to] = [0.05 * wavelength, 3 * wavelength];
    const { value } = integrate(
      (rho, out) => {
        const { re, im } = radialCurrent(monopole, frequencyHz, rho);
        out[0] = (re * re - im * im) / (2 * Math.PI * rho);
        out[1] = (2 * re * im) / (2 * Math.PI * rho);
      },
      [from, to],
      { components: 2, relativeTolerance: 1e-11 },
    );
    const near = bareSoilReaction(monopole, frequencyHz, from);
    const far = bareSoilReaction(monopole, frequencyHz, to);
    expectClose(near.re - far.re, value[0] as number, { absolute: 1e-10 });
    expectClose(near.im - far.im, value[1] as number, { absolute: 1e-10 });
  });

  test('the tail dies away with distance', () => {
    const monopole = { heightM: wavelength / 4, radiusM: 1e-3 };
    const { re, im } = bareSoilReaction(monopole, frequencyHz, 1000 * wavelength);
    expectClose(Math.hypot(re, im), 0, { absolute: 2e-5 });
  });
});
