import * as v from 'valibot';
import { didYouMean } from '../../core/near-miss.ts';
import { type Dimension, parseQuantity } from '../../core/quantity.ts';
import { quoted } from '../../core/quoted.ts';
import { UserError } from '../../core/user-error.ts';

/** What a figure must satisfy, with the words for one that does not. */
export interface Limit {
  readonly words: string;
  holds(value: number): boolean;
}

/** Above zero. */
export const POSITIVE: Limit = { words: 'more than zero', holds: (value) => value > 0 };
/** Zero or above. */
export const NOT_NEGATIVE: Limit = { words: 'zero or more', holds: (value) => value >= 0 };
/** A part of a whole. */
export const FRACTION: Limit = { words: 'from 0 to 1', holds: (value) => value >= 0 && value <= 1 };
/** A part of a whole, and more than nothing. */
export const POSITIVE_FRACTION: Limit = {
  words: 'more than 0 and at most 1',
  holds: (value) => value > 0 && value <= 1,
};
/** At least one. */
export const ONE_OR_MORE: Limit = { words: '1 or more', holds: (value) => value >= 1 };
/** A limit with an end above, so that a slip of the unit (km for cm) is refused; the words name the end. */
export function upTo(most: number, words: string, { words: least, holds }: Limit): Limit {
  return { words: `${least} and at most ${words}`, holds: (value) => holds(value) && value <= most };
}
/** Any finite number. */
export const ANY: Limit = { words: 'finite', holds: () => true };

/** A checked field of a document. */
export type Field<T> = v.GenericSchema<unknown, T>;

/**
 * A quantity written with its unit; the value is in SI.
 * @param example - what an error proposes, where the usual one of the dimension does not fit the field
 */
export function quantity(dimension: Dimension, limit: Limit, example?: string): Field<number> {
  return v.pipe(
    v.unknown(),
    v.rawTransform(({ dataset: { value }, addIssue, NEVER }) => {
      if (typeof value !== 'string' && typeof value !== 'number') {
        addIssue({ message: `needs a ${dimension} as text with its unit, got ${shown(value)}` });
        return NEVER;
      }
      try {
        // A bare number goes the way of a text, and so is told that it needs a unit, and which.
        const si = parseQuantity(String(value), dimension, undefined, example);
        if (limit.holds(si)) return si;
        addIssue({ message: `must be ${limit.words}, got ${quoted(String(value))}` });
      } catch (error) {
        if (!(error instanceof UserError)) throw error;
        addIssue({ message: error.message });
      }
      return NEVER;
    }),
  );
}

/** A plain number: a ratio, a fraction, an uncertainty without unit. */
export function figure(limit: Limit): Field<number> {
  return v.pipe(
    v.number((issue) => `needs a number ${limit.words}, without unit and quotes, got ${shown(issue.input)}`),
    v.check(
      (value) => Number.isFinite(value) && limit.holds(value),
      (issue) => `must be ${limit.words}, got ${shown(issue.input)}`,
    ),
  );
}

/** A whole number. */
export function count(limit: Limit): Field<number> {
  return v.pipe(
    figure(limit),
    v.check(
      (value) => Number.isSafeInteger(value),
      (issue) => `must be a whole number, got ${shown(issue.input)}`,
    ),
  );
}

/** Text with something in it. */
export function text(what: string): Field<string> {
  return v.pipe(
    v.string((issue) => `needs ${what} as text, got ${shown(issue.input)}`),
    v.trim(),
    v.check((value) => value !== '', `needs ${what}, got an empty text`),
  );
}

/** What somebody calls something: on one line, so a line break in it counts as a blank. */
export function name(what: string): Field<string> {
  return v.pipe(
    text(what),
    v.transform((value) => value.replaceAll(/[\r\n]+/gu, ' ')),
  );
}

/** One of a few words, with the near miss suggested, or of a few numbers. */
export function oneOf<const T extends string | number>(options: readonly T[]): Field<T> {
  const words = options.filter((option) => typeof option === 'string');
  return v.picklist(options, ({ input }) => {
    const needed = `must be one of ${options.join(', ')}`;
    if (typeof input !== 'string') return `${needed}, got ${shown(input)}`;
    return words.length === 0
      ? `${needed}, a number without quotes, got ${shown(input)}`
      : `${needed}, got ${shown(input)}${didYouMean(input, words)}`;
  });
}

/** A field that is true or false. */
export function flag(): Field<boolean> {
  return v.boolean((issue) => `must be true or false, got ${shown(issue.input)}`);
}

/** A list of checked items, at least so many. */
export function list<T>(item: Field<T>, least = 0): Field<T[]> {
  return v.pipe(
    v.array(item, (issue) => `must be a list in [ ], got ${shown(issue.input)}`),
    v.check(
      (items) => items.length >= least,
      (issue) => `needs at least ${least}, got ${issue.input.length}`,
    ),
  );
}

/** What the user may leave out, or give as null when it is not known. */
export function given<T>(field: Field<T>): v.OptionalSchema<v.NullableSchema<Field<T>, undefined>, null> {
  return v.optional(v.nullable(field), null);
}

/**
 * An object whose keys are all known: any other is refused by name, with the near miss.
 *
 * @param unneeded - keys that one may expect, and why there are none such
 */
export function closed<const E extends v.ObjectEntries>(
  entries: E,
  unneeded: Readonly<Record<string, string>> = {},
): Field<v.InferOutput<v.ObjectSchema<E, undefined>>> {
  const keys = Object.keys(entries);
  return v.lazy((input) =>
    v.pipe(
      v.custom((value) => !Array.isArray(value), 'must be an object in { }, got a list'),
      v.object(entries, (issue) =>
        issue.path === undefined
          ? `must be an object in { }, got ${shown(issue.input)}`
          : 'is required and missing',
      ),
      v.rawCheck(({ addIssue }) => {
        if (typeof input !== 'object' || input === null) return;
        const owner = { ...input };
        for (const [key, value] of Object.entries(input)) {
          if (keys.includes(key)) continue;
          const why = Object.hasOwn(unneeded, key) ? `: ${unneeded[key]}` : '';
          const message = `unknown key${why || didYouMean(key, keys) || `; known are ${keys.join(', ')}`}`;
          const item = { type: 'object', origin: 'key', input: owner, key, value } as const;
          addIssue({ message, path: [item] });
        }
      }),
    ),
  ) as Field<v.InferOutput<v.ObjectSchema<E, undefined>>>;
}

function shown(value: unknown): string {
  const json = JSON.stringify(value) ?? 'nothing';
  return json.length <= 60 ? json : `${json.slice(0, 57)}…`;
}
