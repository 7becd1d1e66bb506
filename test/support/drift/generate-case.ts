import type { Complex } from '../../../src/core/complex.ts';
import { CAUSES, type CauseName } from '../../../src/core/drift/cause.ts';
import { chebyshevNodes, interpolate } from '../../../src/core/drift/smooth-table.ts';
import type { MeasuredVisit } from '../../../src/core/record.ts';
import type { Site } from '../../../src/core/site.ts';
import { atPlane, type FeedLine } from '../../../src/core/sweep/feed-line.ts';
import { createSweep, type Sweep } from '../../../src/core/sweep/sweep.ts';
import { grid } from '../antenna-model.ts';
import { type Random, random } from '../random.ts';
import { drawAntenna } from './draw-antenna.ts';
import { type ChangeSize, drawChange } from './draw-change.ts';
import { drawLine, seenThrough } from './real-line.ts';
import { siteOf } from './site-of.ts';
import {
  type ErrorBox,
  errorBox,
  evenPhysics,
  type Fault,
  HEALTHY,
  linePhysics,
  type Physics,
  seenReflection,
  surfacePhysics,
  type TrueAntenna,
} from './true-antenna.ts';
import type { Variant } from './variants.ts';

/** A case with its truth. */
export interface DriftCase {
  readonly cause: CauseName;
  readonly size: ChangeSize;
  /** In the unit of the cause's estimate; null where there is none. */
  readonly truth: number | null;
  readonly before: readonly MeasuredVisit[];
  readonly after: readonly MeasuredVisit[];
  readonly referenceBefore: readonly MeasuredVisit[];
  readonly referenceAfter: readonly MeasuredVisit[];
  readonly site: Site | null;
  /** The line that the sweeps have been moved through to the feed point, as the site has it. */
  readonly line: FeedLine | null;
}

const PHYSICS: Readonly<Record<Variant['physics'], Physics>> = {
  surface: surfacePhysics,
  even: evenPhysics,
  line: linePhysics,
};
const BANDS = [1.9e6, 3.6e6, 7.1e6, 10.1e6, 14.2e6, 18.1e6, 21.2e6, 28.5e6];

/** A case of a variant: the same seed makes the same case. */
export function generateCase(variant: Variant, seed: number): DriftCase {
  const r = random(seed);
  const cause = r.pick(CAUSES);
  const size = r.pick(['small', 'medium', 'large'] as const);
  const middleHz = r.pick(BANDS);
  const antenna = drawAntenna(r, middleHz, variant, variant.bands === 'one' ? 0.3 : 0.25);
  const hard = variant.spread === 'hard';
  const soilScatter = r.logBetween(...(variant.soilScatter ?? [0.02, hard ? 0.1 : 0.06]));
  const connection = r.logBetween(0.0005, hard ? 0.003 : 0.0015);
  const perShot = connection * r.between(0.1, 0.6);
  const noise = r.logBetween(0.0001, hard ? 0.002 : 0.001);
  const points = r.pick([101, 151, 201, 401]);
  const width = r.between(0.05, 0.22);
  const sweeps = [grid(middleHz * (1 - width / 2), middleHz * (1 + width / 2), points)];
  if (variant.bands === 'wide') {
    const [low, high] = [middleHz * r.between(0.5, 0.8), middleHz * r.between(1.2, 1.6)];
    sweeps[0] = grid(low, high, points);
  }
  if (variant.bands === 'several') {
    const other = middleHz * r.pick([0.5, 0.7, 1.42]);
    sweeps.push(grid(other * (1 - width / 2), other * (1 + width / 2), points));
  }
  if (variant.bands === 'segments') sweeps[0] = segments(r, middleHz, width, points);
  const change = drawChange(r, cause, size, antenna, soilScatter, variant.neighbouring);
  const physics = PHYSICS[variant.physics];
  const lines = variant.line ? drawLine(r, middleHz) : null;
  const throughRealLine = (reflection: Complex, frequencyHz: number): Complex =>
    lines === null ? reflection : seenThrough(lines.real, reflection, frequencyHz);
  const asTold = (sweep: Sweep): Sweep =>
    lines === null ? sweep : atPlane({ ...sweep, plane: 'shack' }, lines.stated, 'feedpoint');
  const loads = r.chance(0.5) || cause === 'instrument';
  const loadReflection = r.chance(0.7)
    ? { re: r.normal(0.01), im: r.normal(0.01) }
    : { re: r.between(-0.4, 0.4), im: r.normal(0.02) };
  const drift: ErrorBox | null = change.instrument > 0 ? errorBox(r, change.instrument) : null;

  const visit = (label: string, faulty: boolean): { antenna: MeasuredVisit; load: MeasuredVisit } => {
    const moisture = r.normal(soilScatter) + (faulty ? change.logSoil : 0);
    const today: TrueAntenna = {
      ...antenna,
      heightM: antenna.heightM * (1 + r.normal(1e-4)),
      conductivitySPerM: antenna.conductivitySPerM * Math.exp(moisture),
      relativePermittivity: Math.max(
        2,
        antenna.relativePermittivity * Math.exp(r.between(0.4, 0.7) * moisture + r.normal(soilScatter * 0.2)),
      ),
    };
    const fault = faulty ? change.fault : HEALTHY;
    const mating = errorBox(r, connection);
    const count = Math.round(r.between(variant.shots[0] - 0.49, variant.shots[1] + 0.49));
    const shots: Sweep[] = [];
    const loadShots: Sweep[] = [];
    const innerCurves = sweeps.map((f) => innerCurve(physics, today, fault, f));
    const needed = faulty && cause === 'intermittent' ? Math.max(2, count) : count;
    for (let s = 0; s < needed; s++) {
      const box = errorBox(r, perShot);
      const level = faulty && change.swingOhm > 0 ? Math.abs(r.normal(change.swingOhm)) : 0;
      const flicker = faulty && change.swingOhm > 0 && change.within;
      let contact = level;
      sweeps.forEach((f, band) => {
        const inner = innerCurves[band] as readonly Complex[];
        shots.push(
          asTold(
            sweepOf(f, (i, x) => {
              if (flicker && r.chance(0.03))
                contact = r.chance(0.4) ? 0 : Math.abs(r.normal(change.swingOhm));
              const z = inner[i] as Complex;
              const seen = seenReflection(z, today, fault, f[i] as number, middleHz, contact);
              const mated = box(mating(throughRealLine(seen, f[i] as number), x), x);
              return noisy(r, faulty && drift !== null ? drift(mated, x) : mated, noise);
            }),
          ),
        );
      });
      const loadMating = errorBox(r, connection);
      loadShots.push(
        asTold(
          sweepOf(sweeps[0] as Float64Array, (_, x) => {
            const mated = box(loadMating(loadReflection, x), x);
            return noisy(r, faulty && drift !== null ? drift(mated, x) : mated, noise);
          }),
        ),
      );
    }
    return {
      antenna: { label, time: null, shots, referenceLoad: [] },
      load: { label, time: null, shots: loadShots, referenceLoad: [] },
    };
  };
  const beforeCount = Math.round(r.between(variant.beforeVisits[0] - 0.49, variant.beforeVisits[1] + 0.49));
  const before = Array.from({ length: beforeCount }, (_, i) => visit(`before ${i + 1}`, false));
  const after = Array.from({ length: r.pick([1, 1, 2, 3]) }, (_, i) => visit(`after ${i + 1}`, true));
  return {
    cause,
    size,
    truth: change.truth,
    before: before.map((entry) => entry.antenna),
    after: after.map((entry) => entry.antenna),
    referenceBefore: loads ? before.map((entry) => entry.load) : [],
    referenceAfter: loads ? after.map((entry) => entry.load) : [],
    site: variant.withSite ? siteNear(r, antenna, variant.siteError) : null,
    line: lines?.stated ?? null,
  };
}

