import * as fs from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';
import { UserError } from '../core/user-error.ts';
import { systemWords } from '../formats/system-words.ts';

/** The few calls that change the disk, so that a test can let each of them fail. */
export type Disk = Pick<typeof fs, 'mkdir' | 'open' | 'rename' | 'unlink'>;

/** The disk of this computer. */
export const REAL_DISK: Disk = fs;

/** Marks a file that was not finished; `check` names what a power cut left behind. */
export const UNFINISHED = '.unfinished';

/**
 * Creates a file that is whole or not there: written beside its place, flushed, renamed, folder flushed.
 * The caller makes sure that the name is free, and holds the lock.
 *
 * @throws UserError `disk-full`, `disk-refuses`
 */
export async function createDurably(disk: Disk, path: string, bytes: Uint8Array): Promise<void> {
  const unfinished = join(dirname(path), `.${basename(path)}.${process.pid}${UNFINISHED}`);
  try {
    const handle = await disk.open(unfinished, 'w');
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } finally {
      await handle.close();
    }
    await disk.rename(unfinished, path);
    await flushFolder(disk, dirname(path));
  } catch (error) {
    await disk.unlink(unfinished).catch(() => {});
    throw diskError(error, path);
  }
}

/**
 * Adds bytes to the end of a file and flushes it. When the disk refuses, the file is cut back to what it was.
 *
 * @param from - the length the file has now
 * @throws UserError `disk-full`, `disk-refuses`
 */
export async function appendDurably(
  disk: Disk,
  path: string,
  from: number,
  bytes: Uint8Array,
): Promise<void> {
  try {
    const handle = await disk.open(path, 'a');
    try {
      await handle.writeFile(bytes);
      await handle.sync();
    } catch (error) {
      await handle.truncate(from).catch(() => {});
      throw error;
    } finally {
      await handle.close();
    }
  } catch (error) {
    throw diskError(error, path);
  }
}

/** Cuts a file and flushes it. */
export async function cutDurably(disk: Disk, path: string, length: number): Promise<void> {
  try {
    const handle = await disk.open(path, 'r+');
    try {
      await handle.truncate(length);
      await handle.sync();
    } finally {
      await handle.close();
    }
  } catch (error) {
    throw diskError(error, path);
  }
}

/** Makes a folder with its parents, each of them flushed into the one above. */
export async function makeFolder(disk: Disk, path: string): Promise<void> {
  try {
    const first = await disk.mkdir(path, { recursive: true });
    if (first === undefined) return;
    for (let made = path; made.length >= first.length; made = dirname(made)) {
      await flushFolder(disk, dirname(made));
    }
  } catch (error) {
    throw diskError(error, path);
  }
}

async function flushFolder(disk: Disk, path: string): Promise<void> {
  // Windows gives no handle on a folder; its file system orders a rename by itself.
  if (process.platform === 'win32') return;
  const handle = await disk.open(path, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** The words for what the operating system refused. */
export function diskError(cause: unknown, file: string): unknown {
  if (cause instanceof UserError) return cause;
  const { code } = cause as NodeJS.ErrnoException;
  const place = { file };
  if (code === 'ENOSPC' || code === 'EDQUOT') {
    return new UserError('disk-full', 'no room on the disk: nothing was logged; make room and try again', {
      place,
      cause,
    });
  }
  if (code === undefined) return cause;
  return new UserError('disk-refuses', `cannot be written (${systemWords(cause)}): nothing was logged`, {
    place,
    cause,
  });
}
