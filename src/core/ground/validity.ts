import { wavelengthM } from './free-space.ts';
import type { GroundSystem } from './ground-system.ts';
import { type BiasDb, measuredBiasDb } from './measured-bias.ts';
import { isBaseCurrentTold } from './monopole.ts';
import type { RadialField } from './radial-field.ts';
import { isDense, soilSkinDepthM } from './soil.ts';
import { asUniform } from './uniform-field.ts';

/** How far the method may be trusted for one ground system. */
export interface Validity {
  /** Published error of the method here: its loss in dB is this much too small. */
  readonly biasDb: BiasDb;
  /** In words, each way in which the system is outside what the method is good for; empty when inside. */
  readonly outside: readonly string[];
}

/** Fewest radials of the measurements that the method met. */
const FEW_RADIALS = 15;
/** Shortest radials, in wavelengths, of the measurements that the method met. */
const SHORT_RADIALS = 0.2;
const SHORTEST_HEIGHT = 1 / 8;
/** Tallest radiator that the method was held against, with a margin for loading by thickness. */
const TALLEST_HEIGHT = 0.3;

/** @throws UserError as the parts it asks */
export function groundValidity(system: GroundSystem): Validity {
  const { monopole, soil, field, frequencyHz } = system;
  const wavelength = wavelengthM(frequencyHz);
  const height = monopole.heightM / wavelength;
  const { count, lengthM, tipSpacingM } = fieldMeasures(field);
  const length = lengthM / wavelength;
  const spacing = tipSpacingM / soilSkinDepthM(soil, frequencyHz);
  const outside: string[] = [];
  if (spacing > 1) {
    outside.push(
      `the wire ends are ${spacing.toFixed(1)} soil skin depths apart, and the method needs 1 or less: the real loss is higher`,
    );
  }
  if (count < FEW_RADIALS) {
    outside.push(
      `${count} ${count === 1 ? 'radial is' : 'radials are'} too few for a method that treats them as a continuous sheet: the real loss is higher`,
    );
  }
  if (length < SHORT_RADIALS) {
    outside.push(`radials ${length.toFixed(2)} wavelength long are short: measured losses were higher`);
  }
  if (height < SHORTEST_HEIGHT) {
    outside.push(
      `an antenna ${height.toFixed(3)} wavelength tall is under 1/8: electric-field and coil losses are left out, and the real loss is much higher`,
    );
  }
  if (height > TALLEST_HEIGHT) {
    outside.push(
      `an antenna ${height.toFixed(2)} wavelength tall is taller than any the method was checked against`,
    );
  }
  if (!isBaseCurrentTold(monopole, frequencyHz)) {
    outside.push(
      'near a half wave the base current is too small to go by: resistances are given at the current maximum',
    );
  }
  if (!isDense(soil, frequencyHz)) {
    outside.push(
      'at this frequency the soil is electrically hardly denser than air, and the method takes it as much denser',
    );
  }
  return { biasDb: measuredBiasDb(height, length, count), outside };
}

/** What the limits of the method are stated in. */
interface FieldMeasures {
  readonly count: number;
  readonly lengthM: number;
  readonly tipSpacingM: number;
}

/**
 * Medians over the wires: distance of the end from the base, and the arc there to the nearer
 * neighbour's bearing. A bare sector is a matter of the layout and does not count.
 */
function fieldMeasures(field: RadialField): FieldMeasures {
  const uniform = asUniform(field);
  if (uniform !== null) {
    const { count, lengthM } = uniform;
    return { count, lengthM, tipSpacingM: (2 * Math.PI * lengthM) / count };
  }
  const ends = field.wires
    .map(({ route }) => {
      const [east, north] = route[route.length - 1] ?? [0, 0];
      return { bearing: Math.atan2(east, north), distance: Math.hypot(east, north) };
    })
    .sort((a, b) => a.bearing - b.bearing);
  const count = ends.length;
  const gaps = ends.map(({ bearing }, i) => {
    const next = ends[(i + 1) % count]?.bearing ?? bearing;
    return next - bearing + (i + 1 < count ? 0 : 2 * Math.PI);
  });
  const arcs = ends.map(({ distance }, i) => {
    const before = gaps[(i + count - 1) % count] as number;
    return distance * Math.min(before, gaps[i] as number);
  });
  return { count, lengthM: median(ends.map(({ distance }) => distance)), tipSpacingM: median(arcs) };
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] as number) + (sorted[Math.ceil(middle)] as number)) / 2;
}
