import type { ReflectionError } from './reflection-error.ts';

/** How a figure answers to an error of reflection. */
export interface Sensitivity {
  /** Change of the figure per unit of error when every part of the error is one unit, added as squares. */
  readonly gain: number;
  /** Change per radian of phase. */
  readonly turn: number;
  /** True where the figure bends so much within one standard uncertainty that a straight line misleads. */
  readonly bent: boolean;
}

/** The parts of an error, each of which is moved by itself. */
export const PARTS: readonly (keyof ReflectionError)[] = ['shiftRe', 'shiftIm', 'trackingRe', 'trackingIm'];

/** A second-order share of the change beyond this makes the straight line untrustworthy. */
const BENT = 0.15;

/**
 * Partial derivatives by central differences whose step is one standard uncertainty, as JCGM 100:2008,
 * clause 5.1.3 note 2, has it; what the two sides do not share tells the curvature.
 *
 * @param value - the figure as it stands
 * @param sides - the figure with each part of {@link PARTS} one step up and one step down
 * @param step - one standard uncertainty of reflection
 * @returns null where the figure vanishes on one of the sides
 */
export function sensitivityOf(
  value: number | null,
  sides: readonly { readonly up: number | null; readonly down: number | null }[],
  step: number,
): Sensitivity | null {
  if (value === null) return null;
  const slopes: number[] = [];
  let bend = 0;
  for (const { up, down } of sides) {
    if (up === null || down === null) return null;
    slopes.push((up - down) / (2 * step));
    bend = Math.max(bend, Math.abs(up + down - 2 * value) / 2);
  }
  const gain = Math.hypot(...slopes);
  return { gain, turn: slopes[PARTS.indexOf('trackingIm')] as number, bent: bend > BENT * gain * step };
}
