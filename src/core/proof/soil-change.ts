import { formatTemperature, type UnitSystem } from '../quantity.ts';
import { type AnySweep, createSweep } from '../sweep/sweep.ts';
import type { Conditions } from './conditions.ts';
import type { Measure } from './figures.ts';
import { type BeforeAfter, type Correction, NO_CORRECTION, type Share, sideFigure } from './pair.ts';
import { mean } from './summary.ts';
import type { VisitInBand } from './visit-in-band.ts';

/** A visit with the conditions it was made in. */
export interface ConditionedVisit extends VisitInBand {
  readonly label: string;
  readonly conditions: Conditions;
}

/** What the ground did between the two sides: a correction for each figure, and the words for it. */
export interface SoilChange {
  notes(units: UnitSystem): readonly string[];
  correction(measure: Measure): Correction;
  /** What moisture explains of a visit's figure; null where the logbook, or that visit, does not tell. */
  explained(measure: Measure): ((visit: ConditionedVisit) => number | null) | null;
}

/** Noted differences smaller than these are within what the notes are good for. */
const LEAST_MOISTURE_CHANGE = 0.03;
const LEAST_TEMPERATURE_CHANGE_C = 5;
const LEAST_RAIN_M = 0.002;

/**
 * How ground loss answers to the ground, as rough standard values. The surface impedance goes as the root of
 * 1/conductivity; conductivity goes about as moisture, and by 2 % a kelvin (the usual temperature coefficient of
 * conductivity; common practice). A third of R is taken as ground. Our own choices, to widen with and not to correct.
 */
const GROUND_SHARE_OF_R = 1 / 3;
const CONDUCTIVITY_PER_KELVIN = 0.02;
const RAIN_RATIO = 1.5;
const FROST_RATIO = 2;

/** Angle of the change of soil impedance: the reactance moves by this much of the resistance (average soil, 7 MHz). */
const REACTANCE_SHARE = 0.4;

/** Degrees of freedom from which on the logbook's own slope of a figure against moisture is used to correct. */
const ENOUGH_FOR_SLOPE = 4;

/**
 * Judges what the ground may have done between the two sides of a comparison. Where the logbook's visits of single
 * field states tell how a figure follows moisture, the difference is corrected; else its uncertainty is widened.
 */
export function soilChange(
  sides: BeforeAfter<readonly Share<ConditionedVisit>[]>,
  states: readonly (readonly ConditionedVisit[])[],
): SoilChange {
  const moisture = bothOf(sides, 'moistureFraction');
  const moistureChange = moisture === null ? 0 : moisture.after - moisture.before;
  const notes: string[] = [];
  const logRatios: number[] = [];
  let fitted: ((measure: Measure) => Slope | null) | null = null;
  if (moisture !== null && Math.abs(moistureChange) >= LEAST_MOISTURE_CHANGE) {
    const words = `soil moisture went from ${percent(moisture.before)} to ${percent(moisture.after)} between the visits`;
    const slopes = (measure: Measure): Slope | null => moistureSlope(states, measure, moistureChange);
    if (slopes('resistanceAtResonanceOhm') !== null) {
      fitted = slopes;
      const { slope } = slopes('resistanceAtResonanceOhm') as Slope;
      const byOhm = slope * moistureChange;
      notes.push(
        `${words}, which by this logbook’s own visits ${byOhm < 0 ? 'lowers' : 'raises'} R by ${Math.abs(byOhm).toFixed(1)} ohm: the differences are what is left when that is taken off`,
      );
    } else {
      logRatios.push(Math.log(moisture.after / moisture.before));
      notes.push(
        `${words}: the uncertainties are widened for it, because the logbook holds too few visits of one field state at different moisture to correct it`,
      );
    }
  } else if (moisture === null) {
    const rained = rainDiffers(sides);
    if (rained) {
      logRatios.push(Math.log(RAIN_RATIO));
      notes.push('rain was noted for one side only: the uncertainties are widened for wetter soil');
    }
    const missing = visitsWithoutMoisture(sides);
    if (rained || missing.length < sides.before.length + sides.after.length) {
      notes.push(
        `no soil moisture was noted within two days of ${missing.join(', ')}: noted at every visit, it could be corrected for`,
      );
    }
  }
  const temperature = temperatureChange(sides);
  if (temperature !== null) {
    const frost = temperature.before < 0 !== temperature.after < 0;
    logRatios.push(
      frost ? Math.log(FROST_RATIO) : CONDUCTIVITY_PER_KELVIN * (temperature.after - temperature.before),
    );
  }
  const widening = Math.hypot(...logRatios) / 2;
  return {
    notes: (units) => (temperature === null ? notes : [...notes, temperatureNote(temperature, units)]),
    correction: (measure) => {
      const slope = fitted?.(measure) ?? null;
      const extra = wideningOf(measure, sides.after, widening) ** 2;
      if (slope === null) return extra === 0 ? NO_CORRECTION : { ...NO_CORRECTION, variance: extra };
      return {
        value: -slope.slope * moistureChange,
        variance: (slope.uncertainty * moistureChange) ** 2 + extra,
        degreesOfFreedom: slope.degreesOfFreedom,
      };
    },
    explained: (measure) => {
      const slope = fitted?.(measure)?.slope ?? null;
      if (slope === null) return null;
      return ({ conditions: { moistureFraction } }) =>
        moistureFraction === null ? null : slope * moistureFraction;
    },
  };
}

