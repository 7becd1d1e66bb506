import { QUESTIONS, type QuestionName } from './address.ts';
import type { App } from './app.ts';
import { h, replace } from './dom.ts';
import type { FileDrop } from './drop.ts';
import { Switch } from './parts/switch.ts';
import { THEMES, type Theme } from './settings.ts';
import { changeView } from './views/change-view.ts';
import { gardenView } from './views/garden-view.ts';
import { handfulView } from './views/handful-view.ts';
import { proofView } from './views/proof-view.ts';
import { sweepView } from './views/sweep-view.ts';
import type { View } from './views/view.ts';
import { wiresView } from './views/wires-view.ts';

const VIEWS: Readonly<Partial<Record<QuestionName | 'report', (app: App) => View>>> = {
  sweep: sweepView,
  wires: wiresView,
  handful: handfulView,
  proof: proofView,
  change: changeView,
  garden: gardenView,
};

/** The frame of the page: the site, the questions, one answer, the reader's choices. */
export function buildShell(app: App, drop: FileDrop): HTMLElement {
  const heading = h('h1', { tabindex: -1, id: 'question' });
  const answer = h('div', { class: 'answer-room' });
  const links = QUESTIONS.map(({ name, question }, i) =>
    h(
      'a',
      { href: `#view=${name}`, 'data-view': name },
      h('span', { class: 'question-number', 'aria-hidden': 'true' }, i + 1),
      h('span', {}, question),
    ),
  );
  const current = h('span', {});
  const menu = h(
    'details',
    { class: 'questions' },
    h('summary', {}, h('span', { class: 'summary-words' }, 'Six questions: '), current),
    h(
      'nav',
      { 'aria-label': 'Questions' },
      h(
        'ol',
        {},
        links.map((link) => h('li', {}, link)),
      ),
    ),
  );
  const site = h('p', { class: 'site-name' });
  const made = h('p', {});
  let view: { name: string; view: View } | null = null;

  for (const link of links) {
    link.addEventListener('click', (event) => {
      event.preventDefault();
      app.go({ view: link.dataset['view'] as QuestionName });
      if (!isWide()) menu.open = false;
      heading.focus();
    });
  }
  const wide = window.matchMedia('(min-width: 68rem)');
  const isWide = (): boolean => wide.matches;
  const openMenu = (): void => {
    menu.open = isWide();
  };
  wide.addEventListener('change', openMenu);
  openMenu();

  const theme = new Switch('Light', 'theme', (value) => app.choose({ theme: value as Theme }));
  const units = new Switch('Lengths', 'units', (value) =>
    app.choose({ units: value as 'metric' | 'imperial' }),
  );

  const show = (): void => {
    const { name, question } = QUESTIONS.find((one) => one.name === app.address.view) ?? QUESTIONS[0];
    heading.textContent = question;
    current.textContent = question;
    document.title = `${question} ${app.data?.site?.name ?? ''} – Turfwire`.replace('  ', ' ');
    site.textContent = app.data?.site?.name ?? 'No logbook in this page';
    made.textContent =
      app.data === null
        ? 'A page without a logbook: it shows the files you give it, and sends nothing anywhere.'
        : `Made ${app.reader.time(app.data.made)} by ${app.data.program} from the logbook. Nothing here is sent anywhere.`;
    for (const link of links) {
      if (link.dataset['view'] === name) link.setAttribute('aria-current', 'page');
      else link.removeAttribute('aria-current');
    }
    document.documentElement.dataset['theme'] = app.settings.theme;
    theme.set(
      THEMES.map((one) => ({ value: one.name, label: one.label })),
      app.settings.theme,
    );
    units.set(
      [
        { value: 'metric', label: 'metres' },
        { value: 'imperial', label: 'feet' },
      ],
      app.reader.units,
    );
    if (view?.name !== name) {
      view?.view.destroy();
      view = { name, view: (VIEWS[name] ?? sweepView)(app) };
      replace(answer, view.view.element);
    }
    view.view.update();
  };
  app.onChange(show);
  window.matchMedia('(prefers-color-scheme: dark)').addEventListener('change', show);
  // The view draws into the document, so it must stand there first.
  queueMicrotask(show);

  return h(
    'div',
    { class: 'frame' },
    h('a', { class: 'skip', href: '#question', onclick: skipTo(heading) }, 'Skip to the answer'),
    h(
      'header',
      { class: 'top' },
      h('div', {}, h('p', { class: 'wordmark' }, 'Turfwire'), site),
      h('div', { class: 'top-tools' }, drop.button),
    ),
    menu,
    h('main', {}, heading, drop.report, answer),
    h('footer', {}, h('div', { class: 'footer-tools' }, theme.element, units.element), made),
  );
}

/** The address of this page is what is looked at, so a link within it may not change it. */
function skipTo(target: HTMLElement): (event: Event) => void {
  return (event) => {
    event.preventDefault();
    target.focus();
  };
}
