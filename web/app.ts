import { type Band, bandsOfRegion, DEFAULT_REGION } from '../src/core/sweep/bands.ts';
import type { PageData } from '../src/formats/page-data.ts';
import { type Address, formatAddress, parseAddress, START } from './address.ts';
import { type Layer, layersOfLogbook } from './model/layers.ts';
import { toldTo } from './model/told.ts';
import { type Reader, readerFor } from './reader.ts';
import { keepSettings, loadSettings, type Settings } from './settings.ts';

/** What changed: the views draw anew no more than they must. */
export type Change = 'address' | 'layers' | 'data' | 'settings';

/** Everything the views show, and the ways in which it changes. */
export class App {
  /** As it came. */
  #given: PageData | null;
  /** As this reader gets it told. */
  #data: PageData | null = null;
  #layers: readonly Layer[];
  #loose: readonly Layer[] = [];
  #address: Address;
  #settings: Settings = loadSettings();
  #reader: Reader;
  readonly #listeners: ((change: Change) => void)[] = [];

  constructor(data: PageData | null) {
    this.#given = data;
    this.#layers = data === null ? [] : layersOfLogbook(data.sweeps);
    this.#address = parseAddress(location.hash, this.#start());
    this.#reader = this.#tellTo();
    window.addEventListener('hashchange', () => {
      this.#address = parseAddress(location.hash, this.#start());
      this.#tell('address');
    });
  }

  get data(): PageData | null {
    return this.#data;
  }

  /** Every sweep there is: the logbook's, oldest first, and after them the loose ones. */
  get layers(): readonly Layer[] {
    return [...this.#layers, ...this.#loose];
  }

  get address(): Address {
    return this.#address;
  }

  get settings(): Settings {
    return this.#settings;
  }

  get reader(): Reader {
    return this.#reader;
  }

  /** The amateur bands that any sweep reaches into, rising. */
  get bands(): readonly Band[] {
    const site = this.#data?.site;
    return bandsOfRegion(site?.region ?? DEFAULT_REGION, site?.bandEdges).filter((band) =>
      this.layers.some(({ sweep: { frequencyHz } }) => {
        const last = frequencyHz[frequencyHz.length - 1] as number;
        return (frequencyHz[0] as number) < band.toHz && last > band.fromHz;
      }),
    );
  }

  onChange(listener: (change: Change) => void): void {
    this.#listeners.push(listener);
  }

  /** Looks at something else, and leaves a trail for the browser's way back. */
  go(part: Partial<Address>): void {
    const next = { ...this.#address, ...part };
    const moved = next.view !== this.#address.view;
    history[moved ? 'pushState' : 'replaceState'](null, '', formatAddress(next));
    this.#address = next;
    this.#tell('address');
  }

  choose(part: Partial<Settings>): void {
    this.#settings = { ...this.#settings, ...part };
    keepSettings(this.#settings);
    this.#reader = this.#tellTo();
    this.#tell('settings');
  }

  /** Lays sweeps over the others, in place of what has the same id. */
  addLoose(layers: readonly Layer[]): void {
    const loose = new Map([...this.#loose, ...layers].map((layer) => [layer.id, layer]));
    this.#loose = [...loose.values()];
    this.#tell('layers');
  }

  removeLoose(): void {
    this.#loose = [];
    this.#tell('layers');
  }

  /** Newer data of the same logbook; what the reader looks at stays. */
  renew(data: PageData): void {
    this.#given = data;
    this.#layers = layersOfLogbook(data.sweeps);
    this.#reader = this.#tellTo();
    this.#tell('data');
  }

  #start(): Address {
    return this.#given?.opens === 'report' ? { ...START, view: 'report' } : START;
  }

  #tellTo(): Reader {
    const given = this.#given;
    const reader = readerFor(this.#settings.units ?? given?.site?.units ?? 'metric');
    this.#data = given === null ? null : toldTo(reader, given);
    return reader;
  }

  #tell(change: Change): void {
    for (const listener of this.#listeners) listener(change);
  }
}
