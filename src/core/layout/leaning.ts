import { azimuthPatterns } from '../ground/pattern.ts';
import type { RadialField } from '../ground/radial-field.ts';
import type { PlanSetting } from './planned-field.ts';

export interface PlannedPattern {
  readonly band: string;
  readonly elevationDeg: number;
  /** Degrees clockwise from true north. */
  readonly azimuthDeg: readonly number[];
  /** Against the mean power around the circle at this elevation, dB. */
  readonly relativeDb: readonly number[];
}

/** The strongest and the weakest direction of a pattern. */
export interface Leaning {
  readonly band: string;
  readonly elevationDeg: number;
  readonly most: Direction;
  readonly least: Direction;
}

interface Direction {
  readonly relativeDb: number;
  readonly azimuthDeg: number;
}

const AZIMUTH_DEG: Float64Array = Float64Array.from({ length: 72 }, (_, i) => i * 5);

/** Patterns of a field on every band of the setting, at each elevation. */
export function patternsOf(
  setting: PlanSetting,
  field: RadialField,
  elevationsDeg: readonly number[],
): PlannedPattern[] {
  return setting.bands.flatMap(({ band, frequencyHz }) =>
    azimuthPatterns({ ...setting, field, frequencyHz }, elevationsDeg, AZIMUTH_DEG).map(
      ({ elevationDeg, relativeDb }) => ({
        band,
        elevationDeg,
        azimuthDeg: Array.from(AZIMUTH_DEG),
        relativeDb: Array.from(relativeDb),
      }),
    ),
  );
}

/** Where a pattern is strongest and where weakest. */
export function leaningOf({ band, elevationDeg, azimuthDeg, relativeDb }: PlannedPattern): Leaning {
  const at = (index: number): Direction => ({
    relativeDb: relativeDb[index] as number,
    azimuthDeg: azimuthDeg[index] as number,
  });
  return {
    band,
    elevationDeg,
    most: at(relativeDb.indexOf(Math.max(...relativeDb))),
    least: at(relativeDb.indexOf(Math.min(...relativeDb))),
  };
}
