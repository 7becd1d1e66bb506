import type { ColumnName } from '../model/columns.ts';
import type { StripKind } from './strips.ts';

/** An SWR beyond this is told by its number; a picture that held it would flatten all the rest. */
const HIGHEST_SWR = 6;

/** The strips from top to bottom, as the layers of a soil. */
export const STRIP_KINDS: readonly (StripKind & {
  readonly name: ColumnName;
  readonly title: string;
  readonly unit: string;
  readonly decimals: number;
})[] = [
  {
    name: 'swr',
    title: 'SWR',
    unit: '',
    decimals: 2,
    level: 2,
    range: (_, most) => [1, Math.min(HIGHEST_SWR, Math.max(2.2, most * 1.05))],
  },
  {
    name: 'returnLossDb',
    title: 'Return loss',
    unit: 'dB',
    decimals: 1,
    level: null,
    range: (_, most) => [0, Math.max(10, most * 1.08)],
  },
  { name: 'resistanceOhm', title: 'R', unit: 'Ω', decimals: 1, level: null, range: padded },
  {
    name: 'reactanceOhm',
    title: 'X',
    unit: 'Ω',
    decimals: 1,
    level: 0,
    range: (least, most) => padded(Math.min(0, least), Math.max(0, most)),
  },
];

export const DIFFERENCE_KIND: StripKind = {
  level: 0,
  range: (least, most) => padded(Math.min(-1, least), Math.max(1, most)),
};

function padded(least: number, most: number): [number, number] {
  const room = Math.max(1, 0.08 * (most - least));
  return [least - room, most + room];
}
