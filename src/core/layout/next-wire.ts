import type { RadialField } from '../ground/radial-field.ts';
import type { FreeArea } from './free-area.ts';
import {
  bandEfficiencies,
  type LyingField,
  meanLossDb,
  type PlanSetting,
  withRoutes,
} from './planned-field.ts';
import { soilsInQuestion } from './soils-in-question.ts';
import { layEvenly } from './spread.ts';

/** A gain, mean over the bands, dB. */
export interface GainRange {
  readonly gainDb: number;
  /** The gain with half and with twice the conductivity: how far the unknown soil moves it. */
  readonly lowDb: number;
  readonly highDb: number;
}

/** What some more wire would buy. */
export interface WireWorth extends GainRange {
  readonly extraM: number;
  readonly radials: number;
}

/** What one field gains over another. */
export function gainRange(setting: PlanSetting, from: RadialField, to: RadialField): GainRange {
  const [low, stated, high] = soilsInQuestion(setting.soil).map(
    (soil) =>
      meanLossDb(bandEfficiencies(setting, from, soil)) - meanLossDb(bandEfficiencies(setting, to, soil)),
  ) as [number, number, number];
  return { gainDb: stated, lowDb: Math.min(low, stated, high), highDb: Math.max(low, stated, high) };
}

/**
 * What the next lengths of wire would buy beyond a field, mean over the bands, laid in the widest gaps at the
 * length that the field has. The range is that of a soil of half to twice the conductivity.
 *
 * @param field - the wires of the plan, and what lies there
 * @param nominalLengthM - length of one more wire
 */
export function worthOfMore(
  area: FreeArea,
  field: LyingField,
  nominalLengthM: number,
  setting: PlanSetting,
  extrasM: readonly number[],
): WireWorth[] {
  return extrasM.map((extraM) => {
    const lengthM = Math.min(extraM, nominalLengthM);
    const routes = layEvenly(area, Math.floor(extraM / lengthM), lengthM, field);
    const then = withRoutes(field, routes, setting.wireRadiusM);
    return { extraM, radials: routes.length, ...gainRange(setting, field, then) };
  });
}
