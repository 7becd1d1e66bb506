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

/** All problems of a document in one error, each with its line and the path of its field. */
export function invalidDocument(
  code: string,
  document: JsonDocument,
  problems: readonly FieldProblem[],
): UserError {
  const { file } = document.placeOf([]);
  const placed = problems.map(({ path, message }) => {
    const { line } = document.placeOf(path);
    return { place: { file, line, field: pathText(path) }, message };
  });
  const [only] = placed;
  if (only !== undefined && placed.length === 1)
    return new UserError(code, only.message, { place: only.place });
  const lines = placed.map(({ place, message }) => `  ${describePlace(place)}${message}`);
  return new UserError(code, `${placed.length} problems\n${lines.join('\n')}`, { place: { file } });
}

/** `lot.outline[2][0]` */
function pathText(path: FieldPath): string {
  return path
    .map((part, i) => (typeof part === 'number' ? `[${part}]` : i === 0 ? part : `.${part}`))
    .join('');
}
