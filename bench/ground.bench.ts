import { SPEED_OF_LIGHT, VACUUM_PERMEABILITY } from '../src/core/ground/free-space.ts';
import { groundIntegrals } from '../src/core/ground/ground-integrals.ts';
import type { GroundSystem } from '../src/core/ground/ground-system.ts';
import { uniformField } from '../src/core/ground/radial-field.ts';
import { soilImpedanceOhm } from '../src/core/ground/soil.ts';
import type { BenchCase } from './bench-case.ts';

const frequencyHz = 7.1e6;
const COUNT = 60;
const LENGTH_M = 8;
const RADIUS_M = 0.8e-3;
const system: GroundSystem = {
  monopole: { heightM: 10.1, radiusM: 0.0125 },
  soil: { conductivitySPerM: 0.005, relativePermittivity: 13 },
  field: uniformField(COUNT, LENGTH_M, RADIUS_M),
  frequencyHz,
};

const PANELS = 3000;
/** Two-point Gauss–Legendre, the least that the name allows. */
const NODE = 1 / Math.sqrt(3);

/** The same loss resistance with equal panels up to the wire ends and from there to λ/2, all inline. */
function plainLossOhm(): number {
  const k = (2 * Math.PI * frequencyHz) / SPEED_OF_LIGHT;
  const farM = Math.PI / k;
  const inside = Math.round((PANELS * LENGTH_M) / farM);
  const sum = plainIntegral(k, 0, LENGTH_M, inside) + plainIntegral(k, LENGTH_M, farM, PANELS - inside);
  return sum / Math.sin(k * system.monopole.heightM) ** 2;
}

function plainIntegral(k: number, fromM: number, toM: number, panels: number): number {
  const { re: resistance, im: reactance } = soilImpedanceOhm(system.soil, frequencyHz);
  const height = system.monopole.heightM;
  const cosine = Math.cos(k * height);
  const half = (toM - fromM) / panels / 2;
  let sum = 0;
  for (let panel = 0; panel < panels; panel += 1) {
    for (let side = -1; side <= 1; side += 2) {
      const rho = fromM + half * (2 * panel + 1 + side * NODE);
      const slant = k * Math.sqrt(rho * rho + height * height);
      const re = Math.sin(slant) - cosine * Math.sin(k * rho);
      const im = Math.cos(slant) - cosine * Math.cos(k * rho);
      let surface = resistance;
      if (rho < LENGTH_M) {
        const ratio = rho / (COUNT * RADIUS_M);
        const spacing = (2 * Math.PI * rho) / COUNT;
        const grid = ratio > 1 ? frequencyHz * VACUUM_PERMEABILITY * spacing * Math.log(ratio) : 0;
        surface = (grid * grid * resistance) / (resistance ** 2 + (grid + reactance) ** 2);
      }
      sum += (half * surface * (re * re + im * im)) / (2 * Math.PI * rho);
    }
  }
  return sum;
}

/** Shortest time of a call over five rounds, ms. */
function callMs(action: () => unknown, times: number): number {
  const rounds = Array.from({ length: 6 }, () => {
    const start = performance.now();
    for (let i = 0; i < times; i += 1) action();
    return (performance.now() - start) / times;
  });
  return Math.min(...rounds.slice(1));
}

export const cases: readonly BenchCase[] = [
  {
    name: 'ground loss of a uniform field, with its error estimate and reaction',
    against:
      'how many fit into one loss integral of 3,000 plain Gauss–Legendre panels (2 points), both within 1e-4',
    target: { atLeast: 20 },
    async run() {
      const difference = plainLossOhm() / groundIntegrals(system).lossOhm - 1;
      if (!(Math.abs(difference) < 1e-4)) throw new Error(`the two integrals differ by ${difference}`);
      return callMs(plainLossOhm, 200) / callMs(() => groundIntegrals(system), 2000);
    },
  },
];
