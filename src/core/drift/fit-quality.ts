import type { CauseName } from './cause.ts';
import { soilShapes } from './causes/soil-moisture.ts';
import { type Columns, differenceOf } from './columns.ts';
import { connectionShapes } from './connection-shapes.ts';
import type { Differential } from './differential.ts';

/** Root mean square of the change of Γ over all bins, and of what healthy visits do by themselves. */
export function sizeOfChange({ baseline, state, scatter }: Differential): { size: number; ordinary: number } {
  let variance = 0;
  for (const shape of soilShapes(state)) variance += (rms(shape) * scatter.soil) ** 2;
  for (const shape of connectionShapes(baseline).level) {
    variance += (rms(shape) * scatter.connection) ** 2;
  }
  const [span] = baseline.spans;
  const visits = span === undefined ? 1 : 1 / span.visitsBefore + 1 / span.visitsAfter;
  return {
    size: rms(differenceOf(baseline.after, baseline.before)),
    ordinary: Math.sqrt(variance * visits + 1e-8),
  };
}

/** Part of the mean square change that a cause's mean curve takes away at its estimate; null where it has no curve. */
export function shareExplained(differential: Differential, cause: CauseName): number | null {
  const weighed = differential.causes.find((entry) => entry.cause === cause);
  if (weighed === undefined || !Number.isFinite(weighed.amplitude.mean)) return null;
  const { discrete } = weighed.model;
  const amplitude = discrete ? Math.max(1, Math.round(weighed.amplitude.mean)) : weighed.amplitude.mean;
  const { shift } = weighed.model.effect(amplitude);
  if (rms(shift) === 0) return null;
  const change = differenceOf(differential.baseline.after, differential.baseline.before);
  return Math.max(0, 1 - (rms(differenceOf(change, shift)) / rms(change)) ** 2);
}

function rms({ re, im }: Columns): number {
  let sum = 0;
  for (let i = 0; i < re.length; i++) sum += (re[i] as number) ** 2 + (im[i] as number) ** 2;
  return Math.sqrt(sum / re.length);
}
