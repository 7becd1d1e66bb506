import type { CauseModel } from './cause.ts';
import { dot, type Factor, whiten } from './cholesky.ts';
import { type Columns, differenceOf, scaled, stacked, turned } from './columns.ts';

/** How far a model's shape may be off, relative to its effect, with the prior weight of each. */
export interface ModelError {
  readonly relative: number;
  readonly weight: number;
}

/** A model at one amplitude, whitened by one covariance. */
interface Node {
  readonly amplitude: number;
  /** ln of prior density × width of the node × likelihood. */
  readonly logMass: number;
}

/** The evidence of a cause under one covariance, and where its amplitude lies. */
export interface Evidence {
  readonly logEvidence: number;
  readonly nodes: readonly Node[];
}

/** Nodes at which a cause's effect is known, shared by all covariances. */
export interface PreparedCause {
  readonly nodes: readonly WeighedNode[];
}

interface WeighedNode {
  readonly amplitude: number;
  /** ln of prior density × width of the node × how the amplitude agrees with data other than the change. */
  readonly logWeight: number;
  readonly part: PreparedNode;
}

interface PreparedNode {
  /** Change left unexplained, then the shapes of the free parameters and of the model's own error. */
  readonly residual: Float64Array;
  readonly free: readonly Float64Array[];
  readonly error: readonly Float64Array[];
}

/**
 * ln of the probability density of the data under a normal covariance C + VVᵀ, V the free parameters' shapes and the
 * model-error shapes scaled by `relative`: by the matrix determinant lemma on whitened vectors. Constants that all
 * causes share are left out.
 */
export function logLikelihood(factor: Factor, node: PreparedNode, errors: readonly ModelError[]): number {
  const r = whiten(factor, node.residual);
  const shapes = [...node.free, ...node.error].map((shape) => whiten(factor, shape));
  const k = shapes.length;
  const q = dot(r, r);
  const base = -0.5 * (q + factor.logDeterminant);
  if (k === 0) return base;
  const h = shapes.map((shape) => dot(shape, r));
  const gram = shapes.map((a) => shapes.map((b) => dot(a, b)));
  let best = Number.NEGATIVE_INFINITY;
  const terms = errors.map(({ relative, weight }) => {
    const scale = (i: number): number => (i < node.free.length ? 1 : relative);
    const term = Math.log(weight) + base + explained(gram, h, scale);
    best = Math.max(best, term);
    return term;
  });
  return best + Math.log(terms.reduce((sum, term) => sum + Math.exp(term - best), 0));
}

/** ½hᵀ(I + G)⁻¹h − ½ ln|I + G| for scaled shapes, by a small Cholesky factor. */
function explained(gram: readonly number[][], h: readonly number[], scale: (i: number) => number): number {
  const k = h.length;
  const lower: number[][] = [];
  const y: number[] = [];
  let [quadratic, logDeterminant] = [0, 0];
  for (let i = 0; i < k; i++) {
    const row: number[] = [];
    lower.push(row);
    for (let j = 0; j <= i; j++) {
      let sum = (gram[i]?.[j] as number) * scale(i) * scale(j) + (i === j ? 1 : 0);
      for (let m = 0; m < j; m++) sum -= (row[m] as number) * (lower[j]?.[m] as number);
      row.push(i === j ? Math.sqrt(sum) : sum / (lower[j]?.[j] as number));
    }
    let value = (h[i] as number) * scale(i);
    for (let m = 0; m < i; m++) value -= (row[m] as number) * (y[m] as number);
    const last = row[i] as number;
    y.push(value / last);
    quadratic += (value / last) ** 2;
    logDeterminant += 2 * Math.log(last);
  }
  return 0.5 * (quadratic - logDeterminant);
}

/** The model's residual and shapes at one amplitude. */
export function prepareNode(
  model: CauseModel,
  change: Columns,
  position: Float64Array,
  amplitude: number,
): PreparedNode {
  const { shift, free } = model.effect(amplitude);
  const sloped: Columns = {
    re: shift.re.map((x, i) => x * (position[i] as number)),
    im: shift.im.map((x, i) => x * (position[i] as number)),
  };
  return {
    residual: stacked(differenceOf(change, shift)),
    free: free.map(stacked),
    error: [shift, turned(shift), scaled(sloped, 0.5), scaled(turned(sloped), 0.5)].map(stacked),
  };
}

