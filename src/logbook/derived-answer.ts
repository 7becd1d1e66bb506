import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { readDerived, writeDerived } from './derived-folder.ts';
import { JOURNAL_FILE, SITE_FILE } from './open-logbook.ts';

/**
 * An answer that follows from the journal and the site alone, computed once for their very bytes and kept in the derived
 * folder, which can be deleted at any time. Sweeps are named in the journal by their hash, so they are covered too; one
 * that was damaged since shows in `check`, not here.
 *
 * @param name - of the file, without ending
 * @param question - all that the answer depends on besides those two files: options, and the form of the answer
 * @param make - computes it; what it gives must survive JSON
 * @param lasts - whether those two files were all that it rests on; else it is not kept
 */
export async function derivedAnswer<T>(
  folder: string,
  name: string,
  question: string,
  make: () => Promise<T>,
  lasts: (answer: T) => boolean,
): Promise<T> {
  const file = `${name}.json`;
  const key = keyOf(folder, question);
  if (key !== null) {
    const kept = keptAnswer<T>(folder, file);
    if (kept?.key === key) return kept.answer;
  }
  const answer = await make();
  if (key !== null && lasts(answer) && key === keyOf(folder, question)) {
    writeDerived(folder, file, JSON.stringify({ key, answer }));
  }
  return answer;
}

interface Kept<T> {
  readonly key: string;
  readonly answer: T;
}

function keyOf(folder: string, question: string): string | null {
  const hash = createHash('sha256').update(question);
  try {
    for (const file of [SITE_FILE, JOURNAL_FILE]) {
      const bytes = readFileSync(join(folder, file));
      hash.update(`${file} ${bytes.length}\n`).update(bytes);
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
    return null;
  }
  return hash.digest('hex');
}

function keptAnswer<T>(folder: string, file: string): Kept<T> | null {
  try {
    return JSON.parse(readDerived(folder, file)?.toString() ?? 'null') as Kept<T> | null;
  } catch (error) {
    if (error instanceof SyntaxError) return null;
    throw error;
  }
}
