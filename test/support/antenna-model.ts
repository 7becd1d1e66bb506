import { createSweep, type Sweep } from '../../src/core/sweep/sweep.ts';

/** Evenly spaced frequencies, both ends included. */
export function grid(fromHz: number, toHz: number, points: number): Float64Array {
  return Float64Array.from({ length: points }, (_, i) => fromHz + ((toHz - fromHz) * i) / (points - 1));
}

/** A plain series circuit: R constant, X = 2πL(f − f0²/f), for tests that need a known resonance. */
export function seriesCircuit(
  circuit: { resistanceOhm: number; resonanceHz: number; qualityFactor: number },
  frequencyHz: Float64Array,
  referenceOhm = 50,
): Sweep {
  const { resistanceOhm: r, resonanceHz: f0, qualityFactor: q } = circuit;
  return createSweep({
    frequencyHz,
    resistanceOhm: frequencyHz.map(() => r),
    reactanceOhm: frequencyHz.map((f) => r * q * (f / f0 - f0 / f)),
    referenceOhm,
  });
}
