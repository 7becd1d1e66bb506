import type { BaseIssue } from 'valibot';
import { describePlace, UserError } from '../../core/user-error.ts';
import type { JsonDocument } from './json-document.ts';

/** Keys and indices from the root of a document to a value. */
export type FieldPath = readonly (string | number)[];

/** One thing that is wrong with one field. */
export interface FieldProblem {
  readonly path: FieldPath;
  readonly message: string;
}

/** What a schema found, as problems of fields. */
export function fieldProblems(issues: readonly BaseIssue<unknown>[]): FieldProblem[] {
  return issues.map(({ path, message }) => ({
    path: (path ?? []).map((item) => item.key as string | number),
    message,
  }));
}

/** A key of the user's own may be of any length; no message shows more of it. */
const LONGEST_KEY = 60;

/** How many problems of a document are spelled out; the rest are counted. */
const MOST_TOLD = 20;

/** All problems of a document in one error, each with its line and the path of its field. */
export function invalidDocument(
  code: string,
  document: JsonDocument,
  problems: readonly FieldProblem[],
): UserError {
  const { file } = document.placeOf([]);
  const placed = problems.slice(0, MOST_TOLD).map(({ path, message }) => {
    const { line } = document.placeOf(path);
    return { place: { file, line, field: pathText(path) }, message };
  });
  const [only] = placed;
  if (only !== undefined && problems.length === 1)
    return new UserError(code, only.message, { place: only.place });
  const lines = placed.map(({ place, message }) => `  ${describePlace(place)}${message}`);
  if (problems.length > placed.length) lines.push(`  and ${problems.length - placed.length} more`);
  return new UserError(code, `${problems.length} problems\n${lines.join('\n')}`, { place: { file } });
}

/** `lot.outline[2][0]` */
function pathText(path: FieldPath): string {
  return path
    .map((part, i) =>
      typeof part === 'number' ? `[${part}]` : `${i === 0 ? '' : '.'}${part.slice(0, LONGEST_KEY)}`,
    )
    .join('');
}
