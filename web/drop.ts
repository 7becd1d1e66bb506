import type { ReferencePlane } from '../src/core/record.ts';
import type { AnySweep } from '../src/core/sweep/sweep.ts';
import { describeProblem } from '../src/formats/problem.ts';
import type { ReadOptions } from '../src/formats/read-options.ts';
import { groupIntoVisits } from '../src/formats/visits.ts';
import type { App } from './app.ts';
import { h, replace } from './dom.ts';
import { laidWords, planeWords } from './model/drop-words.ts';
import { type Layer, looseLayer } from './model/layers.ts';
import { openReading } from './open-reading.ts';
import { Switch } from './parts/switch.ts';
import { type ReadFile, readFile } from './read-file.ts';

/** The shots of one visit out of files that were given to the page. */
interface Laid {
  readonly id: string;
  readonly label: string;
  readonly files: readonly ReadFile[];
}

const PLANES: readonly { value: ReferencePlane; label: string }[] = [
  { value: 'feedpoint', label: 'at the feed point' },
  { value: 'shack', label: 'in the shack' },
];

/**
 * Takes files that were dropped anywhere or chosen, reads them here in the browser, and lays them over the others.
 * Nothing leaves the page.
 */
export class FileDrop {
  /** What was read and what was not, with line and column. */
  readonly report: HTMLElement = h('div', { class: 'drop-report', role: 'status' });
  readonly button: HTMLElement;
  readonly #app: App;
  readonly #plane: Switch = new Switch('These files were swept', 'plane', (plane) =>
    this.#app.go({ plane: plane as ReferencePlane }),
  );
  #laid: readonly Laid[] = [];
  /** The files that came last, which the report is about. */
  #last: readonly ReadFile[] = [];
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
    let { plane } = app.address;
    app.onChange(() => {
      if (app.address.plane === plane) return;
      plane = app.address.plane;
      void this.#move();
    });
  }

  async take(files: readonly File[]): Promise<void> {
    if (files.length === 0) return;
    const read = await Promise.all(files.map((file) => this.#read({ file, chosen: {} })));
    this.#lay(read);
    this.#tell(read);
  }

  #read({ file, chosen }: Pick<ReadFile, 'file' | 'chosen'>): Promise<ReadFile> {
    return readFile(file, chosen, this.#app.address.plane, this.#app.data?.site ?? null);
  }

  async #readAgain({ file, chosen }: ReadFile, choice: ReadOptions): Promise<void> {
    const again = await this.#read({ file, chosen: { ...chosen, ...choice } });
    this.#lay([again]);
    this.#tell(this.#last.map((one) => (one.file === file ? again : one)));
  }

  /** The files of the page at the other plane: read anew, because what can be said of them changes with it. */
  async #move(): Promise<void> {
    const all = [...new Set([...this.#laid.flatMap(({ files }) => files), ...this.#last])];
    if (all.length === 0) return;
    const moved = new Map(
      await Promise.all(all.map(async (one) => [one.file, await this.#read(one)] as const)),
    );
    const anew = (files: readonly ReadFile[]): ReadFile[] => files.map((one) => moved.get(one.file) ?? one);
    this.#laid = this.#laid.map((one) => ({ ...one, files: anew(one.files) }));
    this.#app.addLoose(this.#laid.flatMap(layersOf));
    this.#tell(anew(this.#last));
  }

  /** Lays over what is new. */
  #lay(read: readonly ReadFile[]): void {
    const fresh = groupIntoVisits(read.map(({ file }) => file.name)).flatMap(({ label, names }) => {
      const files = names.flatMap((name) => read.find(({ file }) => file.name === name) ?? []);
      if (shotsOf(files).length === 0) return [];
      this.#count++;
      return [{ id: `file-${this.#count}`, label, files }];
    });
    if (fresh.length === 0) return;
    this.#laid = [...this.#laid, ...fresh];
    this.#app.addLoose(fresh.flatMap(layersOf));
    this.#app.go({ view: 'sweep', visit: fresh.at(-1)?.id ?? null });
  }

  /** Tells of all that came together. */
  #tell(read: readonly ReadFile[]): void {
    this.#last = read;
    const { data, address } = this.#app;
    const lines = read.flatMap((one) =>
      one.problems.map((problem) =>
        h(
          'li',
          { class: problem.severity },
          describeProblem(problem, one.file.name),
          openReading(problem, (choice) => void this.#readAgain(one, choice)),
        ),
      ),
    );
    const sweeps = shotsOf(read);
    this.#plane.set(PLANES, address.plane);
    replace(
      this.report,
      h('p', {}, laidWords(read.length, sweeps.length)),
      h('p', {}, sweeps.length === 0 ? '' : planeWords(address.plane, data)),
      sweeps.length === 0 ? null : this.#plane.element,
      lines.length === 0 ? null : h('ul', {}, lines),
      h('button', { type: 'button', onclick: () => this.#clear() }, 'Take them off again'),
    );
  }

  #clear(): void {
    this.#laid = [];
    this.#last = [];
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

function shotsOf(files: readonly ReadFile[]): AnySweep[] {
  return files.flatMap(({ sweeps }) => sweeps);
}

/** None where nothing of the files can be had at this plane. */
function layersOf({ id, label, files }: Laid): Layer[] {
  const shots = shotsOf(files);
  const isMoved = files.some((file) => file.isMoved);
  return shots.length === 0 ? [] : [looseLayer(id, label, 'file', shots, isMoved)];
}
