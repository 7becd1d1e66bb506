import * as v from 'valibot';
import { findSoil, NAMED_SOILS, type NamedSoil } from '../core/ground/named-soils.ts';
import type { Point, Site, SiteFeedline, SiteSoil } from '../core/site.ts';
import { canonicalBandName } from '../core/sweep/bands.ts';
import {
  ANY,
  closed,
  count,
  FRACTION,
  figure,
  flag,
  given,
  list,
  NOT_NEGATIVE,
  ONE_OR_MORE,
  oneOf,
  POSITIVE,
  POSITIVE_FRACTION,
  quantity,
  text,
} from '../formats/json/json-fields.ts';

export const SITE_VERSION = 1;

const FEET_100_PER_M_100 = 0.3048;

const length = quantity('length', POSITIVE);
const bandName = v.pipe(text('a band such as 40m'), v.transform(canonicalBandName));

const point: v.GenericSchema<unknown, Point> = v.pipe(
  list(quantity('length', ANY)),
  v.check((pair) => pair.length === 2, 'needs two lengths: east and north'),
  v.transform((pair) => pair as unknown as Point),
);

const antenna = v.pipe(
  closed({
    kind: oneOf(['quarter-wave', 'half-wave', 'other']),
    height: given(length),
    diameter: given(quantity('wire diameter', POSITIVE)),
    bands: given(list(bandName)),
    baseHeight: given(quantity('length', NOT_NEGATIVE)),
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
  closed({
    diameter: given(quantity('wire diameter', POSITIVE)),
    insulated: given(flag()),
    metal: given(text('a metal')),
    depth: given(quantity('length', NOT_NEGATIVE)),
    count: given(count(NOT_NEGATIVE)),
    length: given(length),
  }),
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

/** A service or a path may be drawn as a line; what covers ground needs three corners. */
const obstacle = v.pipe(
  closed({
    name: text('a name'),
    kind: oneOf(['building', 'path', 'water', 'service']),
    outline: list(point, 2),
    clearance: given(quantity('length', NOT_NEGATIVE)),
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
  closed({ name: text('a name'), at: point, height: given(quantity('length', NOT_NEGATIVE)) }),
  v.transform((p) => ({ name: p.name, at: p.at, heightM: p.height ?? 0 })),
);

const lot = v.pipe(
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

const stockItem = v.pipe(
  closed({ length, count: count(ONE_OR_MORE) }),
  v.transform((s) => ({ lengthM: s.length, count: s.count })),
);

const lineLoss = v.pipe(
  closed({
    frequency: quantity('frequency', POSITIVE),
    per100m: given(quantity('level', NOT_NEGATIVE)),
    per100ft: given(quantity('level', NOT_NEGATIVE)),
  }),
  v.check((l) => (l.per100m === null) !== (l.per100ft === null), 'needs per100m or per100ft, one of the two'),
  v.transform((l) => ({
    frequencyHz: l.frequency,
    dbPer100M: l.per100m ?? (l.per100ft ?? 0) / FEET_100_PER_M_100,
  })),
);

const feedline = v.pipe(
  closed({
    type: given(text('a cable type such as RG-58')),
    length: quantity('length', NOT_NEGATIVE),
    impedance: given(quantity('resistance', POSITIVE)),
    velocityFactor: given(figure(POSITIVE_FRACTION)),
    loss: given(list(lineLoss, 1)),
  }),
  v.transform(
    (f): SiteFeedline => ({
      type: f.type,
      lengthM: f.length,
      velocityFactor: f.velocityFactor,
      impedanceOhm: f.impedance,
      loss: f.loss ?? [],
    }),
  ),
);

const instrument = v.pipe(
  closed({
    reference: given(quantity('resistance', POSITIVE)),
    reflectionUncertainty: given(figure(POSITIVE_FRACTION)),
    phaseUncertainty: given(quantity('angle', NOT_NEGATIVE)),
  }),
  v.transform((i) => ({
    referenceOhm: i.reference,
    reflectionUncertainty: i.reflectionUncertainty,
    phaseUncertaintyDeg: i.phaseUncertainty,
  })),
);

const joint = v.pipe(
  closed({
    name: text('a name'),
    metals: list(text('a metal'), 1),
    where: given(oneOf(['outdoor', 'indoor', 'controlled'])),
  }),
  v.transform((j) => ({ ...j, where: j.where ?? ('outdoor' as const) })),
);

const transmission = v.pipe(
  closed({
    band: bandName,
    peakPower: quantity('power', POSITIVE),
    mode: text('a mode such as ssb'),
    onAirFraction: figure(FRACTION),
  }),
  v.transform((t) => ({
    band: t.band,
    peakPowerW: t.peakPower,
    mode: t.mode,
    onAirFraction: t.onAirFraction,
  })),
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
    name: text('a name for the site'),
    units: given(oneOf(['metric', 'imperial'])),
    region: given(oneOf([1, 2, 3])),
    antenna,
    radials: given(radials),
    soil: given(soil),
    lot: given(lot),
    stock: given(list(stockItem)),
    feedline: given(feedline),
    instrument: given(instrument),
    joints: given(list(joint)),
    transmit: given(list(transmission)),
    limits: given(text('a set of limits such as fcc-general')),
    worthwhile: given(quantity('level', POSITIVE)),
    bandEdges: given(v.record(v.pipe(v.string(), v.transform(canonicalBandName)), edges)),
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
