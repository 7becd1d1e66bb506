import type { Band } from '../../src/core/sweep/bands.ts';
import { h } from '../dom.ts';
import { spotAt } from '../model/at-frequency.ts';
import type { ShownLayer } from '../model/shown.ts';
import { figuresIn, type SweepFigures } from '../model/sweep-figures.ts';
import { dataTable } from '../parts/table.ts';
import type { StripRange } from '../pictures/strips.ts';
import { NONE, type Reader } from '../reader.ts';

/** One row a sweep, the pair first. */
export function figuresTable(shown: readonly ShownLayer[], band: Band | null, reader: Reader): HTMLElement {
  const where = band === null ? 'over all that was swept' : `on ${band.band}`;
  const rows = shown.toReversed().map(({ layer, role }) => {
    const figures = figuresIn(layer.sweep, band);
    return [
      role === 'other' ? layer.label : `${layer.label} (${role})`,
      layer.time === null ? '–' : reader.time(layer.time),
      reader.number(layer.radials, 0),
      reader.number(figures.leastSwr, 2),
      reader.frequency(figures.leastSwrHz),
      reader.number(figures.worstSwr, 2),
      reader.frequency(figures.resonance?.frequencyHz),
      reader.number(figures.resonance?.resistanceOhm, 1),
      widthText(figures, reader),
    ];
  });
  return dataTable(
    `The sweeps in figures, ${where}`,
    [
      'sweep',
      'when',
      'radials',
      'lowest SWR',
      'at',
      'worst SWR',
      'X = 0 at',
      'R there, Ω',
      'SWR ≤ 2, kHz wide',
    ],
    rows,
  );
}

function widthText({ swr2BandwidthHz, swr2OpenEnded }: SweepFigures, reader: Reader): string {
  if (swr2BandwidthHz === null) return NONE;
  const wideKhz = swr2BandwidthHz / 1e3;
  return swr2OpenEnded ? `at least ${reader.number(Math.floor(wideKhz), 0)}` : reader.number(wideKhz, 0);
}

/** Every point of the pair, made only when it is opened. */
export function pointsTable(shown: readonly ShownLayer[], range: StripRange, reader: Reader): HTMLElement {
  const after = shown.find(({ role }) => role === 'after');
  const before = shown.find(({ role }) => role === 'before');
  const details = h(
    'details',
    { class: 'points' },
    h('summary', {}, 'Every point of this sweep, as a table'),
  );
  details.addEventListener('toggle', () => {
    if (!details.open || details.childElementCount > 1 || after === undefined) return;
    const points = after.layer.sweep.frequencyHz.filter((hz) => hz >= range.from && hz <= range.to);
    const rows = Array.from(points, (hz) => {
      const cells = [after, before].flatMap((one) => {
        if (one === undefined) return [];
        const spot = spotAt(one.layer.sweep, hz);
        return [
          reader.number(spot?.swr, 3),
          reader.number(spot?.returnLossDb, 2),
          reader.number(spot?.resistanceOhm, 2),
          reader.number(spot?.reactanceOhm, 2),
        ];
      });
      return [reader.frequency(hz, 4), ...cells];
    });
    const names = ['SWR', 'return loss, dB', 'R, Ω', 'X, Ω'];
    const head = [
      'frequency',
      ...names,
      ...(before === undefined ? [] : names.map((name) => `${name}, ${before.layer.label}`)),
    ];
    details.append(dataTable(`Points of ${after.layer.label}`, head, rows));
  });
  return details;
}
