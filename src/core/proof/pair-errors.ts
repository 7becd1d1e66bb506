import chisquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import type { Measure } from './figures.ts';
import type { InstrumentAccuracy } from './instrument-accuracy.ts';
import type { BeforeAfter, Share, SharedVisit, VisitErrors } from './pair.ts';
import { poolRepeatability } from './repeatability.ts';
import type { ConditionedVisit } from './soil-change.ts';
import type { VisitInBand } from './visit-in-band.ts';
import { type Component, pooled } from './welch.ts';

/** What is known of errors beyond the compared visits themselves. */
export interface ErrorKnowledge {
  readonly accuracy: InstrumentAccuracy;
  /** All visits at hand by field state, the compared ones among them; empty where there are no others. */
  readonly states: readonly (readonly ConditionedVisit[])[];
  /** How the reference load scatters over the logbook, and over the compared visits alone. */
  readonly loadScatter: Component | null;
  readonly loadScatterOfPair: Component | null;
}

/** The errors of a pair and where they come from. */
export interface ChosenErrors {
  readonly sides: BeforeAfter<readonly SharedVisit[]>;
  readonly errors: VisitErrors;
  /** `none`: one of the visits is a single shot and nothing else tells how shots repeat. */
  readonly repeats: 'none' | 'pair' | 'pooled';
  readonly visits: 'instrument' | 'reference load' | 'repeated visits';
}

/** Degrees of freedom from which on the logbook's own experience is taken in place of other knowledge. */
const ENOUGH_FOR_SHOTS = 4;
const ENOUGH_FOR_VISITS = 4;
const ENOUGH_FOR_LOADS = 8;

/** The same where nothing else tells how well single shots repeat: little is then better than nothing. */
const ENOUGH_WITHOUT_SHOTS = 2;

/** A visit's own scatter so unlike the pooled one that it keeps its own. */
const UNLIKELY = 0.005;

/** A reference load that moved by so many times the expected variance makes all figures less certain. */
const MOVED = 3;

/**
 * Chooses the errors behind one figure of a pair: how shots repeat from the logbook when it knows, else from
 * the pair; how visits repeat from visits of one field state, else from the reference load, else from the
 * instrument's stated accuracy.
 *
 * @param explained - what the soil explains of a visit's figure, where the difference is corrected for it
 */
export function choosePairErrors(
  measure: Measure,
  sides: BeforeAfter<readonly Share<VisitInBand>[]>,
  knowledge: ErrorKnowledge,
  explained: ((visit: ConditionedVisit) => number | null) | null = null,
): ChosenErrors {
  const logbook = poolRepeatability(knowledge.states, measure, explained);
  const logbookReflection = pooled(knowledge.states.flat().map((visit) => visit.reflectionSpread));
  const all = [...sides.before, ...sides.after].map(({ visit }) => visit);
  const own = new Map(all.map((visit) => [visit, poolRepeatability([[visit]], measure).shot]));
  const poolable = logbook.shot !== null && logbook.shot.degreesOfFreedom >= ENOUGH_FOR_SHOTS;
  const usePooled = poolable && all.every((visit) => !muchLarger(own.get(visit) ?? null, logbook.shot));
  const repeated = all.every((visit) => (own.get(visit) ?? null) !== null);
  const { component, from } = chooseVisitComponent(logbook.visit, usePooled || repeated, knowledge);
  const withShots = ({ visit, share }: Share<VisitInBand>): SharedVisit => ({
    visit,
    share,
    shot: usePooled ? logbook.shot : (own.get(visit) ?? null),
    shotReflection: usePooled ? logbookReflection : visit.reflectionSpread,
  });
  const statedVariance = knowledge.accuracy.reflection ** 2;
  return {
    sides: { before: sides.before.map(withShots), after: sides.after.map(withShots) },
    errors: {
      visit: component,
      visitAlone: component.variance > statedVariance ? component : stated(knowledge.accuracy),
      turnRad: from === 'instrument' ? knowledge.accuracy.turnRad : 0,
    },
    repeats: usePooled || from === 'repeated visits' ? 'pooled' : repeated ? 'pair' : 'none',
    visits: from,
  };
}

function chooseVisitComponent(
  repeatedVisits: Component | null,
  shotsRepeat: boolean,
  { accuracy, loadScatter, loadScatterOfPair }: ErrorKnowledge,
): { component: Component; from: ChosenErrors['visits'] } {
  const load = loadScatter !== null && loadScatter.degreesOfFreedom >= ENOUGH_FOR_LOADS ? loadScatter : null;
  const usual = load ?? stated(accuracy);
  if (loadScatterOfPair !== null && loadScatterOfPair.variance > MOVED * usual.variance) {
    return { component: loadScatterOfPair, from: 'reference load' };
  }
  const enough = shotsRepeat ? ENOUGH_FOR_VISITS : ENOUGH_WITHOUT_SHOTS;
  if (repeatedVisits !== null && repeatedVisits.degreesOfFreedom >= enough) {
    return { component: repeatedVisits, from: 'repeated visits' };
  }
  return { component: usual, from: load === null ? 'instrument' : 'reference load' };
}

function stated({ reflection }: InstrumentAccuracy): Component {
  return { variance: reflection ** 2, degreesOfFreedom: Number.POSITIVE_INFINITY };
}

function muchLarger(own: Component | null, usual: Component | null): boolean {
  if (own === null || usual === null || usual.variance === 0) return false;
  const ratio = (own.variance * own.degreesOfFreedom) / usual.variance;
  return 1 - chisquareCdf(ratio, own.degreesOfFreedom) < UNLIKELY;
}
