import type { HalfWaveComparison } from '../core/ground/half-wave.ts';
import type { StockCut } from '../core/layout/cutting.ts';
import { type Leaning, leaningOf } from '../core/layout/leaning.ts';
import { lessonText } from '../core/layout/lesson.ts';
import type { Plan, WeighedField } from '../core/layout/plan.ts';
import { plural } from '../core/plural.ts';
import { formatLength, type UnitSystem } from '../core/quantity.ts';
import { asSentence } from '../formats/words.ts';
import { figure, table } from './answer.ts';
import { measuredText, planAnswer, rangeText } from './plan-answer.ts';
import type { NumberedRoute } from './plan-numbers.ts';
import type { PreparedPlan } from './plan-request.ts';
import type { ToldPlan } from './told-plan.ts';

export const TOO_TALL = 'taller than 5/8 wavelength on this band: not computed';

/** The plan for people: the answer, the tables, the work. */
export function planText(told: ToldPlan): string {
  const { plan, prepared, work, units, reach, measured, halfWave } = told;
  const { chosen, others, lesson } = plan;
  return [
    ...measuredText(measured),
    planAnswer(told),
    ...(reach.notes.length === 0 ? [] : [reach.notes.map(asSentence).join('\n')]),
    bandTable(plan, prepared),
    limits(plan, prepared),
    ...(halfWave === null ? [] : [halfWaveText(halfWave)]),
    `Side by side, directions at ${chosen.leaning[0]?.elevationDeg ?? '-'}° of elevation:`,
    fieldTable([chosen, ...others], units),
    ...(lesson === null ? [] : [asSentence(lessonText(lesson, units))]),
    'What more wire would buy beyond that, mean over the bands (range: half to twice the soil’s conductivity):',
    table([
      ['extra wire', 'radials', 'gain dB', 'from', 'to'],
      ...plan.worth.map(({ extraM, radials, gainDb, lowDb, highDb }) => [
        formatLength(extraM, units, 0),
        radials === 0 ? 'no room' : `${radials}`,
        ...[gainDb, lowDb, highDb].map((db) => figure(radials === 0 ? null : db, 2)),
      ]),
    ]),
    patternText(plan),
    'Radials:',
    routeTable(told.routes, units),
    ...cuttingText(chosen.cuts, prepared.request.allowanceM, units),
    ...planNotes(told).map(asSentence),
    'The work:',
    work.map((step) => `- ${step}`).join('\n'),
  ].join('\n\n');
}

/** What was assumed, and what the stock does not give. */
export function planNotes({
  plan,
  prepared,
  units,
}: Pick<ToldPlan, 'plan' | 'prepared' | 'units'>): string[] {
  const { routes, cuts } = plan.chosen;
  const { stockM, allowanceM } = prepared.request;
  if (stockM === null || cuts.length > 0) return [...prepared.notes];
  const neededM = routes.reduce((sum, { lengthM }) => sum + lengthM + allowanceM, 0);
  const atHandM = stockM.reduce((sum, lengthM) => sum + lengthM, 0);
  const [needed, atHand] = [neededM, atHandM].map((lengthM) => formatLength(lengthM, units));
  const short = `the stock does not give these wires, so there is no cutting plan: ${needed} are needed and ${atHand} are at hand`;
  return [...prepared.notes, neededM > atHandM ? short : `${short}, in pieces that are too short`];
}

function bandTable({ chosen }: Plan, { tooTall }: PreparedPlan): string {
  return table([
    ['band', 'radiated %', 'range', 'loss dB', 'range', 'ground loss ohm', 'range'],
    ...chosen.bands.map((band) => [
      band.band,
      figure(band.efficiencyPercent, 0),
      rangeText(band.efficiencyRangePercent, 0),
      figure(band.lossDb, 2),
      rangeText(band.lossRangeDb, 1),
      figure(band.groundLossOhm, 1),
      rangeText(band.groundLossRangeOhm, 0),
    ]),
    ...tooTall.map(({ band }) => [band, '-', '-', '-', '-', '-', '-']),
  ]);
}

