import { createReadStream } from 'node:fs';
import { readFile, stat } from 'node:fs/promises';
import { resolve } from 'node:path';
import type { Site } from '../core/site.ts';
import type { AnySweep } from '../core/sweep/sweep.ts';
import { MAX_FILE_BYTES } from '../formats/decode-text.ts';
import { type Problem, ProblemList } from '../formats/problem.ts';
import { readSweeps } from '../formats/read-sweeps.ts';
import { systemWords } from '../formats/system-words.ts';
import { toFeedpoint } from '../formats/to-feedpoint.ts';
import type { Io } from './io.ts';
import { readAtMost } from './read-at-most.ts';
import type { SweepFlags } from './sweep-flags.ts';

/** The flags, and the site where there is one. */
export interface SweepInputOptions extends SweepFlags {
  /** Its feed line takes sweeps of `--plane shack` to the feed point; its instrument gives a default reference. */
  readonly site?: Site | null | undefined;
}

/** One file as it was read. */
export interface LoadedFile {
  /** As the user wrote it. */
  readonly file: string;
  /** As it stands on the disk; null when it could not be read at all. */
  readonly bytes: Uint8Array | null;
  /** At the feed point where the options and the site allow it. */
  readonly sweeps: readonly AnySweep[];
  readonly problems: readonly Problem[];
}

/**
 * Loads sweep files one by one; what is wrong with one, even that it is missing, is among its problems and does not
 * keep the others from being read. A file that is named twice is loaded once.
 *
 * @param files - paths, or `-` for standard input
 * @throws UserError when a flag is wrong
 */
export async function loadFiles(
  io: Io,
  files: readonly string[],
  options: SweepInputOptions,
): Promise<LoadedFile[]> {
  const seen = new Set<string>();
  const contents: { file: string; bytes: Uint8Array }[] = [];
  const loaded: LoadedFile[] = [];
  for (const file of files) {
    const path = file === '-' ? file : resolve(io.cwd, file);
    if (seen.has(path)) {
      io.err(`${file}: is named twice, taken once`);
      continue;
    }
    seen.add(path);
    const problems = new ProblemList();
    const bytes = await readBytes(io, file, path, problems);
    if (bytes === null) {
      loaded.push({ file, bytes, sweeps: [], problems: problems.list() });
      continue;
    }
    const twin = contents.find((other) => sameBytes(other.bytes, bytes));
    if (twin !== undefined)
      io.err(`${file}: is a copy of ${twin.file}, byte for byte, and a copy is no second measurement`);
    contents.push({ file, bytes });
    const result = readSweeps(bytes, file, readOptionsOf(options));
    const sweeps = result.sweeps.map((sweep) => toFeedpoint(sweep, options.site, problems));
    loaded.push({ file, bytes, sweeps, problems: [...result.problems, ...problems.list()] });
  }
  return loaded;
}

async function readBytes(
  io: Io,
  file: string,
  path: string,
  problems: ProblemList,
): Promise<Uint8Array | null> {
  try {
    const bytes = file === '-' ? await io.stdin(MAX_FILE_BYTES) : await readWhole(path);
    if (bytes.length <= MAX_FILE_BYTES) return bytes;
    problems.refuse('file-too-large', `a file may have ${MAX_FILE_BYTES} bytes, got more`);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') problems.refuse('file-missing', 'no such file');
    else if (code === 'EISDIR') {
      problems.refuse('file-is-folder', 'is a folder: name the files in it, such as folder/*.csv');
    } else if (code !== undefined)
      problems.refuse('file-unreadable', `cannot be read: ${systemWords(error)}`);
    else throw error;
  }
  return null;
}

/** A file, at most one byte more of it than is taken. */
async function readWhole(path: string): Promise<Uint8Array> {
  const there = await stat(path);
  if (there.isFile() && there.size <= MAX_FILE_BYTES) return await readFile(path);
  return await readAtMost(createReadStream(path), MAX_FILE_BYTES);
}

function readOptionsOf(options: SweepInputOptions): Parameters<typeof readSweeps>[2] {
  const { reference, portOfFile, site, ...rest } = options;
  return {
    ...rest,
    referenceOhm: reference,
    instrumentReferenceOhm: site?.instrument.referenceOhm ?? undefined,
    port: portOfFile,
  };
}

function sameBytes(a: Uint8Array, b: Uint8Array): boolean {
  return a.length === b.length && a.every((byte, i) => byte === b[i]);
}
