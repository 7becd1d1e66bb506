import type { Reading, ReadingKind } from '../record.ts';

/** What was noted of the ground around a visit; null where nothing was. */
export interface Conditions {
  /** 0 to 1. */
  readonly moistureFraction: number | null;
  readonly temperatureC: number | null;
  /** Fallen in the two days before. */
  readonly rainM: number | null;
}

/** Nothing was noted. */
export const NO_CONDITIONS: Conditions = { moistureFraction: null, temperatureC: null, rainM: null };

const HOUR_MS = 3_600_000;

/** How long a reading speaks for the ground: soil dries over days, the air changes within hours. */
const MOISTURE_HOURS = 48;
const TEMPERATURE_HOURS = 6;
const RAIN_HOURS = 48;

/** What the readings of a logbook tell of the ground at a time. */
export function conditionsAt(readings: readonly Reading[], time: string): Conditions {
  const at = Date.parse(time);
  const nearest = (kind: ReadingKind, hours: number): number | null => {
    let best: Reading | null = null;
    for (const reading of readings) {
      if (reading.kind !== kind || reading.value === null || hoursApart(reading, at) > hours) continue;
      if (best === null || hoursApart(reading, at) < hoursApart(best, at)) best = reading;
    }
    return best?.value ?? null;
  };
  const rain = readings.filter(
    ({ kind, time: fell }) =>
      kind === 'rain' && Date.parse(fell) <= at && at - Date.parse(fell) <= RAIN_HOURS * HOUR_MS,
  );
  return {
    moistureFraction: nearest('soil-moisture', MOISTURE_HOURS),
    temperatureC: nearest('temperature', TEMPERATURE_HOURS),
    rainM: rain.length === 0 ? null : rain.reduce((sum, { value }) => sum + (value ?? 0), 0),
  };
}

function hoursApart(reading: Reading, at: number): number {
  return Math.abs(Date.parse(reading.time) - at) / HOUR_MS;
}
