import { onTestFinished } from 'vitest';
import { simulatedAntenna } from '../../src/instrument/simulator/simulated-antenna.ts';
import { simulatedInstrument } from '../../src/instrument/simulator/simulated-instrument.ts';
import { parseSimulatorOptions } from '../../src/instrument/simulator/simulator-options.ts';
import { openPlayedWire, type PlayedWire } from './pty.ts';

/** What the wire does to the bytes, each way. */
export interface Carried {
  /** The instrument is reset by the first request, as a board is by the opening of its port. */
  readonly resetByOpening?: boolean;
  readonly toHost?: (bytes: Uint8Array) => Uint8Array;
  readonly fromHost?: (bytes: Uint8Array) => Uint8Array;
}

/**
 * A simulated instrument at the far end of a real pseudo-terminal.
 * @param settings - what would stand behind `simulated:`
 */
export async function instrumentOnPty(settings = '', carried: Carried = {}): Promise<PlayedWire> {
  const wire = await openPlayedWire();
  onTestFinished(() => wire.unplug());
  const { toHost = same, fromHost = same } = carried;
  const device = simulatedInstrument(
    parseSimulatorOptions(settings),
    simulatedAntenna(null, [], 'feedpoint'),
    {
      deliver: (bytes) => void wire.toHost.write(toHost(bytes)),
      cut: () => void wire.unplug(),
    },
  );
  wire.fromHost.on('data', (chunk: Buffer) => device.receive(fromHost(chunk)));
  if (carried.resetByOpening === true) wire.fromHost.once('data', () => device.powerUp());
  else device.powerUp();
  return wire;
}

function same(bytes: Uint8Array): Uint8Array {
  return bytes;
}
