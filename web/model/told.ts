import type { PageData } from '../../src/formats/page-data.ts';
import type { Reader } from '../reader.ts';

/** Under these keys answers hold sentences, in which figures and days are written as the reader writes them. */
const PROSE = new Set(
  (
    'why outside lesson work notes meaning evidence checkFirst cannotTell accuracy assumptions limitsOfMethod ' +
    'poorGuide advice whyNotGround gainMeans'
  ).split(' '),
);

/** The data with every sentence of the answers in the reader's units, figures and days. */
export function toldTo(reader: Reader, data: PageData): PageData {
  const others = new Map(reader.units === data.site?.units ? [] : Object.entries(data.otherUnits));
  const told = <T>(answer: T): T => answerTo(reader, answer, others);
  const { changes } = data;
  return {
    ...data,
    plan: told(data.plan),
    progress: told(data.progress),
    comparisons: told(data.comparisons),
    safety: told(data.safety),
    changes:
      changes.data === null
        ? changes
        : { ...changes, data: { ...changes.data, answer: told(changes.data.answer) } },
  };
}

/** @param others - what to say in place of a text, in other units */
export function answerTo<T>(reader: Reader, answer: T, others?: ReadonlyMap<string, string>): T {
  const told = (value: unknown, key: string): unknown => {
    if (typeof value === 'string') {
      const text = others?.get(value) ?? value;
      return PROSE.has(key) ? reader.prose(text) : text;
    }
    if (typeof value !== 'object' || value === null) return value;
    // Columns hold no words, and are long.
    if (Array.isArray(value))
      return typeof value[0] === 'number' ? value : value.map((one) => told(one, key));
    return Object.fromEntries(Object.entries(value).map(([name, one]) => [name, told(one, name)]));
  };
  return told(answer, '') as T;
}
