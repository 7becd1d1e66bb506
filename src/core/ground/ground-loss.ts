import { type GroundIntegrals, groundIntegrals } from './ground-integrals.ts';
import type { GroundSystem } from './ground-system.ts';
import { groundValidity, type Validity } from './validity.ts';

/** What the ground does to the feed point, and how far to trust it. */
export interface GroundLoss extends GroundIntegrals, Validity {}

/**
 * Ground loss with the limits of the method beside it. In a fit, where it is called thousands of
 * times, take {@link groundIntegrals} or the feed-point impedance alone.
 *
 * @throws UserError as {@link groundIntegrals}
 */
export function groundLoss(system: GroundSystem): GroundLoss {
  return { ...groundIntegrals(system), ...groundValidity(system) };
}
