import { type Figures, MEASURES, type Measure } from './figures.ts';
import { NO_ERROR, type ReflectionError } from './reflection-error.ts';

/** How a figure answers to an error of reflection. */
export interface Sensitivity {
  /** Change of the figure per unit of error when every part of the error is one unit, added as squares. */
  readonly gain: number;
  /** Change per radian of phase. */
  readonly turn: number;
  /** True where the figure bends so much within one standard uncertainty that a straight line misleads. */
  readonly bent: boolean;
}

const PARTS = ['shiftRe', 'shiftIm', 'trackingRe', 'trackingIm'] as const;

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
  const sides = PARTS.map((part) => ({
    up: figuresWith({ ...NO_ERROR, [part]: step }),
    down: figuresWith({ ...NO_ERROR, [part]: -step }),
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
    const gain = Math.hypot(...slopes);
    return [measure, { gain, turn: slopes[3] as number, bent: bend > BENT * gain * step }] as const;
  });
  return Object.fromEntries(entries) as Record<Measure, Sensitivity | null>;
}
