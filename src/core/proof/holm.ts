/**
 * Adjusts probabilities for having looked at several things at once, so that the chance of even one false
 * claim among them stays at the stated level.
 * Source: S. Holm, A simple sequentially rejective multiple test procedure, Scand. J. Statist. 6 (1979).
 *
 * @param probabilities - of each test on its own, 0 to 1
 * @returns adjusted probabilities in the same order, each ≥ its own and ≤ 1
 */
export function holmAdjusted(probabilities: readonly number[]): number[] {
  const order = probabilities.map((_, i) => i).sort((a, b) => at(probabilities, a) - at(probabilities, b));
  const adjusted = new Array<number>(probabilities.length);
  let soFar = 0;
  order.forEach((index, rank) => {
    soFar = Math.max(soFar, Math.min(1, at(probabilities, index) * (probabilities.length - rank)));
    adjusted[index] = soFar;
  });
  return adjusted;
}

function at(values: readonly number[], index: number): number {
  return values[index] as number;
}
