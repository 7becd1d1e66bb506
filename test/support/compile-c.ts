import { execFile } from 'node:child_process';
import { createHash } from 'node:crypto';
import { mkdir, readFile, rename, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

const run = promisify(execFile);
const root = fileURLToPath(new URL('../..', import.meta.url));

/** C99 with every warning an error: what the C of this project has to pass. */
export const STRICT_C99 = ['-std=c99', '-Wall', '-Wextra', '-Werror', '-Wconversion', '-pedantic'] as const;

/** A wrong access or an undefined operation ends the program with an error. */
export const SANITIZED = ['-g', '-fsanitize=address,undefined', '-fno-sanitize-recover=all'] as const;

/**
 * Compiles C with the system's compiler and gives the path of the result. It is kept under the hash of
 * sources, headers and flags, so that a test run compiles only what changed.
 *
 * @param name - of the result
 * @param files - paths from the root of the project; headers are hashed only
 */
export async function compileC(
  name: string,
  files: readonly string[],
  flags: readonly string[],
): Promise<string> {
  const hash = createHash('sha256').update(JSON.stringify([files, flags]));
  for (const file of files) hash.update(await readFile(join(root, file)));
  const folder = join(root, 'node_modules', '.cache', 'turfwire-c');
  const result = join(folder, `${name}-${hash.digest('hex').slice(0, 16)}`);
  if (await exists(result)) return result;
  await mkdir(folder, { recursive: true });
  const unfinished = `${result}.${process.pid}`;
  const sources = files.filter((file) => file.endsWith('.c'));
  await run('cc', [...flags, '-o', unfinished, ...sources, '-lm'], { cwd: root }).catch((cause: unknown) => {
    if ((cause as NodeJS.ErrnoException).code !== 'ENOENT') throw cause;
    throw new Error('no C compiler: install one, e.g. `sudo apt-get install gcc libc6-dev`', { cause });
  });
  await rename(unfinished, result);
  return result;
}

function exists(path: string): Promise<boolean> {
  return stat(path).then(
    () => true,
    () => false,
  );
}
