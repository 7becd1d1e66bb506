import { type Figures, MEASURES, type Measure } from './figures.ts';
import type { ReflectionError } from './reflection-error.ts';

/** How a figure answers to an error of reflection, taken from both sides of it. */
export interface Sensitivity {
  /** Change of the figure per unit of reflection, for a shift along the real and the imaginary axis. */
  readonly re: number;
  readonly im: number;
  /** Change per radian of phase. */
  readonly turn: number;
  /** True where the figure bends so much within one standard uncertainty that a straight line misleads. */
  readonly bent: boolean;
}

/** A second-order share of the change beyond this makes the straight line untrustworthy. */
const BENT = 0.15;

/**
 * Partial derivatives by central differences whose step is one standard uncertainty, as JCGM 100:2008,
 * clause 5.1.3 note 2, has it; what the two sides do not share tells the curvature.
 *
 * @param figuresWith - the figures with an error added
 * @param step - one standard uncertainty of reflection
 */
export function findSensitivities(
  figures: Figures,
  figuresWith: (error: ReflectionError) => Figures,
  step: number,
): Record<Measure, Sensitivity | null> {
  const none = { re: 0, im: 0, turnRad: 0 };
  const sides = (['re', 'im', 'turnRad'] as const).map((part) => ({
    up: figuresWith({ ...none, [part]: step }),
    down: figuresWith({ ...none, [part]: -step }),
  }));
  const entries = MEASURES.map((measure) => {
    const middle = figures[measure];
    const slopes: number[] = [];
    let bend = 0;
    for (const { up, down } of sides) {
      const [high, low] = [up[measure], down[measure]];
      if (middle === null || high === null || low === null) return [measure, null] as const;
      slopes.push((high - low) / (2 * step));
      bend = Math.max(bend, Math.abs(high + low - 2 * middle) / 2);
    }
    const [re, im, turn] = slopes as [number, number, number];
    return [measure, { re, im, turn, bent: bend > BENT * Math.hypot(re, im) * step }] as const;
  });
  return Object.fromEntries(entries) as Record<Measure, Sensitivity | null>;
}
