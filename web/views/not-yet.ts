import type { Missing } from '../../src/formats/page-data.ts';
import { h } from '../dom.ts';

export const NO_LOGBOOK: Missing = {
  why: 'This page holds no logbook, only the files you give it.',
  command: 'turfwire page --logbook DIR',
};

/** What stands where an answer would, and the command that brings it. */
export function notYet({ why, command }: Missing): HTMLElement {
  return h(
    'div',
    { class: 'not-yet' },
    h('p', { class: 'answer' }, why),
    h('p', {}, 'This command brings it: ', h('code', {}, command)),
  );
}
