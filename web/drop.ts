import { describeProblem, type Problem } from '../src/formats/problem.ts';
import { readSweeps } from '../src/formats/read-sweeps.ts';
import { groupIntoVisits } from '../src/formats/visits.ts';
import type { App } from './app.ts';
import { h, replace } from './dom.ts';
import { looseLayer } from './model/layers.ts';

/**
 * Takes files that were dropped anywhere or chosen, reads them here in the browser, and lays them over the others.
 * Nothing leaves the page.
 */
export class FileDrop {
  /** What was read and what was not, with line and column. */
  readonly report: HTMLElement = h('div', { class: 'drop-report', role: 'status' });
  readonly button: HTMLElement;
  readonly #app: App;
  #count = 0;

  constructor(app: App) {
    this.#app = app;
    const input = h('input', {
      type: 'file',
      multiple: true,
      class: 'only-heard add-files-input',
      id: 'sweep-files',
    });
    input.addEventListener('change', () => {
      void this.take([...(input.files ?? [])]);
      input.value = '';
    });
    this.button = h(
      'div',
      { class: 'add-files' },
      input,
      h('label', { class: 'add-files-face', for: 'sweep-files' }, 'Add sweep files'),
    );
    this.#listen();
  }

  async take(files: readonly File[]): Promise<void> {
    if (files.length === 0) return;
    const referenceOhm = this.#app.data?.site?.instrument.referenceOhm ?? undefined;
    const read = await Promise.all(
      files.map(async (file) => {
        const bytes = new Uint8Array(await file.arrayBuffer());
        return { name: file.name, ...readSweeps(bytes, file.name, { instrumentReferenceOhm: referenceOhm }) };
      }),
    );
    const layers = groupIntoVisits(read.map(({ name }) => name)).flatMap(({ label, names }) => {
      const shots = names.flatMap((name) => read.find((file) => file.name === name)?.sweeps ?? []);
      if (shots.length === 0) return [];
      this.#count++;
      return [looseLayer(`file-${this.#count}`, label, 'file', shots)];
    });
    this.#tell(read, layers.length);
    if (layers.length === 0) return;
    this.#app.addLoose(layers);
    this.#app.go({ view: 'sweep', visit: layers.at(-1)?.id ?? null });
  }

  #tell(read: readonly { name: string; problems: readonly Problem[] }[], visits: number): void {
    const lines = read.flatMap(({ name, problems }) =>
      problems.map((problem) => h('li', { class: problem.severity }, describeProblem(problem, name))),
    );
    const files = `${read.length} ${read.length === 1 ? 'file' : 'files'}`;
    replace(
      this.report,
      h(
        'p',
        {},
        visits === 0
          ? `Nothing could be shown of ${files}.`
          : `Laid ${visits} ${visits === 1 ? 'sweep' : 'sweeps'} out of ${files} over the others, taken as measured at the feed point. They stay in this page and are not in the logbook.`,
      ),
      lines.length === 0 ? null : h('ul', {}, lines),
      h('button', { type: 'button', onclick: () => this.#clear() }, 'Take them off again'),
    );
  }

  #clear(): void {
    replace(this.report);
    this.#app.removeLoose();
  }

  #listen(): void {
    let inside = 0;
    const over = (on: boolean): void => {
      document.documentElement.toggleAttribute('data-dropping', on);
    };
    document.addEventListener('dragenter', () => over(++inside > 0));
    document.addEventListener('dragleave', () => over(--inside > 0));
    document.addEventListener('dragover', (event) => event.preventDefault());
    document.addEventListener('drop', (event) => {
      event.preventDefault();
      inside = 0;
      over(false);
      void this.take([...(event.dataTransfer?.files ?? [])]);
    });
  }
}
