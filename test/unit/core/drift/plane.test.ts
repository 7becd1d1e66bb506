import { describe, it } from 'vitest';
import { behindPath, reflectionThrough } from '../../../../src/core/drift/feed-path.ts';
import { planeOf } from '../../../../src/core/drift/plane.ts';
import { electricalLengthRad, feedLineOf } from '../../../../src/core/sweep/feed-line.ts';
import { expectClose } from '../../../support/expect-close.ts';

const LINE = { type: 'RG-58', lengthM: 20, velocityFactor: null, impedanceOhm: null, loss: [] };

describe('the plane of measurement', () => {
  const line = { ...feedLineOf(LINE), impedanceOhm: 51 };
  const path = { strapH: 2e-7, shuntF: 1e-11, line };
  const plane = planeOf(50, line);
  const frequencyHz = Float64Array.of(7e6, 7.1e6, 7.2e6);
  const antenna = { re: Float64Array.of(36, 37, 38), im: Float64Array.of(-9, 0, 9) };

  it('shows an antenna as it would be measured, and gives it back', () => {
    const back = behindPath(reflectionThrough(antenna, frequencyHz, path, plane), frequencyHz, path, plane);
    antenna.re.forEach((x, i) => {
      expectClose(back.re[i] as number, x, { relative: 1e-9 });
    });
    antenna.im.forEach((x, i) => {
      expectClose(back.im[i] as number, x, { absolute: 1e-8 });
    });
  });

  // RG-58 of the handbook table, 36.5 Ω through 1.18 dB and 137° → 47.823 − j11.511 Ω. Computed by two independent programs.
  it('agrees with the line equation', () => {
    const plain = { ...line, impedanceOhm: 50, velocityFactor: 1, dielectricLossDb: 0 };
    const f = Float64Array.of(10e6);
    const wave = 299_792_458 / 10e6;
    const stated = { ...plain, lengthM: (wave * 137) / 360 };
    const lossy = { ...stated, conductorLossDb: 1.18 / Math.sqrt(10e6) / stated.lengthM };
    const seen = planeOf(50, lossy);
    const load = { re: Float64Array.of(36.5), im: Float64Array.of(0) };
    const told = reflectionThrough(load, f, { strapH: 0, shuntF: 0, line: lossy }, seen);
    const raw = seen.untold(told, f);
    const z = [47.823, -11.511] as const;
    const size = (z[0] + 50) ** 2 + z[1] ** 2;
    expectClose(raw.re[0] as number, ((z[0] - 50) * (z[0] + 50) + z[1] ** 2) / size, { absolute: 1e-5 });
    expectClose(raw.im[0] as number, (100 * z[1]) / size, { absolute: 1e-5 });
    expectClose(electricalLengthRad(lossy, 10e6), (137 * Math.PI) / 180, { relative: 1e-9 });
  });
});
