import type { Baseline } from './baseline.ts';
import { type Columns, emptyColumns, scaled, turned } from './columns.ts';

/** What the connection may do to the mean curve, each at unit size over all bins. */
export interface ConnectionShapes {
  /** All stretches alike and, where there are several, a little apart from each other. */
  readonly level: readonly Columns[];
  /** Sloping across each stretch. */
  readonly slope: readonly Columns[];
}

/**
 * How much of an error box's error slopes across a stretch, each as likely before the healthy visits speak: hardly at
 * all, as over a narrow band, or much, as over a wide one or on a poor adaptor. Our own choice.
 */
export const SLOPES: readonly number[] = [0.08, 0.35];

/** How much it may differ from one stretch to another. Our own choice. */
const APART = 0.4;

/** An error box near the ideal one changes Γ as measured by a + bΓ + cΓ². */
export function connectionShapes({
  before,
  frequencyHz,
  position,
  spans,
  plane,
}: Baseline): ConnectionShapes {
  const reflection = plane.untold(before, frequencyHz);
  const level: Columns[] = [];
  const slope: Columns[] = [];
  const put = (shapes: Columns[], shape: Columns): number => shapes.push(shape, turned(shape));
  for (const power of [0, 1, 2]) {
    const term = plane.told(toPower(reflection, power), frequencyHz);
    put(level, spans.length > 1 ? scaled(term, Math.sqrt(1 - APART ** 2)) : term);
    for (const { from, to } of spans) {
      if (spans.length > 1) {
        put(
          level,
          within(term, from, to, () => APART),
        );
      }
      put(
        slope,
        within(term, from, to, (i) => position[i] as number),
      );
    }
  }
  return { level, slope };
}

/** All shapes of a box that slopes as much as any. */
export function boxShapes({ level, slope }: ConnectionShapes): Columns[] {
  const most = SLOPES[SLOPES.length - 1] as number;
  return [...level, ...slope.map((shape) => scaled(shape, most))];
}

function toPower({ re, im }: Columns, power: number): Columns {
  if (power === 0) return { re: re.map(() => 1), im: im.map(() => 0) };
  if (power === 1) return { re, im };
  return {
    re: re.map((x, i) => x * x - (im[i] as number) ** 2),
    im: re.map((x, i) => 2 * x * (im[i] as number)),
  };
}

/** A curve times a factor in one stretch, nothing elsewhere. */
function within(curve: Columns, from: number, to: number, factor: (i: number) => number): Columns {
  const part = emptyColumns(curve.re.length);
  for (let i = from; i < to; i++) {
    part.re[i] = (curve.re[i] as number) * factor(i);
    part.im[i] = (curve.im[i] as number) * factor(i);
  }
  return part;
}
