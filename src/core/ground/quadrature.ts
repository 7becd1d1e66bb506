/** Writes every component of a vector-valued integrand at x into `out`. */
export type Integrand = (x: number, out: Float64Array) => void;

/** Integrals of every component, their error estimates, and whether the tolerance was met. */
export interface Quadrature {
  readonly value: Float64Array;
  readonly error: Float64Array;
  readonly converged: boolean;
}

/** A symmetric rule and a coarser one on every other abscissa; half of each, from the end inward. */
interface NestedRule {
  readonly nodes: readonly number[];
  readonly fine: readonly number[];
  readonly coarse: readonly number[];
}

/** Kronrod's 15 points over Gauss's 7. */
const LONG_RULE: NestedRule = {
  nodes: [
    0.9914553711208126, 0.9491079123427585, 0.8648644233597691, 0.7415311855993945, 0.5860872354676911,
    0.4058451513773972, 0.20778495500789848, 0,
  ],
  fine: [
    0.022935322010529224, 0.06309209262997856, 0.10479001032225019, 0.14065325971552592, 0.1690047266392679,
    0.19035057806478542, 0.20443294007529889, 0.20948214108472782,
  ],
  coarse: [0, 0.1294849661688697, 0, 0.27970539148927664, 0, 0.3818300505051189, 0, 0.4179591836734694],
};

/** Kronrod's 3 points over Gauss's 1, which are Gauss's 3. */
const SHORT_RULE: NestedRule = { nodes: [0.7745966692414834, 0], fine: [5 / 9, 8 / 9], coarse: [0, 2] };

/** Pieces narrower than this part of the whole are smooth enough for the short rule. */
const NARROW = 1 / 20;

/** The integrals over one piece and their error estimates. */
interface Piece {
  readonly rule: NestedRule;
  readonly from: number;
  readonly to: number;
  readonly value: Float64Array;
  readonly error: Float64Array;
}

/**
 * Globally adaptive Gauss–Kronrod quadrature of several integrands that share their
 * abscissae. Starts from the given pieces, so that kinks and jumps fall on their ends, and refines the
 * piece with the largest error until no component is off by more than the tolerance times the largest.
 *
 * Pieces that start narrow take 3 points, and 15 where that is not enough; the others 15. The error estimate is the difference to the coarser
 * rule, 1 or 7 points, which is far above the true error of the finer one for smooth integrands.
 *
 * @param breakpoints - rising, at least two
 * @param options - `offset`: what will be added to each integral, so that the tolerance is relative to
 * the sums; `maxPieces`: where to give up
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
  const narrow = NARROW * ((breakpoints[breakpoints.length - 1] as number) - (breakpoints[0] as number));
  const measure = (rule: NestedRule, from: number, to: number): Piece => {
    const piece = applyRule(rule, integrand, from, to, sample);
    accumulate(value, piece.value, 1);
    accumulate(error, piece.error, 1);
    return piece;
  };

  const pieces = breakpoints.slice(1).map((to, i) => {
    const from = breakpoints[i] as number;
    return measure(to - from < narrow ? SHORT_RULE : LONG_RULE, from, to);
  });
  for (;;) {
    const component = largest(error);
    const allowed = relativeTolerance * largestSum(value, offset);
    const converged = (error[component] as number) <= allowed;
    if (converged || pieces.length >= maxPieces) return { value, error, converged };
    const place = worstPiece(pieces, component);
    const worst = pieces[place] as Piece;
    accumulate(value, worst.value, -1);
    accumulate(error, worst.error, -1);
    if (worst.rule === SHORT_RULE) {
      pieces[place] = measure(LONG_RULE, worst.from, worst.to);
      continue;
    }
    const middle = (worst.from + worst.to) / 2;
    pieces[place] = measure(LONG_RULE, worst.from, middle);
    pieces.push(measure(LONG_RULE, middle, worst.to));
  }
}

function applyRule(
  rule: NestedRule,
  integrand: Integrand,
  from: number,
  to: number,
  sample: Float64Array,
): Piece {
  const { nodes, fine, coarse } = rule;
  const centre = (from + to) / 2;
  const half = (to - from) / 2;
  const value = new Float64Array(sample.length);
  const error = new Float64Array(sample.length);
  const middle = nodes.length - 1;
  for (let node = -middle; node <= middle; node += 1) {
    const place = middle - Math.abs(node);
    integrand(centre + Math.sign(node) * half * (nodes[place] as number), sample);
    const weight = half * (fine[place] as number);
    accumulate(value, sample, weight);
    accumulate(error, sample, weight - half * (coarse[place] as number));
  }
  for (let c = 0; c < error.length; c += 1) error[c] = Math.abs(error[c] as number);
  return { rule, from, to, value, error };
}

function largest(values: Float64Array): number {
  let place = 0;
  for (let c = 1; c < values.length; c += 1) {
    if ((values[c] as number) > (values[place] as number)) place = c;
  }
  return place;
}

function largestSum(value: Float64Array, offset: Float64Array): number {
  let most = 0;
  for (let c = 0; c < value.length; c += 1) {
    most = Math.max(most, Math.abs((value[c] as number) + (offset[c] as number)));
  }
  return most;
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
