import { type Efficiency, efficiency } from '../ground/feed-point.ts';
import type { Monopole } from '../ground/monopole.ts';
import type { RadialField, RadialWire } from '../ground/radial-field.ts';
import type { Soil } from '../ground/soil.ts';
import type { Radial } from '../record.ts';
import type { Point } from '../site.ts';
import { bearingOf, directionOf, type Route } from './route.ts';

/** What a plan is computed for: the antenna, its ground, and the frequencies that matter. */
export interface PlanSetting {
  readonly monopole: Monopole;
  readonly soil: Soil;
  readonly wireRadiusM: number;
  readonly bands: readonly PlannedBand[];
}

/** A frequency that matters. */
export interface PlannedBand {
  readonly band: string;
  readonly frequencyHz: number;
  /** That the site states for this band, at the base; undefined for the computed one. */
  readonly radiationResistanceOhm?: number | undefined;
}

/** Efficiency on one band, from the loss form of the surface-impedance method. */
export interface BandEfficiency {
  readonly band: string;
  readonly frequencyHz: number;
  /** Soil and wire, referred to `referredTo`, ohm. */
  readonly groundLossOhm: number;
  readonly efficiencyPercent: number;
  /** Positive: dB lost in the ground system. */
  readonly lossDb: number;
  readonly referredTo: 'base' | 'loop';
}

/** Wires as the ground physics wants them. */
export function wiresOf(routes: readonly Route[], radiusM: number): RadialWire[] {
  return routes.map((route) => ({ route: route.points, radiusM }));
}

/** Wires that lie there, and where each sets out. */
export interface LyingField {
  readonly wires: readonly RadialWire[];
  readonly bearingsDeg: readonly number[];
}

/** Laid radials as wires; see {@link laidRoutes}. */
export function laidWires(radials: readonly Radial[], radiusM: number): RadialWire[] {
  return laidRoutes(radials).map((route) => ({ route, radiusM }));
}

/** Laid radials as what further wires must keep apart from. */
export function lyingField(radials: readonly Radial[], radiusM: number): LyingField {
  const wires = laidWires(radials, radiusM);
  const bearingsDeg = wires.flatMap(({ route }) => (route[1] === undefined ? [] : [bearingOf(route[1])]));
  return { wires, bearingsDeg };
}

/** A field with planned routes laid too. */
export function withRoutes(field: LyingField, routes: readonly Route[], radiusM: number): LyingField {
  return {
    wires: [...field.wires, ...wiresOf(routes, radiusM)],
    bearingsDeg: [...field.bearingsDeg, ...routes.map((route) => route.bearingDeg)],
  };
}

/** Whether nobody knows where a radial runs. */
export function wayIsUnknown({ route, bearingDeg }: Radial): boolean {
  return route === null && bearingDeg === null;
}

/**
 * Where laid radials run. One whose bearing is not known is taken to lie in the middle of the largest gap that
 * the known ones leave: the loss is nearly the same wherever a wire lies, the pattern is not.
 *
 * @returns a chain of points for each radial, metres relative to the base
 */
export function laidRoutes(radials: readonly Radial[]): (readonly Point[])[] {
  const bearings = radials.flatMap(({ bearingDeg }) => (bearingDeg === null ? [] : [bearingDeg]));
  const free = fillGaps(bearings, radials.length - bearings.length);
  return radials.map(({ route, bearingDeg, lengthM }) => {
    if (route !== null && route.length > 1) return route;
    const [east, north] = directionOf(bearingDeg ?? (free.shift() as number));
    return [
      [0, 0],
      [east * lengthM, north * lengthM],
    ];
  });
}

/** Bearings for `count` more wires, each in the middle of the largest gap; even when there are none yet. */
function fillGaps(known: readonly number[], count: number): number[] {
  if (known.length === 0) return Array.from({ length: count }, (_, i) => (360 * i) / count);
  const all = [...known];
  return Array.from({ length: count }, () => {
    const sorted = [...all].sort((a, b) => a - b);
    let start = sorted[sorted.length - 1] as number;
    let widest = (sorted[0] as number) + 360 - start;
    for (let i = 1; i < sorted.length; i++) {
      const gap = (sorted[i] as number) - (sorted[i - 1] as number);
      if (gap > widest) [start, widest] = [sorted[i - 1] as number, gap];
    }
    const middle = (start + widest / 2) % 360;
    all.push(middle);
    return middle;
  });
}

/** Efficiency of a field on every band of the setting. */
export function bandEfficiencies(
  setting: PlanSetting,
  field: RadialField,
  soil: Soil = setting.soil,
): BandEfficiency[] {
  const { monopole } = setting;
  return setting.bands.map(({ band, frequencyHz, radiationResistanceOhm }) => {
    return bandEfficiency(
      { band, frequencyHz },
      efficiency({ monopole, soil, field, frequencyHz, radiationResistanceOhm }),
    );
  });
}

/** The figures of one band. */
export function bandEfficiency(
  { band, frequencyHz }: PlanSetting['bands'][number],
  { lossOhm, conductorOhm, fraction, lossDb, referredTo }: Efficiency,
): BandEfficiency {
  return {
    band,
    frequencyHz,
    groundLossOhm: lossOhm + conductorOhm,
    efficiencyPercent: 100 * fraction,
    lossDb: -lossDb,
    referredTo,
  };
}

/** Mean of the bands' losses, dB: the one figure by which plans are compared. */
export function meanLossDb(bands: readonly BandEfficiency[]): number {
  return bands.reduce((sum, { lossDb }) => sum + lossDb, 0) / bands.length;
}
