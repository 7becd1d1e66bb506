import { type Child, h } from '../dom.ts';
import { scrollRoom } from './scroll-room.ts';

/** What is longer may break over lines, lest the table gets wider than need be. */
const LONG = 16;

/** Tables of more rows stay tables: a phone would show nothing but a heap of them. */
const MOST_STACKED = 60;

/**
 * A table that may be wider than a phone: where it is, each row stands as a small list of its own, every figure beside
 * the name of its column. Columns of words stand on the left, figures on the right.
 */
export function dataTable(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly Child[])[],
): HTMLElement {
  const kinds = head.map((_, i) => kindOf(rows.map((row) => row[i])));
  // The roles stay whatever a style sheet makes of the elements.
  const row = (cells: Child): HTMLElement => h('tr', { role: 'row' }, cells);
  const table = h(
    'table',
    { role: 'table' },
    h('caption', {}, caption),
    h(
      'thead',
      { role: 'rowgroup' },
      row(head.map((cell, i) => h('th', { scope: 'col', role: 'columnheader', class: kinds[i] }, cell))),
    ),
    h(
      'tbody',
      { role: 'rowgroup' },
      rows.map(([first, ...rest]) =>
        row([
          h('th', { scope: 'row', role: 'rowheader', class: kinds[0] }, first),
          rest.map((cell, i) =>
            h('td', { role: 'cell', class: kinds[i + 1], 'data-of': head[i + 1] }, h('span', {}, cell)),
          ),
        ]),
      ),
    ),
  );
  return scrollRoom(caption, table, rows.length <= MOST_STACKED);
}

function kindOf(cells: readonly Child[]): string {
  const texts = cells.filter((cell): cell is string => typeof cell === 'string');
  const words = texts.some((cell) => /^\p{L}/u.test(cell)) ? 'words' : '';
  return texts.some(({ length }) => length > LONG) ? `${words} long` : words;
}
