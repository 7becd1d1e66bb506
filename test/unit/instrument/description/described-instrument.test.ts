import { describe, expect, it } from 'vitest';
import { openDescribed } from '../../../../src/instrument/description/described-instrument.ts';
import { shippedDescription } from '../../../../src/instrument/description/read-description.ts';
import type { Instrument } from '../../../../src/instrument/instrument.ts';
import { simulatedTransport } from '../../../../src/instrument/simulator/simulated-transport.ts';
import { parseSimulatorOptions } from '../../../../src/instrument/simulator/simulator-options.ts';
import { expectClose } from '../../../support/expect-close.ts';

const GRID = { startHz: 7_000_000, stopHz: 7_200_000, points: 41 };
const ANTENNA = (frequencyHz: number): { re: number; im: number } => ({
  re: 40,
  im: (frequencyHz - 7.1e6) / 5e3,
});

async function open(language: 'scpi' | 'plain-lines', faults = ''): Promise<Instrument> {
  const options = parseSimulatorOptions(`speaks=${language},noise=0,${faults}`);
  return await openDescribed(simulatedTransport(options, ANTENNA), await shippedDescription(language), {
    patience: 0.05,
  });
}

async function swept(
  language: 'scpi' | 'plain-lines',
  faults = '',
): Promise<Awaited<ReturnType<Instrument['sweep']>>> {
  const instrument = await open(language, faults);
  try {
    return await instrument.sweep(GRID);
  } finally {
    await instrument.close();
  }
}

describe('an instrument that prints frequency,R,X', () => {
  it('gives what it printed', async () => {
    const { raw } = await swept('plain-lines');
    if (raw.kind !== 'impedance') throw new Error('no impedance');
    expect(raw.frequencyHz[40]).toBe(7_200_000);
    // It prints three decimals.
    expectClose(raw.reactanceOhm[0], -20, { absolute: 5e-4 });
  });

  it('is asked for the whole sweep again when a line was lost', async () => {
    expect((await swept('plain-lines', 'drop=0.02,seed=13')).effort.reAsks).toBeGreaterThan(0);
  });

  it('takes lines in any order, and lines that come twice', async () => {
    const { raw } = await swept('plain-lines', 'duplicate=0.2,reorder=0.2');
    expect(raw.frequencyHz).toHaveLength(41);
  });

  it('is believed when it reports an error', async () => {
    const instrument = await open('plain-lines');
    await expect(instrument.sweep({ ...GRID, startHz: 1 })).rejects.toThrowError(/reports "error: I know/u);
    await instrument.close();
  });

  it('fails clearly when lines are cut in half', async () => {
    await expect(swept('plain-lines', 'halve=0.2')).rejects.toMatchObject({
      code: 'sweep-incomplete',
      kind: 'instrument',
    });
  });
});

describe('an instrument that speaks SCPI', () => {
  it('gives its reflection', async () => {
    const { raw } = await swept('scpi');
    if (raw.kind !== 'reflection') throw new Error('no reflection');
    // (40 - 50)/(40 + 50) at resonance, in the middle.
    expectClose(raw.reflectionRe[20], -1 / 9, { absolute: 1e-8 });
    expectClose(raw.reflectionIm[20], 0, { absolute: 1e-8 });
  });

  it('tells its model as harmless text', async () => {
    const instrument = await open('scpi');
    await instrument.close();
    expect(instrument.identity).toMatchObject({ model: 'GARDEN SWEEPER', serial: null });
  });

  it('is asked why it walks other frequencies', async () => {
    const instrument = await open('scpi');
    await expect(instrument.sweep({ ...GRID, stopHz: 90_000_000 })).rejects.toThrowError(
      /reports "-222,\\"Data out of range\\""/u,
    );
    await instrument.close();
  });
});

it.each(['scpi', 'plain-lines'] as const)('%s: silence and a cut wire are told', async (language) => {
  await expect(swept(language, 'silent')).rejects.toMatchObject({ code: 'instrument-silent' });
  await expect(swept(language, 'unplug=2')).rejects.toMatchObject({ code: 'port-gone' });
});
