import { h } from '../dom.ts';

/** A small table for paper, the first column as names. */
export function plainTable(head: readonly string[], rows: readonly (readonly string[])[]): HTMLTableElement {
  return h(
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
}
