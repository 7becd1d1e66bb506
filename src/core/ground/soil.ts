import { type Complex, divide, magnitude, squareRoot } from '../complex.ts';
import { UserError } from '../user-error.ts';
import { requirePositive, VACUUM_PERMEABILITY, VACUUM_PERMITTIVITY } from './free-space.ts';

/** A homogeneous, non-magnetic soil. */
export interface Soil {
  /** σ, S/m. */
  readonly conductivitySPerM: number;
  /** εr, at least 1. */
  readonly relativePermittivity: number;
}

/**
 * Intrinsic impedance η = √(jωμ0/(σ + jωε0εr)) of the soil: what the surface impedance of bare
 * ground tends to when the soil is much denser than air, as every soil is at these frequencies.
 *
 * @throws UserError `not-positive`, `bad-permittivity`
 * Source: J. R. Wait and W. A. Pope, Appl. Sci. Res. B 4 (1954).
 */
export function soilImpedanceOhm(soil: Soil, frequencyHz: number): Complex {
  requireSoil(soil);
  requirePositive(frequencyHz, 'frequency', 'hertz');
  const omega = 2 * Math.PI * frequencyHz;
  return squareRoot(
    divide(
      { re: 0, im: omega * VACUUM_PERMEABILITY },
      { re: soil.conductivitySPerM, im: omega * VACUUM_PERMITTIVITY * soil.relativePermittivity },
    ),
  );
}

/**
 * Depth at which a field in the soil has fallen to 1/e: δ = 1/Re √(jωμ0(σ + jωε0εr)), m.
 * Infinite for a soil that conducts nothing.
 *
 * @throws UserError `not-positive`, `bad-permittivity`
 */
export function soilSkinDepthM(soil: Soil, frequencyHz: number): number {
  requireSoil(soil);
  requirePositive(frequencyHz, 'frequency', 'hertz');
  const omega = 2 * Math.PI * frequencyHz;
  const wavenumber = squareRoot({
    re: -(omega ** 2) * VACUUM_PERMEABILITY * VACUUM_PERMITTIVITY * soil.relativePermittivity,
    im: omega * VACUUM_PERMEABILITY * soil.conductivitySPerM,
  });
  return 1 / wavenumber.re;
}

/** Complex relative permittivity εr − jσ/(ωε0), which the reflection coefficient needs. */
function complexPermittivity(soil: Soil, frequencyHz: number): Complex {
  requireSoil(soil);
  requirePositive(frequencyHz, 'frequency', 'hertz');
  return {
    re: soil.relativePermittivity,
    im: -soil.conductivitySPerM / (2 * Math.PI * frequencyHz * VACUUM_PERMITTIVITY),
  };
}

/**
 * Reflection coefficient of flat soil for vertical polarisation at an elevation above the horizon.
 *
 * Source: J. A. Stratton, Electromagnetic Theory (1941), sec. 9.4, Fresnel's equations.
 */
export function verticalReflection(soil: Soil, frequencyHz: number, elevationRad: number): Complex {
  const permittivity = complexPermittivity(soil, frequencyHz);
  const sine = Math.sin(elevationRad);
  const root = squareRoot({ re: permittivity.re - Math.cos(elevationRad) ** 2, im: permittivity.im });
  const direct = { re: permittivity.re * sine, im: permittivity.im * sine };
  return divide(
    { re: direct.re - root.re, im: direct.im - root.im },
    { re: direct.re + root.re, im: direct.im + root.im },
  );
}

/** True where the soil is as dense to waves as the method assumes: |η| well under that of air. */
export function isDense(soil: Soil, frequencyHz: number): boolean {
  return magnitude(complexPermittivity(soil, frequencyHz)) >= 5;
}

function requireSoil(soil: Soil): void {
  const { conductivitySPerM, relativePermittivity } = soil;
  if (!(conductivitySPerM >= 0) || !Number.isFinite(conductivitySPerM)) {
    throw new UserError(
      'not-positive',
      `a conductivity in S/m of zero or more is needed, got ${conductivitySPerM}`,
      { place: { field: 'soil.conductivity' } },
    );
  }
  if (!(relativePermittivity >= 1) || !Number.isFinite(relativePermittivity)) {
    throw new UserError(
      'bad-permittivity',
      `a relative permittivity of 1 or more is needed, got ${relativePermittivity}`,
      { place: { field: 'soil.permittivity' } },
    );
  }
}
