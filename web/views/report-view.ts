import type { PageData } from '../../src/formats/page-data.ts';
import type { App } from '../app.ts';
import { h, replace } from '../dom.ts';
import { reportSheets } from '../report/report-sheets.ts';
import { NO_LOGBOOK, notYet } from './not-yet.ts';
import type { View } from './view.ts';

/** The report on the screen, with a button to print it. */
export function reportView(app: App): View {
  const element = h('div', {});
  const update = (): void => {
    const { data, reader } = app;
    replace(element, data === null ? notYet(NO_LOGBOOK) : onScreen(data, reader));
  };
  return { element, update, destroy: () => {} };
}

function onScreen(data: PageData, reader: App['reader']): HTMLElement {
  return h(
    'div',
    { class: 'report-view' },
    h(
      'p',
      { class: 'answer-second' },
      'Two pages for a club or a neighbour: the site, what was done, what it brought, what to mind, and how far to trust it.',
    ),
    h('button', { type: 'button', onclick: () => window.print() }, 'Print it, or save it as PDF'),
    reportSheets(data, reader),
  );
}
