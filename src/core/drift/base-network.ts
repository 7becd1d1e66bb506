import type { Columns } from './columns.ts';

/** What lies between the feed terminals and the antenna: a strap in series, then an insulator's capacitance across. */
export interface BaseNetwork {
  readonly strapH: number;
  readonly shuntF: number;
}

/** Antenna impedance behind the network, from what is seen at the terminals. */
export function behindNetwork(seen: Columns, frequencyHz: Float64Array, network: BaseNetwork): Columns {
  const n = frequencyHz.length;
  const inner = { re: new Float64Array(n), im: new Float64Array(n) };
  for (let i = 0; i < n; i++) {
    const omega = 2 * Math.PI * (frequencyHz[i] as number);
    shunt(
      seen.re[i] as number,
      (seen.im[i] as number) - omega * network.strapH,
      -omega * network.shuntF,
      inner,
      i,
    );
  }
  return inner;
}

/** What the terminals show of an antenna behind the network. */
export function throughNetwork(inner: Columns, frequencyHz: Float64Array, network: BaseNetwork): Columns {
  const n = frequencyHz.length;
  const seen = { re: new Float64Array(n), im: new Float64Array(n) };
  for (let i = 0; i < n; i++) {
    const omega = 2 * Math.PI * (frequencyHz[i] as number);
    shunt(inner.re[i] as number, inner.im[i] as number, omega * network.shuntF, seen, i);
    seen.im[i] = (seen.im[i] as number) + omega * network.strapH;
  }
  return seen;
}

/** Z/(1 + jBZ). */
function shunt(re: number, im: number, susceptance: number, target: Columns, index: number): void {
  const [a, b] = [1 - susceptance * im, susceptance * re];
  const size = a * a + b * b;
  target.re[index] = (re * a + im * b) / size;
  target.im[index] = (im * a - re * b) / size;
}

/** Γ = (Z − R0)/(Z + R0) over columns. */
export function reflectionOf(impedance: Columns, referenceOhm: number): Columns {
  const n = impedance.re.length;
  const reflection = { re: new Float64Array(n), im: new Float64Array(n) };
  for (let i = 0; i < n; i++) {
    const x = impedance.im[i] as number;
    const sum = (impedance.re[i] as number) + referenceOhm;
    const size = sum * sum + x * x;
    reflection.re[i] = (((impedance.re[i] as number) - referenceOhm) * sum + x * x) / size;
    reflection.im[i] = (2 * referenceOhm * x) / size;
  }
  return reflection;
}

/** Z = R0 (1 + Γ)/(1 − Γ) over columns; an open circuit comes out large, not infinite. */
export function impedanceOf(reflection: Columns, referenceOhm: number): Columns {
  const n = reflection.re.length;
  const impedance = { re: new Float64Array(n), im: new Float64Array(n) };
  for (let i = 0; i < n; i++) {
    const [re, im] = [reflection.re[i] as number, reflection.im[i] as number];
    const size = Math.max(1e-9, (1 - re) * (1 - re) + im * im);
    impedance.re[i] = (referenceOhm * (1 - re * re - im * im)) / size;
    impedance.im[i] = (2 * referenceOhm * im) / size;
  }
  return impedance;
}
