import { type DrawnCircle, type DrawnKeepOff, drawLot } from '../../src/core/layout/lot-drawing.ts';
import type { PageLot, PageWire } from '../../src/formats/page-data.ts';
import { h } from '../dom.ts';
import type { Reader } from '../reader.ts';

export interface LotInput {
  readonly lot: PageLot['lot'];
  readonly wires: readonly PageWire[];
  readonly circles: readonly DrawnCircle[];
  readonly keepOffs?: readonly DrawnKeepOff[];
  /** What to say of a place beside its dot, by name; such as a verdict. */
  readonly verdicts: ReadonlyMap<string, string>;
  readonly title: string;
  readonly reader: Reader;
}

/** The lot to scale, by the same drawing that `plan --svg` writes, in the colours of the theme. */
export function lotPicture({
  lot,
  wires,
  circles,
  keepOffs = [],
  verdicts,
  title,
  reader,
}: LotInput): HTMLElement {
  const places = lot.places.map((place) => {
    const verdict = verdicts.get(place.name);
    return verdict === undefined ? place : { ...place, name: `${place.name}: ${verdict}` };
  });
  const drawn = wires.map((wire) => ({ ...wire, label: wireLabel(wire, reader) }));
  const text = drawLot({ ...lot, places }, drawn, { circles, keepOffs, title, units: reader.units });
  // The drawing escapes every text of the user; an XML parser runs no script and knows no HTML.
  const drawing = new DOMParser().parseFromString(text, 'image/svg+xml').documentElement;
  const svg = document.importNode(drawing, true) as unknown as SVGSVGElement;
  svg.querySelectorAll<SVGElement>('.lot-laid').forEach((line, i) => {
    const wire = wires.filter(({ state }) => state === 'laid')[i];
    line.style.stroke = `color-mix(in oklab, var(--wire-old) ${Math.round(100 * (wire?.age ?? 0))}%, var(--wire-new))`;
  });
  svg.querySelectorAll<SVGElement>('.lot-place').forEach((dot, i) => {
    const verdict = verdicts.get(lot.places[i]?.name ?? '');
    if (verdict !== undefined) dot.classList.add(`verdict-${verdict.replaceAll(' ', '-')}`);
  });
  return h('div', { class: 'lot' }, svg);
}

export function wireLabel({ number, lengthM, since, state }: PageWire, reader: Reader): string {
  const name = number === null ? 'radial' : `radial ${number}`;
  const when = state === 'planned' ? (since === null ? ', proposed' : ', planned') : '';
  const laid = state === 'laid' && since !== null ? `, laid ${reader.date(since)}` : '';
  return `${name}, ${reader.length(lengthM)}${when}${laid}`;
}
