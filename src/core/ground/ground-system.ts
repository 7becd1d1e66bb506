import type { Monopole } from './monopole.ts';
import type { RadialField } from './radial-field.ts';
import type { Soil } from './soil.ts';

/** An antenna over a field of radials on a soil, at one frequency. */
export interface GroundSystem {
  readonly monopole: Monopole;
  readonly soil: Soil;
  readonly field: RadialField;
  readonly frequencyHz: number;
}
