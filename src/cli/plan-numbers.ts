import { distanceM, type Route } from '../core/layout/route.ts';
import type { Radial } from '../core/record.ts';
import { numbered } from './numbers.ts';
import type { PlannedSite, PlanOptions } from './plan-options.ts';

/** A planned wire under the number that the journal gives it. */
export interface NumberedRoute extends Route {
  readonly number: number;
}

/** A journal keeps routes to the millimetre. */
const SAME_M = 0.01;

/**
 * Numbers planned wires as the journal does, which gives none twice, so that table, drawing, `lay --planned` and
 * `history` speak of one wire by one number. A plan that the journal holds open already keeps its numbers, unless it is
 * to be written there once more.
 */
export function numberedRoutes(
  routes: readonly Route[],
  { nextRadial, openPlan }: Pick<PlannedSite, 'nextRadial' | 'openPlan'>,
  { apply }: Pick<PlanOptions, 'apply'>,
): NumberedRoute[] {
  const open = apply !== true && isOpenPlan(routes, openPlan) ? openPlan : null;
  return routes.map((route, i) => ({ ...route, number: open?.[i]?.number ?? nextRadial + i }));
}

/** What the journal's open plan means for the one that is shown; nothing where there is none, or it gives way. */
export function openPlanNotes(
  routes: readonly Route[],
  { openPlan }: Pick<PlannedSite, 'openPlan'>,
  { apply }: Pick<PlanOptions, 'apply'>,
): string[] {
  if (openPlan.length === 0 || apply === true) return [];
  if (isOpenPlan(routes, openPlan)) return ['the journal holds this very plan, under the same numbers'];
  const open = numbered(
    'radial',
    openPlan.map(({ number }) => number),
  );
  return [
    `the journal holds another plan, ${open}, of which nothing is laid yet; with --apply this one takes its place`,
  ];
}

function isOpenPlan(routes: readonly Route[], open: readonly Radial[]): boolean {
  return (
    routes.length === open.length &&
    routes.every(({ points }, i) => {
      const kept = open[i]?.route ?? [];
      return (
        kept.length === points.length &&
        points.every((point, corner) => distanceM(point, kept[corner] ?? [Infinity, 0]) < SAME_M)
      );
    })
  );
}
