/**
 * Voltage at open wire ends, V = I·Z with Z = 60(ln(2h/a) − 1) for an upright wire and 60·ln(2H/a) for a level one.
 *
 * Source: S. A. Schelkunoff, Electromagnetic Waves (1943), mean characteristic impedance; the two values by a program
 * that shares nothing with this one, from 100 W into 36.5 Ω at 7.1 MHz and a = 1 mm. Status: computed.
 *
 * Tolerance: 15 %, the accuracy that is stated for them.
 */
import { describe, it } from 'vitest';
import { endVoltages } from '../../src/core/safety/wire-ends.ts';
import { expectClose } from '../support/expect-close.ts';

const STATED = { relative: 0.15 };
const BASE_A = Math.sqrt(100 / 36.5);

describe('open-end voltage', () => {
  it('100 W into 36.5 Ω at 7.1 MHz: 885 V rms at the tip', () => {
    for (const heightM of [10.05, 10.285, 10.556]) {
      const radiator = { heightM, radiusM: 1e-3, baseHeightM: 0, elevated: null };
      const [tip] = endVoltages(radiator, null, 7.1e6, BASE_A, 36.5);
      expectClose(tip?.rmsVoltageV, 885, STATED);
    }
  });

  it('two elevated radials at 2.5 m: 423 V rms each', () => {
    const elevated = { count: 2, lengthM: 10.285, radiusM: 1e-3 };
    const radiator = { heightM: 10.285, radiusM: 1e-3, baseHeightM: 2.5, elevated };
    const end = endVoltages(radiator, null, 7.1e6, BASE_A, 36.5).find((e) => e.end === 'radial end');
    expectClose(end?.rmsVoltageV, 423, STATED);
  });
});
