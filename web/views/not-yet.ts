import type { Missing } from '../../src/formats/page-data.ts';
import { h } from '../dom.ts';

export const NO_LOGBOOK: Missing = {
  why: 'This page holds no logbook, only the files you give it.',
  command: 'npx turfwire page --logbook DIR',
};

/** What stands where an answer would, and the command that brings it, where one is known. */
export function notYet({
  why,
  command,
}: {
  readonly why: string;
  readonly command: string | null;
}): HTMLElement {
  return h(
    'div',
    { class: 'not-yet' },
    h('p', { class: 'answer' }, why),
    command === null ? null : h('p', {}, 'This command brings it: ', h('code', {}, command)),
  );
}
