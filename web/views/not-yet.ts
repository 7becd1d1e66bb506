import type { Missing } from '../../src/formats/page-data.ts';
import { h } from '../dom.ts';

/** What stands where an answer would, and the command that brings it. */
export function notYet({ why, command }: Missing): HTMLElement {
  return h(
    'div',
    { class: 'not-yet' },
    h('p', { class: 'answer' }, why),
    h('p', {}, 'This command brings it: ', h('code', {}, command)),
  );
}
