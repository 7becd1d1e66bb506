import * as v from 'valibot';
import { SAFETY } from './safety-schema.ts';
import { STEPS_TEXT } from './steps-text.ts';
import { PAGE_DATA_VERSION, type PageData, type PageSweep, type Part } from './types.ts';

/**
 * The shape of the data as a page takes them. Everything that the page walks along is checked; texts are only texts,
 * whatever they hold, because the page never takes them for anything else.
 */
export function pageDataSchema(): v.GenericSchema<unknown, PageData> {
  return v.looseObject({
    version: v.literal(PAGE_DATA_VERSION),
    made: v.string(),
    program: v.string(),
    opens: v.picklist(['questions', 'report']),
    source: v.picklist(['file', 'loopback', 'network']),
    commands: v.object({ addSweeps: v.string(), compare: v.string() }),
    site: v.nullable(SITE),
    sweeps: SWEEPS,
    readings: v.array(READING),
    lot: part(LOT),
    plan: part(PLAN),
    progress: part(v.array(PROGRESS)),
    comparisons: part(v.array(v.looseObject({ before: FIELD, after: FIELD, answer: COMPARISON }))),
    changes: part(CHANGES),
    safety: part(SAFETY),
    otherUnits: v.record(v.string(), v.string()),
  }) as unknown as v.GenericSchema<unknown, PageData>;
}

const nullableNumber = v.nullable(v.number());
const nullableText = v.nullable(v.string());
const point = v.strictTuple([v.number(), v.number()]);
const points = v.array(point);

/** Columns are long: one look at each number, without valibot's bookkeeping for each. */
const column = v.custom<number[]>(
  (input) => Array.isArray(input) && input.every(Number.isFinite),
  'needs a list of numbers',
);

const steps = v.pipe(v.string(), v.regex(STEPS_TEXT));

const gappy = v.custom<(number | null)[]>(
  (input) => Array.isArray(input) && input.every((value) => value === null || Number.isFinite(value)),
  'needs a list of numbers and gaps',
);

const SITE = v.looseObject({
  name: v.string(),
  units: v.picklist(['metric', 'imperial']),
  region: v.nullable(v.picklist([1, 2, 3])),
  bandEdges: v.record(v.string(), v.strictTuple([v.number(), v.number()])),
  antenna: v.looseObject({ kind: v.string(), bands: v.array(v.string()), heightM: nullableNumber }),
  instrument: v.looseObject({ referenceOhm: nullableNumber }),
});

const SWEEP: v.GenericSchema<unknown, PageSweep> = v.object({
  grid: v.number(),
  plane: v.picklist(['feedpoint', 'shack']),
  referenceOhm: v.number(),
  resistance: steps,
  reactance: steps,
});

const SWEEPS = v.object({
  leftOut: v.number(),
  grids: v.array(column),
  fields: v.array(v.looseObject({ radials: v.number(), wireM: v.number(), since: nullableText })),
  throughLine: v.boolean(),
  visits: v.array(
    v.object({
      visit: v.number(),
      time: v.string(),
      radials: v.number(),
      wireM: v.number(),
      field: v.number(),
      counts: v.boolean(),
      shots: v.array(SWEEP),
      referenceLoad: v.array(SWEEP),
    }),
  ),
});

const READING = v.looseObject({
  time: v.string(),
  kind: v.string(),
  value: nullableNumber,
  subject: nullableText,
  powerW: nullableNumber,
  text: v.string(),
});

const LOT = v.looseObject({
  lot: v.looseObject({
    outline: points,
    base: point,
    northDeg: v.number(),
    obstacles: v.array(
      v.looseObject({
        name: v.string(),
        kind: v.picklist(['building', 'path', 'water', 'service']),
        outline: points,
        isLine: v.optional(v.boolean()),
      }),
    ),
    places: v.array(v.looseObject({ name: v.string(), at: point })),
  }),
  wires: v.array(
    v.looseObject({
      number: nullableNumber,
      lengthM: v.number(),
      since: nullableText,
      points,
      state: v.picklist(['planned', 'laid']),
      age: v.number(),
    }),
  ),
});

