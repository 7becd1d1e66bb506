import { electricalLengthRad, type FeedLine, matchedLossDb } from '../sweep/feed-line.ts';
import { type Columns, emptyColumns } from './columns.ts';
import type { Plane } from './plane.ts';

/** What lies between the antenna and the plane of measurement: an insulator's capacitance across, a strap, a line. */
export interface FeedPath {
  readonly strapH: number;
  readonly shuntF: number;
  /** Null where the sweeps were taken at the feed point. */
  readonly line: FeedLine | null;
}

/** Reflection at the plane of measurement, from the antenna's own impedance. */
export function reflectionThrough(
  antenna: Columns,
  frequencyHz: Float64Array,
  path: FeedPath,
  plane: Plane,
): Columns {
  const fed = emptyColumns(frequencyHz.length);
  for (let i = 0; i < frequencyHz.length; i++) {
    const omega = 2 * Math.PI * (frequencyHz[i] as number);
    shunt(antenna.re[i] as number, antenna.im[i] as number, omega * path.shuntF, fed, i);
    fed.im[i] = (fed.im[i] as number) + omega * path.strapH;
  }
  if (path.line === null) return plane.told(reflectionOf(fed, plane.referenceOhm), frequencyHz);
  const near = alongLine(reflectionOf(fed, path.line.impedanceOhm), path.line, frequencyHz, 1);
  return plane.told(inReference(near, path.line.impedanceOhm, plane.referenceOhm), frequencyHz);
}

/** The antenna's own impedance behind the path, from the reflection at the plane of measurement. */
export function behindPath(
  reflection: Columns,
  frequencyHz: Float64Array,
  path: FeedPath,
  plane: Plane,
): Columns {
  const seen = plane.untold(reflection, frequencyHz);
  const lineOhm = path.line?.impedanceOhm ?? plane.referenceOhm;
  const near = inReference(seen, plane.referenceOhm, lineOhm);
  const far = path.line === null ? near : alongLine(near, path.line, frequencyHz, -1);
  const fed = impedanceOf(far, lineOhm);
  const antenna = emptyColumns(frequencyHz.length);
  for (let i = 0; i < frequencyHz.length; i++) {
    const omega = 2 * Math.PI * (frequencyHz[i] as number);
    const reactance = (fed.im[i] as number) - omega * path.strapH;
    shunt(fed.re[i] as number, reactance, -omega * path.shuntF, antenna, i);
  }
  return antenna;
}

/** Γ·10^(∓A/10)·exp(∓j2βl) in the line's own reference: toward the instrument (1) or the antenna (−1). */
function alongLine(
  { re, im }: Columns,
  line: FeedLine,
  frequencyHz: Float64Array,
  direction: 1 | -1,
): Columns {
  const moved = emptyColumns(re.length);
  for (let i = 0; i < re.length; i++) {
    const f = frequencyHz[i] as number;
    const size = 10 ** ((-direction * matchedLossDb(line, f)) / 10);
    const turn = -2 * direction * electricalLengthRad(line, f);
    const [a, b] = [size * Math.cos(turn), size * Math.sin(turn)];
    moved.re[i] = (re[i] as number) * a - (im[i] as number) * b;
    moved.im[i] = (re[i] as number) * b + (im[i] as number) * a;
  }
  return moved;
}

/** Reflection told in another real reference: (Γ + k)/(1 + kΓ), k = (R1 − R2)/(R1 + R2). */
function inReference({ re, im }: Columns, fromOhm: number, toOhm: number): Columns {
  if (fromOhm === toOhm) return { re, im };
  const k = (fromOhm - toOhm) / (fromOhm + toOhm);
  const told = emptyColumns(re.length);
  for (let i = 0; i < re.length; i++) {
    const [x, y] = [re[i] as number, im[i] as number];
    const [a, b] = [1 + k * x, k * y];
    const size = a * a + b * b;
    told.re[i] = ((x + k) * a + y * b) / size;
    told.im[i] = (y * a - (x + k) * b) / size;
  }
  return told;
}

/** Z/(1 + jBZ). */
function shunt(re: number, im: number, susceptance: number, target: Columns, index: number): void {
  const [a, b] = [1 - susceptance * im, susceptance * re];
  const size = a * a + b * b;
  target.re[index] = (re * a + im * b) / size;
  target.im[index] = (im * a - re * b) / size;
}

/** Γ = (Z − R0)/(Z + R0). */
function reflectionOf(impedance: Columns, referenceOhm: number): Columns {
  const reflection = emptyColumns(impedance.re.length);
  for (let i = 0; i < reflection.re.length; i++) {
    const x = impedance.im[i] as number;
    const sum = (impedance.re[i] as number) + referenceOhm;
    const size = sum * sum + x * x;
    reflection.re[i] = (((impedance.re[i] as number) - referenceOhm) * sum + x * x) / size;
    reflection.im[i] = (2 * referenceOhm * x) / size;
  }
  return reflection;
}

/** Z = R0 (1 + Γ)/(1 − Γ); an open circuit comes out large, not infinite. */
function impedanceOf(reflection: Columns, referenceOhm: number): Columns {
  const impedance = emptyColumns(reflection.re.length);
  for (let i = 0; i < impedance.re.length; i++) {
    const [re, im] = [reflection.re[i] as number, reflection.im[i] as number];
    const size = Math.max(1e-9, (1 - re) * (1 - re) + im * im);
    impedance.re[i] = (referenceOhm * (1 - re * re - im * im)) / size;
    impedance.im[i] = (2 * referenceOhm * im) / size;
  }
  return impedance;
}
