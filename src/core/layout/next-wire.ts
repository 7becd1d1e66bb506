import type { RadialWire } from '../ground/radial-field.ts';
import type { FreeArea } from './free-area.ts';
import { bandEfficiencies, meanLossDb, type PlanSetting, wiresOf } from './planned-field.ts';
import { soilsInQuestion } from './soils-in-question.ts';
import { layRoutes, spreadBearings } from './spread.ts';

/** What some more wire would buy. */
export interface WireWorth {
  readonly extraM: number;
  readonly radials: number;
  readonly gainDb: number;
  /** The gain with half and with twice the conductivity: how far the unknown soil moves it. */
  readonly lowDb: number;
  readonly highDb: number;
}

/**
 * What the next lengths of wire would buy beyond a field, mean over the bands, laid in the widest gaps at the
 * length that the field has. The range is that of a soil of half to twice the conductivity.
 *
 * @param field - the wires of the plan, and their bearings
 * @param nominalLengthM - length of one more wire
 */
export function worthOfMore(
  area: FreeArea,
  field: { readonly wires: readonly RadialWire[]; readonly bearingsDeg: readonly number[] },
  nominalLengthM: number,
  setting: PlanSetting,
  extrasM: readonly number[] = [10, 20, 50],
): WireWorth[] {
  const soils = soilsInQuestion(setting.soil);
  const before = soils.map((soil) => meanLossDb(bandEfficiencies(setting, { wires: field.wires }, soil)));
  return extrasM.map((extraM) => {
    const lengthM = Math.min(extraM, nominalLengthM);
    const bearings = spreadBearings(area, Math.floor(extraM / lengthM), field.bearingsDeg);
    const routes = layRoutes(area, bearings, Array<number>(bearings.length).fill(lengthM));
    const wires = [...field.wires, ...wiresOf(routes, setting.wireRadiusM)];
    const gains = soils.map(
      (soil, i) => (before[i] as number) - meanLossDb(bandEfficiencies(setting, { wires }, soil)),
    );
    return {
      extraM,
      radials: routes.length,
      gainDb: gains[1] as number,
      lowDb: Math.min(...gains),
      highDb: Math.max(...gains),
    };
  });
}