const quantity = v.looseObject({ value: nullableNumber, expandedUncertainty: nullableNumber });
const texts = v.array(v.string());

const PLAN = v.looseObject({
  radials: v.array(v.looseObject({ route: points, lengthM: v.number(), bearingDeg: v.number() })),
  wireM: v.number(),
  gainOverLaidDb: v.nullish(v.looseObject({ gainDb: v.number(), highDb: v.number() })),
  efficiency: v.array(v.looseObject({ band: v.string(), outside: texts })),
  pattern: v.array(v.looseObject({ band: v.string(), azimuthDeg: column, relativeDb: column })),
  cuttingPlan: v.nullish(v.array(v.looseObject({ stockM: v.number(), pieces: column, offcutM: v.number() }))),
  allowanceM: v.optional(v.number()),
  moreWire: v.optional(v.array(v.looseObject({ extraM: v.number(), gainDb: v.number() }))),
  lesson: v.optional(nullableText),
  work: v.optional(texts),
  elevated: v.optional(v.array(v.looseObject({ band: v.string(), cutLengthM: v.number() }))),
  notes: texts,
});

const FIELD = v.looseObject({ radials: v.number(), wireM: v.number(), since: nullableText });

const MEASURE = v.looseObject({
  measure: v.string(),
  before: quantity,
  after: quantity,
  difference: quantity,
  soilCorrection: v.optional(v.number()),
  verdict: v.picklist(['improved', 'worse', 'not shown']),
  meaning: v.string(),
});

const COMPARISON = v.looseObject({
  band: v.string(),
  measures: v.array(MEASURE),
  bands: v.optional(v.array(v.looseObject({ band: v.string(), measures: v.array(MEASURE) }))),
  sameField: v.optional(v.boolean()),
  strength: v.nullable(
    v.looseObject({ places: v.array(v.looseObject({ place: v.string(), differenceDb: v.number() })) }),
  ),
  notes: texts,
});

const PROGRESS = v.looseObject({
  band: v.string(),
  steps: v.array(
    v.looseObject({
      radials: v.number(),
      wireM: v.number(),
      time: nullableText,
      resistanceAtResonanceOhm: quantity,
      resonanceHz: quantity,
      swr2BandwidthHz: quantity,
      soilCorrectionOhm: v.optional(v.number()),
      gainDb: quantity,
      strengthDb: quantity,
    }),
  ),
  model: v.looseObject({ name: nullableText, parameters: v.record(v.string(), quantity) }),
  curve: v.array(v.looseObject({ radials: v.number(), resistanceOhm: v.number() })),
  next: v.looseObject({ gainDb: quantity }),
  doubling: v.looseObject({ gainDb: quantity }),
  advice: v.picklist(['go on', 'stop', 'measure again']),
  why: v.string(),
  poorGuide: texts,
  reversal: v.nullable(texts),
  notes: texts,
});

const CHANGES = v.looseObject({
  answer: v.looseObject({
    causes: v.array(
      v.looseObject({ cause: v.string(), probability: v.number(), evidence: texts, checkFirst: v.string() }),
    ),
    cannotTell: texts,
    visitsBefore: column,
    visitsAfter: column,
  }),
  visits: column,
  timeMs: column,
  aheadMin: column,
  charts: v.array(
    v.looseObject({
      band: v.string(),
      feature: v.string(),
      values: gappy,
      expected: gappy,
      smoothed: v.nullable(v.looseObject({ average: gappy, limit: gappy })),
      signals: column,
    }),
  ),
});

/** Either the data, or why they are missing. */
function part<T>(data: v.GenericSchema<unknown, T>): v.GenericSchema<unknown, Part<T>> {
  return v.union([
    v.object({ data, missing: v.null() }),
    v.object({ data: v.null(), missing: v.object({ why: v.string(), command: v.string() }) }),
  ]);
}
