/** Forgives the last digits of binary arithmetic, so that 0.3·10 counts as 3. */
const SLACK = 1e-9;

/** Up to the next whole `1/perUnit`: what people must keep, or a mean power they meet. */
export function roundUp(value: number, perUnit: number): number {
  return Math.ceil(value * perUnit * (1 - SLACK)) / perUnit;
}

/** Down to the whole `1/perUnit` before: what people have. */
export function roundDown(value: number, perUnit: number): number {
  return Math.floor(value * perUnit * (1 + SLACK)) / perUnit;
}

/** Down to this many significant digits: what a transmitter may give. */
export function roundDownSignificant(value: number, digits: number): number {
  if (!(value > 0) || !Number.isFinite(value)) return value;
  const exponent = digits - 1 - Math.floor(Math.log10(value));
  return exponent >= 0
    ? roundDown(value, 10 ** exponent)
    : Math.floor(value / 10 ** -exponent) * 10 ** -exponent;
}
