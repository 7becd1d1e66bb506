import type { Baseline } from './baseline.ts';
import type { Columns } from './columns.ts';

/**
 * What the connection may do to the mean curve, at unit size: an error box near the ideal one changes Γ as measured by
 * a + bΓ + cΓ².
 */
export function connectionShapes({ before, frequencyHz, position, plane }: Baseline): Columns[] {
  const reflection = plane.untold(before, frequencyHz);
  const shapes: Columns[] = [];
  const m = position.length;
  for (const power of [0, 1, 2]) {
    const base = { re: new Float64Array(m), im: new Float64Array(m) };
    for (let i = 0; i < m; i++) {
      const [re, im] = [reflection.re[i] as number, reflection.im[i] as number];
      base.re[i] = power === 0 ? 1 : power === 1 ? re : re * re - im * im;
      base.im[i] = power === 0 ? 0 : power === 1 ? im : 2 * re * im;
    }
    const told = plane.told(base, frequencyHz);
    for (const slope of [false, true]) {
      const factor = (i: number): number => (slope ? SLOPE_SHARE * (position[i] as number) : 1);
      const even = { re: told.re.map((x, i) => x * factor(i)), im: told.im.map((x, i) => x * factor(i)) };
      shapes.push(even, { re: even.im.map((x) => -x), im: even.re.slice() });
    }
  }
  return shapes;
}

/** How much of an error box's error may slope across a stretch. Our own choice. */
const SLOPE_SHARE = 0.4;
