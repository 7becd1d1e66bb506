import { quoted } from '../../core/quoted.ts';
import { type FrequencyUnit, frequencyUnit } from '../frequency-unit.ts';
import type { PairFormat } from '../network-pair.ts';

type TouchstoneParameter = 'S' | 'Y' | 'Z' | 'G' | 'H';

/** What an option line says; the defaults of the specification stand in for what it leaves out. */
export interface OptionLine {
  readonly unit: FrequencyUnit;
  readonly parameter: TouchstoneParameter;
  readonly format: PairFormat;
  /** One for all ports, or one a port (1.1). */
  readonly referencesOhm: readonly number[];
}

const DEFAULT_OPTION_LINE: OptionLine = {
  unit: 'GHz',
  parameter: 'S',
  format: 'MA',
  referencesOhm: [50],
};

const PARAMETERS: readonly string[] = ['S', 'Y', 'Z', 'G', 'H'];
const FORMATS: readonly string[] = ['RI', 'MA', 'DB'];

/**
 * Reads an option line such as `# MHz S RI R 50`: any order, any case, a bare `#` means all defaults, and `#MHz`
 * without the blank is understood. A line with one illegal word is no option line at all (an instrument's block
 * header `#48066`, column titles): believing it would put the frequencies wrong by powers of ten.
 *
 * @param text - the line from its `#`, comment removed
 * @returns the options, or what is wrong with the line
 */
export function parseOptionLine(text: string): OptionLine | { readonly wrong: string } {
  const words = text.slice(1).trim().toUpperCase().split(/\s+/u);
  if (words[0] === '') words.shift();
  const found: { -readonly [K in keyof OptionLine]?: OptionLine[K] } = {};
  for (let i = 0; i < words.length; i++) {
    const word = words[i] as string;
    const unit = frequencyUnit(word);
    const reference = /^R(\d.*|\.\d.*)?$/u.exec(word);
    if (unit !== null) {
      if (found.unit !== undefined) return twice('unit');
      found.unit = unit;
    } else if (PARAMETERS.includes(word)) {
      if (found.parameter !== undefined) return twice('parameter');
      found.parameter = word as TouchstoneParameter;
    } else if (FORMATS.includes(word)) {
      if (found.format !== undefined) return twice('format');
      found.format = word as PairFormat;
    } else if (reference !== null) {
      if (found.referencesOhm !== undefined) return twice('reference');
      const texts = reference[1] === undefined ? [] : [reference[1]];
      while (i + 1 < words.length && /^[-+(.\d]/u.test(words[i + 1] as string))
        texts.push(words[++i] as string);
      const values = texts.map(Number);
      if (values.length === 0 || !values.every((value) => value > 0 && Number.isFinite(value))) {
        return { wrong: `R needs a real reference above 0 ohm, got ${quoted(texts.join(' '))}` };
      }
      found.referencesOhm = values;
    } else {
      return { wrong: `${quoted(word)} is not a word of an option line` };
    }
  }
  return { ...DEFAULT_OPTION_LINE, ...found };
}

function twice(what: string): { wrong: string } {
  return { wrong: `the ${what} is given twice` };
}
