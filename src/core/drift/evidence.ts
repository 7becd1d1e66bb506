import type { CauseModel } from './cause.ts';
import { type Factor, whiten } from './cholesky.ts';
import { type Columns, differenceOf, scaled, stacked, turned } from './columns.ts';
import {
  logDensity,
  type ModelError,
  type Shapes,
  type WhitenedShapes,
  whitenShapes,
} from './shape-covariance.ts';

/** The evidence of a cause under one covariance, and how its amplitudes share it. */
export interface Evidence {
  readonly logEvidence: number;
  readonly nodes: readonly EvidenceNode[];
}

/** An amplitude that stands for all within its width. */
export interface EvidenceNode {
  readonly amplitude: number;
  /** 0 where amplitudes are counted. */
  readonly width: number;
  readonly logMass: number;
}

/** Amplitudes at which a cause's effect is known, shared by all covariances. */
export interface PreparedCause {
  readonly nodes: readonly PreparedNode[];
}

interface PreparedNode {
  readonly amplitude: number;
  readonly width: number;
  /** ln of prior density × width of the node × how the amplitude agrees with data other than the change. */
  readonly logWeight: number;
  /** Change that the amplitude leaves unexplained. */
  readonly residual: Float64Array;
  readonly shapes: Shapes;
}

/**
 * Evidence by the trapezium rule over the prepared amplitudes.
 *
 * @param logAfter - what else an amplitude is weighed by under this covariance, ln
 */
export function evidenceOf(
  { nodes }: PreparedCause,
  factor: Factor,
  errors: readonly ModelError[],
  logAfter: (amplitude: number) => number = () => 0,
): Evidence {
  const known = new Map<Shapes, WhitenedShapes>();
  const weighed = nodes.map(({ amplitude, width, logWeight, residual, shapes }) => {
    const whitened = known.get(shapes) ?? whitenShapes(factor, shapes, errors);
    known.set(shapes, whitened);
    const density = logDensity(whiten(factor, residual), whitened);
    return { amplitude, width, logMass: density + logWeight + logAfter(amplitude) };
  });
  return { logEvidence: logSum(weighed.map(({ logMass }) => logMass)), nodes: weighed };
}

/** How fine the refined grid must be: neighbours near the top differ by less than this in ln. */
const SMOOTH = 0.7;
const NEAR_TOP = 9;
/** The neighbourhood of the top is halved so often whatever its slope. */
const SURE_ROUNDS = 4;
const ROUNDS = 12;
const MOST_NODES = 110;
/** Nodes this far below the top (e^−12) are dropped; another covariance would have to lift them by as much. */
const HOPELESS = 12;

/**
 * Chooses the amplitudes: the model's own grid, then halved wherever the posterior under the likeliest covariance is
 * still steep near its top. The same nodes then serve every other covariance.
 *
 * The free and error shapes are those of the likeliest amplitude at every node. Were they to grow with the amplitude,
 * the determinant would favour small ones and pull every estimate down. A model that also weighs other data is left
 * with its own shapes and grid: there the shapes are what the amplitude means, and each node is dear.
 */
export function prepareCause(
  model: CauseModel,
  change: Columns,
  position: Float64Array,
  factor: Factor,
  errors: readonly ModelError[],
  logAfter: (amplitude: number) => number = () => 0,
): PreparedCause {
  const own = (amplitude: number): Candidate => candidate(model, change, position, amplitude);
  const height = (node: Candidate, shapes: WhitenedShapes): number =>
    logDensity(whiten(factor, node.residual), shapes) + node.logPrior + logAfter(node.amplitude);
  const ofOwn = (node: Candidate): number => height(node, whitenShapes(factor, node.shapes, errors));
  const isWeighingMore = model.logOther !== undefined;
  let nodes = [...model.amplitudes].map(own);
  let heights = nodes.map(ofOwn);
  if (!isWeighingMore) {
    for (let round = 0; round < ROUNDS; round++) {
      const shapes = (nodes[indexOfTop(heights)] as Candidate).shapes;
      const whitened = whitenShapes(factor, shapes, errors);
      nodes = nodes.map((node) => ({ ...node, shapes }));
      heights = nodes.map((node) => height(node, whitened));
      const between = model.discrete || nodes.length >= MOST_NODES ? [] : steepPlaces(nodes, heights, round);
      if (between.length === 0) break;
      nodes = [...nodes, ...between.map(own)].sort((a, b) => a.amplitude - b.amplitude);
      heights = nodes.map((node) => height(node, whitened));
    }
  }
  const top = Math.max(...heights);
  return {
    nodes: nodes
      .map(({ amplitude, logPrior, residual, shapes }, i) => ({
        amplitude,
        width: model.discrete ? 0 : width(nodes, i),
        residual,
        shapes,
        logWeight: logPrior + (model.discrete ? 0 : Math.log(width(nodes, i))),
      }))
      .filter((_, i) => (heights[i] as number) > top - HOPELESS),
  };
}

interface Candidate {
  readonly amplitude: number;
  readonly residual: Float64Array;
  readonly shapes: Shapes;
  readonly logPrior: number;
}

function candidate(model: CauseModel, change: Columns, position: Float64Array, amplitude: number): Candidate {
  const { shift, free } = model.effect(amplitude);
  const sloped: Columns = {
    re: shift.re.map((x, i) => x * (position[i] as number)),
    im: shift.im.map((x, i) => x * (position[i] as number)),
  };
  return {
    amplitude,
    residual: stacked(differenceOf(change, shift)),
    shapes: {
      free: free.map(stacked),
      // An error of the shift's own size is an error of the amplitude and no other shape.
      error: [turned(shift), scaled(sloped, 0.5), scaled(turned(sloped), 0.5)].map(stacked),
    },
    logPrior: model.logPrior(amplitude) + (model.logOther?.(amplitude) ?? 0),
  };
}

/** Middles of the intervals that are still steep, and of those at the top: a peak between two nodes would hide there. */
function steepPlaces(nodes: readonly Candidate[], heights: readonly number[], round: number): number[] {
  const top = Math.max(...heights);
  const places: number[] = [];
  for (let i = 0; i + 1 < nodes.length; i++) {
    const [a, b] = [heights[i] as number, heights[i + 1] as number];
    const atTop = round < SURE_ROUNDS && Math.max(a, b) === top;
    const steep = Math.max(a, b) > top - NEAR_TOP && Math.abs(a - b) > SMOOTH;
    if (atTop || steep) {
      places.push(((nodes[i] as Candidate).amplitude + (nodes[i + 1] as Candidate).amplitude) / 2);
    }
  }
  return places;
}

function indexOfTop(heights: readonly number[]): number {
  return heights.indexOf(Math.max(...heights));
}

function width(nodes: readonly Candidate[], i: number): number {
  const last = nodes.length - 1;
  const [low, high] = [nodes[Math.max(0, i - 1)] as Candidate, nodes[Math.min(last, i + 1)] as Candidate];
  return (high.amplitude - low.amplitude) / 2;
}

/** ln Σ exp(term), without overflow; −∞ for no terms. */
export function logSum(terms: readonly number[]): number {
  const best = Math.max(Number.NEGATIVE_INFINITY, ...terms);
  if (best === Number.NEGATIVE_INFINITY) return best;
  return best + Math.log(terms.reduce((sum, term) => sum + Math.exp(term - best), 0));
}
