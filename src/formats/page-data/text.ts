import * as v from 'valibot';
import { UserError } from '../../core/user-error.ts';
import { pageDataSchema } from './schema.ts';
import { PAGE_DATA_VERSION, type PageData } from './types.ts';

/**
 * The data as JSON that may stand inside a `<script>` of a page: whatever a name or a remark holds, nothing of it can
 * end the element or open another (`<`, `>` and `&` are escaped). It is plain ASCII, which browsers read fastest and
 * no wrong encoding can hurt.
 */
export function serialisePageData(data: PageData): string {
  return JSON.stringify(data).replace(/[<>&]|[^ -~]/g, escaped);
}

function escaped(character: string): string {
  return `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
}

/** So much is told of what the schema says, which repeats the value. */
const LONGEST_CAUSE = 200;

/**
 * Reads what {@link serialisePageData} wrote.
 * @throws UserError `page-data-unreadable`, `page-data-version`, `page-data-wrong` with the field
 */
export function parsePageData(text: string): PageData {
  const value = parseJson(text);
  const { version } = (value ?? {}) as { version?: unknown };
  if (version !== PAGE_DATA_VERSION) {
    throw new UserError(
      'page-data-version',
      `the page reads data of version ${PAGE_DATA_VERSION}, got ${typeof version === 'number' ? version : 'none'}; make the page again with \`turfwire page\``,
    );
  }
  const result = v.safeParse(pageDataSchema(), value, { abortEarly: true });
  if (result.success) return result.output;
  const [issue] = result.issues;
  const message = `the data in the page do not have its form (${issue.message.slice(0, LONGEST_CAUSE)}): make the page again with \`turfwire page\``;
  throw new UserError('page-data-wrong', message, {
    place: { field: v.getDotPath(issue) ?? undefined },
  });
}

function parseJson(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch (cause) {
    throw new UserError('page-data-unreadable', 'the data in the page are cut short: make the page again', {
      cause,
    });
  }
}
