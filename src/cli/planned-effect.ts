import type { SafetyAnswer } from '../formats/page-data.ts';

type Sent = Pick<SafetyAnswer['places'][number], 'band' | 'mode' | 'peakPowerW'>;

/**
 * What radials that are planned will change once they are laid: only what then asks for more than it does now.
 *
 * @param now - of what is laid
 * @param then - of that and of what is planned
 * @param numbers - of the planned ones
 */
export function plannedEffect(
  now: SafetyAnswer,
  then: SafetyAnswer,
  numbers: readonly number[],
): NonNullable<SafetyAnswer['planned']> {
  const endsNow = now.border?.ends ?? [];
  const keepOffM = radialKeepOffM(then);
  return {
    numbers,
    places: then.places.filter((place) => {
      const before = now.places.find(({ name, ...sent }) => name === place.name && isSame(sent, place));
      return place.verdict !== 'clear' && place.maxPowerW < (before?.maxPowerW ?? Number.POSITIVE_INFINITY);
    }),
    bands: then.bands.filter(
      (band) => band.distanceM > (now.bands.find((before) => isSame(before, band))?.distanceM ?? 0),
    ),
    radialKeepOffM: keepOffM > radialKeepOffM(now) ? keepOffM : null,
    endsNearBorder: (then.border?.ends ?? []).filter((radial) => !endsNow.includes(radial)),
  };
}

function radialKeepOffM({ wireEnds }: SafetyAnswer): number {
  return Math.max(0, ...wireEnds.map(({ end, keepOffM }) => (end === 'radial end' ? keepOffM : 0)));
}

function isSame(a: Sent, b: Sent): boolean {
  return a.band === b.band && a.mode === b.mode && a.peakPowerW === b.peakPowerW;
}
