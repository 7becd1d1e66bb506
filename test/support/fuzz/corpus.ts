import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';

const CORPUS = resolve(import.meta.dirname, '../../corpus');

/** Inputs that once broke a reader. */
export function keptInputs(reader: string): { readonly file: string; readonly bytes: Uint8Array }[] {
  const folder = join(CORPUS, reader);
  if (!existsSync(folder)) return [];
  return readdirSync(folder).map((file) => ({ file, bytes: readFileSync(join(folder, file)) }));
}

/** Keeps an input for good; gives the path of its file. */
export function keepInput(reader: string, bytes: Uint8Array): string {
  const folder = join(CORPUS, reader);
  mkdirSync(folder, { recursive: true });
  const path = join(folder, `${createHash('sha256').update(bytes).digest('hex').slice(0, 12)}.bin`);
  writeFileSync(path, bytes);
  return path;
}
