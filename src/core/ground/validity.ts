import { wavelengthM } from './free-space.ts';
import type { GroundSystem } from './ground-system.ts';
import { type BiasDb, measuredBiasDb } from './measured-bias.ts';
import { isBaseCurrentTold } from './monopole.ts';
import type { RadialField, RadialWire } from './radial-field.ts';
import { isDense, soilSkinDepthM } from './soil.ts';

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
  const length = median(field.wires.map(endDistanceM)) / wavelength;
  const spacing = tipSpacingM(field) / soilSkinDepthM(soil, frequencyHz);
  const count = field.wires.length;
  const outside: string[] = [];
  if (spacing > 1) {
    outside.push(
      `the wire ends are ${spacing.toFixed(1)} skin depths of the soil apart, and the method wants at most 1: the real loss is larger`,
    );
  }
  if (count < FEW_RADIALS) {
    outside.push(
      `${count} radials are too few for a method that takes them as a sheet: the real loss is larger`,
    );
  }
  if (length < SHORT_RADIALS) {
    outside.push(`radials of ${length.toFixed(2)} wavelengths are short: measurements found more loss`);
  }
  if (height < SHORTEST_HEIGHT) {
    outside.push(
      `an antenna of ${height.toFixed(3)} wavelengths is under 1/8: electric-field and coil losses are left out, and the real loss is much larger`,
    );
  }
  if (height > TALLEST_HEIGHT) {
    outside.push(
      `an antenna of ${height.toFixed(2)} wavelengths is taller than any the method was measured against`,
    );
  }
  if (!isBaseCurrentTold(monopole, frequencyHz)) {
    outside.push(
      'near a half wave the base current cannot be told: resistances are referred to the current maximum',
    );
  }
  if (!isDense(soil, frequencyHz)) {
    outside.push(
      'the soil is hardly denser than air at this frequency, and the method takes it as much denser',
    );
  }
  return { biasDb: measuredBiasDb(height, length, count), outside };
}

function endDistanceM({ route }: RadialWire): number {
  const [east, north] = route[route.length - 1] ?? [0, 0];
  return Math.hypot(east, north);
}

/**
 * Median over the wires of the arc from a wire's end to its nearer neighbour's bearing: a bare sector
 * is a matter of the layout and does not count.
 */
function tipSpacingM(field: RadialField): number {
  const ends = field.wires
    .map((wire) => {
      const [east, north] = wire.route[wire.route.length - 1] ?? [0, 0];
      return { bearing: Math.atan2(east, north), distance: Math.hypot(east, north) };
    })
    .sort((a, b) => a.bearing - b.bearing);
  const gaps = ends.map(({ bearing }, i) => {
    const next = i + 1 < ends.length ? ends[i + 1] : ends[0];
    const gap = (next?.bearing ?? 0) - bearing;
    return i + 1 < ends.length ? gap : gap + 2 * Math.PI;
  });
  return median(
    ends.map(
      ({ distance }, i) =>
        distance * Math.min(gaps[i] as number, gaps[(i + gaps.length - 1) % gaps.length] as number),
    ),
  );
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return (
    ((sorted[Math.floor((sorted.length - 1) / 2)] as number) +
      (sorted[Math.floor(sorted.length / 2)] as number)) /
    2
  );
}
