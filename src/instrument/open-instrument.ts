import { SIMULATED } from '../core/simulated.ts';
import type { Description } from './description/description.ts';
import type { Instrument } from './instrument.ts';
import { openLineProtocol } from './line-protocol/line-protocol-instrument.ts';
import { scaledTimes } from './line-protocol/times.ts';
import type { LineTransport } from './line-transport.ts';
import { DEFAULT_SERIAL_SETTINGS, serialTransport } from './serial/serial-transport.ts';
import type { ImpedanceAt } from './simulator/simulated-reflection.ts';
import type { SimulatedLoad } from './simulator/simulator-options.ts';

/** What it takes to reach an instrument. */
export interface Connection {
  /** Path of a serial port, or `simulated` with its settings behind a colon. */
  readonly port: string;
  /** Null for the line protocol. */
  readonly description: Description | null;
  /** Null for that of the description, or 115,200. */
  readonly baud: number | null;
  /** Multiplies every waiting time. */
  readonly patience: number;
  /** Is given every byte that arrives. */
  readonly tap?: ((chunk: Uint8Array) => void) | undefined;
  readonly signal?: AbortSignal | undefined;
  /** What is to be connected; a simulated instrument has it there, unless its settings say otherwise. */
  readonly connected?: SimulatedLoad | undefined;
  /** The antenna that a simulated instrument measures; called only for one. */
  antenna(this: void): Promise<ImpedanceAt>;
}

/** Whether a port is the simulator. */
export function isSimulatedPort(port: string): boolean {
  return port === SIMULATED || port.startsWith(`${SIMULATED}:`);
}

/** The way to the instrument; nothing is opened yet. What is not used is not loaded: a small computer has little memory. */
async function transportOf({
  port,
  description,
  baud,
  connected,
  antenna,
}: Connection): Promise<LineTransport> {
  if (isSimulatedPort(port)) {
    const { parseSimulatorOptions } = await import('./simulator/simulator-options.ts');
    const { simulatedTransport } = await import('./simulator/simulated-transport.ts');
    return simulatedTransport(
      parseSimulatorOptions(port.slice(SIMULATED.length + 1), connected),
      await antenna(),
    );
  }
  const wire = description?.wire ?? DEFAULT_SERIAL_SETTINGS;
  return serialTransport(port, baud === null ? wire : { ...wire, baud });
}

/**
 * Opens an instrument and asks who it is.
 * @throws UserError of kind `instrument`; `simulator-setting` of kind `command-line`
 */
export async function openInstrument(connection: Connection): Promise<Instrument> {
  const { description, patience, tap, signal } = connection;
  const transport = await transportOf(connection);
  if (description === null)
    return await openLineProtocol(transport, { times: scaledTimes(patience), tap, signal });
  const { openDescribed } = await import('./description/described-instrument.ts');
  return await openDescribed(transport, description, { patience, tap, signal });
}
