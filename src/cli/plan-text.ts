import type { HalfWaveComparison } from '../core/ground/half-wave.ts';
import type { StockCut } from '../core/layout/cutting.ts';
import { leaningOf, leaningText } from '../core/layout/leaning.ts';
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

/** Stands in place of the loss where the method does not reach. */
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
    `Side by side, with the directions at ${chosen.leaning[0]?.elevationDeg ?? '-'}° elevation:`,
    fieldTable([chosen, ...others], units),
    ...shorterText([chosen, ...others]),
    ...(lesson === null ? [] : [asSentence(lessonText(lesson, units))]),
    'What more wire would gain beyond that, averaged over the bands (range: soil of half to twice the conductivity):',
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
    work.map((step) => `- ${asSentence(step)}`).join('\n'),
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
  const short = `the stock is not enough for these wires, so there is no cutting plan: ${needed} needed, ${atHand} at hand`;
  return [...prepared.notes, neededM > atHandM ? short : `${short}, in pieces that are too short`];
}

function bandTable({ chosen }: Plan, { tooTall }: PreparedPlan): string {
  return table([
    ['band', 'radiated %', 'expect', 'loss dB', 'expect', 'ground loss ohm', 'expect'],
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
  'Computed by the surface-impedance method for the site’s soil. Measured antennas mostly lose more than it says. The ranges to expect allow for that, so a computed figure can lie outside its own; they also allow for soil of half to twice the conductivity.';

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
    `Over these wires a half wave loses ${figure(Math.abs(halfWaveGainDb), 2)} dB ${halfWaveGainDb >= 0 ? 'less' : 'more'} in the ground than a quarter wave.`,
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
    ['field', 'up to', 'wire', 'band', 'radiated %', 'loss dB', 'strongest and weakest direction'],
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
        leaning[i] === undefined ? '-' : leaningText(leaning[i]),
      ]),
    ),
  ]);
}

/** A difference in length that the tables show, m. */
const SHOWN_M = 0.05;

/** Why a field has less wire than its count and its length make. */
function shorterText(fields: readonly WeighedField[]): string[] {
  const shorter = fields.some(({ nominalLengthM, routes }) =>
    routes.some(({ lengthM }) => lengthM < nominalLengthM - SHOWN_M),
  );
  return shorter
    ? [
        'Where a field has less wire than its count and its "up to" make, the lot bounds some radials (its border, an obstacle, another wire, arm’s reach of a place), or they come from offcuts.',
      ]
    : [];
}

function patternText({ pattern }: Plan): string {
  return [
    'Pattern against its mean all round, bearings from true north (less than 0.1 dB means no direction):',
    table([
      ['band', 'elevation', 'strongest and weakest direction'],
      ...pattern
        .map(leaningOf)
        .map((leaning) => [leaning.band, `${leaning.elevationDeg}°`, leaningText(leaning)]),
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
    `Cutting plan (each piece is its route plus ${formatLength(allowanceM, units, 2)} to join it):`,
    table([['from', 'offcut', 'pieces'], ...rows]),
  ];
}
