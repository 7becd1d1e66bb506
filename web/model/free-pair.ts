import { type BandQuestion, compareVisits } from '../../src/core/proof/compare-visits.ts';
import { type ComparedVisit, inEqualParts } from '../../src/core/proof/compared-visit.ts';
import { answerBands, comparisonJson, MEASURED_LATER } from '../../src/core/proof/comparison-document.ts';
import { conditionsAt, NO_CONDITIONS } from '../../src/core/proof/conditions.ts';
import {
  assumedBandNotes,
  type StrengthSides,
  strengthOf,
  strengthOfFields,
} from '../../src/core/proof/strength-sides.ts';
import type { UnitSystem } from '../../src/core/quantity.ts';
import { type Band, bandsOfRegion, DEFAULT_REGION } from '../../src/core/sweep/bands.ts';
import { feedLineOf } from '../../src/core/sweep/feed-line.ts';
import type { AnySweep } from '../../src/core/sweep/sweep.ts';
import { UserError } from '../../src/core/user-error.ts';
import { reachesInto } from '../../src/core/visits-in-band.ts';
import type { CompareAnswer, PageData, PageField } from '../../src/formats/page-data.ts';
import type { Layer } from './layers.ts';

/** Two sweeps of the page, and all the others, which tell how well sweeps repeat. */
export interface FreePair {
  readonly data: PageData | null;
  readonly layers: readonly Layer[];
  readonly before: Layer;
  readonly after: Layer;
  readonly units: UnitSystem;
}

/**
 * Compares any two sweeps as `compare` would, by the same code.
 * @throws UserError `nothing-to-compare`, and as `compareVisits`
 */
export function comparePair({ data, layers, before, after, units }: FreePair): CompareAnswer {
  const site = data?.site ?? null;
  const questions = bandsOf(data, (band) =>
    [before, after].every((layer) => shotsIn(band, layer).length > 0),
  ).map((band) => questionIn(band, { data, layers, before, after }));
  if (questions.length === 0) {
    throw new UserError('nothing-to-compare', `${before.label} and ${after.label} hold no band in common`);
  }
  const comparisons = compareVisits(questions, {
    antennaKind: site?.antenna.kind ?? null,
    instrument: site?.instrument ?? null,
    units,
  });
  const levels = strengthOfPair(data, before, after);
  const held = bandsOf(data, (band) => layers.some((layer) => shotsIn(band, layer).length > 0));
  const assumedBand = held[0]?.band ?? '';
  return comparisonJson({
    asked: {
      visits: [],
      sameField: before.field !== null && before.field === after.field,
      isReversal: false,
      notes: [
        ...notesOf(data, before, after),
        ...assumedBandNotes(
          [...(levels?.before ?? []), ...(levels?.after ?? [])],
          assumedBand,
          held.map(({ band }) => band),
        ),
      ],
    },
    bands: answerBands(comparisons, levels, assumedBand),
  }) as CompareAnswer;
}

/** The bands of the site that are held, in its order; where it names none, every one that is. */
function bandsOf(data: PageData | null, isHeld: (band: Band) => boolean): Band[] {
  const site = data?.site;
  const all = bandsOfRegion(site?.region ?? DEFAULT_REGION, site?.bandEdges);
  const wanted = site?.antenna.bands ?? [];
  const named = wanted.flatMap((name) => all.filter(({ band }) => band === name));
  return (wanted.length === 0 ? all : named).filter(isHeld);
}

function questionIn(band: Band, { data, layers, before, after }: Omit<FreePair, 'units'>): BandQuestion {
  const held = new Map<Layer, ComparedVisit>();
  for (const layer of new Set([...layers, before, after])) {
    const shots = shotsIn(band, layer);
    if (shots.length > 0) held.set(layer, comparedVisit(layer, shots, data));
  }
  const fields = new Set(layers.flatMap(({ field }) => (field === null ? [] : [field])));
  const states = [...fields].map((field) => {
    const there = [...held].filter(([layer]) => layer.field === field);
    const counting = there.filter(([layer]) => layer.counts);
    return (counting.length === 0 ? there : counting).map(([, visit]) => visit);
  });
  const isThroughLine = data?.sweeps.throughLine === true || before.isMoved || after.isMoved;
  const line = isThroughLine ? (data?.site?.feedline ?? null) : null;
  return {
    band,
    sides: {
      before: inEqualParts([held.get(before) as ComparedVisit]),
      after: inEqualParts([held.get(after) as ComparedVisit]),
    },
    states: states.filter((visits) => visits.length > 0),
    line: line === null ? null : feedLineOf(line),
  };
}

function comparedVisit(
  { label, time, referenceLoad }: Layer,
  shots: readonly AnySweep[],
  data: PageData | null,
): ComparedVisit {
  const conditions = time === null || data === null ? NO_CONDITIONS : conditionsAt(data.readings, time);
  return { label, time, shots, referenceLoad, conditions };
}

function shotsIn(band: Band, { shots }: Layer): AnySweep[] {
  return shots.filter(({ frequencyHz: hz }) =>
    reachesInto({ fromHz: hz[0] as number, toHz: hz[hz.length - 1] as number }, band),
  );
}

function strengthOfPair(data: PageData | null, before: Layer, after: Layer): StrengthSides | null {
  if (data === null || before.field === null || after.field === null) return null;
  const { fields } = data.sweeps;
  const stateAt = (time: string): PageField | undefined =>
    fields.findLast(({ since }) => since === null || Date.parse(since) <= Date.parse(time));
  return strengthOfFields(strengthOf(data.readings), stateAt, {
    before: [fields[before.field]],
    after: [fields[after.field]],
  });
}

function notesOf(data: PageData | null, before: Layer, after: Layer): string[] {
  const leftOut = data?.sweeps.leftOut ?? 0;
  const isTurned =
    before.time !== null && after.time !== null && Date.parse(before.time) > Date.parse(after.time);
  return [
    ...(isTurned ? [MEASURED_LATER] : []),
    ...(leftOut === 0
      ? []
      : [
          `${leftOut} visits of the logbook are not in this page: \`${data?.commands.compare}\` judges by all of them`,
        ]),
  ];
}
