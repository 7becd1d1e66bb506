/** Writes every component of a vector-valued integrand at x into `out`. */
export type Integrand = (x: number, out: Float64Array) => void;

/** Integrals of every component, their error estimates, and whether the tolerance was met. */
export interface Quadrature {
  readonly value: Float64Array;
  readonly error: Float64Array;
  readonly converged: boolean;
}

/** Abscissae of the 15-point Kronrod rule from the end inward; odd places are the 7-point Gauss rule. */
const NODES: readonly number[] = [
  0.9914553711208126, 0.9491079123427585, 0.8648644233597691, 0.7415311855993945, 0.5860872354676911,
  0.4058451513773972, 0.20778495500789848, 0,
];
const KRONROD: readonly number[] = [
  0.022935322010529224, 0.06309209262997856, 0.10479001032225019, 0.14065325971552592, 0.1690047266392679,
  0.19035057806478542, 0.20443294007529889, 0.20948214108472782,
];
const GAUSS: readonly number[] = [
  0, 0.1294849661688697, 0, 0.27970539148927664, 0, 0.3818300505051189, 0, 0.4179591836734694,
];

/** The integrals over one piece and their error estimates. */
interface Piece {
  readonly from: number;
  readonly to: number;
  readonly value: Float64Array;
  readonly error: Float64Array;
}

/**
 * Globally adaptive Gauss–Kronrod quadrature (7, 15 points) of several integrands that share their
 * abscissae. Starts from the given pieces, so that kinks and jumps fall on their ends, and halves the
 * piece with the largest error until every component is within its tolerance.
 *
 * The error estimate is |K15 − G7|, which is far above the true error of K15 for smooth integrands.
 *
 * @param breakpoints - rising, at least two
 * @param options - `offset`: what will be added to each integral, so that the tolerance is relative to
 * the sum; `maxPieces`: where to give up
 * Source: R. Piessens et al., QUADPACK (1983), routines QK15 and QAGP, whose abscissae these are.
 */
export function integrate(
  integrand: Integrand,
  breakpoints: readonly number[],
  options: { components: number; relativeTolerance: number; offset?: Float64Array; maxPieces?: number },
): Quadrature {
  const { components, relativeTolerance } = options;
  const offset = options.offset ?? new Float64Array(components);
  const maxPieces = options.maxPieces ?? 10 * breakpoints.length + 200;
  const value = new Float64Array(components);
  const error = new Float64Array(components);
  const sample = new Float64Array(components);
  const measure = (from: number, to: number): Piece => {
    const piece = kronrod(integrand, from, to, sample);
    accumulate(value, piece.value, 1);
    accumulate(error, piece.error, 1);
    return piece;
  };

  const pieces = breakpoints.slice(1).map((to, i) => measure(breakpoints[i] as number, to));
  for (;;) {
    const component = error.findIndex(
      (e, c) => e > relativeTolerance * Math.abs((value[c] as number) + (offset[c] as number)),
    );
    const converged = component < 0;
    if (converged || pieces.length >= maxPieces) return { value, error, converged };
    const place = worstPiece(pieces, component);
    const worst = pieces[place] as Piece;
    accumulate(value, worst.value, -1);
    accumulate(error, worst.error, -1);
    const middle = (worst.from + worst.to) / 2;
    pieces[place] = measure(worst.from, middle);
    pieces.push(measure(middle, worst.to));
  }
}

function kronrod(integrand: Integrand, from: number, to: number, sample: Float64Array): Piece {
  const centre = (from + to) / 2;
  const half = (to - from) / 2;
  const value = new Float64Array(sample.length);
  const error = new Float64Array(sample.length);
  for (let node = -7; node <= 7; node += 1) {
    const place = 7 - Math.abs(node);
    integrand(centre + Math.sign(node) * half * (NODES[place] as number), sample);
    const weight = half * (KRONROD[place] as number);
    accumulate(value, sample, weight);
    accumulate(error, sample, weight - half * (GAUSS[place] as number));
  }
  for (let c = 0; c < error.length; c += 1) error[c] = Math.abs(error[c] as number);
  return { from, to, value, error };
}

function worstPiece(pieces: readonly Piece[], component: number): number {
  let place = 0;
  let most = 0;
  for (let i = 0; i < pieces.length; i += 1) {
    const error = (pieces[i] as Piece).error[component] as number;
    if (error > most) [place, most] = [i, error];
  }
  return place;
}

function accumulate(sum: Float64Array, terms: Float64Array, weight: number): void {
  for (let c = 0; c < sum.length; c += 1) sum[c] = (sum[c] as number) + weight * (terms[c] as number);
}
