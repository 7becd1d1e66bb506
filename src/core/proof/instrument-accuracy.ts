import type { SiteInstrument } from '../site.ts';
import { DEFAULT_REFLECTION_UNCERTAINTY, type FeedLine, matchedLossDb } from '../sweep/feed-line.ts';

/** Standard uncertainties that the shots of one visit share: one calibration, one mating of the connector. */
export interface InstrumentAccuracy {
  /** Of the reflection, per component, at the plane of the sweeps. */
  readonly reflection: number;
  readonly turnRad: number;
  /** False when the site states none and the default stands in. */
  readonly stated: boolean;
}

/**
 * The site's instrument at the plane at which its sweeps are read. A line between the two makes every error of
 * reflection larger by its two-way loss, because moving the plane undoes that loss.
 *
 * @param line - the line through which the sweeps were moved to the feed point, or null
 */
export function accuracyOf(
  instrument: SiteInstrument | null,
  line: FeedLine | null,
  frequencyHz: number,
): InstrumentAccuracy {
  const stated = instrument?.reflectionUncertainty ?? null;
  const growth = line === null ? 1 : 10 ** (matchedLossDb(line, frequencyHz) / 10);
  return {
    reflection: (stated ?? DEFAULT_REFLECTION_UNCERTAINTY) * growth,
    turnRad: ((instrument?.phaseUncertaintyDeg ?? 0) * Math.PI) / 180,
    stated: stated !== null,
  };
}
