import type { HalfWaveComparison } from '../core/ground/half-wave.ts';
import type { Candidate } from '../core/layout/budget.ts';
import type { StockCut } from '../core/layout/cutting.ts';
import type { Plan } from '../core/layout/plan.ts';
import type { Route } from '../core/layout/route.ts';
import { formatLength, type UnitSystem } from '../core/quantity.ts';
import type { Point } from '../core/site.ts';
import { figure, table } from './answer.ts';
import type { PreparedPlan } from './plan-request.ts';

/** A plan and what is told with it. */
export interface ToldPlan {
  readonly plan: Plan;
  readonly prepared: PreparedPlan;
  readonly work: readonly string[];
  readonly units: UnitSystem;
  /** Radials that lie there already. */
  readonly laid: number;
  /** For a half-wave antenna, the quarter wave on the same wires beside it. */
  readonly halfWave: HalfWaveComparison | null;
}

/** The public JSON of `plan`. Routes are in the site's own coordinates. */
export function planJson({ plan, prepared, work, laid, halfWave }: ToldPlan): object {
  const { base } = prepared.lot;
  const onLot = ([e, n]: Point): Point => [e + base[0], n + base[1]];
  return {
    radials: plan.chosen.routes.map(({ points, lengthM, bearingDeg }) => ({
      route: points.map(onLot),
      lengthM,
      bearingDeg,
    })),
    wireM: plan.chosen.wireM,
    alreadyLaid: laid,
    efficiency: [
      ...plan.bands.map(
        ({ band, groundLossOhm, efficiencyPercent, lossDb, biasDb, outside, referredTo }) => ({
          band,
          groundLossOhm,
          efficiencyPercent,
          lossDb,
          lossRangeDb: [lossDb + biasDb.low, lossDb + biasDb.high],
          referredTo,
          outside,
        }),
      ),
      ...prepared.tooTall.map(({ band }) => ({
        band,
        groundLossOhm: null,
        efficiencyPercent: null,
        lossDb: null,
        lossRangeDb: null,
        referredTo: null,
        outside: [TOO_TALL],
      })),
    ],
    pattern: plan.pattern,
    cuttingPlan: plan.chosen.cuts,
    moreWire: plan.worth,
    otherFields: plan.others.map((field) => ({
      radials: field.routes.length,
      nominalLengthM: field.nominalLengthM,
      wireM: field.wireM,
      meanLossDb: field.meanLossDb,
    })),
    lesson: plan.lesson,
    halfWave,
    work,
    notes: prepared.notes,
  };
}

const TOO_TALL = 'taller than 5/8 wavelength on this band: not computed';

/** The plan for people: the answer, the tables, the work. */
export function planText(told: ToldPlan): string {
  const { plan, prepared, work, units, halfWave } = told;
  return [
    answer(told),
    bandTable(plan, prepared),
    ...limits(plan),
    ...(halfWave === null ? [] : [halfWaveText(halfWave)]),
    'Side by side, mean over the bands:',
    fieldTable([plan.chosen, ...plan.others], units),
    ...(plan.lesson === null ? [] : [capital(plan.lesson)]),
    'What more wire would buy (range: half to twice the soil’s conductivity):',
    table([
      ['extra wire', 'radials', 'gain dB', 'from', 'to'],
      ...plan.worth.map(({ extraM, radials, gainDb, lowDb, highDb }) => [
        formatLength(extraM, units, 0),
        `${radials}`,
        figure(gainDb, 2),
        figure(lowDb, 2),
        figure(highDb, 2),
      ]),
    ]),
    patternText(plan),
    'Radials:',
    routeTable(plan.chosen.routes, units),
    ...(plan.chosen.cuts.length === 0 ? [] : ['Cutting plan:', cuttingTable(plan.chosen.cuts, units)]),
    ...prepared.notes.map((note) => `Note: ${note}.`),
    'The work:',
    work.map((step) => `- ${step}`).join('\n'),
  ].join('\n\n');
}

