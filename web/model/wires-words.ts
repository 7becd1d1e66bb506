import type { PageData, PageWire } from '../../src/formats/page-data.ts';
import type { Reader } from '../reader.ts';
import { widestGap } from './field-words.ts';

/** What lies there and what would come next, in a sentence. */
export function wiresSentence(data: PageData, wires: readonly PageWire[], reader: Reader): string {
  const laid = wires.filter(({ state }) => state === 'laid');
  const waiting = wires.length - laid.length;
  const metres = (list: readonly PageWire[]): string =>
    reader.length(
      list.reduce((sum, { lengthM }) => sum + lengthM, 0),
      0,
    );
  const now =
    laid.length === 0
      ? 'No radial lies there yet.'
      : `${laid.length} radials lie there, ${metres(laid)} of wire.`;
  if (waiting > 0) return `${now} ${waiting} more are planned and wait to be laid: they are dashed.`;
  const plan = data.plan.data;
  const first = plan?.efficiency[0];
  if (plan === null || first === undefined) return now;
  const range = first.lossRangeDb ?? null;
  const lost =
    range === null
      ? ''
      : `; then ${reader.number(range[0], 1)} to ${reader.number(range[1], 1)} dB is lost in the ground on ${first.band}`;
  const more = `${plan.radials.length}${plan.elevated === undefined ? ' more' : ' tuned ones in the air'}, dashed`;
  return `${now} The wire at hand gives ${more}, ${reader.length(plan.wireM, 0)} in all${lost}.`;
}

/** Where no wire lies. */
export function coverageSentence(wires: readonly PageWire[]): string {
  const gap = widestGap(wires);
  if (gap === null) return '';
  return `The widest angle without a wire is ${Math.round(gap.widthDeg)}°, toward ${Math.round(gap.middleDeg)}° by the compass.`;
}
