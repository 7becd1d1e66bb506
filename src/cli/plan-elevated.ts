import { type ElevatedBand, type ElevatedPlan, planElevated } from '../core/layout/elevated-plan.ts';
import { freeArea } from '../core/layout/free-area.ts';
import { plural } from '../core/plural.ts';
import { formatFrequency, formatLength } from '../core/quantity.ts';
import type { Radial } from '../core/record.ts';
import { cautionsFor } from '../core/safety/cautions.ts';
import type { Lot, Site } from '../core/site.ts';
import { UserError } from '../core/user-error.ts';
import { asSentence, listed } from '../formats/words.ts';
import { figure, table } from './answer.ts';
import { radialsJson } from './plan-json.ts';
import { type NumberedRoute, numberedRoutes, openPlanNotes } from './plan-numbers.ts';
import type { PlannedAnswer } from './plan-on-ground.ts';
import type { PlannedSite, PlanOptions } from './plan-options.ts';
import { type PlanReach, planReach } from './plan-reach.ts';
import { ASSUMED_WIRE_DIAMETER_M, assume, bandNotes, needed, plannedBands } from './plan-request.ts';
import { cuttingText, routeTable } from './plan-text.ts';
import { wireAtHand } from './plan-wire.ts';

/** Two tuned radials a band: what common practice begins with. */
const USUAL_COUNT = 2;
const MOST_COUNT = 12;

/** The plan of a raised base: tuned radials, by band, and what the literature says of them. */
export function answerElevated(planned: PlannedSite, options: PlanOptions): PlannedAnswer {
  const { site } = planned;
  const lot = needed(site.lot, 'lot', "the lot's outline and the antenna's base");
  const heightM = needed(site.antenna.baseHeightM, 'antenna.baseHeight', "the base's height, such as 3m");
  const { stockM, allowanceM, notes: wireNotes } = wireAtHand(planned, options);
  const stated = statedPerBand(site);
  const notes = [
    ...wireNotes,
    ...bandNotes(site, options),
    ...(stated === null || options.count !== undefined
      ? []
      : [
          `radials.count is ${site.radials?.count}: planned as ${stated} a band (--count plans for another number)`,
        ]),
  ];
  const plan = planElevated({
    // Wires in the air pass over a buried service, not through a building.
    area: freeArea({ ...lot, obstacles: lot.obstacles.filter(({ kind }) => kind !== 'service') }, heightM),
    bands: plannedBands(site, options),
    heightM,
    wireDiameterM:
      site.radials?.diameterM ?? assume(notes, 'radials.diameter', ASSUMED_WIRE_DIAMETER_M, site.units),
    insulated: site.radials?.insulated ?? false,
    countPerBand: countPerBand(options, stated),
    hanging: planned.laid,
    stockM,
    allowanceM,
    units: site.units,
  });
  if (plan.cuts === null) notes.push('the stock is not enough for these wires, so there is no cutting plan');
  const routes = numberedRoutes(plan.routes, planned, options);
  notes.push(...otherHanging(plan, site), ...openPlanNotes(routes, planned, options));
  const reach = planReach(site, lot, routes, planned.laid, heightM);
  const told = {
    plan,
    routes,
    lot,
    reach,
    notes: [...notes, ...(routes.length === 0 ? [] : adviceNotes(plan))],
  };
  return { answer: { json: json(told), text: text(told, site, allowanceM) }, routes, lot };
}

/** What `radials.count` wishes for each band, where no `radials.length` says that so many hang already; null for nothing. */
function statedPerBand({ radials, antenna }: Site): number | null {
  if (radials?.count == null || radials.lengthM !== null || antenna.bands.length === 0) return null;
  return Math.min(MOST_COUNT, Math.max(USUAL_COUNT, Math.round(radials.count / antenna.bands.length)));
}

function countPerBand({ count, length, compare, elevation }: PlanOptions, stated: number | null): number {
  const leftOut = (option: string, why: string): UserError =>
    new UserError('plan-tuned', `raised radials ${why}: leave ${option} out`, {
      kind: 'command-line',
      place: { field: option },
    });
  if (length !== undefined) throw leftOut('--length', 'are cut to resonance');
  if (compare !== undefined) throw leftOut('--compare', 'have no computed loss');
  if (elevation !== undefined) throw leftOut('--elevation', 'have no computed pattern');
  const value = Number(count ?? stated ?? USUAL_COUNT);
  if (Number.isInteger(value) && value >= USUAL_COUNT && value <= MOST_COUNT) return value;
  const message = `needs ${USUAL_COUNT} to ${MOST_COUNT} radials a band, got "${count}"`;
  throw new UserError('plan-count', message, { kind: 'command-line', place: { field: '--count' } });
}

const NO_LOSS = 'raised radials: their loss is not computed; see the range that the literature gives';

/** A plan of raised radials and what is told with it. */
interface Told {
  readonly plan: ElevatedPlan;
  readonly routes: readonly NumberedRoute[];
  readonly lot: Lot;
  readonly reach: PlanReach;
  readonly notes: readonly string[];
}

