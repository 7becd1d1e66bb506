import * as v from 'valibot';
import type { Lot, Point } from '../core/site.ts';
import { ANY, closed, given, list, name, oneOf, quantity } from '../formats/json/json-fields.ts';
import { CLEARANCE, HEIGHT, ON_LOT } from './site-bounds.ts';

const point: v.GenericSchema<unknown, Point> = v.pipe(
  list(quantity('length', ON_LOT)),
  v.check((pair) => pair.length === 2, 'needs two lengths: east and north'),
  v.transform((pair) => pair as unknown as Point),
);

/** What may be told by its way over the lot, as a line that is open at both ends. */
const LINES: ReadonlySet<string> = new Set(['service', 'path']);

/** What covers ground has an outline of three corners and more; a service or a path may be a line, or an outline of two. */
const obstacle = v.pipe(
  closed({
    name: name('a name'),
    kind: oneOf(['building', 'path', 'water', 'service']),
    outline: given(list(point, 2)),
    line: given(list(point, 2)),
    clearance: given(quantity('length', CLEARANCE, '0.3m or 1ft')),
  }),
  v.forward(
    v.check((o) => o.outline !== null || o.line !== null, 'is required and missing'),
    ['outline'],
  ),
  v.forward(
    v.check((o) => o.outline === null || o.line === null, 'stands in for "outline": leave one of them out'),
    ['line'],
  ),
  v.forward(
    v.check(
      (o) => o.line === null || LINES.has(o.kind),
      'is for a service or a path: give the outline of what covers ground',
    ),
    ['line'],
  ),
  v.forward(
    v.check(
      (o) => o.outline === null || o.outline.length >= 3 || LINES.has(o.kind),
      'needs at least 3 corners, got 2',
    ),
    ['outline'],
  ),
  v.transform((o) => {
    const outline = o.line ?? o.outline ?? [];
    return {
      name: o.name,
      kind: o.kind,
      outline,
      isLine: o.line !== null || outline.length === 2,
      clearanceM: o.clearance ?? 0,
    };
  }),
);

const place = v.pipe(
  closed({ name: name('a name'), at: point, height: given(quantity('length', HEIGHT, '2.5m or 8ft')) }),
  v.transform((p) => ({ name: p.name, at: p.at, heightM: p.height ?? 0 })),
);

/** `lot` of `site.json`. Whether the outline crosses itself is for those who compute with it. */
export const LOT: v.GenericSchema<unknown, Lot> = v.pipe(
  closed({
    outline: list(point, 3),
    base: point,
    north: given(quantity('angle', ANY)),
    obstacles: given(list(obstacle)),
    places: given(list(place)),
  }),
  v.transform((l) => ({
    outline: l.outline,
    base: l.base,
    northDeg: l.north ?? 0,
    obstacles: l.obstacles ?? [],
    places: l.places ?? [],
  })),
);
