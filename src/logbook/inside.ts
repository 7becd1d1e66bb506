import { readFile, realpath, stat } from 'node:fs/promises';
import { isAbsolute, join, relative, sep } from 'node:path';
import { UserError } from '../core/user-error.ts';
import { systemWords } from '../formats/system-words.ts';
import { type Disk, makeFolder } from './disk.ts';

/**
 * The path of a file of the logbook, checked to lie inside of it after every link is followed.
 *
 * @param file - relative to the logbook, with `/`, as the journal writes it
 * @returns null when there is no such file
 * @throws UserError `outside-logbook` when the name or a link leads out; `file-unreadable`, also for what is neither file
 * nor folder: a pipe would never end
 */
export async function insideLogbook(folder: string, file: string): Promise<string | null> {
  const path = join(folder, ...file.split('/'));
  if (file === '' || isAbsolute(file) || !isWithin(folder, path)) throw outside(file);
  try {
    const [root, real] = await Promise.all([realpath(folder), realpath(path)]);
    if (!isWithin(root, real)) throw outside(file);
    const kind = await stat(real);
    if (kind.isFile() || kind.isDirectory()) return path;
    throw new UserError('file-unreadable', 'is neither a file nor a folder', { place: { file: path } });
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (error instanceof UserError) throw error;
    if (code === 'ENOENT' || code === 'ENOTDIR') return null;
    if (code === undefined) throw error;
    throw unreadable(path, error);
  }
}

/**
 * The bytes of a file of the logbook, or null when there is no such file.
 * @throws UserError as {@link insideLogbook}
 */
export async function readInside(folder: string, file: string): Promise<Uint8Array | null> {
  const path = await insideLogbook(folder, file);
  if (path === null) return null;
  return readFile(path).catch((error: unknown) => {
    throw unreadable(path, error);
  });
}

/**
 * Makes a folder of the logbook, never through a link that leads out.
 * @throws UserError `outside-logbook`, `disk-full`, `disk-refuses`
 */
export async function makeFolderInside(disk: Disk, folder: string, name: string): Promise<void> {
  const parts = name.split('/');
  for (let length = 1; length <= parts.length; length++) {
    const part = parts.slice(0, length).join('/');
    if ((await insideLogbook(folder, part)) === null) await makeFolder(disk, join(folder, part));
  }
}

/** So many are kept of a name, from its end; with what we put around it, it stays under what disks take. */
const NAME_CHARACTERS = 80;
const NAME_BYTES = 160;

/**
 * A name for a file made of whatever text the user gave: letters, digits, `.`, `_` and `-`, never hidden, never a path,
 * and one that any disk takes.
 */
export function fileNameOf(text: string): string {
  const last = text.split(/[/\\]/u).at(-1) ?? '';
  const plain = last.normalize('NFKC').replaceAll(/[^\p{L}\p{N}._-]+/gu, '-');
  const name = endOf(plain)
    .replace(/^[.-]+/u, '')
    .replace(/[.-]+$/u, '');
  // Names that Windows keeps for devices get a letter in front, whatever their ending.
  return /^(?:con|prn|aux|nul|com\d|lpt\d)?(?:\.|$)/iu.test(name) ? `x${name}` : name;
}

/** The last characters of a text, whole ones, as far as they fit. */
function endOf(text: string): string {
  const characters = [...text].slice(-NAME_CHARACTERS);
  while (Buffer.byteLength(characters.join('')) > NAME_BYTES) characters.shift();
  return characters.join('');
}

function isWithin(folder: string, path: string): boolean {
  const way = relative(folder, path);
  return way !== '' && way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

function unreadable(path: string, cause: unknown): UserError {
  return new UserError('file-unreadable', `cannot be read: ${systemWords(cause)}`, {
    place: { file: path },
    cause,
  });
}

function outside(file: string): UserError {
  return new UserError('outside-logbook', `"${file}" leads out of the logbook: it is not followed`, {
    kind: 'logbook',
    place: { file },
  });
}
