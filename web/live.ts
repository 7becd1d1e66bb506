import { UserError } from '../src/core/user-error.ts';
import { parsePageData } from '../src/formats/page-data.ts';
import type { App } from './app.ts';
import { h } from './dom.ts';

/** Where the page was served, it follows the logbook; a page from a file has nothing to ask. */
export function followServer(app: App): HTMLElement {
  const words = h('p', { class: 'live', role: 'status' });
  if (app.data === null || app.data.source === 'file') return words;
  const changes = new EventSource('changes');
  changes.addEventListener('open', () => {
    words.textContent = 'Following the logbook.';
  });
  changes.addEventListener('error', () => {
    words.textContent = 'The page is not being served any more; it shows what it last got.';
  });
  changes.addEventListener('changed', () => void refresh(app, words));
  return words;
}

async function refresh(app: App, words: HTMLElement): Promise<void> {
  try {
    const answer = await fetch('data.json');
    app.renew(parsePageData(await answer.text()));
    const visits = app.data?.sweeps.visits.length ?? 0;
    words.textContent = `The logbook changed: the page now shows ${visits} visits.`;
  } catch (error) {
    const why = error instanceof UserError ? error.message : 'it could not be fetched';
    words.textContent = `The logbook changed, but the page did not follow: ${why}.`;
  }
}
