import type { CauseName } from './cause.ts';

const CAUSE_WORDS: Readonly<Record<CauseName, string>> = {
  none: 'nothing changed beyond what this site does by itself',
  'soil-moisture': 'the soil is wetter or drier',
  'series-joint': 'a joint in the common path has gained resistance',
  'lost-radials': 'radials have lost contact',
  'element-length': 'the element’s length has changed, or something loads it',
  feedline: 'the feed line has become lossier or longer',
  intermittent: 'a contact comes and goes',
  instrument: 'the instrument or its calibration has changed',
};

/**
 * What a cause is called in a sentence.
 * @param value - its estimate; null where it has none
 */
export function causeWords(cause: CauseName, value: number | null): string {
  if (value === null) return CAUSE_WORDS[cause];
  switch (cause) {
    case 'series-joint':
      return value < 0
        ? 'a joint in the common path has lost resistance, as after a repair: a bad one was in the baseline'
        : CAUSE_WORDS[cause];
    case 'soil-moisture':
      return `the soil is ${value < 1 ? 'drier' : 'wetter'}`;
    case 'element-length':
      return value < 0
        ? 'the element has become shorter, as by a slipped section'
        : 'the element has become longer, or something loads it';
    default:
      return CAUSE_WORDS[cause];
  }
}

/** A probability in whole per cent, never 0 or 100, for neither is ever certain. */
export function percentWords(probability: number): string {
  const percent = Math.round(100 * probability);
  if (percent < 1) return 'under 1 %';
  return percent > 99 ? 'over 99 %' : `${percent} %`;
}

/** How sure the first cause is, as the beginning of a sentence. */
export function sureWords(probability: number): string {
  return probability >= 0.9 ? 'Most likely' : probability >= 0.6 ? 'Probably' : 'Perhaps';
}
