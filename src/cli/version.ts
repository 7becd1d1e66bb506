import { readFile } from 'node:fs/promises';

/** The version of this program, from its package.json. */
export async function version(): Promise<string> {
  const text = await readFile(new URL('../../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
