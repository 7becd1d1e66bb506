import { openDescribed } from './description/described-instrument.ts';
import type { Description } from './description/description.ts';
import type { Instrument } from './instrument.ts';
import { openLineProtocol } from './line-protocol/line-protocol-instrument.ts';
import { scaledTimes } from './line-protocol/times.ts';
import type { LineTransport } from './line-transport.ts';
import { DEFAULT_SERIAL_SETTINGS, serialTransport } from './serial/serial-transport.ts';
import type { ImpedanceAt } from './simulator/simulated-reflection.ts';
import { simulatedTransport } from './simulator/simulated-transport.ts';
import { parseSimulatorOptions } from './simulator/simulator-options.ts';

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
  /** What a simulated instrument measures. */
  readonly antenna: ImpedanceAt;
}

/** Whether a port is the simulator. */
export function isSimulated(port: string): boolean {
  return port === 'simulated' || port.startsWith('simulated:');
}

/** The way to the instrument; nothing is opened yet. */
export function transportOf({ port, description, baud, antenna }: Connection): LineTransport {
  if (isSimulated(port)) {
    const options = parseSimulatorOptions(port.slice('simulated:'.length));
    return simulatedTransport(options, antenna);
  }
  const wire = description?.wire ?? DEFAULT_SERIAL_SETTINGS;
  return serialTransport(port, baud === null ? wire : { ...wire, baud });
}

/**
 * Opens an instrument and asks who it is.
 * @throws UserError of kind `instrument`; `simulator-setting` of kind `command-line`
 */
export async function openInstrument(
  connection: Connection,
  transport: LineTransport = transportOf(connection),
): Promise<Instrument> {
  const { description, patience, tap, signal } = connection;
  return description === null
    ? await openLineProtocol(transport, { times: scaledTimes(patience), tap, signal })
    : await openDescribed(transport, description, { patience, tap, signal });
}
