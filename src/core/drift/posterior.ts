import type { CauseModel, CauseName } from './cause.ts';
import { type Evidence, logSum } from './evidence.ts';
import { INSTRUMENT_UNSEEN_MOST, PRIOR } from './priors.ts';

/** Posterior mean and standard deviation of an amplitude, given its cause. */
export interface Amplitude {
  readonly mean: number;
  readonly sd: number;
  /** Mean of its size over the size's standard deviation, either sign alike: how far it is from zero. */
  readonly fromZero: number;
}

/** A cause with its posterior. */
export interface WeighedCause {
  readonly cause: CauseName;
  readonly model: CauseModel;
  readonly probability: number;
  readonly amplitude: Amplitude;
}

/** Mean and standard deviation over amplitudes, each even over its width, and scatter sizes. */
export function amplitudeOf(
  each: readonly Evidence[],
  logWeights: readonly number[],
  scaleError: number,
): Amplitude {
  const terms = each.flatMap(({ nodes }, i) =>
    nodes.map(({ logMass, ...node }) => ({ ...node, log: logMass + (logWeights[i] as number) })),
  );
  const total = logSum(terms.map((term) => term.log));
  let [mean, size, square] = [0, 0, 0];
  for (const { amplitude, width, log } of terms) {
    const weight = Math.exp(log - total);
    mean += weight * amplitude;
    size += weight * Math.abs(amplitude);
    square += weight * (amplitude * amplitude + (width * width) / 12);
  }
  // A shape that is too large or too small by a constant factor is no other shape: it is an error of the amplitude.
  return {
    mean,
    sd: Math.hypot(Math.sqrt(Math.max(0, square - mean * mean)), scaleError * mean),
    fromZero: size / Math.sqrt(Math.max(0, square - size * size)),
  };
}

/** A model's share before all are brought to a sum of one. */
export interface Weighed {
  readonly model: CauseModel;
  readonly logPosterior: number;
  readonly amplitude: Amplitude;
}

/**
 * Adds up the variants of one cause, their amplitudes as a mixture, and sorts. A size that the data hold to be
 * about as well zero is no difference: of each cause the part exp(−z²/2), z its size over the size's standard deviation,
 * goes to `none`, so that no cause is near certain whose estimate includes zero.
 *
 * @param isLoadSeen - whether the reference load was swept before and after
 * @param unlike - see {@link ModelTrust.unlike}
 */
export function normalise(weighed: readonly Weighed[], isLoadSeen: boolean, unlike: number): WeighedCause[] {
  const causes = withoutZeros(shares(weighed));
  return (isLoadSeen ? causes : withInstrumentCapped(causes))
    .map((entry) => ({
      ...entry,
      probability: (1 - unlike) * entry.probability + unlike * PRIOR[entry.cause],
    }))
    .sort((a, b) => b.probability - a.probability);
}

/** See {@link INSTRUMENT_UNSEEN_MOST}. */
function withInstrumentCapped(causes: readonly WeighedCause[]): WeighedCause[] {
  const told = causes.find(({ cause }) => cause === 'instrument')?.probability ?? 0;
  const over = Math.max(0, told - INSTRUMENT_UNSEEN_MOST);
  return causes.map((entry) => {
    const share = PRIOR[entry.cause] / (1 - PRIOR.instrument);
    const moved = entry.cause === 'instrument' ? -over : over * share;
    return { ...entry, probability: entry.probability + moved };
  });
}

function withoutZeros(causes: readonly WeighedCause[]): WeighedCause[] {
  const kept = causes.map((entry) => {
    const isSized = entry.cause !== 'none' && entry.cause !== 'instrument';
    const z = entry.amplitude.fromZero;
    return isSized && Number.isFinite(z)
      ? entry.probability * (1 - Math.exp(-0.5 * z * z))
      : entry.probability;
  });
  const gone = 1 - kept.reduce((sum, probability) => sum + probability, 0);
  return causes.map((entry, i) => ({
    ...entry,
    probability: (kept[i] as number) + (entry.cause === 'none' ? Math.max(0, gone) : 0),
  }));
}

function shares(weighed: readonly Weighed[]): WeighedCause[] {
  const total = logSum(weighed.map((entry) => entry.logPosterior));
  const byCause = new Map<CauseName, Weighed[]>();
  for (const entry of weighed) {
    byCause.set(entry.model.cause, [...(byCause.get(entry.model.cause) ?? []), entry]);
  }
  return [...byCause.entries()].map(([cause, entries]) => {
    const best = entries.reduce((a, b) => (b.logPosterior > a.logPosterior ? b : a));
    const probability = Math.exp(logSum(entries.map((entry) => entry.logPosterior)) - total);
    return { cause, model: best.model, probability, amplitude: mixtureOf(entries) };
  });
}

/** The amplitude of a cause whose variants all may be so: the moments of the mixture, each by its posterior. */
function mixtureOf(entries: readonly Weighed[]): Amplitude {
  const [only] = entries as readonly [Weighed];
  if (entries.length === 1) return only.amplitude;
  const total = logSum(entries.map(({ logPosterior }) => logPosterior));
  let [mean, size, square] = [0, 0, 0];
  for (const { logPosterior, amplitude } of entries) {
    const weight = Math.exp(logPosterior - total);
    const own = amplitude.mean ** 2 + amplitude.sd ** 2;
    mean += weight * amplitude.mean;
    size += weight * Math.sqrt(own / (1 + amplitude.fromZero ** -2));
    square += weight * own;
  }
  return {
    mean,
    sd: Math.sqrt(Math.max(0, square - mean * mean)),
    fromZero: size / Math.sqrt(Math.max(0, square - size * size)),
  };
}
