import { plannedWords } from '../core/proof/planned-resistance.ts';
import type { NextWires } from '../core/proof/progress.ts';
import { placeOf, textTo } from '../core/proof/rounding.ts';
import { isGainToldNothing, isToldNothing } from '../core/proof/told-nothing.ts';
import { formatLength } from '../core/quantity.ts';
import type { Quantity } from '../core/quantity-with-uncertainty.ts';
import type { ProgressFound } from './progress.ts';
import { progressNotes } from './progress-notes.ts';
import { stepTable } from './progress-table.ts';

/** Progress for people: the advice, a row a field state, the fit and what comes next. */
export function progressText(found: ProgressFound): string {
  const { progress, band, planned, reversal, lastStep } = found;
  const { advice, why, steps } = progress;
  const parts = [
    `${band.band}: ${advice}, because ${why}.`,
    steps.length === 0 ? '' : stepTable(found),
    plannedWords(planned),
    fitText(found),
    progressNotes(found)
      .map((note) => `- ${note}.`)
      .join('\n'),
    reversal === null
      ? ''
      : `${lastStep === 'worse' ? 'By R the last step did harm' : 'R does not show that the last step helped'}. A reversal would tell, one command after the other:\n  ${reversal.join('\n  ')}`,
  ];
  return parts.filter((part) => part !== '').join('\n\n');
}

function fitText({ progress, logbook }: ProgressFound): string {
  const { fit, next, advice } = progress;
  if (fit === null || next === null) return '';
  const { chiSquare, degreesOfFreedom, probability } = fit.quality;
  const parameters = Object.entries(fit.parameters).map(parameterText);
  const how =
    probability === null
      ? ''
      : ` It explains the points with χ² ${chiSquare.toFixed(1)} on ${degreesOfFreedom} degrees of freedom.`;
  const allTheSame = advice === 'stop' ? ' laid all the same,' : '';
  return `Fit: ${fit.name}: ${parameters.join(', ')}.${how}\n${nextText(next, logbook.site.units, allTheSame)} (${fit.gainMeans}).`;
}

const PARAMETERS: Readonly<Record<string, readonly [name: string, unit: string]>> = {
  conductivitySPerM: ['conductivity', ' S/m'],
  relativePermittivity: ['permittivity', ''],
  extraResistanceOhm: ['extra resistance', ' ohm'],
  amountOhm: ['amount', ' ohm'],
  exponent: ['exponent', ''],
  floorOhm: ['floor', ' ohm'],
};

/** All but the extra resistance, which stands for what the model lacks, lie above zero. */
function parameterText([key, quantity]: readonly [string, Quantity]): string {
  const [name, unit] = PARAMETERS[key] ?? [key, ''];
  const isNothing = key !== 'extraResistanceOhm' && isToldNothing(key, quantity, [quantity]);
  return isNothing ? `${name} cannot be told` : `${name} ${withUncertainty(quantity)}${unit}`;
}

const FOOT_M = 0.3048;

function nextText(
  { radials, wireM, gainDb }: NextWires,
  units: 'metric' | 'imperial',
  allTheSame: string,
): string {
  const [length, name] = units === 'imperial' ? [wireM / FOOT_M, 'foot'] : [wireM, 'metre'];
  const each = (count: number): string => withUncertainty(gainDb, 1 / count);
  const wires = `${radials} more ${radials === 1 ? 'wire' : 'wires'}, ${formatLength(wireM, units)},${allTheSame}`;
  if (isGainToldNothing(gainDb)) return `What ${wires} would be worth cannot be told from these visits`;
  return `${wires} would be worth ${withUncertainty(gainDb)} dB: ${each(radials)} dB a wire, ${each(length)} dB a ${name}`;
}

/** `0.21 ± 0.05`, with two digits of what is uncertain. */
function withUncertainty({ value, expandedUncertainty }: Quantity, perSi = 1): string {
  if (value === null) return '-';
  const u = expandedUncertainty === null ? null : expandedUncertainty * perSi;
  const place = placeOf(u, 2);
  return `${textTo(place, value * perSi)} ± ${u === null ? 'unknown' : textTo(place, u)}`;
}
