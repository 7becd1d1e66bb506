import { lstatSync, mkdirSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

/** Where a logbook keeps what can be computed anew; the folder can be deleted at any time. */
const DERIVED_FOLDER = 'derived';

/** The bytes of a derived file, or null where there is none to be had. */
export function readDerived(folder: string, name: string): Buffer | null {
  return unlessRefused(() => (isOwn(folder) ? readFileSync(join(folder, DERIVED_FOLDER, name)) : null));
}

/** Writes a derived file, whole or not at all; a logbook that cannot be written to goes without. */
export function writeDerived(folder: string, name: string, content: Uint8Array | string): void {
  const path = join(folder, DERIVED_FOLDER, name);
  const unfinished = `${path}.${process.pid}`;
  unlessRefused(() => {
    mkdirSync(join(folder, DERIVED_FOLDER), { recursive: true });
    if (!isOwn(folder)) return;
    writeFileSync(unfinished, content);
    renameSync(unfinished, path);
  });
}

/** Never a link: that may lead out of the logbook. */
function isOwn(folder: string): boolean {
  return lstatSync(join(folder, DERIVED_FOLDER)).isDirectory();
}

/** What the operating system refuses is done without; anything else is a bug. */
function unlessRefused<T>(call: () => T): T | null {
  try {
    return call();
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === undefined) throw error;
    return null;
  }
}
