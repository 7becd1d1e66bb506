import { s } from '../dom.ts';
import type { LineStyle } from '../model/shown.ts';
import { isOpenMark, markPath } from './marks.ts';

/** A short piece of a line as it is drawn, to stand beside its name. */
export function lineKey({ colour, widthPx, dash, mark }: LineStyle): SVGSVGElement {
  const paint = `var(${colour})`;
  const outline =
    mark === null
      ? null
      : s('path', {
          d: markPath(mark),
          transform: 'translate(20 8) scale(5)',
          fill: isOpenMark(mark) ? 'none' : paint,
          stroke: paint,
          'stroke-width': isOpenMark(mark) ? 0.5 : 0,
        });
  return s(
    'svg',
    { class: 'key', viewBox: '0 0 40 16', width: 40, height: 16, 'aria-hidden': 'true' },
    s('path', {
      d: 'M0 8H40',
      stroke: paint,
      'stroke-width': widthPx,
      'stroke-dasharray': dash.length === 0 ? null : dash.join(' '),
    }),
    outline,
  );
}
