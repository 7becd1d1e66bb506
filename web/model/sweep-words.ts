import type { Band } from '../../src/core/sweep/bands.ts';
import type { Reader } from '../reader.ts';
import type { Layer } from './layers.ts';
import { figuresIn, resonanceIn, type SweepFigures } from './sweep-figures.ts';

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
  const parts = [leastWords(found, layer, reader)];
  if (sweep.kind === 'swr') parts.push('it holds only SWR, so R, X and the resonance cannot be had from it');
  else if (found.resonance === null) parts.push('X does not cross zero in it');
  else {
    const { frequencyHz, resistanceOhm } = found.resonance;
    parts.push(`X = 0 at ${reader.frequency(frequencyHz)} with R ${reader.number(resistanceOhm, 1)} Ω`);
  }
  if (band !== null && found.worstSwr !== null) {
    parts.push(`SWR at most ${reader.number(found.worstSwr, 2)} on ${band.band}`);
  }
  if (sweep.plane === 'shack') parts.push('all as seen in the shack, through the feed line');
  if (layer.isMoved) parts.push('swept in the shack, and moved to the feed point through the feed line');
  return `${sentenceCase(layer.label)}: ${parts.join('; ')}.`;
}

function leastWords({ leastSwr, leastSwrHz }: SweepFigures, { sweep }: Layer, reader: Reader): string {
  if (leastSwr === null) return 'no point has an SWR';
  const { frequencyHz } = sweep;
  const atEnd = leastSwrHz === frequencyHz[0] || leastSwrHz === frequencyHz[frequencyHz.length - 1];
  const where = `lowest SWR ${reader.number(leastSwr, 2)} at ${reader.frequency(leastSwrHz)}`;
  return atEnd ? `${where}, at the end of the sweep: sweep further` : where;
}

function sentenceCase(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** What became of the pair, never as a proof: that is another question. */
export function pairSentence(before: Layer, after: Layer, band: Band | null, reader: Reader): string {
  const against = `Against ${before.label}`;
  if (before.sweep.plane !== after.sweep.plane) {
    return `${against} nothing can be said, for one of the two was seen in the shack and the other at the feed point.`;
  }
  const [a, b] = [resonanceIn(before.sweep, band), resonanceIn(after.sweep, band)];
  if (a === null || b === null) {
    return `${against} R at X = 0 cannot be compared: one of the two has no X = 0.`;
  }
  const ohm = b.resistanceOhm - a.resistanceOhm;
  const khz = (b.frequencyHz - a.frequencyHz) / 1e3;
  return (
    `${against}, R at X = 0 is ${reader.number(Math.abs(ohm), 1)} Ω ${ohm < 0 ? 'lower' : 'higher'} and the resonance ` +
    `${reader.number(Math.abs(khz), 0)} kHz ${khz < 0 ? 'lower' : 'higher'}. A lower SWR alone is no proof of anything.`
  );
}
