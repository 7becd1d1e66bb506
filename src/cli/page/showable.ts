import { UserError } from '../../core/user-error.ts';
import { type PageData, parsePageData, serialisePageData } from '../../formats/page-data.ts';
import { PARTS } from './as-called.ts';

/**
 * The data as the page will read them. A part in a form that the page does not know leaves a gap with words, and not a
 * page that shows nothing.
 *
 * @throws UserError as `parsePageData` when more than such a part is wrong
 */
export function showable(data: PageData): PageData {
  try {
    parsePageData(serialisePageData(data));
    return data;
  } catch (error) {
    const part = error instanceof UserError ? PARTS.find((name) => isOf(name, error)) : undefined;
    if (part === undefined || data[part].data === null) throw error;
    const missing = { why: 'This answer has a form that the page cannot show.', command: COMMANDS[part] };
    return showable({ ...data, [part]: { data: null, missing } });
  }
}

const COMMANDS: Readonly<Record<(typeof PARTS)[number], string>> = {
  lot: 'turfwire plan',
  plan: 'turfwire plan',
  progress: 'turfwire progress',
  comparisons: 'turfwire compare',
  changes: 'turfwire diagnose',
  safety: 'turfwire safety',
};

function isOf(part: string, { code, place }: UserError): boolean {
  return code === 'page-data-wrong' && place.field?.split('.')[0] === part;
}
