import chisquareCdf from '@stdlib/stats-base-dists-chisquare-cdf';
import type { Measure } from './figures.ts';
import type { InstrumentAccuracy } from './instrument-accuracy.ts';
import type { BeforeAfter, PairErrors } from './pair.ts';
import { poolRepeatability } from './repeatability.ts';
import type { VisitInBand } from './visit-in-band.ts';
import type { Component } from './welch.ts';

/** What is known of errors beyond the two visits themselves. */
export interface ErrorKnowledge {
  readonly accuracy: InstrumentAccuracy;
  /** All visits of the logbook by field state, the pair among them; empty for loose files. */
  readonly states: readonly (readonly VisitInBand[])[];
  /** From {@link referenceLoadScatter} over the logbook, and over the pair alone. */
  readonly loadScatter: Component | null;
  readonly loadScatterOfPair: Component | null;
}

/** Where the two kinds of error of a pair come from. */
export interface ChosenErrors {
  readonly errors: PairErrors;
  /** `none`: one of the visits is a single shot and nothing else tells how shots repeat. */
  readonly repeats: 'none' | 'pair' | 'logbook';
  readonly visits: 'instrument' | 'reference load' | 'repeated visits';
}

/** Degrees of freedom from which on the logbook's own experience is taken in place of other knowledge. */
const ENOUGH_FOR_SHOTS = 4;
const ENOUGH_FOR_VISITS = 5;
const ENOUGH_FOR_LOADS = 8;

/** A pair's own scatter so unlike the pooled one that it keeps its own. */
const UNLIKELY = 0.005;

/** A reference load that moved by so many times the expected variance makes all figures less certain. */
const MOVED = 3;

/**
 * Chooses the errors behind one figure of a pair: how shots repeat from the logbook when it knows, else from
 * the pair; how visits repeat from visits of one field state, else from the reference load, else from the
 * instrument's stated accuracy.
 */
export function choosePairErrors(
  measure: Measure,
  pair: BeforeAfter<VisitInBand>,
  knowledge: ErrorKnowledge,
): ChosenErrors {
  const pooled = poolRepeatability(knowledge.states, measure);
  const own = {
    before: poolRepeatability([[pair.before]], measure).shot,
    after: poolRepeatability([[pair.after]], measure).shot,
  };
  const ownReflection = { before: pair.before.reflectionSpread, after: pair.after.reflectionSpread };
  const pooledReflection = poolComponents(knowledge.states.flat().map((visit) => visit.reflectionSpread));
  const usePooled =
    pooled.shot !== null &&
    pooled.shot.degreesOfFreedom >= ENOUGH_FOR_SHOTS &&
    !muchLarger(own.before, pooled.shot) &&
    !muchLarger(own.after, pooled.shot);
  const { component, from } = chooseVisitComponent(pooled.visit, knowledge);
  const statedVariance = knowledge.accuracy.reflection ** 2;
  return {
    errors: {
      shot: usePooled ? { before: pooled.shot, after: pooled.shot } : own,
      shotReflection: usePooled ? { before: pooledReflection, after: pooledReflection } : ownReflection,
      visit: component,
      visitAlone:
        component.variance > statedVariance
          ? component
          : { variance: statedVariance, degreesOfFreedom: Number.POSITIVE_INFINITY },
      turnRad: from === 'instrument' ? knowledge.accuracy.turnRad : 0,
    },
    repeats: usePooled ? 'logbook' : own.before !== null && own.after !== null ? 'pair' : 'none',
    visits: from,
  };
}

function chooseVisitComponent(
  repeatedVisits: Component | null,
  { accuracy, loadScatter, loadScatterOfPair }: ErrorKnowledge,
): { component: Component; from: ChosenErrors['visits'] } {
  const stated = { variance: accuracy.reflection ** 2, degreesOfFreedom: Number.POSITIVE_INFINITY };
  const load = loadScatter !== null && loadScatter.degreesOfFreedom >= ENOUGH_FOR_LOADS ? loadScatter : null;
  const usual = load ?? stated;
  const moved =
    loadScatterOfPair !== null && loadScatterOfPair.variance > MOVED * usual.variance
      ? loadScatterOfPair
      : null;
  if (moved !== null) return { component: moved, from: 'reference load' };
  if (repeatedVisits !== null && repeatedVisits.degreesOfFreedom >= ENOUGH_FOR_VISITS) {
    return { component: repeatedVisits, from: 'repeated visits' };
  }
  return load === null
    ? { component: stated, from: 'instrument' }
    : { component: load, from: 'reference load' };
}

function muchLarger(own: Component | null, pooled: Component): boolean {
  if (own === null || pooled.variance === 0) return false;
  const ratio = (own.variance * own.degreesOfFreedom) / pooled.variance;
  return 1 - chisquareCdf(ratio, own.degreesOfFreedom) < UNLIKELY;
}

function poolComponents(components: readonly (Component | null)[]): Component | null {
  let squares = 0;
  let degreesOfFreedom = 0;
  for (const component of components) {
    if (component === null) continue;
    squares += component.variance * component.degreesOfFreedom;
    degreesOfFreedom += component.degreesOfFreedom;
  }
  return degreesOfFreedom === 0 ? null : { variance: squares / degreesOfFreedom, degreesOfFreedom };
}
