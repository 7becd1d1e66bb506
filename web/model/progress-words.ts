import { placeOf, roundedTo } from '../../src/core/proof/rounding.ts';
import type { BoundedQuantity, Quantity } from '../../src/core/quantity-with-uncertainty.ts';
import type { NextWiresAnswer, ProgressAnswer } from '../../src/formats/page-data.ts';
import type { CountPoint } from '../pictures/count-chart.ts';
import { NONE, type Reader } from '../reader.ts';

/** The advice in one sentence. */
export function adviceSentence({ advice, why, band }: ProgressAnswer): string {
  const words = { 'go on': 'Go on', stop: 'Stop here', 'measure again': 'Measure again first' }[advice];
  return `${words} (${band}): ${why}.`;
}

/** What the last handful did, by R and by received strength. */
export function lastStepSentence({ steps }: ProgressAnswer, reader: Reader): string {
  const [before, last] = steps.slice(-2);
  const then = before?.resistanceAtResonanceOhm.value ?? null;
  const now = last?.resistanceAtResonanceOhm.value ?? null;
  if (before === undefined || last === undefined || then === null || now === null) return '';
  const gain = last.gainDb.value;
  const against =
    gain === null ? '' : ` Since the first wires that is ${reader.signed(gain, 2)} dB by R, a lower estimate`;
  const { value: strengthDb } = last.strengthDb;
  const heard =
    strengthDb === null
      ? ''
      : `${against === '' ? ' Since the first wires' : ', and'} ${reader.signed(strengthDb, 1)} dB by received strength`;
  return (
    `From ${before.radials} to ${last.radials} radials R at X = 0 went from ${reader.number(then, 1)} to ` +
    `${reader.number(now, 1)} Ω.${against}${heard}${against + heard === '' ? '' : '.'}`
  );
}

/** What more wires would be worth. */
export function nextWords({ radials, wireM, gainDb }: NextWiresAnswer, reader: Reader): string {
  if (radials === null || gainDb.value === null) return 'What more wires would bring cannot be told yet.';
  return `${radials} more wires, ${reader.length(wireM, 0)}, would bring ${plusMinus(gainDb, 1, 2, reader)} dB.`;
}

/**
 * `39.8 ± 0.7`, or what of it is known: the uncertainty with two digits, and its figure as far.
 *
 * @param otherwise - decimals where the uncertainty is not known
 */
export function plusMinus(
  { value, expandedUncertainty, atLeast }: BoundedQuantity,
  perSi: number,
  otherwise: number,
  reader: Reader,
): string {
  if (atLeast !== undefined) return `at least ${reader.number(Math.floor(atLeast * perSi), 0)}`;
  if (value === null) return NONE;
  const u = expandedUncertainty === null ? null : expandedUncertainty * perSi;
  const place = placeOf(u, otherwise);
  const text = (figure: number): string => reader.number(roundedTo(place, figure), place.decimals);
  return u === null ? text(value * perSi) : `${text(value * perSi)} ± ${text(u)}`;
}

/** A parameter of the fitted curve by the name that people give it. */
export function parameterWords(name: string, quantity: Quantity, reader: Reader): string {
  const known = PARAMETERS[name];
  if (known === undefined) return `${name} ${plusMinus(quantity, 1, 2, reader)}`;
  const { words, perSi, decimals, unit } = known;
  return `${words} ${plusMinus(quantity, perSi, decimals, reader)}${unit}`;
}

const PARAMETERS: Readonly<
  Record<
    string,
    { readonly words: string; readonly perSi: number; readonly decimals: number; readonly unit: string }
  >
> = {
  conductivitySPerM: { words: 'conductivity of the soil', perSi: 1e3, decimals: 1, unit: ' mS/m' },
  relativePermittivity: { words: 'its permittivity', perSi: 1, decimals: 0, unit: '' },
  amountOhm: { words: 'the part that falls', perSi: 1, decimals: 1, unit: ' Ω' },
  exponent: { words: 'its exponent', perSi: 1, decimals: 2, unit: '' },
  floorOhm: { words: 'what stays', perSi: 1, decimals: 1, unit: ' Ω' },
  extraResistanceOhm: { words: 'resistance that no wire takes away', perSi: 1, decimals: 1, unit: ' Ω' },
};

/** R of each step as it is fitted: at the moisture of the first one, where the logbook tells how R follows moisture. */
export function fittedPoints({ steps }: ProgressAnswer): CountPoint[] {
  return steps.flatMap(({ radials, resistanceAtResonanceOhm: r, soilCorrectionOhm = 0 }) =>
    r.value === null ? [] : [{ radials, value: r.value + soilCorrectionOhm, half: r.expandedUncertainty }],
  );
}

/** Says so where those points are not what was measured; empty where they are. */
export function fittedPointsWords({ steps }: ProgressAnswer): string {
  return steps.some(({ soilCorrectionOhm = 0 }) => soilCorrectionOhm !== 0)
    ? ' Points and curve are corrected to the soil moisture of the first visits; the table has R as it was measured.'
    : '';
}
