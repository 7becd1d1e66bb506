import { APART_M } from '../core/layout/lay-routes.ts';
import type { Plan } from '../core/layout/plan.ts';
import type { Range } from '../core/layout/ranged-efficiency.ts';
import { SHORTEST_STRAIGHT_M } from '../core/layout/route.ts';
import { plural } from '../core/plural.ts';
import { formatLength, type UnitSystem } from '../core/quantity.ts';
import { asSentence } from '../formats/words.ts';
import { figure } from './answer.ts';
import type { PreparedPlan } from './plan-request.ts';
import type { ToldPlan } from './told-plan.ts';

/** What to lay, what it gives on each band, and what it gains: the sentence that answers `plan`. */
export function planAnswer({ plan, prepared, units, laid, worthwhileDb }: ToldPlan): string {
  const { routes, wireM, bands } = plan.chosen;
  const lengths = routes.map(({ lengthM }) => lengthM);
  const beside = laid === 0 ? '' : ` beside the ${laid} already laid`;
  return [
    `Lay ${plural(routes.length, 'radial')} of ${spanText(lengths, units)}${beside}, ${formatLength(wireM, units)} of wire in all.`,
    ...bands.map(
      ({ band, efficiencyRangePercent, lossRangeDb }) =>
        `On ${band}, ${rangeText(efficiencyRangePercent, 0)} % of the power is radiated: ${rangeText(lossRangeDb, 1)} dB is lost in the ground.`,
    ),
    ...gainText(plan.overLaid, worthwhileDb),
    ...fewerText(prepared.request.wanted, routes.length, units),
  ].join(' ');
}

/** `7.00 m`, or `3.70 m to 9.00 m` where that reads differently; as fine as the table of the radials. */
function spanText(lengthsM: readonly number[], units: UnitSystem): string {
  const [least, most] = [Math.min(...lengthsM), Math.max(...lengthsM)].map((lengthM) =>
    formatLength(lengthM, units, 2),
  ) as [string, string];
  return least === most ? least : `${least} to ${most}`;
}

/** `52 to 70`, or one figure where both read alike. */
export function rangeText([least, most]: Range, decimals: number): string {
  const [from, to] = [figure(least, decimals), figure(most, decimals)];
  return from === to ? from : `${from} to ${to}`;
}

/** What was measured outranks what is computed, and so it is said first, but for a plain wish for more. */
export function measuredText(measured: ToldPlan['measured']): string[] {
  if (measured === null || measured.advice === 'go on') return [];
  const said = asSentence(`what was measured says ${measured.advice}: ${measured.why}`);
  return [measured.advice === 'stop' ? `${said} Should you lay more all the same:` : said];
}

function gainText(gain: Plan['overLaid'], worthwhileDb: number | null): string[] {
  if (gain === null) return [];
  const { gainDb, lowDb, highDb } = gain;
  return [
    `That gains ${figure(gainDb, 2)} dB on what is laid already (${rangeText([lowDb, highDb], 2)}, depending on the soil)${
      worthwhileDb !== null && highDb < worthwhileDb
        ? `, less than the ${figure(worthwhileDb, 2)} dB that the site calls worthwhile`
        : ''
    }.`,
  ];
}

function fewerText(wanted: PreparedPlan['request']['wanted'], count: number, units: UnitSystem): string[] {
  if (wanted === null || wanted.count === count) return [];
  const apart = formatLength(APART_M, units);
  return [
    `There is no room for the rest of the ${wanted.count}: they would come within ${apart} of another wire, end within arm’s reach of a place, or have no clear run of ${formatLength(SHORTEST_STRAIGHT_M, units)}.`,
  ];
}
