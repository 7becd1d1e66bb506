import { open, readFile, rename, rm } from 'node:fs/promises';
import { UserError } from '../../core/user-error.ts';
import { type PageData, serialisePageData } from '../../formats/page-data.ts';
import { systemWords } from '../../formats/system-words.ts';

/** Where the data go in the built page. */
const DATA_MARK = '<!-- page data -->';

/** By this the command knows a file as one of its own, which it may write over. */
const OWN_MARK = '<meta name="generator" content="Turfwire">';

/** Built by vite beside the commands; commands that run from their sources look for it in the same place. */
const BUILT = ['../../web/page.html', '../../../dist/web/page.html'];

/**
 * The page without data.
 * @throws UserError `page-not-built`
 */
export async function builtPage(): Promise<string> {
  for (const path of BUILT) {
    const text = await readFile(new URL(path, import.meta.url), 'utf8').catch(() => null);
    if (text?.includes(DATA_MARK)) return text;
  }
  throw new UserError('page-not-built', 'the page is not built: run `npm run build` once');
}

/** The page with its data inside: one document that needs nothing else. */
export function pageWith(page: string, data: PageData): string {
  const script = `<script type="application/json" id="page-data">${serialisePageData(data)}</script>`;
  return page.replace(DATA_MARK, () => script);
}

/**
 * Writes a page, whole or not at all. Only a page may be written over.
 * @throws UserError `page-file-foreign`, `page-file-refused`
 */
export async function writePage(path: string, text: string): Promise<void> {
  const place = { file: path };
  const temporary = `${path}.${process.pid}.part`;
  try {
    if (!(await isOursOrNew(path))) {
      throw new UserError(
        'page-file-foreign',
        'is there already and is not a page of Turfwire: name another file with --out',
        { place },
      );
    }
    const file = await open(temporary, 'w');
    await file.writeFile(text).finally(() => file.close());
    await rename(temporary, path);
  } catch (cause) {
    // Where nothing could be made, nothing can be removed either: the first refusal is the one to tell.
    await rm(temporary, { force: true }).catch(() => undefined);
    if (cause instanceof UserError) throw cause;
    throw new UserError('page-file-refused', `cannot be written: ${systemWords(cause)}`, { place, cause });
  }
}

async function isOursOrNew(path: string): Promise<boolean> {
  try {
    const file = await open(path, 'r');
    const { buffer, bytesRead } = await file.read(Buffer.alloc(1024), 0, 1024, 0).finally(() => file.close());
    return buffer.subarray(0, bytesRead).includes(OWN_MARK);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT') return true;
    throw error;
  }
}