/** Temperatures of the two sides, where both are known and differ by more than the notes are good for. */
function temperatureChange(
  sides: BeforeAfter<readonly Share<ConditionedVisit>[]>,
): BeforeAfter<number> | null {
  const both = bothOf(sides, 'temperatureC');
  return both !== null && Math.abs(both.after - both.before) >= LEAST_TEMPERATURE_CHANGE_C ? both : null;
}

function temperatureNote({ before, after }: BeforeAfter<number>, units: UnitSystem): string {
  const [from, to] = [before, after].map((celsius) => formatTemperature(celsius, units, 0));
  return `the temperature went from ${from} to ${to} between the visits: the uncertainties are widened for it`;
}

/** Change of a figure when the ground part of the impedance changes by a fraction. */
function wideningOf(measure: Measure, side: readonly Share<ConditionedVisit>[], fraction: number): number {
  const now = sideFigure(measure, side);
  if (fraction === 0 || now === null) return 0;
  let moved = 0;
  for (const { visit, share } of side) {
    const changeOhm = fraction * GROUND_SHARE_OF_R * (visit.figures.resistanceAtResonanceOhm ?? 0);
    const value = visit.reread(measure, withMoreImpedance(visit.sweep, changeOhm));
    if (value === null) return 0;
    moved += share * value;
  }
  return Math.abs(moved - now);
}

function withMoreImpedance(sweep: AnySweep, changeOhm: number): AnySweep {
  if (sweep.kind === 'swr') return sweep;
  return createSweep({
    ...sweep,
    resistanceOhm: sweep.resistanceOhm.map((r) => r + changeOhm),
    reactanceOhm: sweep.reactanceOhm.map((x) => x + REACTANCE_SHARE * changeOhm),
  });
}

interface Slope {
  readonly slope: number;
  readonly uncertainty: number;
  readonly degreesOfFreedom: number;
}

/** Common slope of a figure against moisture within field states; null where the logbook does not tell. */
function moistureSlope(
  states: readonly (readonly ConditionedVisit[])[],
  measure: Measure,
  neededRange: number,
): Slope | null {
  const points: { x: number; y: number }[] = [];
  let used = 0;
  for (const state of states) {
    const known = state.flatMap(({ figures, conditions }) => {
      const [x, y] = [conditions.moistureFraction, figures[measure]];
      return x === null || y === null ? [] : [{ x, y }];
    });
    if (known.length < 2) continue;
    used++;
    const [meanX, meanY] = [mean(known.map(({ x }) => x)), mean(known.map(({ y }) => y))];
    for (const { x, y } of known) points.push({ x: x - meanX, y: y - meanY });
  }
  const degreesOfFreedom = points.length - used - 1;
  const squares = points.reduce((sum, { x }) => sum + x * x, 0);
  const range = Math.max(...points.map(({ x }) => x)) - Math.min(...points.map(({ x }) => x));
  if (degreesOfFreedom < ENOUGH_FOR_SLOPE || range < Math.abs(neededRange) / 2) return null;
  const slope = points.reduce((sum, { x, y }) => sum + x * y, 0) / squares;
  const misfit = points.reduce((sum, { x, y }) => sum + (y - slope * x) ** 2, 0);
  return { slope, uncertainty: Math.sqrt(misfit / degreesOfFreedom / squares), degreesOfFreedom };
}

function rainDiffers(sides: BeforeAfter<readonly Share<ConditionedVisit>[]>): boolean {
  const rained = (side: readonly Share<ConditionedVisit>[]): boolean =>
    side.some(({ visit }) => (visit.conditions.rainM ?? 0) >= LEAST_RAIN_M);
  return rained(sides.before) !== rained(sides.after);
}

function visitsWithoutMoisture(sides: BeforeAfter<readonly Share<ConditionedVisit>[]>): string[] {
  return [...sides.before, ...sides.after].flatMap(({ visit: { label, conditions } }) =>
    conditions.moistureFraction === null ? [label] : [],
  );
}

function bothOf(
  sides: BeforeAfter<readonly Share<ConditionedVisit>[]>,
  key: keyof Conditions,
): BeforeAfter<number> | null {
  const average = (side: readonly Share<ConditionedVisit>[]): number | null => {
    let sum = 0;
    for (const { visit, share } of side) {
      const value = visit.conditions[key];
      if (value === null) return null;
      sum += share * value;
    }
    return sum;
  };
  const [before, after] = [average(sides.before), average(sides.after)];
  return before === null || after === null ? null : { before, after };
}

function percent(fraction: number): string {
  return `${(100 * fraction).toFixed(0)} %`;
}