function json({ plan, routes: wires, lot, reach, notes }: Told): object {
  return {
    radials: radialsJson(wires, lot),
    wireM: plan.wireM,
    alreadyLaid: hangingOf(plan).length,
    efficiency: plan.bands.map(({ band, advice }) => ({
      band: band.band,
      groundLossOhm: null,
      efficiencyPercent: null,
      lossDb: null,
      againstGroundRadialsDb: [advice.againstGroundRadialsDb.low, advice.againstGroundRadialsDb.high],
      outside: [NO_LOSS],
    })),
    pattern: [],
    cuttingPlan: plan.cuts ?? [],
    elevated: plan.bands.map(({ band, advice, servedBy, hanging, routes, bent, tooShort }) => ({
      band: band.band,
      radials: routes.length,
      hanging: hanging.length,
      cutLengthM: advice.cutLengthM,
      velocityFactor: advice.velocityFactor,
      advisedCount: [advice.count.low, advice.count.high],
      servedBy: servedBy?.band ?? null,
      thirdHarmonicHz: servedBy === null ? null : [servedBy.use.harmonic.lowHz, servedBy.use.harmonic.highHz],
      bent,
      tooShort,
    })),
    endsNearBorder: reach.endsNearBorder,
    notes: [...reach.notes, ...notes],
  };
}

/** What the advice of every band says, once. */
function adviceNotes({ bands }: ElevatedPlan): string[] {
  return [...new Set(bands.flatMap(({ advice }) => advice.notes))];
}

/** Every radial that hangs, whatever it is tuned to. */
function hangingOf({ bands, otherHanging }: ElevatedPlan): Radial[] {
  return [...bands.flatMap(({ hanging }) => hanging), ...otherHanging];
}

/** Wires that hang and do none of the bands any good. */
function otherHanging({ otherHanging: others }: ElevatedPlan, { units }: Site): string[] {
  if (others.length === 0) return [];
  const which = others.map(({ number, lengthM }) => `radial ${number} (${formatLength(lengthM, units)})`);
  return [`${listed(which)} ${others.length === 1 ? 'hangs' : 'hang'} there, tuned to none of these bands`];
}

function text({ plan, routes, reach, notes }: Told, site: Site, allowanceM: number): string {
  const [first] = plan.bands;
  const range = first?.advice.againstGroundRadialsDb;
  const findings = [...new Map(first?.advice.findings.map((finding) => [finding.says, finding])).values()];
  return [
    `${hangText(plan, site)} Against a full field of ground radials the literature puts such radials anywhere from ${range?.low} to ${range?.high} dB: the sources disagree.`,
    ...(reach.notes.length === 0 ? [] : [reach.notes.map(asSentence).join('\n')]),
    table([
      ['band', 'hanging', 'to hang', 'cut to', 'velocity factor', 'note'],
      ...plan.bands.map(({ band, advice, servedBy, hanging, routes, bent, tooShort }) => [
        band.band,
        `${hanging.length}`,
        `${routes.length}`,
        servedBy === null ? formatLength(advice.cutLengthM, site.units, 2) : '-',
        figure(advice.velocityFactor, 3),
        bandNote(servedBy, bent, tooShort),
      ]),
    ]),
    ['What the sources say:', ...findings.map(({ says, source }) => `- ${says} (${source})`)].join('\n'),
    ...(routes.length === 0 ? [] : ['Radials:', routeTable(routes, site.units)]),
    ...cuttingText(plan.cuts ?? [], allowanceM, site.units),
    notes.map((note) => `- ${note}`).join('\n'),
    [
      'Cautions:',
      ...(['ladders', 'hanging', 'transmitting'] as const).flatMap((job) => cautionsFor(job, site.units)),
    ].join('\n- '),
  ].join('\n\n');
}

/** What to hang, beside what hangs. */
function hangText(plan: ElevatedPlan, { units }: Site): string {
  const { length: there } = hangingOf(plan);
  const { length: more } = plan.routes;
  if (more === 0) {
    return `Nothing more to hang: the ${plural(there, 'radial')} that ${there === 1 ? 'hangs' : 'hang'} there will do for these bands (--count plans for more a band).`;
  }
  const wire = `${formatLength(plan.wireM, units)} of wire in all`;
  return there === 0
    ? `Hang ${plural(more, 'tuned radial')}, ${wire}.`
    : `Hang ${more} more tuned ${more === 1 ? 'radial' : 'radials'} beside the ${there} that ${there === 1 ? 'hangs' : 'hang'} there, ${wire}.`;
}

function bandNote(servedBy: ElevatedBand['servedBy'], bent: boolean, tooShort: boolean): string {
  if (servedBy !== null) {
    const { lowHz, highHz } = servedBy.use.harmonic;
    const how = servedBy.use.verdict === 'serves' ? 'served' : 'nearly served';
    return `${how} by the ${servedBy.band} wires near their third harmonic, ${formatFrequency(lowHz)} to ${formatFrequency(highHz)}: measure before you rely on it`;
  }
  if (tooShort)
    return 'the lot has no room for this length with its end out of reach of the places: load the wire with a coil, or choose another band';
  return bent ? 'bent to fit the lot: trim it again' : '';
}
