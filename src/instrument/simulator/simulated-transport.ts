import type { LineTransport } from '../line-transport.ts';
import { portGone } from '../serial/port-errors.ts';
import type { Device } from './device.ts';
import { simulatedInstrument } from './simulated-instrument.ts';
import type { ImpedanceAt } from './simulated-reflection.ts';
import type { SimulatorOptions } from './simulator-options.ts';

/**
 * A simulated instrument as a port like any other. Each opening finds it freshly switched on.
 *
 * @param antenna - impedance at the instrument's reference plane, ohm
 */
export function simulatedTransport(options: SimulatorOptions, antenna: ImpedanceAt): LineTransport {
  let device: Device | null = null;
  const hangUp = (): void => {
    device?.powerDown();
    device = null;
  };
  return {
    name: 'simulated',
    async open(listener) {
      const opened: Device = simulatedInstrument(options, antenna, {
        deliver: (bytes) => {
          if (device === opened) listener.bytes(bytes);
        },
        cut: () => {
          hangUp();
          listener.gone(portGone('simulated'));
        },
      });
      device = opened;
      setImmediate(() => device?.powerUp());
    },
    async write(text) {
      if (device === null) throw portGone('simulated');
      setImmediate(() => device?.receive(Buffer.from(text, 'latin1')));
    },
    async close() {
      hangUp();
    },
  };
}
