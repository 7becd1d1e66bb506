import { type Child, h } from '../dom.ts';
import { scrollRoom } from './scroll-room.ts';

/** Longer words than these may break over lines, lest the table gets wider than need be. */
const LONG = 18;

/** A table that may be wider than a phone. Columns of words stand on the left, figures on the right. */
export function dataTable(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly Child[])[],
): HTMLElement {
  const kinds = head.map((_, i) => (i === 0 ? null : kindOf(rows.map((row) => row[i]))));
  const table = h(
    'table',
    {},
    h('caption', {}, caption),
    h(
      'thead',
      {},
      h(
        'tr',
        {},
        head.map((cell, i) => h('th', { scope: 'col', class: kinds[i] }, cell)),
      ),
    ),
    h(
      'tbody',
      {},
      rows.map(([first, ...rest]) =>
        h(
          'tr',
          {},
          h('th', { scope: 'row' }, first),
          rest.map((cell, i) => h('td', { class: kinds[i + 1] }, cell)),
        ),
      ),
    ),
  );
  return scrollRoom('table-room', caption, table);
}

function kindOf(cells: readonly Child[]): 'words' | 'words long' | null {
  const words = cells.filter((cell): cell is string => typeof cell === 'string' && /^\p{L}/u.test(cell));
  if (words.length === 0) return null;
  return words.some(({ length }) => length > LONG) ? 'words long' : 'words';
}
