import { describeProblem } from '../src/formats/problem.ts';
import type { ReadOptions } from '../src/formats/read-options.ts';
import { readSweeps } from '../src/formats/read-sweeps.ts';
import { groupIntoVisits } from '../src/formats/visits.ts';
import type { App } from './app.ts';
import { h, replace } from './dom.ts';
import { looseLayer } from './model/layers.ts';
import { openReading } from './open-reading.ts';

/** A file as it was read, with what the user chose for it so far. */
interface ReadFile extends ReturnType<typeof readSweeps> {
  readonly file: File;
  readonly chosen: ReadOptions;
}

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
    const read = await Promise.all(files.map((file) => this.#read(file, {})));
    this.#show(read, read);
  }

  async #read(file: File, chosen: ReadOptions): Promise<ReadFile> {
    const instrumentReferenceOhm = this.#app.data?.site?.instrument.referenceOhm ?? undefined;
    const bytes = new Uint8Array(await file.arrayBuffer());
    return { file, chosen, ...readSweeps(bytes, file.name, { instrumentReferenceOhm, ...chosen }) };
  }

  async #readAgain(all: readonly ReadFile[], { file, chosen }: ReadFile, choice: ReadOptions): Promise<void> {
    const again = await this.#read(file, { ...chosen, ...choice });
    this.#show(
      all.map((one) => (one.file === file ? again : one)),
      [again],
    );
  }

  /** Lays over what is new, and tells of all that came together. */
  #show(all: readonly ReadFile[], fresh: readonly ReadFile[]): void {
    const layers = groupIntoVisits(fresh.map(({ file }) => file.name)).flatMap(({ label, names }) => {
      const shots = names.flatMap((name) => fresh.find(({ file }) => file.name === name)?.sweeps ?? []);
      if (shots.length === 0) return [];
      this.#count++;
      return [looseLayer(`file-${this.#count}`, label, 'file', shots)];
    });
    this.#tell(all);
    if (layers.length === 0) return;
    this.#app.addLoose(layers);
    this.#app.go({ view: 'sweep', visit: layers.at(-1)?.id ?? null });
  }

  #tell(read: readonly ReadFile[]): void {
    const lines = read.flatMap((one) =>
      one.problems.map((problem) =>
        h(
          'li',
          { class: problem.severity },
          describeProblem(problem, one.file.name),
          openReading(problem, (choice) => void this.#readAgain(read, one, choice)),
        ),
      ),
    );
    const files = `${read.length} ${read.length === 1 ? 'file' : 'files'}`;
    const sweeps = read.reduce((sum, one) => sum + one.sweeps.length, 0);
    replace(
      this.report,
      h(
        'p',
        {},
        sweeps === 0
          ? `Nothing could be shown of ${files}.`
          : `Laid ${sweeps} ${sweeps === 1 ? 'sweep' : 'sweeps'} out of ${files} over the others, taken as measured at the feed point. They stay in this page and are not in the logbook.`,
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
