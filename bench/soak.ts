/**
 * Ten thousand simulated sweeps in a process of their own, with a new connection every hundred. Prints the resident
 * memory after the first 500 and at the end.
 */
import { openLineProtocol } from '../src/instrument/line-protocol/line-protocol-instrument.ts';
import { scaledTimes } from '../src/instrument/line-protocol/times.ts';
import { simulatedTransport } from '../src/instrument/simulator/simulated-transport.ts';
import { DEFAULT_SIMULATOR_OPTIONS } from '../src/instrument/simulator/simulator-options.ts';

const SWEEPS = 10_000;
const WARM_UP = 500;
const SWEEPS_PER_CONNECTION = 100;
const GRID = { startHz: 7_000_000, stopHz: 7_200_000, points: 101 };

let warm = 0;
for (let done = 0; done < SWEEPS; ) {
  // One line in a hundred is damaged, so that mending is part of it; short times, for a simulator answers at once.
  const options = {
    ...DEFAULT_SIMULATOR_OPTIONS,
    seed: done,
    wire: { ...DEFAULT_SIMULATOR_OPTIONS.wire, corrupt: 0.01 },
  };
  const transport = simulatedTransport(options, (f) => ({ re: 40, im: (f - 7.1e6) / 5e3 }));
  const instrument = await openLineProtocol(transport, { times: scaledTimes(0.005) });
  for (let i = 0; i < SWEEPS_PER_CONNECTION; i++, done++) {
    await instrument.sweep(GRID);
    if (done === WARM_UP) warm = weigh();
  }
  await instrument.close();
}
process.stdout.write(`${JSON.stringify({ warm, end: weigh() })}\n`);

/** Resident memory after a full collection: garbage that waits to be collected is no leak. */
function weigh(): number {
  if (globalThis.gc === undefined) throw new Error('needs --expose-gc');
  globalThis.gc();
  return process.memoryUsage.rss();
}
