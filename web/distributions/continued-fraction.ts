const TINY = 1e-300;
const MOST_STEPS = 20_000;

/**
 * Value of b0 + a1/(b1 + a2/(b2 + …)) by the modified Lentz method.
 * Source: W. J. Lentz (1976) as in I. J. Thompson and A. R. Barnett, J. Comput. Phys. 64 (1986), 490–509; from memory.
 *
 * @param term - the nth `[a, b]`, n from 1
 */
export function continuedFraction(b0: number, term: (n: number) => readonly [a: number, b: number]): number {
  let value = b0 || TINY;
  let c = value;
  let d = 0;
  for (let n = 1; n <= MOST_STEPS; n++) {
    const [a, b] = term(n);
    d = 1 / (b + a * d || TINY);
    c = b + a / c || TINY;
    value *= c * d;
    if (Math.abs(c * d - 1) < 1e-16) break;
  }
  return value;
}
