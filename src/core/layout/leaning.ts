import { azimuthPatterns } from '../ground/pattern.ts';
import type { RadialField } from '../ground/radial-field.ts';
import type { PlanSetting } from './planned-field.ts';

/** The pattern of a planned field around the horizon, at one elevation. */
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
  /** True where no direction differs from the mean by anything that could be told: then none is strongest. */
  readonly sameAllRound: boolean;
  readonly most: Direction;
  readonly least: Direction;
}

interface Direction {
  readonly relativeDb: number;
  /** Null where the pattern is the same all round. */
  readonly azimuthDeg: number | null;
}

/** A pattern that departs from its mean by less than this is the same all round, dB. */
export const SAME_ALL_ROUND_DB = 0.05;

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
  const [mostDb, leastDb] = [Math.max(...relativeDb), Math.min(...relativeDb)];
  const sameAllRound = Math.max(mostDb, -leastDb) < SAME_ALL_ROUND_DB;
  const toward = (db: number): Direction => ({
    relativeDb: db,
    azimuthDeg: sameAllRound ? null : (azimuthDeg[relativeDb.indexOf(db)] as number),
  });
  return { band, elevationDeg, sameAllRound, most: toward(mostDb), least: toward(leastDb) };
}

/** `0.07 dB at 155°, -0.13 dB at 270°`, or that no direction is stronger. */
export function leaningText(
  { sameAllRound, most, least }: Leaning,
  decibels: (db: number) => string = inDecibels,
): string {
  if (sameAllRound) return `the same all round (within ${SAME_ALL_ROUND_DB} dB)`;
  const [strongest, weakest] = [most, least].map(
    (at) => `${decibels(at.relativeDb)} dB at ${at.azimuthDeg}°`,
  );
  return `${strongest}, ${weakest}`;
}

function inDecibels(db: number): string {
  return `${db > 0 ? '+' : ''}${db.toFixed(2)}`;
}
