import type { RandomSource } from '../../src/core/proof/random.ts';
import { reflectionColumns } from '../../src/core/sweep/reflection.ts';
import { createSweep, type Sweep } from '../../src/core/sweep/sweep.ts';

/**
 * The three error terms of a one-port instrument after calibration: Γ reads as directivity + tracking·Γ/(1 − match·Γ).
 * One calibration and mating draws them; each shot moves them a little, and each point has noise of its own.
 */
export interface SimulatedInstrument {
  readonly directivity: readonly [number, number];
  readonly tracking: readonly [number, number];
  readonly match: readonly [number, number];
  readonly perShot: number;
  readonly perPoint: number;
}

/** @param standard - standard uncertainty of the reflection of one visit, per component */
export function randomInstrument(
  random: RandomSource,
  errors: { standard?: number; perShot?: number; perPoint?: number } = {},
): SimulatedInstrument {
  const { standard = 0.005, perShot = 0.002, perPoint = 0.001 } = errors;
  const term = (): [number, number] => [standard * random.normal(), standard * random.normal()];
  return { directivity: term(), tracking: term(), match: term(), perShot, perPoint };
}

/** One shot of a sweep. */
export function measuredBy(instrument: SimulatedInstrument, truth: Sweep, random: RandomSource): Sweep {
  const { perShot, perPoint } = instrument;
  const moved = ([re, im]: readonly [number, number]): [number, number] => [
    re + perShot * random.normal(),
    im + perShot * random.normal(),
  ];
  const [dRe, dIm] = moved(instrument.directivity);
  const [tRe, tIm] = moved(instrument.tracking);
  const [mRe, mIm] = moved(instrument.match);
  const { re, im } = reflectionColumns(truth);
  const resistanceOhm = new Float64Array(re.length);
  const reactanceOhm = new Float64Array(re.length);
  for (let i = 0; i < re.length; i++) {
    const [a, b] = [re[i] as number, im[i] as number];
    const [nRe, nIm] = [a * (1 + tRe) - b * tIm, a * tIm + b * (1 + tRe)];
    const [qRe, qIm] = [1 - (mRe * a - mIm * b), -(mRe * b + mIm * a)];
    const size = qRe * qRe + qIm * qIm;
    const x = dRe + (nRe * qRe + nIm * qIm) / size + perPoint * random.normal();
    const y = dIm + (nIm * qRe - nRe * qIm) / size + perPoint * random.normal();
    const open = (1 - x) ** 2 + y * y;
    resistanceOhm[i] = (truth.referenceOhm * (1 - x * x - y * y)) / open;
    reactanceOhm[i] = (2 * truth.referenceOhm * y) / open;
  }
  return createSweep({ ...truth, resistanceOhm, reactanceOhm });
}
