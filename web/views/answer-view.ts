import type { PageData, Part } from '../../src/formats/page-data.ts';
import type { App } from '../app.ts';
import { type Child, h, keepingFocus, replace } from '../dom.ts';
import type { Reader } from '../reader.ts';
import { NO_LOGBOOK, notYet } from './not-yet.ts';
import type { View } from './view.ts';

/** What a view may draw from. */
export interface Shown<T> {
  readonly answer: T;
  readonly data: PageData;
  readonly reader: Reader;
}

/** A view of one part of the data: drawn where the part is there, else told how to get it. */
export function answerView<T>(
  app: App,
  pick: (data: PageData) => Part<T>,
  draw: (shown: Shown<T>) => Child,
): View {
  const element = h('div', {});
  const update = (): void => {
    const { data, reader } = app;
    const part = data === null ? { data: null, missing: NO_LOGBOOK } : pick(data);
    if (data === null || part.data === null) replace(element, notYet(part.missing ?? NO_LOGBOOK));
    else {
      const shown = { answer: part.data, data, reader };
      keepingFocus(() => replace(element, draw(shown)));
    }
  };
  return { element, update, destroy: () => {} };
}