/** One grid over two or three bands with nothing between them. */
function segments(r: Random, middleHz: number, width: number, points: number): Float64Array {
  const bands = r.pick([
    [1, 1.4],
    [0.7, 1],
    [0.7, 1, 1.3],
    [0.75, 1],
  ]);
  const each = Math.ceil(points / bands.length);
  return Float64Array.from(
    bands.flatMap((share) => [
      ...grid(middleHz * share * (1 - width / 3), middleHz * share * (1 + width / 3), each),
    ]),
  );
}

/** The physics at a few frequencies, carried to the others. */
function innerCurve(physics: Physics, antenna: TrueAntenna, fault: Fault, f: Float64Array): Complex[] {
  const nodes = chebyshevNodes(f[0] as number, f[f.length - 1] as number);
  const values = [...nodes.frequencyHz].map((at) => physics(antenna, fault, at));
  const columns = interpolate(nodes, values, f);
  return Array.from(f, (_, i) => ({ re: columns.re[i] as number, im: columns.im[i] as number }));
}

function sweepOf(f: Float64Array, reflection: (index: number, position: number) => Complex): Sweep {
  const resistanceOhm = new Float64Array(f.length);
  const reactanceOhm = new Float64Array(f.length);
  const [low, high] = [f[0] as number, f[f.length - 1] as number];
  for (let i = 0; i < f.length; i++) {
    const g = reflection(i, (2 * (f[i] as number) - low - high) / (high - low));
    const size = (1 - g.re) ** 2 + g.im ** 2;
    // As a file holds it.
    resistanceOhm[i] = Number(((50 * (1 - g.re ** 2 - g.im ** 2)) / size).toPrecision(6));
    reactanceOhm[i] = Number(((100 * g.im) / size).toPrecision(6));
  }
  return createSweep({ frequencyHz: f, resistanceOhm, reactanceOhm });
}

function noisy(r: Random, reflection: Complex, sd: number): Complex {
  return { re: reflection.re + r.normal(sd), im: reflection.im + r.normal(sd) };
}

/** A site file's idea of the antenna: tape-measure heights, a guessed soil. */
function siteNear(r: Random, antenna: TrueAntenna, error: number): Site {
  return siteOf({
    heightM: antenna.heightM * (1 + r.normal(0.008 * error)),
    diameterM: 2 * antenna.radiusM * Math.exp(r.normal(0.15 * error)),
    radialDiameterM: 2 * antenna.radialRadiusM,
    count: antenna.radialCount,
    lengthM: antenna.radialLengthM * (1 + r.normal(0.03 * error)),
    conductivitySPerM: antenna.conductivitySPerM * Math.exp(r.normal(0.5 * error)),
    relativePermittivity: Math.max(3, antenna.relativePermittivity * Math.exp(r.normal(0.25 * error))),
  });
}