/** Evidence by the trapezium rule over the prepared amplitudes. */
export function evidenceOf(
  { nodes }: PreparedCause,
  factor: Factor,
  errors: readonly ModelError[],
): Evidence {
  const weighed = nodes.map(
    ({ amplitude, logWeight, part }): Node => ({
      amplitude,
      logMass: logLikelihood(factor, part, errors) + logWeight,
    }),
  );
  return { logEvidence: logSum(weighed.map((node) => node.logMass)), nodes: weighed };
}

/** How fine the refined grid must be: neighbours near the top differ by less than this in ln. */
const SMOOTH = 0.7;
const NEAR_TOP = 9;
/** The neighbourhood of the top is halved so often whatever its slope. */
const SURE_ROUNDS = 4;
const MOST_NODES = 110;
/** Nodes this far below the top (e^−12) are dropped; another covariance would have to lift them by as much. */
const HOPELESS = 12;

/**
 * Chooses the amplitudes: the model's own grid, then halved wherever the posterior under the likeliest covariance is
 * still steep near its top. The same nodes then serve every other covariance. A model that also weighs other data is
 * left on its own grid, since each of its nodes is dear and its amplitude never sharp.
 */
export function prepareCause(
  model: CauseModel,
  change: Columns,
  position: Float64Array,
  factor: Factor,
  errors: readonly ModelError[],
): PreparedCause {
  const node = (amplitude: number): Candidate => {
    const part = prepareNode(model, change, position, amplitude);
    const logPrior = model.logPrior(amplitude) + (model.logOther?.(amplitude) ?? 0);
    return { amplitude, part, logPrior, height: logLikelihood(factor, part, errors) + logPrior };
  };
  const nodes = [...model.amplitudes].map(node);
  const refinable = !model.discrete && model.logOther === undefined;
  for (let round = 0; round < 12 && refinable && nodes.length < MOST_NODES; round++) {
    const top = Math.max(...nodes.map((entry) => entry.height));
    const added: Candidate[] = [];
    for (let i = 0; i + 1 < nodes.length; i++) {
      const [a, b] = [nodes[i] as Candidate, nodes[i + 1] as Candidate];
      const near = Math.max(a.height, b.height) > top - NEAR_TOP;
      // A peak between two nodes of like height would hide from the slope alone.
      const atTop = round < SURE_ROUNDS && Math.max(a.height, b.height) === top;
      if (atTop || (near && Math.abs(a.height - b.height) > SMOOTH))
        added.push(node((a.amplitude + b.amplitude) / 2));
    }
    if (added.length === 0) break;
    nodes.push(...added);
    nodes.sort((a, b) => a.amplitude - b.amplitude);
  }
  const top = Math.max(...nodes.map((entry) => entry.height));
  const weighed = nodes.map(({ amplitude, part, logPrior, height }, i) => ({
    amplitude,
    part,
    height,
    logWeight: logPrior + (model.discrete ? 0 : Math.log(width(nodes, i))),
  }));
  return { nodes: weighed.filter((entry) => entry.height > top - HOPELESS) };
}

interface Candidate {
  readonly amplitude: number;
  readonly part: PreparedNode;
  readonly logPrior: number;
  readonly height: number;
}

function width(nodes: readonly Candidate[], i: number): number {
  const last = nodes.length - 1;
  const [low, high] = [nodes[Math.max(0, i - 1)] as Candidate, nodes[Math.min(last, i + 1)] as Candidate];
  return (high.amplitude - low.amplitude) / 2;
}

export function logSum(terms: readonly number[]): number {
  const best = Math.max(Number.NEGATIVE_INFINITY, ...terms);
  if (best === Number.NEGATIVE_INFINITY) return best;
  return best + Math.log(terms.reduce((sum, term) => sum + Math.exp(term - best), 0));
}
