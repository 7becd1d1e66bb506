import { FREE_SPACE_IMPEDANCE_OHM, wavenumberPerM } from '../ground/free-space.ts';

/** A place or a direction, east, north and up. */
export type Vector = readonly [eastM: number, northM: number, upM: number];

/**
 * A straight thin wire, open at its far end. Its current is `loopA`·sin k(L − s) in the direction of the wire,
 * s being the distance from its start; all wires of an arrangement are in phase or in opposition.
 */
export interface Wire {
  readonly start: Vector;
  /** Unit vector from the start to the open end. */
  readonly direction: Vector;
  readonly lengthM: number;
  readonly radiusM: number;
  readonly loopA: number;
}

/** A wire at one frequency, with what its field needs at every point worked out once. */
export interface Filament extends Wire {
  readonly wavenumberPerM: number;
  readonly cosineKL: number;
  readonly sineKL: number;
}

/** A wire with what its field needs of the frequency. */
export function filament(wire: Wire, frequencyHz: number): Filament {
  const k = wavenumberPerM(frequencyHz);
  return {
    ...wire,
    wavenumberPerM: k,
    cosineKL: Math.cos(k * wire.lengthM),
    sineKL: Math.sin(k * wire.lengthM),
  };
}

/** Real and imaginary parts of E (V/m) in places 0–5 and of H (A/m) in 6–11: x, y, z of Re, then of Im. */
export type FieldSum = Float64Array;

/**
 * Adds the field of one filament at a point to `sum`, in closed form: exact for the sinusoidal current, at any
 * distance. Inside the wire the field of its surface is given.
 *
 * The terms of the start (the current that enters there and the charge it would leave) are kept, so that wires
 * joined at a point add up to the field of the whole, whatever shares the current.
 *
 * With e₀ = exp(−jkR₀) from the start, e₁ = exp(−jkR₁) from the end and c = s/R₀, along and across the wire:
 * Eₛ = −j30·I·[e₁/R₁ − cos kL·e₀/R₀ − sin kL·(c/k)(jk + 1/R₀)·e₀/R₀],
 * Eρ = (j30·I/ρ)·[(s − L)e₁/R₁ − e₀(c·cos kL + jc²·sin kL − sin kL·ρ²/(kR₀³))],
 * Hφ = (j·I/4πρ)·[e₁ − e₀(cos kL + jc·sin kL)], 30 standing for η₀/4π.
 *
 * Source: S. A. Schelkunoff, Electromagnetic Waves (1943); C. A. Balanis, Antenna Theory, ch. 8, whose dipole
 * and monopole are two of these; memory, so the tests integrate the field of the current by brute force.
 */
export function addFilamentField(
  wire: Filament,
  east: number,
  north: number,
  up: number,
  sum: FieldSum,
): void {
  const k = wire.wavenumberPerM;
  const cosL = wire.cosineKL;
  const sinL = wire.sineKL;
  const ux = wire.direction[0];
  const uy = wire.direction[1];
  const uz = wire.direction[2];
  const dx = east - wire.start[0];
  const dy = north - wire.start[1];
  const dz = up - wire.start[2];
  const along = dx * ux + dy * uy + dz * uz;
  let ax = dx - along * ux;
  let ay = dy - along * uy;
  let az = dz - along * uz;
  // Math.hypot guards against overflow, which lengths here do not need, and takes most of the time.
  const off = Math.sqrt(ax * ax + ay * ay + az * az);
  const across = Math.max(off, wire.radiusM);
  if (off > 0) {
    ax /= off;
    ay /= off;
    az /= off;
  }

  const fromEnd = along - wire.lengthM;
  const r0 = Math.sqrt(across * across + along * along);
  const r1 = Math.sqrt(across * across + fromEnd * fromEnd);
  const c = along / r0;
  const re0 = Math.cos(k * r0);
  const im0 = -Math.sin(k * r0);
  const re1 = Math.cos(k * r1);
  const im1 = -Math.sin(k * r1);

  // Bracket of Eₛ.
  const pointRe = (sinL * c) / (k * r0 * r0);
  const pointIm = (sinL * c) / r0;
  const alongRe = re1 / r1 - (cosL / r0 + pointRe) * re0 + pointIm * im0;
  const alongIm = im1 / r1 - (cosL / r0 + pointRe) * im0 - pointIm * re0;
  // Bracket of Eρ.
  const acrossRe0 = c * cosL - (sinL * across * across) / (k * r0 ** 3);
  const acrossIm0 = c * c * sinL;
  const acrossRe = (fromEnd / r1) * re1 - (acrossRe0 * re0 - acrossIm0 * im0);
  const acrossIm = (fromEnd / r1) * im1 - (acrossRe0 * im0 + acrossIm0 * re0);
  // Bracket of Hφ.
  const aroundRe = re1 - (cosL * re0 - c * sinL * im0);
  const aroundIm = im1 - (cosL * im0 + c * sinL * re0);

  const volts = (FREE_SPACE_IMPEDANCE_OHM / (4 * Math.PI)) * wire.loopA;
  const eAlongRe = volts * alongIm;
  const eAlongIm = -volts * alongRe;
  const eAcrossRe = (-volts / across) * acrossIm;
  const eAcrossIm = (volts / across) * acrossRe;
  const amperes = wire.loopA / (4 * Math.PI * across);
  const hRe = -amperes * aroundIm;
  const hIm = amperes * aroundRe;

  add(sum, 0, eAlongRe * ux + eAcrossRe * ax, eAlongRe * uy + eAcrossRe * ay, eAlongRe * uz + eAcrossRe * az);
  add(sum, 3, eAlongIm * ux + eAcrossIm * ax, eAlongIm * uy + eAcrossIm * ay, eAlongIm * uz + eAcrossIm * az);
  // Around the wire: direction × across.
  const px = uy * az - uz * ay;
  const py = uz * ax - ux * az;
  const pz = ux * ay - uy * ax;
  add(sum, 6, hRe * px, hRe * py, hRe * pz);
  add(sum, 9, hIm * px, hIm * py, hIm * pz);
}

function add(sum: FieldSum, at: number, x: number, y: number, z: number): void {
  sum[at] = (sum[at] as number) + x;
  sum[at + 1] = (sum[at + 1] as number) + y;
  sum[at + 2] = (sum[at + 2] as number) + z;
}
