/**
 * Makes the demo's sweep files: `node --import tsx samples/make.ts`. Seeded, so that it writes the same bytes
 * each time. The physics is richer than what the tool fits (base capacitance, strap, an error of the instrument
 * that each mating of the connector draws anew), so that the demo is no mirror.
 */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { xoroshiro128plus } from 'pure-rand/generator/xoroshiro128plus';
import { add, type Complex, complex, divide, multiply, ONE, reciprocal } from '../src/core/complex.ts';
import { feedPointImpedanceOhm } from '../src/core/ground/feed-point.ts';
import type { RadialWire } from '../src/core/ground/radial-field.ts';
import type { Soil } from '../src/core/ground/soil.ts';
import { freeArea } from '../src/core/layout/free-area.ts';
import { wiresOf } from '../src/core/layout/planned-field.ts';
import { layEvenly } from '../src/core/layout/spread.ts';
import { parseQuantity } from '../src/core/quantity.ts';
import { impedanceToReflection, reflectionToImpedance } from '../src/core/sweep/reflection.ts';
import { createSweep, type Sweep } from '../src/core/sweep/sweep.ts';
import { readSite } from '../src/logbook/site-file.ts';
import { inLayout } from './layouts.ts';
import { SEASON, type SeasonVisit } from './season.ts';

const SHOTS = 3;
const POINTS = 121;
const [FROM_HZ, TO_HZ] = [6.5e6, 7.7e6];
const HERE = import.meta.dirname;

const random = xoroshiro128plus(20240406);
/** Normal deviate (Box–Muller). */
function normal(): number {
  const uniform = (): number => ((random.next() >>> 0) + 0.5) / 2 ** 32;
  return Math.sqrt(-2 * Math.log(uniform())) * Math.cos(2 * Math.PI * uniform());
}

const site = await readSite(`${HERE}/site.json`);
if (site.lot === null) throw new Error('the sample site has a lot');
const area = freeArea(site.lot);
const lengthM = parseQuantity(SEASON.radials.length, 'length');
const routes = layEvenly(area, SEASON.radials.count, lengthM, { wires: [], bearingsDeg: [] });
const wires = wiresOf(routes, 0.8e-3);

rmSync(`${HERE}/sweeps`, { recursive: true, force: true });
mkdirSync(`${HERE}/sweeps`);
const lying: RadialWire[] = [];
for (const visit of SEASON.visits) {
  lying.push(...visit.laid.map((number) => wires[number - 1] as RadialWire));
  const truth = antenna(visit, lying);
  const mating = errorBox(0.0015);
  for (let shot = 1; shot <= SHOTS; shot++) {
    const { ending, bytes } = inLayout(visit.layout, seenBy(truth, mating, errorBox(0.0006)), visit.at);
    writeFileSync(`${HERE}/sweeps/${visit.at.slice(0, 10)}-shot${shot}.${ending}`, bytes);
  }
}

/** Impedance at the feed point: the antenna on its ground, with joint, strap and base insulator. */
function antenna(visit: SeasonVisit, field: readonly RadialWire[]): (frequencyHz: number) => Complex {
  // An invented garden: conductivity and permittivity grow with moisture, and the soil is patchy from day to day.
  const patchy = 1 + 0.06 * normal();
  const soil: Soil = {
    conductivitySPerM: (0.0008 + 0.024 * visit.moisture ** 1.3) * patchy,
    relativePermittivity: 4 + 55 * visit.moisture,
  };
  const monopole = { heightM: 10.1, radiusM: 0.0125 };
  return (frequencyHz) => {
    const omega = 2 * Math.PI * frequencyHz;
    const base = feedPointImpedanceOhm({ monopole, soil, field: { wires: field }, frequencyHz });
    // A corroded joint is a resistance with a film's capacitance across it.
    const joint = reciprocal({ re: 1 / visit.jointOhm, im: omega * 0.4e-9 });
    const series = add(add(base, joint), complex(0, omega * 60e-9));
    return reciprocal(add(reciprocal(series), complex(0, omega * 5e-12)));
  };
}

interface ErrorBox {
  readonly directivity: Complex;
  readonly tracking: Complex;
  readonly match: Complex;
}

/** A small error of the instrument: Γ seen = directivity + (1 + tracking)·Γ/(1 − match·Γ). */
function errorBox(size: number): ErrorBox {
  const draw = (): Complex => complex(size * normal(), size * normal());
  return { directivity: draw(), tracking: draw(), match: draw() };
}

function seenBy(truth: (frequencyHz: number) => Complex, ...boxes: readonly ErrorBox[]): Sweep {
  const frequencyHz = Float64Array.from({ length: POINTS }, (_, i) =>
    Math.round(FROM_HZ + ((TO_HZ - FROM_HZ) * i) / (POINTS - 1)),
  );
  const seen = Array.from(frequencyHz, (f) => {
    let reflection = impedanceToReflection(truth(f), 50) as Complex;
    for (const { directivity, tracking, match } of boxes) {
      const back = add(ONE, multiply(match, { re: -reflection.re, im: -reflection.im }));
      reflection = add(directivity, divide(multiply(add(ONE, tracking), reflection), back));
    }
    const noisy = add(reflection, complex(0.0004 * normal(), 0.0004 * normal()));
    return reflectionToImpedance(noisy, 50) as Complex;
  });
  return createSweep({
    frequencyHz,
    resistanceOhm: Float64Array.from(seen, ({ re }) => re),
    reactanceOhm: Float64Array.from(seen, ({ im }) => im),
  });
}
