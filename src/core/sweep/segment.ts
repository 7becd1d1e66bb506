import { reflectionSize } from './reflection.ts';

/**
 * Between two neighbouring points the impedance is taken as linear in frequency, so that SWR and
 * reflection follow the arc they follow on the antenna. Everything here is exact under that one rule.
 * It is poor only where Z has a pole between two points (a parallel resonance swept too coarsely).
 */
export interface Segment {
  readonly startOhm: readonly [resistance: number, reactance: number];
  readonly endOhm: readonly [resistance: number, reactance: number];
}

/** |Γ| at the fraction t (0 to 1) of the way along. */
export function sizeAlong(segment: Segment, t: number, referenceOhm: number): number {
  const [r1, x1] = segment.startOhm;
  const [r2, x2] = segment.endOhm;
  return reflectionSize(r1 + t * (r2 - r1), x1 + t * (x2 - x1), referenceOhm);
}

/**
 * Fraction of the way, 0 to 1, at which |Γ| is least.
 * |Γ|² is a ratio of two quadratics in t; its derivative vanishes where a quadratic does.
 */
export function leastReflection(segment: Segment, referenceOhm: number): number {
  const [above, below] = quadratics(segment, referenceOhm);
  const candidates = roots(
    above.a * below.b - above.b * below.a,
    2 * (above.a * below.c - above.c * below.a),
    above.b * below.c - above.c * below.b,
  ).filter((t) => t > 0 && t < 1);
  let best = 0;
  let least = sizeAlong(segment, 0, referenceOhm);
  for (const t of [...candidates, 1]) {
    const size = sizeAlong(segment, t, referenceOhm);
    if (size < least) {
      least = size;
      best = t;
    }
  }
  return best;
}

/** Fractions of the way, within 0 to 1 and rising, at which |Γ| equals a limit. */
export function reflectionCrossings(segment: Segment, limit: number, referenceOhm: number): number[] {
  const [above, below] = quadratics(segment, referenceOhm);
  const square = limit * limit;
  return roots(above.a - square * below.a, above.b - square * below.b, above.c - square * below.c).filter(
    (t) => t >= 0 && t <= 1,
  );
}

interface Quadratic {
  readonly a: number;
  readonly b: number;
  readonly c: number;
}

/** |Z − R0|² and |Z + R0|² as quadratics a t² + b t + c. */
function quadratics(segment: Segment, referenceOhm: number): [Quadratic, Quadratic] {
  const [r1, x1] = segment.startOhm;
  const dr = segment.endOhm[0] - r1;
  const dx = segment.endOhm[1] - x1;
  const square = (r: number): Quadratic => ({
    a: dr * dr + dx * dx,
    b: 2 * (r * dr + x1 * dx),
    c: r * r + x1 * x1,
  });
  return [square(r1 - referenceOhm), square(r1 + referenceOhm)];
}

/** Real roots of a t² + b t + c, rising, by the form that does not cancel. */
function roots(a: number, b: number, c: number): number[] {
  if (a === 0) return b === 0 ? [] : [-c / b];
  const discriminant = b * b - 4 * a * c;
  if (discriminant < 0) return [];
  const q = -(b + (b < 0 ? -1 : 1) * Math.sqrt(discriminant)) / 2;
  return q === 0 ? [0] : [q / a, c / q].sort((s, t) => s - t);
}
