import { h } from '../dom.ts';
import { scrollRoom } from '../parts/scroll-room.ts';

/** A small table for paper, the first column as names; on a narrow screen it scrolls by itself. */
export function plainTable(
  name: string,
  head: readonly string[],
  rows: readonly (readonly string[])[],
): HTMLElement {
  const table = h(
    'table',
    { class: 'plain' },
    h(
      'thead',
      {},
      h(
        'tr',
        {},
        head.map((cell) => (cell === '' ? h('td', {}) : h('th', { scope: 'col' }, cell))),
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
          rest.map((cell) => h('td', {}, cell)),
        ),
      ),
    ),
  );
  return scrollRoom('plain-room', name, table);
}
