import { type Complex, multiply } from '../complex.ts';
import { UserError } from '../user-error.ts';
import { type AzimuthSeries, azimuthSeries } from './azimuth-series.ts';
import { groundChangeFactor } from './element-field.ts';
import type { GroundSystem } from './ground-system.ts';

/** The field all round at one elevation. */
export interface AzimuthPattern {
  readonly elevationDeg: number;
  /** At each azimuth asked for, against the mean power around the circle at this elevation. */
  readonly relativeDb: Float64Array;
  /** That mean against the same antenna current over bare soil. */
  readonly meanOverBareSoilDb: number;
}

/**
 * How an uneven field of radials bends the azimuth pattern, by the compensation theorem: the wires
 * lower the surface impedance around the base, and each patch of that change radiates as the field
 * on it does.
 *
 * The reference is the mean power around the circle, because what all directions share is the
 * efficiency's matter: efficiency's lossDb plus relativeDb tells a direction. At one current a fuller
 * field also gains in every direction, which meanOverBareSoilDb keeps for comparison with the sources.
 *
 * First order in the change of impedance, and the ground beyond the wires is bare, flat soil. Within a
 * few tenths of a dB for wires up to about half a wavelength; small patterns (under 0.1 dB) mean no
 * direction.
 *
 * @param elevationsDeg - above 0 and under 90
 * @param azimuthDeg - clockwise from north
 * @throws UserError `bad-elevation`, `no-radials` and as the ground loss
 * Source: G. D. Monteath, "Application of the compensation theorem to certain radiation and
 * propagation problems", Proc. IEE 98 IV (1951); J. R. Wait, "Effect of the ground screen on the field
 * radiated from a monopole", IRE Trans. AP-4 (1956).
 */
export function azimuthPatterns(
  system: GroundSystem,
  elevationsDeg: readonly number[],
  azimuthDeg: Float64Array,
): AzimuthPattern[] {
  const elevationsRad = elevationsDeg.map((deg) => (requireElevation(deg) * Math.PI) / 180);
  const changes = azimuthSeries(system, elevationsRad);
  return elevationsDeg.map((elevationDeg, i) => {
    const factor = groundChangeFactor(system, elevationsRad[i] as number);
    const change = changes[i] as AzimuthSeries;
    const meanPower = meanPowerOf(change, factor);
    return {
      elevationDeg,
      relativeDb: azimuthDeg.map((deg) => {
        const { re, im } = multiply(factor, change.at((deg * Math.PI) / 180));
        return 10 * Math.log10(((1 + re) ** 2 + im ** 2) / meanPower);
      }),
      meanOverBareSoilDb: 10 * Math.log10(meanPower),
    };
  });
}

/** {@link azimuthPatterns} at one elevation: dB at each azimuth against the mean around the circle. */
export function azimuthPattern({
  elevationDeg,
  azimuthDeg,
  ...system
}: GroundSystem & { readonly elevationDeg: number; readonly azimuthDeg: Float64Array }): Float64Array {
  const [pattern] = azimuthPatterns(system, [elevationDeg], azimuthDeg);
  return (pattern as AzimuthPattern).relativeDb;
}

/** Mean of |1 + factor·change|² around the circle: the change's mean adds to 1, its ripple adds as power. */
function meanPowerOf(change: AzimuthSeries, factor: Complex): number {
  const { re, im } = multiply(factor, change.mean);
  return (1 + re) ** 2 + im ** 2 + (factor.re ** 2 + factor.im ** 2) * change.ripplePower;
}

function requireElevation(elevationDeg: number): number {
  if (!(elevationDeg > 0 && elevationDeg < 90)) {
    throw new UserError(
      'bad-elevation',
      `an elevation above 0 and under 90 degrees is needed, got ${elevationDeg}`,
      { place: { field: 'elevation' } },
    );
  }
  return elevationDeg;
}
