import type { Antenna } from '../site.ts';

/** From this height of the base on, radials hang in the air and are tuned, m. */
const RAISED_M = 0.5;

/**
 * Whether the radials of an antenna hang at the height of its base: from a raised base they do, whatever depth a site
 * gives for wires in the ground. The short counterpoise of a half wave carries little current and lies on the ground.
 */
export function radialsHang({ kind, baseHeightM }: Pick<Antenna, 'kind' | 'baseHeightM'>): boolean {
  return (baseHeightM ?? 0) >= RAISED_M && kind !== 'half-wave';
}
