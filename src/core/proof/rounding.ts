/** The last place to which figures are shown: tens, ones, hundredths. */
export interface Place {
  /** What one of it is worth. */
  readonly worth: number;
  readonly decimals: number;
}

/**
 * The place that shows an expanded uncertainty with two digits, and its figure as far: more would pretend to be known.
 * Source: JCGM 100:2008, 7.2.6.
 *
 * @param otherwise - decimals where the uncertainty is not known
 */
export function placeOf(expandedUncertainty: number | null, otherwise: number): Place {
  if (expandedUncertainty === null || !(expandedUncertainty > 0)) {
    return { worth: 10 ** -otherwise, decimals: otherwise };
  }
  // Rounded first, so that 0.0996 counts as 0.10.
  const exponent = Math.floor(Math.log10(Number(expandedUncertainty.toPrecision(2)))) - 1;
  const decimals = Math.min(MOST_DECIMALS, Math.max(0, -exponent));
  return { worth: exponent > 0 ? 10 ** exponent : 10 ** -decimals, decimals };
}

/** An uncertainty smaller than this tells of sweeps that are exactly alike, and not of how well anything is known. */
const MOST_DECIMALS = 6;

/** A figure rounded to a place. */
export function roundedTo({ worth, decimals }: Place, value: number): number {
  return Number((Math.round(value / worth) * worth).toFixed(decimals)) + 0;
}

/** The same as text, with the zeros that the place asks for. */
export function textTo(place: Place, value: number): string {
  return roundedTo(place, value).toFixed(place.decimals);
}

/** The same with a sign, but for zero. */
export function signedTo(place: Place, value: number): string {
  const text = textTo(place, value);
  return roundedTo(place, value) > 0 ? `+${text}` : text;
}
