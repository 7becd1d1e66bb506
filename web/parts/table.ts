import { type Child, h } from '../dom.ts';

/** A table that may be wider than a phone: it scrolls by itself, by keyboard too, and never moves the page. */
export function dataTable(
  caption: string,
  head: readonly string[],
  rows: readonly (readonly Child[])[],
  options: { readonly className?: string } = {},
): HTMLElement {
  return h(
    'div',
    { class: 'table-room', tabindex: 0, role: 'region', 'aria-label': caption },
    h(
      'table',
      { class: options.className },
      h('caption', {}, caption),
      h(
        'thead',
        {},
        h(
          'tr',
          {},
          head.map((cell) => h('th', { scope: 'col' }, cell)),
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
    ),
  );
}
