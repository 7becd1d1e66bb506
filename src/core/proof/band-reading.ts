import type { SiteInstrument } from '../site.ts';
import type { Band } from '../sweep/bands.ts';
import type { FeedLine } from '../sweep/feed-line.ts';
import { UserError } from '../user-error.ts';
import type { ComparedVisit } from './compared-visit.ts';
import { coverage, withReference } from './coverage.ts';
import { accuracyOf, type InstrumentAccuracy } from './instrument-accuracy.ts';
import { partOddVisits } from './odd-visits.ts';
import type { BeforeAfter, Share } from './pair.ts';
import type { ErrorKnowledge } from './pair-errors.ts';
import { referenceLoadScatter } from './reference-load.ts';
import { sharedLocalFits } from './smoother.ts';
import type { ConditionedVisit } from './soil-change.ts';
import { visitInBand } from './visit-in-band.ts';

/** Everything the visits say of one band, before it is compared. */
export interface BandReading {
  readonly band: Band;
  /** The part of the band that all compared sweeps cover; null when they share none. */
  readonly covered: Band | null;
  readonly sides: BeforeAfter<readonly Share<ConditionedVisit>[]>;
  /** By field state, those left out that do not fit the others of their state. */
  readonly states: readonly (readonly ConditionedVisit[])[];
  /** Labels of the visits left out. */
  readonly oddVisits: readonly string[];
  readonly accuracy: InstrumentAccuracy;
  readonly knowledge: ErrorKnowledge;
}

/** What is needed beside the visits. */
interface ReadingContext {
  readonly instrument: SiteInstrument | null;
  readonly line: FeedLine | null;
  readonly states: readonly (readonly ComparedVisit[])[];
}

/**
 * Reads both sides and the logbook behind them in one band.
 * @throws UserError `planes-differ`, and as {@link visitInBand}
 */
export function readBand(
  compared: BeforeAfter<readonly Share<ComparedVisit>[]>,
  band: Band,
  { instrument, line, states }: ReadingContext,
): BandReading {
  const all = [...compared.before, ...compared.after].map(({ visit }) => visit);
  const sweeps = all.flatMap(({ shots }) => shots);
  refuseTwoPlanes(all);
  const covered = coverage(band, sweeps);
  const accuracy = accuracyOf(instrument, line, (band.fromHz + band.toHz) / 2);
  const referenceOhm = sweeps[0]?.referenceOhm;
  const fitsOf = sharedLocalFits();
  const read = remembered((visit: ComparedVisit): ConditionedVisit => {
    const part = covered ?? coverage(band, visit.shots) ?? band;
    const shots = withReference(visit.shots, referenceOhm);
    return {
      ...visitInBand(shots, part, accuracy.reflection, fitsOf),
      label: visit.label,
      conditions: visit.conditions,
    };
  });
  const readSide = (side: readonly Share<ComparedVisit>[]): Share<ConditionedVisit>[] => {
    const all = side.map(({ visit, share }) => ({ visit: read(visit), share }));
    const { odd } = partOddVisits(
      all.map(({ visit }) => visit),
      accuracy.reflection,
    );
    const usual = all.filter(({ visit }) => !odd.includes(visit));
    const kept = usual.reduce((sum, { share }) => sum + share, 0);
    return usual.map(({ visit, share }) => ({ visit, share: share / kept }));
  };
  const parted = states.map((state) =>
    partOddVisits(
      state.filter(({ shots }) => shots.length > 0 && coverage(covered ?? band, shots) !== null).map(read),
      accuracy.reflection,
    ),
  );
  const readStates = parted.map(({ usual }) => usual);
  const loadScatter = (visits: readonly ComparedVisit[]): ErrorKnowledge['loadScatter'] =>
    referenceLoadScatter(
      visits.map(({ referenceLoad }) => referenceLoad),
      band,
    );
  return {
    band,
    covered,
    sides: { before: readSide(compared.before), after: readSide(compared.after) },
    states: readStates,
    oddVisits: parted.flatMap(({ odd }) => odd.map(({ label }) => label)),
    accuracy,
    knowledge: {
      accuracy,
      states: readStates,
      loadScatter: loadScatter(states.flat()),
      loadScatterOfPair: loadScatter(all),
    },
  };
}

function refuseTwoPlanes(visits: readonly ComparedVisit[]): void {
  const planes = new Set(visits.flatMap(({ shots }) => shots.map(({ plane }) => plane)));
  if (planes.size < 2) return;
  throw new UserError(
    'planes-differ',
    'some of the sweeps were measured at the feed point and others at the shack: give the feed line, so that these can be moved, or measure both alike',
  );
}

function remembered<K, V>(find: (key: K) => V): (key: K) => V {
  const known = new Map<K, V>();
  return (key) => {
    const value = known.get(key) ?? find(key);
    known.set(key, value);
    return value;
  };
}
