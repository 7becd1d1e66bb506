import type { App } from '../app.ts';
import { h } from '../dom.ts';
import { reportSheets } from './report-sheets.ts';

/** Whatever is on the screen, paper gets the report. */
export function printReport(app: App): HTMLElement {
  const paper = h('div', { class: 'paper' });
  window.addEventListener('beforeprint', () => {
    if (app.data !== null) paper.replaceChildren(reportSheets(app.data, app.reader));
  });
  window.addEventListener('afterprint', () => paper.replaceChildren());
  return paper;
}
