import type { PlannedPattern } from '../../src/formats/page-data.ts';
import { s } from '../dom.ts';
import type { LineStyle } from '../model/shown.ts';
import type { Reader } from '../reader.ts';
import { markPath } from './marks.ts';

const DIRECTIONS = ['N', 'E', 'S', 'W'] as const;

/** Each elevation by colour, dash and mark. */
export const ROSE_STYLES: readonly LineStyle[] = [
  { colour: '--after', widthPx: 3, dash: [], mark: 'disc' },
  { colour: '--line-1', widthPx: 2.5, dash: [9, 5], mark: 'square' },
  { colour: '--line-2', widthPx: 2.5, dash: [2, 4], mark: 'triangle' },
  { colour: '--line-3', widthPx: 2.5, dash: [12, 3, 2, 3], mark: 'diamond' },
];

/**
 * Field strength all round, in decibels against the mean: a rose that a wire pulls out or dents.
 * The middle is as far below the mean as the rim is above it, so that small differences can be seen.
 */
export function patternRose(
  patterns: readonly PlannedPattern[],
  widthPx: number,
  reader: Reader,
): SVGSVGElement {
  const side = Math.min(widthPx, 480);
  const radius = side / 2 - 28;
  const largest = Math.max(0.1, ...patterns.flatMap(({ relativeDb }) => relativeDb.map(Math.abs)));
  const rimDb = [0.25, 0.5, 1, 2, 3, 6, 10].find((db) => db >= largest) ?? Math.ceil(largest);
  const at = (azimuthDeg: number, db: number): [number, number] => {
    const away = (radius * (db + rimDb)) / (2 * rimDb);
    const angle = (azimuthDeg * Math.PI) / 180;
    return [away * Math.sin(angle), -away * Math.cos(angle)];
  };
  const ring = (db: number, className: string): SVGElement[] => [
    s('circle', { r: (radius * (db + rimDb)) / (2 * rimDb), class: className }),
    s(
      'text',
      { x: 6, y: -(radius * (db + rimDb)) / (2 * rimDb) + 16, class: 'rose-db' },
      `${reader.signed(db, rimDb < 1 ? 2 : 1)} dB`,
    ),
  ];
  return s(
    'svg',
    {
      viewBox: `${-side / 2} ${-side / 2} ${side} ${side}`,
      width: side,
      height: side,
      class: 'rose',
      role: 'img',
      'aria-label': 'Pattern all round; its figures stand in the table below',
    },
    ring(rimDb, 'rose-ring'),
    ring(0, 'rose-ring rose-mean'),
    s('circle', { r: radius / 4, class: 'rose-ring' }),
    DIRECTIONS.map((name, i) => {
      const angle = (i * Math.PI) / 2;
      const [x, y] = [Math.sin(angle), -Math.cos(angle)];
      return [
        s('path', { d: `M0 0L${x * radius} ${y * radius}`, class: 'rose-ring' }),
        s('text', { x: x * (radius + 15), y: y * (radius + 15) + 6, class: 'rose-direction' }, name),
      ];
    }),
    patterns.map(({ azimuthDeg, relativeDb }, k) => {
      const style = ROSE_STYLES[k % ROSE_STYLES.length] as LineStyle;
      const corners = azimuthDeg.map((azimuth, i) => at(azimuth, relativeDb[i] ?? 0));
      const paint = `var(${style.colour})`;
      return [
        s('path', {
          d: `M${corners.map(([x, y]) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L')}Z`,
          fill: 'none',
          stroke: paint,
          'stroke-width': style.widthPx,
          'stroke-dasharray': style.dash.join(' ') || null,
        }),
        corners
          .filter((_, i) => i % 12 === 3 * k)
          .map(([x, y]) =>
            s('path', {
              d: markPath(style.mark ?? 'disc'),
              transform: `translate(${x.toFixed(1)} ${y.toFixed(1)}) scale(5)`,
              fill: paint,
            }),
          ),
      ];
    }),
  );
}
