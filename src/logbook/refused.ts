import { join } from 'node:path';
import { createDurably, type Disk } from './disk.ts';
import { fileNameOf, makeFolderInside, readInside } from './inside.ts';
import { withoutFormula } from './journal-row.ts';

/** Where files that could not be read are kept. */
export const REFUSED_FOLDER = 'refused';

/** Ending of the file that tells why the one beside it was refused. */
export const REASON = '.why.txt';

/**
 * Keeps bytes that could not be used, whole, with the reason beside them. No file is ever overwritten; the
 * same bytes under the same name are kept once.
 *
 * @returns where they are, relative to the logbook
 */
export async function setAside(
  disk: Disk,
  folder: string,
  name: string,
  bytes: Uint8Array,
  why: string,
): Promise<string> {
  await makeFolderInside(disk, folder, REFUSED_FOLDER);
  const clean = fileNameOf(name);
  const dot = clean.lastIndexOf('.');
  const [stem, ending] = dot > 0 ? [clean.slice(0, dot), clean.slice(dot)] : [clean, ''];
  for (let copy = 1; ; copy++) {
    const file = `${REFUSED_FOLDER}/${copy === 1 ? clean : `${stem}-${copy}${ending}`}`;
    const reason = file + REASON;
    const there = await readInside(folder, file);
    if (there !== null && Buffer.compare(there, bytes) !== 0) continue;
    if (there === null) await createDurably(disk, join(folder, file), bytes);
    if ((await readInside(folder, reason)) === null) {
      const told = why.split('\n').map(withoutFormula).join('\n');
      await createDurably(disk, join(folder, reason), new TextEncoder().encode(`${told}\n`));
    }
    return file;
  }
}
