import { formatLength, type UnitSystem } from '../quantity.ts';
import type { Radial } from '../record.ts';
import type { Point } from '../site.ts';
import type { DrawnWire } from './lot-drawing.ts';
import { laidRoutes, wayIsUnknown } from './planned-field.ts';

/** Laid radials for the drawing, the oldest darkest; one of which nobody knows the way is dotted where it is taken to lie. */
export function drawnRadials(radials: readonly Radial[], units: UnitSystem): DrawnWire[] {
  const times = [...new Set(radials.map(({ since }) => since ?? ''))].sort();
  const routes = laidRoutes(radials);
  return radials.map((radial, i) => {
    const { number, lengthM, since } = radial;
    const assumed = wayIsUnknown(radial);
    return {
      number: since === null ? null : number,
      points: routes[i] as readonly Point[],
      state: 'laid',
      assumed,
      age: times.length < 2 ? 1 : 1 - times.indexOf(since ?? '') / (times.length - 1),
      label: `${since === null ? 'a radial of site.json' : `radial ${number}`}, ${formatLength(lengthM, units)}${since === null ? '' : `, laid ${since.slice(0, 10)}`}${assumed ? ', its direction assumed' : ''}`,
    };
  });
}
