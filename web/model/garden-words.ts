import { type CarefulFigures, carefulFigures } from '../../src/formats/careful-figures.ts';
import type { SafetyAnswer } from '../../src/formats/page-data.ts';
import { wireDistance } from '../../src/formats/place-reasons.ts';
import { NONE, type Reader } from '../reader.ts';

/** Figures of exposure in this reader's units and locale, rounded to the careful side. */
export function figuresFor(reader: Reader): CarefulFigures {
  return carefulFigures(reader.units, {
    length: reader.length,
    watts: (powerW) => watts(powerW, reader),
  });
}

/** A power as it was given or rounded before, with all its digits. */
export function watts(powerW: number, reader: Reader): string {
  const decimals = String(powerW).split('.')[1]?.length ?? 0;
  return reader.number(powerW, decimals);
}

type Place = SafetyAnswer['places'][number];

/** How near the end of a radial comes to a place, and of which one. */
export function radialEndWords(
  { nearestRadialEnd, nearestRadialEndM }: Place,
  figures: CarefulFigures,
): string {
  return nearestRadialEndM === null
    ? NONE
    : `${wireDistance(nearestRadialEndM, figures)} (radial ${nearestRadialEnd})`;
}
