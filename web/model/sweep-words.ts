import { type Figures, figuresOf } from '../../src/core/proof/figures.ts';
import type { Band } from '../../src/core/sweep/bands.ts';
import type { AnySweep } from '../../src/core/sweep/sweep.ts';
import { bestSwr } from '../../src/core/sweep/swr-summary.ts';
import type { Reader } from '../reader.ts';
import type { Layer } from './layers.ts';

/** The figures of a sweep in a band, or in all that was swept, as `compare` takes them. */
export function figuresIn(
  sweep: AnySweep,
  band: Band | null,
): Figures & { readonly minSwrHz: number | null } {
  const { frequencyHz } = sweep;
  const [fromHz, toHz] = [frequencyHz[0] as number, frequencyHz[frequencyHz.length - 1] as number];
  const within = band ?? { band: 'all', fromHz, toHz };
  return {
    ...figuresOf(sweep, within),
    minSwrHz: bestSwr(sweep, sweep.referenceOhm, within.fromHz, within.toHz).frequencyHz,
  };
}

/** A layer by name and day, and what lay there. */
export function layerName({ label, time, radials }: Layer, reader: Reader): string {
  const day = time === null ? '' : `, ${reader.date(time)}`;
  const field = radials === null ? '' : `, ${radials} ${radials === 1 ? 'radial' : 'radials'}`;
  return `${label}${day}${field}`;
}

/** What one sweep says, in a sentence. */
export function sweepSentence(layer: Layer, band: Band | null, reader: Reader): string {
  const { sweep } = layer;
  const found = figuresIn(sweep, band);
  const parts = [leastWords(found, sweep, reader)];
  if (sweep.kind === 'swr') parts.push('it holds SWR alone, so R, X and the resonance cannot be had from it');
  else if (found.resonanceHz === null) parts.push('X does not cross zero in it');
  else {
    const f = reader.frequency(found.resonanceHz);
    parts.push(`X = 0 at ${f} with R ${reader.number(found.resistanceAtResonanceOhm, 1)} Ω`);
  }
  if (band !== null && found.worstSwr !== null) {
    parts.push(`SWR at most ${reader.number(found.worstSwr, 2)} on ${band.band}`);
  }
  if (sweep.plane === 'shack') parts.push('all as seen in the shack, through the feed line');
  return `${sentenceCase(layer.label)}: ${parts.join('; ')}.`;
}

function leastWords(
  { minSwr, minSwrHz }: ReturnType<typeof figuresIn>,
  sweep: AnySweep,
  reader: Reader,
): string {
  if (minSwr === null) return 'no point has an SWR';
  const { frequencyHz } = sweep;
  const atEnd = minSwrHz === frequencyHz[0] || minSwrHz === frequencyHz[frequencyHz.length - 1];
  const where = `lowest SWR ${reader.number(minSwr, 2)} at ${reader.frequency(minSwrHz)}`;
  return atEnd ? `${where}, at the end of the sweep: sweep further` : where;
}

function sentenceCase(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** What became of the pair, never as a proof: that is another question. */
export function pairSentence(before: Layer, after: Layer, band: Band | null, reader: Reader): string {
  const [a, b] = [figuresIn(before.sweep, band), figuresIn(after.sweep, band)];
  const against = `Against ${before.label}`;
  if (a.resistanceAtResonanceOhm === null || b.resistanceAtResonanceOhm === null) {
    return `${against} R at X = 0 cannot be held up, for one of the two has no X = 0.`;
  }
  const ohm = b.resistanceAtResonanceOhm - a.resistanceAtResonanceOhm;
  const khz = ((b.resonanceHz ?? 0) - (a.resonanceHz ?? 0)) / 1e3;
  return (
    `${against}, R at X = 0 is ${reader.number(Math.abs(ohm), 1)} Ω ${ohm < 0 ? 'lower' : 'higher'} and the resonance ` +
    `${reader.number(Math.abs(khz), 0)} kHz ${khz < 0 ? 'lower' : 'higher'}. A lower SWR alone is no proof of anything.`
  );
}
