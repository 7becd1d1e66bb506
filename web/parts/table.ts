import { type Child, h } from '../dom.ts';

/** Longer words than these may break over lines, lest the table gets wider than need be. */
const LONG = 18;

/**
 * A table that may be wider than a phone: it scrolls by itself, by keyboard too, and never moves the page. Columns of
 * words stand on the left, figures on the right.
 */
export function dataTable(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly Child[])[],
): HTMLElement {
  const kinds = head.map((_, i) => (i === 0 ? null : kindOf(rows.map((row) => row[i]))));
  return h(
    'div',
    { class: 'table-room', tabindex: 0, role: 'region', 'aria-label': caption },
    h(
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
    ),
  );
}

function kindOf(cells: readonly Child[]): 'words' | 'words long' | null {
  const words = cells.filter((cell): cell is string => typeof cell === 'string' && /^\p{L}/u.test(cell));
  if (words.length === 0) return null;
  return words.some(({ length }) => length > LONG) ? 'words long' : 'words';
}
