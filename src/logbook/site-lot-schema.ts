import * as v from 'valibot';
import type { Lot, Point } from '../core/site.ts';
import { ANY, closed, given, list, name, oneOf, quantity } from '../formats/json/json-fields.ts';
import { CLEARANCE, HEIGHT, ON_LOT } from './site-bounds.ts';

const point: v.GenericSchema<unknown, Point> = v.pipe(
  list(quantity('length', ON_LOT)),
  v.check((pair) => pair.length === 2, 'needs two lengths: east and north'),
  v.transform((pair) => pair as unknown as Point),
);

/** A service or a path may be drawn as a line; what covers ground needs three corners. */
const obstacle = v.pipe(
  closed({
    name: name('a name'),
    kind: oneOf(['building', 'path', 'water', 'service']),
    outline: list(point, 2),
    clearance: given(quantity('length', CLEARANCE, '0.3m or 1ft')),
  }),
  v.forward(
    v.check(
      (o) => o.outline.length >= 3 || o.kind === 'service' || o.kind === 'path',
      'needs at least 3 corners, got 2',
    ),
    ['outline'],
  ),
  v.transform((o) => ({ name: o.name, kind: o.kind, outline: o.outline, clearanceM: o.clearance ?? 0 })),
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
