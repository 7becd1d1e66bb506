import { lessonText } from '../core/layout/lesson.ts';
import type { WeighedField } from '../core/layout/plan.ts';
import type { Lot, Point } from '../core/site.ts';
import type { NumberedRoute } from './plan-numbers.ts';
import { planNotes, TOO_TALL } from './plan-text.ts';
import type { ToldPlan } from './told-plan.ts';

/** The public JSON of `plan`. Routes are in the site's own coordinates. */
export function planJson({
  plan,
  prepared,
  routes,
  work,
  units,
  laid,
  reach,
  measured,
  halfWave,
}: ToldPlan): object {
  const { chosen, others, overLaid, lesson } = plan;
  return {
    radials: radialsJson(routes, prepared.lot),
    wireM: chosen.wireM,
    alreadyLaid: laid,
    gainOverLaidDb: overLaid,
    measured: measured === null ? null : { advice: measured.advice, why: measured.why },
    efficiency: [
      ...efficiencyOf(chosen),
      ...prepared.tooTall.map(({ band }) => ({
        band,
        groundLossOhm: null,
        efficiencyPercent: null,
        lossDb: null,
        groundLossRangeOhm: null,
        efficiencyRangePercent: null,
        lossRangeDb: null,
        referredTo: null,
        outside: [TOO_TALL],
      })),
    ],
    pattern: plan.pattern,
    cuttingPlan: chosen.cuts,
    allowanceM: prepared.request.allowanceM,
    moreWire: plan.worth,
    otherFields: others.map((field) => ({
      radials: field.routes.length,
      nominalLengthM: field.nominalLengthM,
      wireM: field.wireM,
      meanLossDb: field.meanLossDb,
      efficiency: efficiencyOf(field),
      leaning: field.leaning,
    })),
    lesson: lesson === null ? null : lessonText(lesson, units),
    halfWave,
    work,
    endsNearBorder: reach.endsNearBorder,
    notes: [...reach.notes, ...planNotes({ plan, prepared, units })],
  };
}

/** Wires in the site's own coordinates, under the numbers that the journal gives them. */
export function radialsJson(routes: readonly NumberedRoute[], { base }: Lot): object[] {
  const onLot = ([e, n]: Point): Point => [e + base[0], n + base[1]];
  return routes.map(({ number, points, lengthM, bearingDeg }) => ({
    number,
    route: points.map(onLot),
    lengthM,
    bearingDeg,
  }));
}

function efficiencyOf({ bands }: WeighedField): object[] {
  return bands.map(({ frequencyHz: _, ...band }) => band);
}
