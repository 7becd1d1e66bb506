import type { CauseName } from '../../../src/core/drift/cause.ts';
import type { Random } from '../random.ts';
import { type Fault, HEALTHY, type TrueAntenna } from './true-antenna.ts';

const LIGHT = 299_792_458;

export type ChangeSize = 'small' | 'medium' | 'large';

/** What happened between before and after. */
export interface Change {
  readonly fault: Fault;
  readonly logSoil: number;
  readonly swingOhm: number;
  readonly within: boolean;
  readonly instrument: number;
  readonly truth: number | null;
}

/** A change of a cause and size; small ones are near what the site's own scatter hides. */
export function drawChange(
  r: Random,
  cause: CauseName,
  size: ChangeSize,
  antenna: TrueAntenna,
  soilScatter: number,
  neighbouring: number,
): Change {
  const of = (small: [number, number], medium: [number, number], large: [number, number]): number =>
    r.logBetween(...{ small, medium, large }[size]);
  const plain: Change = {
    fault: HEALTHY,
    logSoil: 0,
    swingOhm: 0,
    within: false,
    instrument: 0,
    truth: null,
  };
  const sign = r.chance(0.5) ? 1 : -1;
  switch (cause) {
    case 'none':
      return plain;
    case 'soil-moisture': {
      const logSoil = sign * Math.max(3 * soilScatter, of([0.25, 0.45], [0.45, 0.8], [0.8, 1.4]));
      return { ...plain, logSoil, truth: Math.exp(logSoil) };
    }
    case 'series-joint': {
      const jointOhm = of([0.8, 2], [2, 6], [6, 25]);
      const omega = 2 * Math.PI * (LIGHT / (antenna.heightM * 4));
      const jointFilmF = r.chance(0.5) ? r.between(0, 0.3) / (omega * jointOhm) : 0;
      const fault = {
        ...HEALTHY,
        jointOhm,
        jointFilmF,
        jointLaw: r.between(-0.3, 0.3),
        jointInductanceH: r.between(0, 5e-9),
      };
      return { ...plain, fault, truth: jointOhm };
    }
    case 'lost-radials': {
      const n = antenna.radialCount;
      const lost = Math.max(1, Math.min(n - 1, Math.round(n * of([0.12, 0.2], [0.2, 0.4], [0.4, 0.65]))));
      const start = Math.floor(r.between(0, n));
      const lostAtRandom = r.chance(neighbouring)
        ? Array.from({ length: lost }, (_, i) => (start + i) % n)
        : shuffled(r, n).slice(0, lost);
      return { ...plain, fault: { ...HEALTHY, lostAtRandom }, truth: lost };
    }
    case 'element-length': {
      const percent = sign * of([0.25, 0.6], [0.6, 1.5], [1.5, 5]);
      return { ...plain, fault: { ...HEALTHY, lengthFactor: 1 + percent / 100 }, truth: percent };
    }
    case 'feedline': {
      const lineLossDb = of([0.06, 0.15], [0.15, 0.5], [0.5, 2]);
      const lineDelayS = r.chance(0.6) ? r.between(0, 1) * 1e-9 * lineLossDb * 2 : 0;
      return { ...plain, fault: { ...HEALTHY, lineLossDb, lineDelayS }, truth: lineLossDb };
    }
    case 'intermittent': {
      const swingOhm = of([0.8, 2], [2, 5], [5, 20]);
      return { ...plain, swingOhm, within: r.chance(0.5), truth: swingOhm };
    }
    case 'instrument': {
      const instrument = of([0.01, 0.02], [0.02, 0.04], [0.04, 0.1]);
      return { ...plain, instrument, truth: null };
    }
  }
}

function shuffled(r: Random, n: number): number[] {
  return Array.from({ length: n }, (_, i) => ({ i, key: r.between(0, 1) }))
    .sort((a, b) => a.key - b.key)
    .map(({ i }) => i);
}
