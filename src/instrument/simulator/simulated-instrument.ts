import { createRandomSource } from '../../core/proof/random.ts';
import { SIMULATED } from '../../core/simulated.ts';
import {
  type Device,
  type ReflectionAt,
  SIMULATED_HIGHEST_HZ,
  SIMULATED_LOWEST_HZ,
  SIMULATED_MOST_POINTS,
} from './device.ts';
import { FaultyWire } from './faulty-wire.ts';
import { PlainLinesDevice } from './plain-lines-device.ts';
import { ScpiDevice } from './scpi-device.ts';
import { SimulatedDevice } from './simulated-device.ts';
import { type ImpedanceAt, simulatedReflection } from './simulated-reflection.ts';
import type { SimulatorOptions } from './simulator-options.ts';

/** The host's end of the wire. */
export interface HostEnd {
  /** Bytes from the instrument. */
  deliver(bytes: Uint8Array): void;
  /** The cable was pulled. */
  cut(): void;
}

/**
 * A simulated instrument with the faults of its wire, to be put at the far end of anything that carries bytes.
 *
 * @param antenna - impedance at the instrument's reference plane, ohm
 */
export function simulatedInstrument(options: SimulatorOptions, antenna: ImpedanceAt, host: HostEnd): Device {
  const random = createRandomSource(options.seed);
  const deliver = (bytes: Uint8Array): void => later(options.lateMs, () => host.deliver(bytes));
  const wire = new FaultyWire(options.wire, random, deliver, () => host.cut());
  const device = deviceOf(options, simulatedReflection(options, antenna, random), (line) => wire.send(line));
  return {
    powerUp: () => {
      if (!options.silent) device.powerUp();
    },
    powerDown: () => device.powerDown(),
    receive: (chunk) => {
      if (!options.silent && wire.hears()) device.receive(chunk);
    },
  };
}

function deviceOf(
  { speaks, fault, resetAtPoint, pointMs, raw }: SimulatorOptions,
  reflectionAt: ReflectionAt,
  send: (line: string) => void,
): Device {
  if (speaks === 'scpi') return new ScpiDevice(reflectionAt, send);
  if (speaks === 'plain-lines') return new PlainLinesDevice(reflectionAt, send);
  return new SimulatedDevice(
    {
      identity: {
        lowestHz: SIMULATED_LOWEST_HZ,
        highestHz: SIMULATED_HIGHEST_HZ,
        mostPoints: SIMULATED_MOST_POINTS,
        correction: raw ? 'raw' : 'cal',
        plane: 'port',
        referenceMilliohm: 50_000,
        model: SIMULATED,
        serial: '0',
      },
      reflectionAt,
      pointMs,
      resetAtPoint: resetAtPoint ?? undefined,
      fault: fault === null ? undefined : { atPoint: 10, code: fault, text: 'as the simulator was told' },
    },
    send,
  );
}

function later(ms: number, work: () => void): void {
  if (ms > 0) setTimeout(work, ms);
  else work();
}
