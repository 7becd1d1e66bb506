import * as v from 'valibot';

const texts = v.array(v.string());

const LEVELS = v.array(
  v.looseObject({
    levels: v.string(),
    field: v.nullable(v.string()),
    fromMhz: v.number(),
    toMhz: v.number(),
  }),
);

const BANDS = v.array(v.looseObject({ band: v.string(), distanceM: v.number() }));
const PLACES = v.array(v.looseObject({ name: v.string(), verdict: v.string() }));

/** The shape of {@link SafetyAnswer} as far as the page walks along it. */
export const SAFETY: v.GenericSchema = v.looseObject({
  limits: v.looseObject({
    title: v.string(),
    source: v.string(),
    readOn: v.string(),
    averagingMinutes: v.number(),
    levels: v.looseObject({ read: LEVELS, recalled: LEVELS }),
  }),
  touchDistanceM: v.number(),
  radials: v.looseObject({
    elevated: v.boolean(),
    unplaced: v.nullable(v.number()),
    bareOnSurface: v.boolean(),
    mayHang: v.boolean(),
    touchableAlong: v.boolean(),
    endsNearBorder: v.array(v.number()),
  }),
  border: v.nullable(
    v.looseObject({
      distanceM: v.number(),
      keepOffM: v.number(),
      ends: v.array(v.number()),
      beyond: v.array(v.number()),
      passing: v.array(v.number()),
      unplacedMayReach: v.boolean(),
    }),
  ),
  accuracy: v.string(),
  bands: BANDS,
  places: PLACES,
  planned: v.nullable(
    v.looseObject({
      numbers: v.array(v.number()),
      places: PLACES,
      bands: BANDS,
      radialKeepOffM: v.nullable(v.number()),
      endsNearBorder: v.array(v.number()),
    }),
  ),
  wireEnds: v.array(v.looseObject({ end: v.string() })),
  joints: v.array(v.looseObject({ name: v.string(), metals: texts, advice: texts })),
  cautions: texts,
  assumptions: texts,
  limitsOfMethod: texts,
});
