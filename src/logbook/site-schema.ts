import * as v from 'valibot';
import { findSoil, NAMED_SOILS, type NamedSoil } from '../core/ground/named-soils.ts';
import type { Site, SiteSoil } from '../core/site.ts';
import { canonicalBandName } from '../core/sweep/bands.ts';
import {
  closed,
  count,
  figure,
  flag,
  given,
  list,
  NOT_NEGATIVE,
  name,
  ONE_OR_MORE,
  oneOf,
  POSITIVE,
  quantity,
  text,
} from '../formats/json/json-fields.ts';
import { DEPTH, ELEMENT_DIAMETER, HEIGHT, RADIAL_DIAMETER, REEL_LENGTH, WIRE_LENGTH } from './site-bounds.ts';
import { LOT } from './site-lot-schema.ts';
import { BAND_NAME, FEEDLINE, INSTRUMENT, JOINT, TRANSMISSION } from './site-station-schema.ts';

/** The version of site files that this program writes. */
export const SITE_VERSION = 1;

/** More wires than any field has: a slip of the keys would fill the memory. */
const MOST_WIRES = 1000;
const WIRES = { words: `from 0 to ${MOST_WIRES}`, holds: (n: number) => n >= 0 && n <= MOST_WIRES };
const REELS = { words: `from 1 to ${MOST_WIRES}`, holds: (n: number) => n >= 1 && n <= MOST_WIRES };

/** Far more bands than there are: each is looked up among all. */
const MOST_BANDS = 100;

const antenna = v.pipe(
  closed({
    kind: oneOf(['quarter-wave', 'half-wave', 'other']),
    height: given(quantity('length', WIRE_LENGTH, '10.1m or 33ft')),
    diameter: given(quantity('wire diameter', ELEMENT_DIAMETER, '25mm or 1in')),
    bands: given(list(BAND_NAME)),
    baseHeight: given(quantity('length', HEIGHT, '0.3m or 1ft')),
    radiationResistance: given(quantity('resistance', POSITIVE)),
  }),
  v.transform((a) => ({
    kind: a.kind,
    heightM: a.height,
    diameterM: a.diameter,
    bands: a.bands ?? [],
    baseHeightM: a.baseHeight,
    radiationResistanceOhm: a.radiationResistance,
  })),
);

const radials = v.pipe(
  closed(
    {
      diameter: given(quantity('wire diameter', RADIAL_DIAMETER)),
      insulated: given(flag()),
      metal: given(text('a metal')),
      depth: given(quantity('length', DEPTH, '20mm or 1in')),
      count: given(count(WIRES)),
      length: given(quantity('length', WIRE_LENGTH)),
    },
    {
      velocityFactor: 'the program computes it from the wire, its insulation and where it lies; leave it out',
    },
  ),
  v.transform((r) => ({
    diameterM: r.diameter,
    insulated: r.insulated,
    metal: r.metal,
    depthM: r.depth,
    count: r.count,
    lengthM: r.length,
  })),
);

const soilFigures = v.pipe(
  closed({ conductivity: quantity('conductivity', NOT_NEGATIVE), permittivity: figure(ONE_OR_MORE) }),
  v.transform(
    (s): SiteSoil => ({
      name: null,
      conductivitySPerM: s.conductivity,
      relativePermittivity: s.permittivity,
    }),
  ),
);
const soilName = v.pipe(
  oneOf(NAMED_SOILS.map(({ name }) => name)),
  v.transform((wanted): SiteSoil => {
    const { name, conductivitySPerM, relativePermittivity } = findSoil(wanted) as NamedSoil;
    return { name, conductivitySPerM, relativePermittivity };
  }),
);
const soil = v.lazy((input) => (typeof input === 'string' ? soilName : soilFigures));

const stockItem = v.pipe(
  closed({ length: quantity('length', REEL_LENGTH, '25m or 80ft'), count: count(REELS) }),
  v.transform((s) => ({ lengthM: s.length, count: s.count })),
);

const edges = v.pipe(
  list(quantity('frequency', POSITIVE)),
  v.check(
    (pair) => pair.length === 2 && (pair[0] as number) < (pair[1] as number),
    'needs two rising frequencies',
  ),
  v.transform((pair) => pair as unknown as readonly [number, number]),
);

/** Version 1 of `site.json`, from what JSON gives to the {@link Site} of the rooms. */
export const SITE_SCHEMA: v.GenericSchema<unknown, Site> = v.pipe(
  closed({
    version: v.literal(SITE_VERSION, `must be ${SITE_VERSION}`),
    name: name('a name for the site'),
    units: given(oneOf(['metric', 'imperial'])),
    region: given(oneOf([1, 2, 3])),
    antenna,
    radials: given(radials),
    soil: given(soil),
    lot: given(LOT),
    stock: given(list(stockItem)),
    feedline: given(FEEDLINE),
    instrument: given(INSTRUMENT),
    joints: given(list(JOINT)),
    transmit: given(list(TRANSMISSION)),
    limits: given(text('a set of limits such as fcc-general')),
    worthwhile: given(quantity('level', POSITIVE)),
    bandEdges: given(
      v.pipe(
        v.record(v.pipe(v.string(), v.transform(canonicalBandName)), edges),
        v.check((own) => Object.keys(own).length <= MOST_BANDS, `has at most ${MOST_BANDS} bands`),
      ),
    ),
  }),
  v.transform(
    (s): Site => ({
      version: s.version,
      name: s.name,
      units: s.units ?? 'metric',
      region: s.region,
      antenna: s.antenna,
      radials: s.radials,
      soil: s.soil,
      lot: s.lot,
      stock: s.stock ?? [],
      feedline: s.feedline,
      instrument: s.instrument ?? {
        referenceOhm: null,
        reflectionUncertainty: null,
        phaseUncertaintyDeg: null,
      },
      joints: s.joints ?? [],
      transmit: s.transmit ?? [],
      limits: s.limits,
      worthwhileDb: s.worthwhile,
      bandEdges: s.bandEdges ?? {},
    }),
  ),
);