const METHOD =
  'Computed by the surface-impedance method for the soil of the site. The ranges add the error that measured fields showed it to have, which is seldom in its favour, and a soil of half to twice the conductivity.';

function limits({ chosen }: Plan, { tooTall }: PreparedPlan): string {
  const said = chosen.bands.flatMap(({ band, outside }) => outside.map((why) => `- ${band}: ${why}`));
  return [METHOD, ...said, ...tooTall.map(({ band }) => `- ${band}: ${TOO_TALL}`)].join('\n');
}

function halfWaveText({ halfWave, quarterWave, halfWaveGainDb, notes }: HalfWaveComparison): string {
  const row = (name: string, { radiationResistanceOhm, lossOhm, lossDb }: HalfWaveComparison['halfWave']) => [
    name,
    figure(radiationResistanceOhm, 1),
    figure(lossOhm, 1),
    figure(-lossDb, 2),
  ];
  return [
    `On these wires a half wave loses ${figure(Math.abs(halfWaveGainDb), 2)} dB ${halfWaveGainDb >= 0 ? 'less' : 'more'} in the ground than a quarter wave.`,
    table([
      ['at the current maximum', 'radiation ohm', 'loss ohm', 'loss dB'],
      row('half wave', halfWave),
      row('quarter wave', quarterWave),
    ]),
    ...notes.map((note) => `- ${note}`),
  ].join('\n');
}

/** One row a field and band: what it radiates, and where it leans. */
function fieldTable(fields: readonly WeighedField[], units: UnitSystem): string {
  return table([
    ['field', 'up to', 'wire', 'band', 'radiated %', 'loss dB', 'most dB', 'toward', 'least dB', 'toward'],
    ...fields.flatMap(({ routes, nominalLengthM, wireM, bands, leaning }, place) =>
      bands.map(({ band, efficiencyPercent, lossDb }, i) => [
        ...(i > 0
          ? ['', '', '']
          : [
              `${plural(routes.length, 'radial')}${place === 0 ? ' (the plan)' : ''}`,
              formatLength(nominalLengthM, units),
              formatLength(wireM, units),
            ]),
        band,
        figure(efficiencyPercent, 0),
        figure(lossDb, 2),
        ...leaningCells(leaning[i]),
      ]),
    ),
  ]);
}

function leaningCells(leaning: Leaning | undefined): string[] {
  if (leaning === undefined) return ['-', '-', '-', '-'];
  return [leaning.most, leaning.least].flatMap(({ relativeDb, azimuthDeg }) => [
    figure(relativeDb, 2),
    `${azimuthDeg}°`,
  ]);
}

function patternText({ pattern }: Plan): string {
  return [
    'Pattern, strongest and weakest direction, bearings from true north (under 0.1 dB means none):',
    table([
      ['band', 'elevation', 'most dB', 'toward', 'least dB', 'toward'],
      ...pattern
        .map(leaningOf)
        .map((leaning) => [leaning.band, `${leaning.elevationDeg}°`, ...leaningCells(leaning)]),
    ]),
  ].join('\n');
}

/** One row a wire: its number, its bearing, its length, its bends. */
export function routeTable(routes: readonly NumberedRoute[], units: UnitSystem): string {
  return table([
    ['radial', 'toward', 'wire', 'bends'],
    ...routes.map(({ number, bearingDeg, lengthM, points }) => [
      `${number}`,
      `${bearingDeg.toFixed(0)}°`,
      formatLength(lengthM, units, 2),
      `${points.length - 2}`,
    ]),
  ]);
}

/** What is cut from each piece of stock; nothing where no stock is known. */
export function cuttingText(cuts: readonly StockCut[], allowanceM: number, units: UnitSystem): string[] {
  if (cuts.length === 0) return [];
  const rows = cuts.map(({ stockM, pieces, offcutM }) => [
    formatLength(stockM, units),
    formatLength(offcutM, units, 2),
    pieces.map((piece) => formatLength(piece, units, 2)).join(', '),
  ]);
  return [
    `Cutting plan (each piece is its route and ${formatLength(allowanceM, units, 2)} to join it):`,
    table([['from', 'offcut', 'pieces'], ...rows]),
  ];
}
