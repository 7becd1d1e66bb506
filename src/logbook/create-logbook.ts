import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { UserError } from '../core/user-error.ts';
import { createDurably, diskError, makeFolder, REAL_DISK } from './disk.ts';
import { eventToCells } from './journal-csv.ts';
import { checkOf, FIRST_CHECK, HEADER, rowText } from './journal-row.ts';
import { JOURNAL_FILE, readOwnSite, SITE_FILE } from './open-logbook.ts';
import { parseSite } from './site-file.ts';
import { SWEEPS_FOLDER } from './sweep-file.ts';
import { isoWithZone } from './time.ts';
import type { WriteOptions } from './write-logbook.ts';

/**
 * Makes a logbook: `site.json`, a journal with its first row, and `sweeps/`. A folder with a `site.json` becomes a
 * logbook with that site, whatever else the user keeps there.
 *
 * @param site - what to write as `site.json`; not used where there is one
 * @param options - `time` when it began, ISO 8601 with zone (default: now)
 * @returns whether a `site.json` was there and is kept
 * @throws UserError `logbook-exists`, `folder-not-empty`, `disk-full`, `disk-refuses`, and those of `parseSite`
 */
export async function createLogbook(
  folder: string,
  site: Readonly<Record<string, unknown>>,
  options: Pick<WriteOptions, 'disk' | 'now'> & { readonly time?: string } = {},
): Promise<{ readonly siteKept: boolean }> {
  const disk = options.disk ?? REAL_DISK;
  const text = `${JSON.stringify(site, null, 2)}\n`;
  const there = await filesIn(folder);
  const place = { file: folder };
  if (there.includes(JOURNAL_FILE)) {
    throw new UserError(
      'logbook-exists',
      'there is a logbook here already: nothing was changed; `turfwire history` shows it',
      { place },
    );
  }
  const siteKept = there.includes(SITE_FILE);
  if (siteKept) await readOwnSite(folder);
  else parseSite(text, SITE_FILE);
  // What an attempt that was cut off may have left is no obstacle.
  const foreign = there.find((name) => name !== SWEEPS_FOLDER && !name.startsWith('.'));
  if (!siteKept && foreign !== undefined) {
    const message = `needs a new or empty folder, or one with only your own ${SITE_FILE} in it, got one that holds "${foreign}"`;
    throw new UserError('folder-not-empty', message, { place });
  }
  await makeFolder(disk, join(folder, SWEEPS_FOLDER));
  if (!siteKept) await createDurably(disk, join(folder, SITE_FILE), Buffer.from(text));
  // The journal comes last: it is what makes a folder a logbook.
  const recorded = isoWithZone(options.now?.() ?? new Date());
  const rows = firstLines(recorded, options.time ?? recorded);
  await createDurably(disk, join(folder, JOURNAL_FILE), Buffer.from(rows));
  return { siteKept };
}

function firstLines(recorded: string, time: string): string {
  const begin = eventToCells({ event: 'begin', time, text: '' });
  const cells = { ...begin, sequence: '1', part: '1 of 1', recorded };
  return HEADER + rowText({ ...cells, check: checkOf(FIRST_CHECK, cells) });
}

async function filesIn(folder: string): Promise<string[]> {
  try {
    return await readdir(folder);
  } catch (error) {
    const { code } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT') return [];
    if (code === 'ENOTDIR') {
      throw new UserError('not-a-folder', 'needs a folder, got a file', { place: { file: folder } });
    }
    throw diskError(error, folder);
  }
}
