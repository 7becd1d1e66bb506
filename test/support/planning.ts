import { readFile, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { type Ran, runCommand } from './fake-io.ts';
import { temporaryFolder } from './logbooks.ts';

export const SAMPLE_SITE: string = resolve(import.meta.dirname, '../../samples/site.json');

/** Runs a command line in a folder, on a day in spring. */
export function onPlanningDay(folder: string): (...args: readonly string[]) => Promise<Ran> {
  const now = (): Date => new Date('2026-03-01T12:00:00Z');
  return (...args) => runCommand(args, { cwd: folder, now });
}

/** The sample site with some of it replaced, as a file. */
export async function siteWith(change: (site: Record<string, unknown>) => void): Promise<string> {
  const site = JSON.parse(await readFile(SAMPLE_SITE, 'utf8'));
  change(site);
  const path = join(temporaryFolder(), 'site-changed.json');
  await writeFile(path, JSON.stringify(site));
  return path;
}
