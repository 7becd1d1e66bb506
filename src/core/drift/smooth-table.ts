import type { Complex } from '../complex.ts';
import { type Columns, emptyColumns } from './columns.ts';

/** Frequencies at which a smooth curve over a stretch is computed, so that the costly physics runs only there. */
export interface NodeSet {
  readonly frequencyHz: Float64Array;
  /** Barycentric weights of the nodes. */
  readonly weights: Float64Array;
}

/** Nodes per stretch: 4 for a band, up to 14 for a sweep over several octaves. */
function nodeCount(fromHz: number, toHz: number): number {
  return Math.min(14, 4 + Math.round(5 * Math.log2(toHz / fromHz)));
}

/**
 * Chebyshev nodes on a logarithmic frequency axis: the curve through them is the near-best polynomial.
 * Source: J.-P. Berrut, L. N. Trefethen, "Barycentric Lagrange Interpolation", SIAM Review 46, 2004, eq. (5.3).
 */
export function chebyshevNodes(fromHz: number, toHz: number): NodeSet {
  const n = nodeCount(fromHz, toHz);
  const middle = Math.log(fromHz * toHz) / 2;
  const half = Math.log(toHz / fromHz) / 2;
  const angle = (i: number): number => ((2 * i + 1) * Math.PI) / (2 * n);
  return {
    frequencyHz: Float64Array.from({ length: n }, (_, i) => Math.exp(middle - half * Math.cos(angle(i)))),
    weights: Float64Array.from({ length: n }, (_, i) => (i % 2 === 0 ? 1 : -1) * Math.sin(angle(i))),
  };
}

/** Values at the nodes carried to other frequencies of the stretch. */
export function interpolate(nodes: NodeSet, values: readonly Complex[], frequencyHz: Float64Array): Columns {
  const result = emptyColumns(frequencyHz.length);
  const logs = nodes.frequencyHz.map(Math.log);
  for (let i = 0; i < frequencyHz.length; i++) {
    const x = Math.log(frequencyHz[i] as number);
    let [re, im, sum] = [0, 0, 0];
    for (let k = 0; k < logs.length; k++) {
      const distance = x - (logs[k] as number);
      const weight = (nodes.weights[k] as number) / (Math.abs(distance) < 1e-12 ? 1e-12 : distance);
      re += weight * (values[k] as Complex).re;
      im += weight * (values[k] as Complex).im;
      sum += weight;
    }
    result.re[i] = re / sum;
    result.im[i] = im / sum;
  }
  return result;
}

/** Linear interpolation in a table of curves over a rising parameter, clamped to its ends. */
export function between(parameter: Float64Array, curves: readonly Columns[], wanted: number): Columns {
  const n = parameter.length;
  let i = 0;
  while (i < n - 2 && (parameter[i + 1] as number) < wanted) i++;
  const span = (parameter[i + 1] as number) - (parameter[i] as number);
  const t = Math.min(1, Math.max(0, (wanted - (parameter[i] as number)) / span));
  const [a, b] = [curves[i] as Columns, curves[i + 1] as Columns];
  return {
    re: a.re.map((x, k) => x + t * ((b.re[k] as number) - x)),
    im: a.im.map((x, k) => x + t * ((b.im[k] as number) - x)),
  };
}
