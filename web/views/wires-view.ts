import type { App } from '../app.ts';
import { h, replace } from '../dom.ts';
import { notYet } from './not-yet.ts';
import type { View } from './view.ts';

/** Where should wires go? */
export function wiresView(app: App): View {
  const element = h('div', {});
  const update = (): void => {
    const part = app.data?.lot;
    if (part === undefined || part.data === null) {
      replace(
        element,
        notYet(
          part?.missing ?? { why: 'This page holds no logbook.', command: 'turfwire page --logbook DIR' },
        ),
      );
    }
  };
  return { element, update, destroy: () => {} };
}
