import type { PageData } from '../../src/formats/page-data.ts';
import { h } from '../dom.ts';
import type { Reader } from '../reader.ts';

/** What stands there, as names and facts; what the site does not say is left out. */
export function siteFacts({ site, sweeps, lot }: PageData, reader: Reader): HTMLElement {
  const facts: [name: string, fact: string][] = [];
  const add = (name: string, fact: string | null): void => {
    if (fact !== null && fact !== '') facts.push([name, fact]);
  };
  if (site !== null) {
    const { antenna, radials, soil, feedline } = site;
    const height = antenna.heightM === null ? '' : `, ${reader.length(antenna.heightM)} high`;
    add('antenna', `${antenna.kind} vertical${height}`);
    add('bands', antenna.bands.join(', '));
    add('radials', radialWords(radials, reader));
    add('soil', soil === null ? null : soilWords(soil, reader));
    add(
      'feed line',
      feedline === null
        ? null
        : `${feedline.type ?? 'of its own figures'}, ${reader.length(feedline.lengthM)}`,
    );
  }
  const { visits } = sweeps;
  const [first, last] = [visits[0], visits.at(-1)];
  if (first !== undefined && last !== undefined) {
    add('measured', `${visits.length} visits, ${reader.date(first.time)} to ${reader.date(last.time)}`);
  }
  if (lot.data !== null) add('lot', inTheWay(lot.data.lot.obstacles.map(({ name }) => name)));
  return h(
    'dl',
    { class: 'facts' },
    facts.map(([name, fact]) => [h('dt', {}, name), h('dd', {}, fact)]),
  );
}

function radialWords(radials: NonNullable<PageData['site']>['radials'], reader: Reader): string | null {
  if (radials === null) return null;
  const { diameterM, insulated, metal, depthM } = radials;
  return [
    metal,
    diameterM === null ? null : reader.small(diameterM),
    insulated === null ? null : insulated ? 'insulated' : 'bare',
    depthM === null ? null : depthM === 0 ? 'on the ground' : `${reader.small(depthM)} deep`,
  ]
    .filter((part) => part !== null)
    .join(', ');
}

function soilWords(
  { name, conductivitySPerM, relativePermittivity }: NonNullable<NonNullable<PageData['site']>['soil']>,
  reader: Reader,
): string {
  const figures = `${reader.number(conductivitySPerM * 1e3, 1)} mS/m, permittivity ${reader.number(relativePermittivity, 0)}`;
  return name === null ? figures : `${name} (${figures})`;
}

/** More names than these fill the sheet and tell no more: the drawing has them all. */
const MOST_NAMES = 6;

function inTheWay(names: readonly string[]): string {
  const more = names.length - MOST_NAMES;
  return `${names.slice(0, MOST_NAMES).join(', ') || 'open'}${more > 0 ? ` and ${more} more` : ''}`;
}
