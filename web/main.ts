import 'uplot/dist/uPlot.min.css';
import './css/themes.css';
import './css/base.css';
import './css/controls.css';
import './css/contents.css';
import './css/frame.css';
import './css/figures.css';
import './css/sweep-pictures.css';
import './css/lot-pictures.css';
import './css/charts.css';
import './css/print.css';
import { UserError } from '../src/core/user-error.ts';
import { parsePageData } from '../src/formats/page-data.ts';
import { asSentence } from '../src/formats/words.ts';
import { App } from './app.ts';
import { h, replace } from './dom.ts';
import { FileDrop } from './drop.ts';
import { printReport } from './report/print.ts';
import { buildShell } from './shell.ts';

const room = document.getElementById('page') as HTMLElement;
const embedded = document.getElementById('page-data')?.textContent ?? null;
try {
  const app = new App(embedded === null ? null : parsePageData(embedded));
  replace(room, buildShell(app, new FileDrop(app)), printReport(app));
} catch (error) {
  if (!(error instanceof UserError)) throw error;
  const words = h(
    'main',
    {},
    h('h1', {}, 'This page cannot be shown'),
    h('p', {}, asSentence(error.message)),
  );
  replace(room, h('div', { class: 'frame' }, words));
}
