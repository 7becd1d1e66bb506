import { createRandomSource } from '../../core/proof/random.ts';
import type { LineTransport, TransportListener } from '../line-transport.ts';
import { portGone } from '../serial/port-errors.ts';
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

/**
 * A simulated instrument with its wire: bytes in, bytes out, and every fault on demand. To a driver it is a port like
 * any other.
 *
 * @param antenna - impedance at the instrument's reference plane, ohm
 */
export function simulatedTransport(options: SimulatorOptions, antenna: ImpedanceAt): LineTransport {
  const random = createRandomSource(options.seed);
  const reflectionAt = simulatedReflection(options, antenna, random);
  let listener: TransportListener | null = null;
  let device: Device | null = null;
  let wire: FaultyWire | null = null;
  const hangUp = (): void => {
    device?.powerDown();
    device = null;
    listener = null;
  };
  return {
    name: 'simulated',
    async open(opened) {
      listener = opened;
      const deliver = (bytes: Uint8Array): void =>
        later(options.lateMs, () => listener === opened && opened.bytes(bytes));
      const cut = (): void => {
        hangUp();
        opened.gone(portGone('simulated'));
      };
      wire = new FaultyWire(options.wire, random, deliver, cut);
      const send = (line: string): void => wire?.send(line);
      device = simulatedDevice(options, reflectionAt, send);
      if (!options.silent) setImmediate(() => device?.powerUp());
    },
    async write(text) {
      if (device === null) throw portGone('simulated');
      if (options.silent || wire?.hears() === false) return;
      setImmediate(() => device?.receive(Buffer.from(text, 'latin1')));
    },
    async close() {
      hangUp();
    },
  };
}

/** The instrument alone, to be put at the far end of any wire. */
export function simulatedDevice(
  options: SimulatorOptions,
  reflectionAt: ReflectionAt,
  send: (line: string) => void,
): Device {
  if (options.speaks === 'scpi') return new ScpiDevice(reflectionAt, send);
  if (options.speaks === 'plain-lines') return new PlainLinesDevice(reflectionAt, send);
  const { fault, resetAtPoint, pointMs, raw } = options;
  return new SimulatedDevice(
    {
      identity: {
        lowestHz: SIMULATED_LOWEST_HZ,
        highestHz: SIMULATED_HIGHEST_HZ,
        mostPoints: SIMULATED_MOST_POINTS,
        correction: raw ? 'raw' : 'cal',
        plane: 'port',
        referenceMilliohm: 50_000,
        model: 'simulated',
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
