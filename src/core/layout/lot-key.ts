import type { Obstacle } from '../site.ts';

/** How a wire of the drawing stands, by which it is drawn. */
export interface WireStanding {
  /** `planned` is dashed; laid wires grow darker with age (0 the newest, 1 the oldest). */
  readonly state: 'planned' | 'laid';
  readonly age: number;
  /** True of a laid one of which nobody knows the way: it is dotted where it was taken to lie. */
  readonly assumed?: boolean | undefined;
}

/** A line of the key: what a kind of stroke means. */
export interface KeyLine {
  readonly words: string;
  /** Class and stroke, as of what it stands for. */
  readonly style: string;
}

const PLANNED_COLOUR = '#9c5a1b';

/** Class and stroke of a wire. */
export function wireStyle({ state, age, assumed = false }: WireStanding): string {
  if (state === 'planned') {
    return `class="lot-wire lot-planned" stroke-width="2" stroke="${PLANNED_COLOUR}" stroke-dasharray="7 4"`;
  }
  const colour = `stroke="hsl(24 60% ${(45 - 25 * age).toFixed(0)}%)"`;
  const dots = assumed ? ' stroke-dasharray="0.1 5" stroke-linecap="round"' : '';
  return `class="lot-wire lot-laid${assumed ? ' lot-assumed' : ''}" stroke-width="2" ${colour}${dots}`;
}

/** The stroke of a buried service, as an outline and as a line. */
export const SERVICE_DASHES = ' stroke-dasharray="8 3 2 3" stroke-width="2"';

/** What the strokes of a drawing mean, as far as it holds them. */
export function keyLines(
  wires: readonly WireStanding[],
  obstacles: readonly Pick<Obstacle, 'kind'>[],
  ink: string,
): KeyLine[] {
  const laid = wires.filter(({ state }) => state === 'laid');
  const known = laid.filter(({ assumed }) => assumed !== true);
  const wire = (some: boolean, standing: WireStanding, words: string): KeyLine[] =>
    some ? [{ words, style: wireStyle(standing) }] : [];
  return [
    ...wire(wires.length > laid.length, { state: 'planned', age: 0 }, 'planned radial'),
    ...wire(known.length > 0, { state: 'laid', age: 1 }, 'laid radial; the darker, the older'),
    ...wire(
      laid.length > known.length,
      { state: 'laid', age: 1, assumed: true },
      'laid radial, its direction assumed',
    ),
    ...(obstacles.some(({ kind }) => kind === 'service')
      ? [{ words: 'buried service', style: `class="lot-service-line" stroke="${ink}"${SERVICE_DASHES}` }]
      : []),
  ];
}
