import type { NextWires } from '../core/proof/progress.ts';
import { formatLength } from '../core/quantity.ts';
import type { Quantity } from '../core/quantity-with-uncertainty.ts';
import { figure, table } from './answer.ts';
import type { ProgressFound } from './progress.ts';
import { progressNotes, reversalCommands } from './progress-notes.ts';

/** Progress for people: the advice, a row a field state, the fit and what comes next. */
export function progressText(found: ProgressFound): string {
  const { progress, band } = found;
  const { advice, why, doubtful } = progress;
  const parts = [`${band.band}: ${advice}, because ${why}.`];
  if (progress.steps.length > 0) parts.push(stepTable(found));
  parts.push(fitText(found));
  parts.push(
    progressNotes(found)
      .map((note) => `- ${note}.`)
      .join('\n'),
  );
  if (doubtful) {
    parts.push(
      `The last step is not shown by R. A reversal would tell, one command after the other:\n  ${reversalCommands(found).join('\n  ')}`,
    );
  }
  return parts.filter((part) => part !== '').join('\n\n');
}

function stepTable({ progress, strength, logbook }: ProgressFound): string {
  const { units } = logbook.site;
  const withStrength = strength.some((found) => found !== null);
  const header = [
    'state',
    'since',
    'radials',
    'wire',
    'R at X = 0',
    '± U',
    'X = 0 MHz',
    '2:1 kHz',
    'dB by R',
    '± U',
  ];
  const rows = progress.steps.map((step, i) => [
    String(i + 1),
    step.time?.slice(0, 10) ?? '-',
    String(step.radials),
    formatLength(step.wireM, units),
    ...valueAndU(step.resistanceAtResonanceOhm, 2),
    figure(scaled(step.resonanceHz.value, 1e-6), 4),
    figure(scaled(step.swr2BandwidthHz.value, 1e-3), 0),
    ...valueAndU(step.gainDb, 2),
    ...(withStrength ? [strengthCell(strength[i]?.medianDb ?? null, strength[i]?.places.length ?? 0)] : []),
  ]);
  return table([withStrength ? [...header, 'dB by field (places)'] : header, ...rows]);
}

function fitText({ progress, logbook }: ProgressFound): string {
  const { fit, next } = progress;
  if (fit === null || next === null) return '';
  const { chiSquare, degreesOfFreedom, probability } = fit.quality;
  const parameters = Object.entries(fit.parameters).map(([name, quantity]) => {
    const [value, u] = [quantity.value ?? 0, quantity.expandedUncertainty ?? 0];
    return `${PARAMETER_WORDS[name] ?? name} ${value.toPrecision(3)} ± ${u.toPrecision(2)}`;
  });
  const how =
    probability === null
      ? ''
      : ` It explains the points with χ² ${chiSquare.toFixed(1)} on ${degreesOfFreedom} degrees of freedom.`;
  return `Fit: ${fit.name}: ${parameters.join(', ')}.${how}\n${nextText(next, logbook.site.units)} (${fit.gainMeans}).`;
}

const PARAMETER_WORDS: Readonly<Record<string, string>> = {
  conductivitySPerM: 'conductivity S/m',
  relativePermittivity: 'permittivity',
  extraResistanceOhm: 'extra resistance ohm',
  amountOhm: 'amount ohm',
  exponent: 'exponent',
  floorOhm: 'floor ohm',
};

function nextText(
  { radials, wireM, gainDb, gainPerWireDb, gainPerMetreDb }: NextWires,
  units: 'metric' | 'imperial',
): string {
  const [perWire, perMetre] = [gainPerWireDb, gainPerMetreDb].map((gain) => (gain ?? 0).toFixed(4));
  return (
    `${radials} more wires, ${formatLength(wireM, units)}, would be worth ${figure(gainDb.value, 2)} ± ` +
    `${figure(gainDb.expandedUncertainty, 2)} dB: ${perWire} dB a wire, ${perMetre} dB a metre`
  );
}

function valueAndU({ value, expandedUncertainty }: Quantity, decimals: number): [string, string] {
  return [figure(value, decimals), figure(expandedUncertainty, decimals)];
}

function strengthCell(medianDb: number | null, places: number): string {
  return medianDb === null ? '-' : `${medianDb.toFixed(2)} (${places})`;
}

function scaled(value: number | null, factor: number): number | null {
  return value === null ? null : value * factor;
}
