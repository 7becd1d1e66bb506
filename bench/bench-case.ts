/** One speed that matters, measured as a ratio against something named in the same run. */
export interface BenchCase {
  readonly name: string;
  /** What the ratio is against. */
  readonly against: string;
  readonly target: { readonly atMost: number } | { readonly atLeast: number };
  /** Measures and returns the ratio. */
  run(): Promise<number>;
}
