import { readdir, readFile } from 'node:fs/promises';
import * as v from 'valibot';
import { didYouMean } from '../../core/near-miss.ts';
import { UserError } from '../../core/user-error.ts';
import { fieldProblems, invalidDocument } from '../../formats/json/field-problems.ts';
import { parseJsonDocument } from '../../formats/json/json-document.ts';
import { systemWords } from '../../formats/system-words.ts';
import type { Description } from './description.ts';
import { DESCRIPTION_SCHEMA } from './description-schema.ts';

/** The folder of the descriptions that come with the program; it lies beside `src` and `dist` alike. */
const SHIPPED = new URL('../../../descriptions/', import.meta.url);

/**
 * Reads the text of a description. Every problem is told at once, each with its line and field.
 * @throws UserError `json-syntax` and its like, `description-invalid`
 */
export function parseDescription(text: string, fileName: string): Description {
  const document = parseJsonDocument(text, fileName);
  const result = v.safeParse(DESCRIPTION_SCHEMA, document.value);
  if (result.success) return result.output;
  throw invalidDocument('description-invalid', document, fieldProblems(result.issues));
}

/** Reads a description from a file; throws `description-unreadable`, and as {@link parseDescription}. */
export async function readDescription(path: string): Promise<Description> {
  let text: string;
  try {
    text = await readFile(path, 'utf8');
  } catch (cause) {
    const place = { file: path };
    throw new UserError('description-unreadable', `cannot be read: ${systemWords(cause)}`, { place, cause });
  }
  return parseDescription(text, path);
}

/** Names of the descriptions that come with the program. */
export async function shippedDescriptions(): Promise<string[]> {
  const files = await readdir(SHIPPED);
  return files
    .filter((file) => file.endsWith('.json'))
    .map((file) => file.slice(0, -'.json'.length))
    .sort();
}

/**
 * A description that comes with the program, by name.
 * @throws UserError `description-unknown`
 */
export async function shippedDescription(name: string): Promise<Description> {
  const names = await shippedDescriptions();
  if (!names.includes(name)) {
    throw new UserError(
      'description-unknown',
      `no description "${name}" comes with the program${didYouMean(name, names)}; there are ${names.join(', ')}; a file of your own goes with --describe`,
      { kind: 'command-line' },
    );
  }
  return parseDescription(await readFile(new URL(`${name}.json`, SHIPPED), 'utf8'), `${name}.json`);
}
