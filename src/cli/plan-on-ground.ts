import { compareHalfWave, type HalfWaveComparison } from '../core/ground/half-wave.ts';
import { makePlan } from '../core/layout/plan.ts';
import { laidWires, wiresOf } from '../core/layout/planned-field.ts';
import { workList } from '../core/layout/work-list.ts';
import type { Lot, Point, Site } from '../core/site.ts';
import type { Answer } from './answer.ts';
import { planJson } from './plan-json.ts';
import { type NumberedRoute, numberedRoutes, openPlanNotes } from './plan-numbers.ts';
import type { PlannedSite, PlanOptions } from './plan-options.ts';
import { planReach } from './plan-reach.ts';
import { preparePlan } from './plan-request.ts';
import { planText } from './plan-text.ts';

/** What every way of planning gives: the answer, and the wires on their lot. */
export interface PlannedAnswer {
  readonly answer: Answer;
  readonly routes: readonly NumberedRoute[];
  readonly lot: Lot;
}

/** The plan of radials on or in the ground. */
export function answerOnGround(planned: PlannedSite, options: PlanOptions): PlannedAnswer {
  const { site, laid, measured } = planned;
  const prepared = preparePlan(planned, options);
  const plan = makePlan(prepared.request);
  const { cuts } = plan.chosen;
  const routes = numberedRoutes(plan.chosen.routes, planned, options);
  const { lot } = prepared;
  const paths = lot.obstacles
    .filter(({ kind }) => kind === 'path')
    .map(({ name, outline, isLine }) => ({
      name,
      isLine,
      outline: outline.map(([e, n]): Point => [e - lot.base[0], n - lot.base[1]]),
    }));
  const work = workList(routes, cuts, prepared.request.allowanceM, site.radials, paths, site.units);
  const halfWave = besideHalfWave(site, prepared.request, routes);
  const told = {
    plan,
    prepared: { ...prepared, notes: [...prepared.notes, ...openPlanNotes(routes, planned, options)] },
    routes,
    work,
    units: site.units,
    laid: laid.length,
    reach: planReach(site, lot, routes, laid, 0),
    measured,
    worthwhileDb: site.worthwhileDb,
    halfWave,
  };
  return { answer: { json: planJson(told), text: planText(told) }, routes, lot };
}

/** For a half wave: the same wires as its counterpoise, beside a quarter wave on them. */
function besideHalfWave(
  { antenna }: Site,
  { setting, laid }: ReturnType<typeof preparePlan>['request'],
  routes: readonly NumberedRoute[],
): HalfWaveComparison | null {
  const [band] = setting.bands;
  if (antenna.kind !== 'half-wave' || band === undefined) return null;
  const field = { wires: [...laidWires(laid, setting.wireRadiusM), ...wiresOf(routes, setting.wireRadiusM)] };
  return compareHalfWave({
    frequencyHz: band.frequencyHz,
    soil: setting.soil,
    radiusM: setting.monopole.radiusM,
    quarterWaveField: field,
    counterpoise: field,
    baseHeightM: antenna.baseHeightM ?? 0,
    own: {
      heightM: setting.monopole.heightM,
      radiationResistanceOhm: band.radiationResistanceOhm,
    },
  });
}
