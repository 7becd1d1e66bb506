import type { BoundedQuantity } from '../quantity-with-uncertainty.ts';
import type { Measure } from './figures.ts';
import { placeOf, roundedTo } from './rounding.ts';
import { SHOWN_AS } from './shown-as.ts';
import { isToldNothing } from './told-nothing.ts';

/** A figure as people are told it. */
export interface ToldFigure {
  /** `nothing`: its uncertainty is so large that it cannot be told; `none`: it is not there to be had. */
  readonly as: 'value' | 'at least' | 'at most' | 'nothing' | 'none';
  /** Rounded, in the unit shown; 0 for what is not told. */
  readonly value: number;
  readonly decimals: number;
}

/** One row of a comparison as people are told it, such that it adds up: after − before − by moisture = difference. */
export interface ToldMeasure {
  readonly before: ToldFigure;
  readonly after: ToldFigure;
  /** What the change of soil moisture accounts for, in the unit of the difference. */
  readonly byMoisture: ToldFigure;
  readonly difference: ToldFigure;
  readonly uncertainty: ToldFigure;
  /** Null where there is no uncertainty to tell. */
  readonly coverageFactor: number | null;
}

/** What of a comparison is told. */
interface Compared {
  readonly measure: string;
  readonly before: BoundedQuantity;
  readonly after: BoundedQuantity;
  readonly difference: BoundedQuantity;
  readonly soilCorrection?: number | undefined;
}

/** All figures of a row to the place at which the uncertainty of their difference has two digits. */
export function toldMeasure({
  measure,
  before,
  after,
  difference,
  soilCorrection = 0,
}: Compared): ToldMeasure {
  const shown = SHOWN_AS[measure as Measure];
  const { expandedUncertainty: u } = difference;
  const place = placeOf(u === null ? null : u * shown.perSi, shown.decimals);
  const differencePlace = placeOf(u === null ? null : u * shown.differencePerSi, shown.differenceDecimals);
  const isNothing = isToldNothing(measure, difference, [before, after]);
  const rounded = (value: number | null, to = place): number => roundedTo(to, (value ?? 0) * shown.perSi);
  const side = (quantity: BoundedQuantity): ToldFigure => {
    const { value, atLeast, expandedUncertainty: own } = quantity;
    if (atLeast !== undefined) return whole('at least', atLeast * shown.perSi);
    if (value === null) return NONE;
    if (isToldNothing(measure, quantity, [quantity])) return NOTHING;
    // What has no difference to add up to is told as far as it is known by itself.
    const to = isNothing ? placeOf(own === null ? null : own * shown.perSi, shown.decimals) : place;
    return { as: 'value', value: rounded(value, to), decimals: to.decimals };
  };
  const told = (value: number): ToldFigure => ({
    as: 'value',
    value: roundedTo(differencePlace, value),
    decimals: differencePlace.decimals,
  });
  const [then, now] = [side(before), side(after)];
  const byMoisture =
    soilCorrection === 0 || difference.value === null ? NONE : told(-soilCorrection * shown.differencePerSi);
  const toDifference = shown.differencePerSi / shown.perSi;
  const adding = {
    before: then,
    after: now,
    byMoisture,
    // Of what is shown, so that the row adds up for whoever checks it.
    difference: told((rounded(after.value) - rounded(before.value)) * toDifference - byMoisture.value),
    uncertainty: u === null ? NONE : told(u * shown.differencePerSi),
    coverageFactor: u === null ? null : difference.coverageFactor,
  };
  if (difference.value !== null && !isNothing) return adding;
  const untold = difference.value === null ? boundOf(difference, shown.differencePerSi) : NOTHING;
  const bothSides = [then, now].every(({ as }) => as !== 'none');
  return {
    ...adding,
    byMoisture: NONE,
    difference: untold.as === 'none' && bothSides ? NOTHING : untold,
    uncertainty: NONE,
    coverageFactor: null,
  };
}

const WORDS = { value: '', 'at least': '≥ ', 'at most': '≤ ' };

/** `39.3`, `≥ 400`, `cannot be told`, or `-` for what is not there. */
export function toldText({ as, value, decimals }: ToldFigure): string {
  if (as === 'none') return '-';
  return as === 'nothing' ? 'cannot be told' : `${WORDS[as]}${value.toFixed(decimals)}`;
}

/** The same with a sign, but for zero. */
export function signedText(figure: ToldFigure): string {
  const text = toldText(figure);
  return figure.value > 0 ? text.replace(/(?=\d)/u, '+') : text;
}

const NONE: ToldFigure = { as: 'none', value: 0, decimals: 0 };
const NOTHING: ToldFigure = { as: 'nothing', value: 0, decimals: 0 };

function boundOf({ atLeast, atMost }: BoundedQuantity, perSi: number): ToldFigure {
  if (atLeast !== undefined) return whole('at least', atLeast * perSi);
  return atMost === undefined ? NONE : whole('at most', atMost * perSi);
}

/** A bound in whole units, rounded to the side on which it stays true. */
function whole(as: 'at least' | 'at most', value: number): ToldFigure {
  return { as, value: as === 'at least' ? Math.floor(value) : Math.ceil(value), decimals: 0 };
}
