/** Writes a sweep in the layouts that people's files come in. */
import { reflectionColumns } from '../src/core/sweep/reflection.ts';
import type { Sweep } from '../src/core/sweep/sweep.ts';

/** How a sweep file is laid out, on purpose as differently as people's files are. */
export type Layout =
  | 'own-csv'
  | 'semicolon-comma'
  | 'touchstone-ri'
  | 'touchstone-z'
  | 'tab-db-phase'
  | 'utf16-magnitude-phase'
  | 'no-header';

type Row = readonly [hz: number, r: number, x: number, re: number, im: number];

/** File ending and bytes of a sweep in a layout. */
export function inLayout(layout: Layout, sweep: Sweep, at: string): { ending: string; bytes: Uint8Array } {
  const { re, im } = reflectionColumns(sweep);
  const rows = Array.from(
    sweep.frequencyHz,
    (hz, i): Row => [
      hz,
      sweep.resistanceOhm[i] as number,
      sweep.reactanceOhm[i] as number,
      re[i] as number,
      im[i] as number,
    ],
  );
  const utf8 = (ending: string, lines: readonly string[], lineEnd = '\n') => ({
    ending,
    bytes: new TextEncoder().encode(lines.join(lineEnd) + lineEnd),
  });
  const date = at.slice(0, 10);
  switch (layout) {
    case 'own-csv':
      return utf8('csv', [
        'frequency_hz,resistance_ohm,reactance_ohm',
        ...rows.map(([hz, r, x]) => `${hz},${r.toFixed(3)},${x.toFixed(3)}`),
      ]);
    case 'semicolon-comma':
      return utf8(
        'csv',
        [
          'Frequenz (MHz);R (Ohm);X (Ohm)',
          ...rows.map(([hz, r, x]) => [hz / 1e6, r.toFixed(2), x.toFixed(2)].join(';').replaceAll('.', ',')),
        ],
        '\r\n',
      );
    case 'touchstone-ri':
      return utf8('s1p', [
        `! plot seven, ${date}`,
        '# MHz S RI R 50',
        ...rows.map(([hz, , , a, b]) => `${hz / 1e6} ${a.toExponential(6)} ${b.toExponential(6)}`),
      ]);
    case 'touchstone-z':
      return utf8('s1p', [
        `! plot seven, ${date}, impedance divided by the reference`,
        '# Hz Z RI R 50',
        ...rows.map(([hz, r, x]) => `${hz} ${(r / 50).toFixed(6)} ${(x / 50).toFixed(6)}`),
      ]);
    case 'tab-db-phase':
      return utf8('txt', [
        `Date: ${date}`,
        'Operator: the plot holder',
        'Frequency [kHz]\tMagnitude S11 [dB]\tPhase S11 [deg]',
        ...rows.map(([hz, , , a, b]) =>
          [hz / 1e3, (20 * Math.log10(Math.hypot(a, b))).toFixed(3), degrees(a, b)].join('\t'),
        ),
      ]);
    case 'utf16-magnitude-phase': {
      const lines = [
        'Freq (Hz)\t|Z| (Ω)\tPhase (°)',
        ...rows.map(([hz, r, x]) => [hz, Math.hypot(r, x).toFixed(3), degrees(r, x)].join('\t')),
      ];
      return { ending: 'txt', bytes: Buffer.from(`\ufeff${lines.join('\r\n')}\r\n`, 'utf16le') };
    }
    case 'no-header':
      return utf8(
        'csv',
        rows.map(([hz, r, x]) => `${hz}, ${r.toFixed(3)}, ${x.toFixed(3)}`),
      );
  }
}

function degrees(re: number, im: number): string {
  return ((Math.atan2(im, re) * 180) / Math.PI).toFixed(3);
}
