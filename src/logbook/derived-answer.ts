import { createHash } from 'node:crypto';
import { mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { DERIVED_FOLDER } from './drift-cache.ts';
import { JOURNAL_FILE, SITE_FILE } from './open-logbook.ts';

/**
 * An answer that follows from the journal and the site alone, computed once for their very bytes and kept in the derived
 * folder, which can be deleted at any time. Sweeps are named in the journal by their hash, so they are covered too; one
 * that was damaged since shows in `check`, not here.
 *
 * @param name - of the file, without ending
 * @param question - all that the answer depends on besides those two files: options, and the form of the answer
 * @param make - computes it; what it gives must survive JSON
 */
export async function derivedAnswer<T>(
  folder: string,
  name: string,
  question: string,
  make: () => Promise<T>,
): Promise<T> {
  const path = join(folder, DERIVED_FOLDER, `${name}.json`);
  const key = keyOf(folder, question);
  if (key !== null) {
    const kept = keptAnswer<T>(path);
    if (kept?.key === key) return kept.answer;
  }
  const answer = await make();
  if (key !== null && key === keyOf(folder, question)) keep(path, { key, answer });
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

function keptAnswer<T>(path: string): Kept<T> | null {
  try {
    return JSON.parse(readFileSync(path, 'utf8')) as Kept<T>;
  } catch (error) {
    if (error instanceof SyntaxError || (error as NodeJS.ErrnoException).code !== undefined) return null;
    throw error;
  }
}

/** A logbook that cannot be written to goes without. */
function keep(path: string, kept: Kept<unknown>): void {
  const unfinished = `${path}.${process.pid}`;
  try {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(unfinished, JSON.stringify(kept));
    renameSync(unfinished, path);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
  }
}
