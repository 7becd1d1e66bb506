import type { CauseModel, CauseName } from './cause.ts';
import { type Evidence, logSum } from './evidence.ts';

/** Posterior mean and standard deviation of an amplitude, given its cause. */
export interface Amplitude {
  readonly mean: number;
  readonly sd: number;
}

/** A cause with its posterior. */
export interface WeighedCause {
  readonly cause: CauseName;
  readonly model: CauseModel;
  readonly probability: number;
  readonly amplitude: Amplitude;
}

/** Mean and standard deviation over amplitudes and scatter sizes. */
export function amplitudeOf(
  each: readonly Evidence[],
  logWeights: readonly number[],
  scaleError: number,
): Amplitude {
  const terms = each.flatMap(({ nodes }, i) =>
    nodes.map(({ amplitude, logMass }) => ({ amplitude, log: logMass + (logWeights[i] as number) })),
  );
  const total = logSum(terms.map((term) => term.log));
  let [mean, square] = [0, 0];
  for (const { amplitude, log } of terms) {
    const weight = Math.exp(log - total);
    mean += weight * amplitude;
    square += weight * amplitude * amplitude;
  }
  // A shape that is too large or too small by a constant factor is no other shape: it is an error of the amplitude.
  return { mean, sd: Math.hypot(Math.sqrt(Math.max(0, square - mean * mean)), scaleError * mean) };
}

/** A model's share before all are brought to a sum of one. */
export interface Weighed {
  readonly model: CauseModel;
  readonly logPosterior: number;
  readonly amplitude: Amplitude;
}

/** Adds up the variants of one cause, keeping the likelier variant's amplitude, and sorts. */
export function normalise(weighed: readonly Weighed[]): WeighedCause[] {
  const total = logSum(weighed.map((entry) => entry.logPosterior));
  const byCause = new Map<CauseName, Weighed[]>();
  for (const entry of weighed) {
    byCause.set(entry.model.cause, [...(byCause.get(entry.model.cause) ?? []), entry]);
  }
  return [...byCause.entries()]
    .map(([cause, entries]) => {
      const best = entries.reduce((a, b) => (b.logPosterior > a.logPosterior ? b : a));
      const probability = Math.exp(logSum(entries.map((entry) => entry.logPosterior)) - total);
      return { cause, model: best.model, probability, amplitude: best.amplitude };
    })
    .sort((a, b) => b.probability - a.probability);
}
