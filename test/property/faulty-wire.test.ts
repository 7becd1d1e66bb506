import fc from 'fast-check';
import { expect, it } from 'vitest';
import { UserError } from '../../src/core/user-error.ts';
import { gridFrequencyHz } from '../../src/instrument/codec/grid.ts';
import { openLineProtocol } from '../../src/instrument/line-protocol/line-protocol-instrument.ts';
import { scaledTimes } from '../../src/instrument/line-protocol/times.ts';
import { NO_WIRE_FAULTS } from '../../src/instrument/simulator/faulty-wire.ts';
import { simulatedTransport } from '../../src/instrument/simulator/simulated-transport.ts';
import { DEFAULT_SIMULATOR_OPTIONS } from '../../src/instrument/simulator/simulator-options.ts';

const share = fc.double({ min: 0, max: 0.3, noNaN: true });
const GRID = { startHz: 7_000_000, stopHz: 7_200_000, points: 21 };
const antenna = (frequencyHz: number): { re: number; im: number } => ({
  re: 40,
  im: (frequencyHz - 7.1e6) / 5e3,
});

it('whatever a wire does, a sweep comes exact or not at all', async () => {
  let whole = 0;
  await fc.assert(
    fc.asyncProperty(
      fc.record({
        drop: share,
        corrupt: share,
        duplicate: share,
        reorder: share,
        halve: share,
        deaf: share,
        hostile: share,
      }),
      fc.option(fc.nat(60), { nil: null }),
      fc.nat(1e6),
      async (faults, unplug, seed) => {
        const options = {
          ...DEFAULT_SIMULATOR_OPTIONS,
          noise: 0,
          seed,
          wire: { ...NO_WIRE_FAULTS, ...faults, unplug },
        };
        try {
          const instrument = await openLineProtocol(simulatedTransport(options, antenna), {
            times: scaledTimes(0.005),
          });
          try {
            const { raw } = await instrument.sweep(GRID);
            if (raw.kind !== 'reflection') throw new Error('no reflection');
            whole++;
            raw.frequencyHz.forEach((frequencyHz, i) => {
              expect(frequencyHz).toBe(gridFrequencyHz(GRID, i));
              const x = antenna(frequencyHz).im;
              // (Z − 50)/(Z + 50) in millionths.
              const size = 90 ** 2 + x ** 2;
              expect(Math.abs((raw.reflectionRe[i] as number) - (x ** 2 - 900) / size)).toBeLessThanOrEqual(
                0.5001e-6,
              );
              expect(Math.abs((raw.reflectionIm[i] as number) - (100 * x) / size)).toBeLessThanOrEqual(
                0.5001e-6,
              );
            });
          } finally {
            await instrument.close();
          }
        } catch (error) {
          if (!(error instanceof UserError)) throw error;
          expect(error.kind).toBe('instrument');
        }
      },
    ),
    { seed: 20_260_301, numRuns: 60 },
  );
  expect(whole).toBeGreaterThan(15);
});
