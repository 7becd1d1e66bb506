import type { Band } from '../../src/core/sweep/bands.ts';
import { createReflectionSweep, impedanceSweepOf } from '../../src/core/sweep/reflection-sweep.ts';
import { createSweep, type Sweep } from '../../src/core/sweep/sweep.ts';
import { UserError } from '../../src/core/user-error.ts';
import type { Grid } from '../../src/instrument/codec/grid.ts';
import { openDescribed } from '../../src/instrument/description/described-instrument.ts';
import type { Description } from '../../src/instrument/description/description.ts';
import type { RawSweep } from '../../src/instrument/instrument.ts';
import { SerialLines } from './serial-lines.ts';
import { PageInstrument } from './take-sweep.ts';
import type { SerialOptions, WebSerialPort } from './web-serial.ts';
import { webTransport } from './web-transport.ts';

const LINE_PROTOCOL: SerialOptions = { baudRate: 115_200, bufferSize: 8192 };
const POINTS = 201;
/** The resonance may lie outside the band by this part of its frequency. */
const AROUND = 0.08;

/** A sweep that was taken from the page, and who took it. */
export interface Measured {
  readonly sweep: Sweep;
  readonly by: string;
}

/** Told as points come in. */
export type Progress = (by: string, received: number, points: number) => void;

/** What an instrument can do; null where nobody says. */
interface Reach {
  readonly corrected: boolean;
  readonly lowestHz: number | null;
  readonly highestHz: number | null;
  readonly mostPoints: number | null;
}

/**
 * One sweep of a band and some more on both sides.
 * @param description - null for the line protocol
 * @throws UserError of kind `instrument`
 */
export function measureSweep(
  port: WebSerialPort,
  description: Description | null,
  band: Band,
  progress: Progress,
): Promise<Measured> {
  return description === null
    ? byLineProtocol(port, band, progress)
    : byDescription(port, description, band, progress);
}

async function byLineProtocol(port: WebSerialPort, band: Band, progress: Progress): Promise<Measured> {
  const lines = await SerialLines.open(webTransport(port, LINE_PROTOCOL));
  try {
    const instrument = new PageInstrument(lines);
    const iam = await instrument.meet();
    const grid = gridFor(band, { ...iam, corrected: iam.correction !== 'raw' });
    const assembled = await instrument.sweep(grid, (received) => progress(iam.model, received, grid.points));
    const reflection = createReflectionSweep({ ...assembled, referenceOhm: iam.referenceMilliohm / 1000 });
    return { sweep: impedanceSweepOf(reflection, 'feedpoint'), by: iam.model };
  } finally {
    await lines.close();
  }
}

async function byDescription(
  port: WebSerialPort,
  description: Description,
  band: Band,
  progress: Progress,
): Promise<Measured> {
  const { baud, dataBits, stopBits, parity, flowControl } = description.wire;
  if (flowControl === 'xon-xoff') {
    throw failure('flow-control', 'browsers do not offer its flow control, XON/XOFF: use `turfwire measure`');
  }
  const transport = webTransport(port, {
    baudRate: baud,
    dataBits,
    stopBits,
    parity,
    flowControl: flowControl === 'none' ? 'none' : 'hardware',
  });
  const instrument = await openDescribed(transport, description);
  try {
    const by = instrument.identity.model ?? description.name;
    const { raw } = await instrument.sweep(gridFor(band, instrument.identity), (received, points) =>
      progress(by, received, points),
    );
    return { sweep: withPhase(raw), by };
  } finally {
    await instrument.close();
  }
}

function withPhase(raw: RawSweep): Sweep {
  if (raw.kind === 'reflection') return impedanceSweepOf(raw, 'feedpoint');
  if (raw.kind === 'impedance') return createSweep({ ...raw, plane: 'feedpoint' });
  throw failure('sweep-scalar', 'this instrument gives the SWR alone, from which R and X cannot be had');
}

/** @throws UserError `instrument-raw`, `band-out-of-reach` */
function gridFor({ band, fromHz, toHz }: Band, { corrected, lowestHz, highestHz, mostPoints }: Reach): Grid {
  if (!corrected) {
    throw failure(
      'instrument-raw',
      'this instrument gives raw readings, which need standards to correct them: use `turfwire measure`',
    );
  }
  const startHz = Math.max(lowestHz ?? 0, Math.round(fromHz * (1 - AROUND)));
  const stopHz = Math.min(highestHz ?? Number.POSITIVE_INFINITY, Math.round(toHz * (1 + AROUND)));
  const points = Math.min(POINTS, mostPoints ?? POINTS);
  if (stopHz - startHz >= points) return { startHz, stopHz, points };
  throw failure('band-out-of-reach', `this instrument does not reach ${band}`);
}

function failure(code: string, message: string): UserError {
  return new UserError(code, message, { kind: 'instrument' });
}
