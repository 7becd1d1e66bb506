import { figuresOf, type Measure } from '../core/proof/figures.ts';
import { plusMinus, SHOWN_AS } from '../core/proof/shown-as.ts';
import type { Quantity } from '../core/quantity-with-uncertainty.ts';
import type { Band } from '../core/sweep/bands.ts';
import type { Sweep } from '../core/sweep/sweep.ts';

/** What is told at once of a band that was measured, in this order; the rest is for `read`, `compare` and `history`. */
export const TOLD_AT_ONCE: readonly Measure[] = ['resonanceHz', 'resistanceAtResonanceOhm', 'minSwr'];

/** One shot in a line, in the words of {@link visitText}. */
export function shotText(sweep: Sweep, band: Band): string {
  const figures = figuresOf(sweep, band);
  return inWords((measure) => {
    const { perSi, decimals } = SHOWN_AS[measure];
    const value = figures[measure];
    return value === null ? null : (value * perSi).toFixed(decimals);
  });
}

/** The figures of a visit, with their uncertainty. */
export function visitText(figures: Readonly<Partial<Record<Measure, Quantity>>>): string {
  return inWords((measure) => {
    const { perSi, decimals } = SHOWN_AS[measure];
    const figure = figures[measure];
    return figure === undefined || figure.value === null
      ? null
      : plusMinus(figure, perSi, decimals).replace(/^\+/u, '');
  });
}

/** `resonance 7.0638 MHz; R at X = 0 47.21 ohm; least SWR 1.058`; what cannot be had is left out, or said. */
function inWords(figureText: (measure: Measure) => string | null): string {
  const parts = TOLD_AT_ONCE.flatMap((measure) => {
    const { name, unit } = SHOWN_AS[measure];
    const text = figureText(measure);
    return text === null ? [] : [`${name} ${text} ${unit}`.trim()];
  });
  return (figureText('resonanceHz') === null ? ['X never crosses zero near the band', ...parts] : parts).join(
    '; ',
  );
}
