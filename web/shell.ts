import { type Address, QUESTIONS } from './address.ts';
import type { App } from './app.ts';
import { h, replace } from './dom.ts';
import type { FileDrop } from './drop.ts';
import { followServer } from './live.ts';
import { measureHere } from './measure/measure-here.ts';
import { Switch } from './parts/switch.ts';
import { InTurn } from './pictures/in-turn.ts';
import { QuestionMenu } from './question-menu.ts';
import { type Settings, THEMES } from './settings.ts';
import { ThemeKeeper } from './theme.ts';
import { changeView } from './views/change-view.ts';
import { gardenView } from './views/garden-view.ts';
import { handfulView } from './views/handful-view.ts';
import { proofView } from './views/proof-view.ts';
import { reportView } from './views/report-view.ts';
import { sweepView } from './views/sweep-view.ts';
import type { View } from './views/view.ts';
import { wiresView } from './views/wires-view.ts';

const VIEWS: Readonly<Record<Address['view'], (app: App) => View>> = {
  sweep: sweepView,
  wires: wiresView,
  handful: handfulView,
  proof: proofView,
  change: changeView,
  garden: gardenView,
  report: reportView,
};

/** The frame of the page: the site, the questions, one answer, the reader's choices. */
export function buildShell(app: App, drop: FileDrop): HTMLElement {
  const heading = h('h1', { tabindex: -1, id: 'question' });
  const answer = h('div', {});
  const site = h('p', { class: 'site-name' });
  const made = h('p', {});
  const menu = new QuestionMenu((view) => {
    app.go({ view });
    heading.focus();
    window.scrollTo(0, 0);
  });
  const choices = new ReaderChoices(app);
  let shown: { readonly name: string; readonly view: View } | null = null;

  // Under the first picture, so there is time for it after that.
  const foot = new InTurn();
  const footer = (): void => {
    made.textContent = madeWords(app);
    choices.show();
  };

  const show = (): void => {
    const { view: name } = app.address;
    const question = QUESTIONS.find((one) => one.name === name)?.question ?? 'A report for others';
    const siteName = app.data?.site?.name ?? 'No logbook in this page';
    heading.textContent = question;
    site.textContent = siteName;
    document.title = `${question} ${siteName} – Turfwire`;
    menu.show(name, question);
    if (shown?.name !== name) {
      shown?.view.destroy();
      shown = { name, view: VIEWS[name](app) };
      replace(answer, shown.view.element);
    }
    shown.view.update();
    foot.start([() => {}, footer]);
  };
  const theme = new ThemeKeeper(show);
  app.onChange(() => {
    theme.want(app.settings.theme);
    show();
  });
  theme.want(app.settings.theme);
  // The view draws into the document, so it must stand there first.
  queueMicrotask(show);

  return h(
    'div',
    { class: 'frame' },
    h('a', { class: 'skip', href: '#question', onclick: leadTo(heading) }, 'Skip to the answer'),
    h(
      'header',
      { class: 'top' },
      h('div', {}, h('p', { class: 'wordmark' }, 'Turfwire'), site),
      h('div', { class: 'top-tools' }, drop.button),
    ),
    menu.element,
    h('main', {}, heading, drop.report, measureHere(app), answer),
    h('footer', {}, choices.element, made, followServer(app)),
  );
}

/** Light, units, and the report. */
class ReaderChoices {
  readonly element: HTMLElement;
  readonly #app: App;
  readonly #theme: Switch;
  readonly #units: Switch;

  constructor(app: App) {
    this.#app = app;
    this.#theme = new Switch('Light', 'theme', (value) => app.choose({ theme: value as Settings['theme'] }));
    this.#units = new Switch('Units', 'units', (value) =>
      app.choose({ units: value as NonNullable<Settings['units']> }),
    );
    this.element = h('div', { class: 'footer-tools' }, this.#theme.element, this.#units.element);
    if (app.data === null) return;
    this.element.append(
      h(
        'button',
        { type: 'button', class: 'footer-report', onclick: () => app.go({ view: 'report' }) },
        'A report to print',
      ),
    );
  }

  show(): void {
    const { settings, reader } = this.#app;
    this.#theme.set(
      THEMES.map(({ name, label }) => ({ value: name, label })),
      settings.theme,
    );
    this.#units.set(
      [
        { value: 'metric', label: 'm, °C' },
        { value: 'imperial', label: 'ft, °F' },
      ],
      reader.units,
    );
  }
}

function madeWords({ data, reader }: App): string {
  return data === null
    ? 'A page without a logbook: it shows the files you give it, and sends nothing anywhere.'
    : `Made ${reader.time(data.made)} by ${data.program} from the logbook. Times and days are those of the clock by which they were noted. Nothing here is sent anywhere.`;
}

/** The address of this page is what is looked at, so a link within it may not change it. */
function leadTo(target: HTMLElement): (event: Event) => void {
  return (event) => {
    event.preventDefault();
    target.focus();
  };
}
