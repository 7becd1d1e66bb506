import {
  add,
  type Complex,
  complex,
  divide,
  multiply,
  ONE,
  reciprocal,
  scale,
} from '../../../src/core/complex.ts';
import { feedPointImpedanceOhm } from '../../../src/core/ground/feed-point.ts';
import { uniformField } from '../../../src/core/ground/radial-field.ts';
import type { Random } from '../random.ts';

/** An antenna as it really is: what a site file says of it is only near. */
export interface TrueAntenna {
  readonly heightM: number;
  readonly radiusM: number;
  readonly conductivitySPerM: number;
  readonly relativePermittivity: number;
  readonly radialCount: number;
  readonly radialLengthM: number;
  readonly radialRadiusM: number;
  readonly strapH: number;
  readonly shuntF: number;
  readonly ownLossOhm: number;
  /** A small resonance of something near (a fence, the outside of the cable): strength in Ω, where, how sharp. */
  readonly neighbour: { readonly ohm: number; readonly hz: number; readonly q: number };
}

/** What is wrong with it on the day. */
export interface Fault {
  readonly lengthFactor: number;
  readonly lostAtRandom: readonly number[];
  readonly jointOhm: number;
  readonly jointFilmF: number;
  readonly jointLaw: number;
  readonly jointInductanceH: number;
  readonly lineLossDb: number;
  readonly lineDelayS: number;
}

export const HEALTHY: Fault = {
  lengthFactor: 1,
  lostAtRandom: [],
  jointOhm: 0,
  jointFilmF: 0,
  jointLaw: 0,
  jointInductanceH: 0,
  lineLossDb: 0,
  lineDelayS: 0,
};

/** How the radiator and the ground are computed. */
export type Physics = (antenna: TrueAntenna, fault: Fault, frequencyHz: number) => Complex;

const LIGHT = 299_792_458;

/**
 * The surface-impedance method with the real gaps that the lost radials leave. Used at a few frequencies and
 * interpolated by the caller.
 */
export const surfacePhysics: Physics = (antenna, fault, frequencyHz) => {
  const whole = uniformField(antenna.radialCount, antenna.radialLengthM, antenna.radialRadiusM);
  return feedPointImpedanceOhm({
    monopole: { heightM: antenna.heightM * fault.lengthFactor, radiusM: antenna.radiusM },
    soil: {
      conductivitySPerM: antenna.conductivitySPerM,
      relativePermittivity: antenna.relativePermittivity,
    },
    field: { wires: whole.wires.filter((_, i) => !fault.lostAtRandom.includes(i)) },
    frequencyHz,
  });
};

/** The same method with the radials that are left spread evenly again. */
export const evenPhysics: Physics = (antenna, fault, frequencyHz) =>
  surfacePhysics(
    { ...antenna, radialCount: antenna.radialCount - fault.lostAtRandom.length },
    { ...fault, lostAtRandom: [] },
    frequencyHz,
  );

/**
 * An unlike account: the radiator as a lossy open line of its average impedance with the resistance of a sinusoidal
 * current over a short dipole's law carried to a quarter wave, the ground as loss that falls with the root of the count
 * toward that of bare soil beyond the radials, plus a reactance in proportion. Every signature differs by some tens of
 * per cent from the surface-impedance method's.
 */
export const linePhysics: Physics = (antenna, fault, frequencyHz) => {
  const heightM = antenna.heightM * fault.lengthFactor * 1.025;
  const k = (2 * Math.PI * frequencyHz) / LIGHT;
  const kh = k * heightM;
  const z0 = 60 * (Math.log((2 * heightM) / antenna.radiusM) - 1);
  const radiation =
    (36.5 * (Math.sin(kh / 2) ** 2 / Math.sin(Math.PI / 4) ** 2) ** 2) / Math.sin(Math.min(kh, 2)) ** 2;
  const reactance = -z0 / Math.tan(kh);
  const count = antenna.radialCount - fault.lostAtRandom.length;
  const omega = 2 * Math.PI * frequencyHz;
  const eta = Math.sqrt(
    (omega * 4e-7 * Math.PI) /
      Math.hypot(antenna.conductivitySPerM, omega * 8.854e-12 * antenna.relativePermittivity),
  );
  const reach = (antenna.radialLengthM * frequencyHz) / LIGHT;
  const base = 1 / Math.sin(Math.min(kh, 2)) ** 2;
  const ground = eta * (0.09 * Math.exp(-3 * reach) + (0.75 * reach) / (reach + 0.08) / count ** 0.75) * base;
  return complex(radiation + ground, reactance + ground * 0.75 - 3);
};

/** What the instrument's plane sees: joint, neighbour, insulator, strap, then the line. */
export function seenReflection(
  inner: Complex,
  antenna: TrueAntenna,
  fault: Fault,
  frequencyHz: number,
  middleHz: number,
  extraOhm = 0,
): Complex {
  const omega = 2 * Math.PI * frequencyHz;
  let z = add(inner, complex(antenna.ownLossOhm * Math.sqrt(frequencyHz / middleHz)));
  const { ohm, hz, q } = antenna.neighbour;
  z = add(z, scale(divide(complex(ohm), complex(1, q * (frequencyHz / hz - hz / frequencyHz))), 1));
  const jointOhm = (fault.jointOhm + extraOhm) * (frequencyHz / middleHz) ** fault.jointLaw;
  if (jointOhm > 0) {
    z = add(z, divide(complex(jointOhm), complex(1, omega * fault.jointFilmF * jointOhm)));
    z = add(z, complex(0, omega * fault.jointInductanceH));
  }
  z = reciprocal(add(reciprocal(z), complex(0, omega * antenna.shuntF)));
  z = add(z, complex(0, omega * antenna.strapH));
  const reflection = divide(add(z, complex(-50)), add(z, complex(50)));
  if (fault.lineLossDb === 0 && fault.lineDelayS === 0) return reflection;
  const size = 10 ** ((-fault.lineLossDb * (frequencyHz / middleHz) ** 0.6) / 10);
  const turn = -2 * omega * fault.lineDelayS;
  return multiply(reflection, complex(size * Math.cos(turn), size * Math.sin(turn)));
}

/** One random error box: Γ′ = e00 + (1 + e10)Γ/(1 − e11Γ), each drifting a little with frequency. */
export type ErrorBox = (reflection: Complex, position: number) => Complex;

export function errorBox(random: Random, size: number): ErrorBox {
  const term = (): [Complex, Complex] => [
    complex(random.normal(size), random.normal(size)),
    complex(random.normal(size * 0.3), random.normal(size * 0.3)),
  ];
  const [e00, e10, e11] = [term(), term(), term()];
  const at = ([constant, slope]: [Complex, Complex], x: number): Complex => add(constant, scale(slope, x));
  return (reflection, x) =>
    add(
      at(e00, x),
      divide(
        multiply(add(ONE, at(e10, x)), reflection),
        add(ONE, scale(multiply(at(e11, x), reflection), -1)),
      ),
    );
}