function answer({ plan, units, laid }: ToldPlan): string {
  const { routes, wireM } = plan.chosen;
  const band = plan.bands[0];
  const lengths = routes.map(({ lengthM }) => lengthM);
  const range = `${formatLength(Math.min(...lengths), units)} to ${formatLength(Math.max(...lengths), units)}`;
  const beside = laid === 0 ? '' : ` beside the ${laid} that lie there`;
  const result =
    band === undefined
      ? ''
      : `: on ${band.band} about ${figure(band.efficiencyPercent, 0)} % of the power is radiated, ${lossText(band)} lost in the ground`;
  return `Lay ${routes.length} radials of ${range}${beside}, ${formatLength(wireM, units)} of wire in all${result}.`;
}

function lossText({ lossDb, biasDb }: Plan['bands'][number]): string {
  const [low, high] = [lossDb + biasDb.low, lossDb + biasDb.high];
  return `${figure(low, 1)} to ${figure(high, 1)} dB`;
}

function bandTable(plan: Plan, { tooTall }: PreparedPlan): string {
  return table([
    ['band', 'ground loss ohm', 'efficiency %', 'loss dB', 'by measurement dB'],
    ...plan.bands.map((band) => [
      band.band,
      figure(band.groundLossOhm, 1),
      figure(band.efficiencyPercent, 0),
      figure(band.lossDb, 2),
      lossText(band),
    ]),
    ...tooTall.map(({ band }) => [band, '-', '-', '-', TOO_TALL]),
  ]);
}

function limits(plan: Plan): string[] {
  const said = [
    ...new Set(plan.bands.flatMap(({ band, outside }) => outside.map((why) => `${band}: ${why}`))),
  ];
  const method =
    'The loss is computed by the surface-impedance method; "by measurement" adds the error that measured fields showed it to have.';
  return [[method, ...said.map((why) => `- ${why}`)].join('\n')];
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

function fieldTable(fields: readonly Candidate[], units: UnitSystem): string {
  const shown = fields
    .slice(0, 1)
    .concat(fields.slice(1).filter((_, i, rest) => rest.length <= 6 || i % 3 === 0));
  return table([
    ['field', 'up to', 'wire', 'loss dB'],
    ...shown.map(({ routes, nominalLengthM, wireM, meanLossDb }, i) => [
      `${routes.length} radials${i === 0 ? ' (the plan)' : ''}`,
      formatLength(nominalLengthM, units),
      formatLength(wireM, units),
      figure(meanLossDb, 2),
    ]),
  ]);
}

function patternText({ pattern }: Plan): string {
  return [
    'Pattern, strongest and weakest direction:',
    table([
      ['band', 'elevation', 'most dB', 'toward', 'least dB', 'toward'],
      ...pattern.map(({ band, elevationDeg, azimuthDeg, relativeDb }) => {
        const most = relativeDb.indexOf(Math.max(...relativeDb));
        const least = relativeDb.indexOf(Math.min(...relativeDb));
        return [
          band,
          `${elevationDeg}°`,
          figure(relativeDb[most], 2),
          `${azimuthDeg[most]}°`,
          figure(relativeDb[least], 2),
          `${azimuthDeg[least]}°`,
        ];
      }),
    ]),
  ].join('\n');
}

/** One row a wire: its bearing, its length, its bends. */
export function routeTable(routes: readonly Route[], units: UnitSystem): string {
  return table([
    ['radial', 'toward', 'wire', 'bends'],
    ...routes.map(({ bearingDeg, lengthM, points }, i) => [
      `${i + 1}`,
      `${bearingDeg.toFixed(0)}°`,
      formatLength(lengthM, units, 2),
      `${points.length - 2}`,
    ]),
  ]);
}

/** One row a piece of stock: what is cut from it. */
export function cuttingTable(cuts: readonly StockCut[], units: UnitSystem): string {
  return table([
    ['from', 'offcut', 'pieces'],
    ...cuts.map(({ stockM, pieces, offcutM }) => [
      formatLength(stockM, units),
      formatLength(offcutM, units, 2),
      pieces.map((piece) => formatLength(piece, units, 2)).join(', '),
    ]),
  ]);
}

function capital(sentence: string): string {
  return `${sentence.slice(0, 1).toUpperCase()}${sentence.slice(1)}.`;
}
