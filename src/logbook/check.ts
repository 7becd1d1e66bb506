import { existsSync, readFileSync } from 'node:fs';
import { readdir } from 'node:fs/promises';
import { join } from 'node:path';
import { setImmediate as otherWork, setTimeout as sleep } from 'node:timers/promises';
import { isStored, type StoredEvent } from '../core/journal-event.ts';
import { replayField } from '../core/layout/field-state.ts';
import { UserError } from '../core/user-error.ts';
import { standingEvents } from '../core/withdrawal.ts';
import { systemWords } from '../formats/system-words.ts';
import type { Damage } from './damage.ts';
import { UNFINISHED } from './disk.ts';
import { type Tree, treeOf } from './folder-tree.ts';
import { insideLogbook } from './inside.ts';
import type { Journal } from './journal-reader.ts';
import { LOCK_FOLDER } from './lock.ts';
import { contradictions, openJournal, readOwnSite } from './open-logbook.ts';
import { REASON, REFUSED_FOLDER } from './refused.ts';
import { requireUnchanged, SWEEPS_FOLDER } from './sweep-file.ts';

/** What a check looked at and found. */
export interface CheckReport {
  readonly rows: number;
  readonly sweeps: number;
  /** Empty when nothing is damaged. */
  readonly damage: readonly Damage[];
  /** What is wrong with `site.json`, which is the user's to edit and so no damage; null when it is fine. */
  readonly siteError: UserError | null;
}

const FILES_AT_ONCE = 64;

/**
 * Looks at everything a logbook holds and names each thing that is not as it was written: rows, sweeps that
 * are gone or changed, files that no row knows, what a power cut left behind, links that lead out. It changes
 * nothing.
 *
 * @param onProgress - hears how many of the sweeps are done
 * @throws UserError as `openJournal`, and `site-version-newer`
 */
export async function checkLogbook(
  folder: string,
  onProgress: (done: number, of: number) => void = () => {},
): Promise<CheckReport> {
  const journal = await openJournal(folder);
  const siteError = await siteErrorOf(folder);
  const stored = storedOf(journal);
  const sweeps = await treeOf(folder, SWEEPS_FOLDER);
  const refused = await treeOf(folder, REFUSED_FOLDER);
  const field = replayField(standingEvents(journal.entries));
  const damage = [...journal.problems, ...contradictions(field)];

  for (let i = 0; i < stored.length; i += FILES_AT_ONCE) {
    for (const event of stored.slice(i, i + FILES_AT_ONCE)) {
      damage.push(...(await damageOfSweep(folder, event, sweeps.files)));
    }
    onProgress(Math.min(i + FILES_AT_ONCE, stored.length), stored.length);
    await otherWork();
  }
  damage.push(
    ...(await damageOfSurplus(folder, sweeps, stored)),
    ...damageOfReasons(refused),
    ...(await damageOfLinks(folder, [...sweeps.links, ...refused.links], stored)),
    ...(await damageOfUnfinished(folder, [...sweeps.unfinished, ...refused.unfinished])),
  );
  return { rows: journal.entries.length, sweeps: stored.length, damage, siteError };
}

/** What is wrong with the site file; null when nothing is. */
async function siteErrorOf(folder: string): Promise<UserError | null> {
  try {
    await readOwnSite(folder);
    return null;
  } catch (error) {
    // Nothing of a logbook of a newer program can be judged by this one.
    if (error instanceof UserError && error.code !== 'site-version-newer') return error;
    throw error;
  }
}

function storedOf(journal: Journal): StoredEvent[] {
  return journal.entries.map(({ event }) => event).filter(isStored);
}

async function damageOfSweep(
  folder: string,
  stored: StoredEvent,
  plainFiles: ReadonlySet<string>,
): Promise<Damage[]> {
  try {
    // A plain file in plain folders cannot lead out; anything else is looked at with its links followed.
    const path = plainFiles.has(stored.file)
      ? join(folder, stored.file)
      : await insideLogbook(folder, stored.file);
    if (path === null) {
      return [
        named(
          'sweep-missing',
          stored.file,
          `${sweepOf(stored)} is gone: bring it back from a copy, or import again what it came from`,
        ),
      ];
    }
    // Thousands of small files: read one after the other is several times faster than through promises.
    requireUnchanged(readFileSync(path), stored);
    return [];
  } catch (error) {
    if (error instanceof UserError) return [named(error.code, stored.file, error.message)];
    return [named('sweep-unreadable', stored.file, `cannot be read: ${systemWords(error)}`)];
  }
}

function sweepOf(stored: StoredEvent): string {
  if (stored.event === 'standard') return `the sweep of the ${stored.definition.standard} standard`;
  const sweep = stored.event === 'shot' ? 'the sweep' : 'the uncorrected sweep';
  return `${sweep} of visit ${stored.visit}, shot ${stored.shot}`;
}

async function damageOfSurplus(
  folder: string,
  { files }: Tree,
  stored: readonly StoredEvent[],
): Promise<Damage[]> {
  const unknown = new Set(files);
  for (const { file } of stored) unknown.delete(file);
  // A writer at work logs a sweep a moment after it stored it.
  if (unknown.size > 0 && (await isBeingWritten(folder))) {
    for (const { file } of storedOf(await openJournal(folder))) unknown.delete(file);
  }
  return [...unknown].map((file) =>
    named(
      'sweep-orphan',
      file,
      'no row of the journal names this file: a command was cut off before it logged it, or a row was removed. ' +
        'Import it to keep it, or move it away',
    ),
  );
}

async function damageOfUnfinished(folder: string, inFolders: readonly string[]): Promise<Damage[]> {
  const atTop = (await readdir(folder)).filter((name) => name.endsWith(UNFINISHED));
  let files = [...atTop, ...inFolders];
  if (files.length > 0 && (await isBeingWritten(folder))) {
    files = files.filter((file) => existsSync(join(folder, file)));
  }
  return files.map((file) =>
    named('file-unfinished', file, 'was being written when a command was cut off: it may be deleted'),
  );
}

/** Whether a writer holds the lock; if so, it gets the time to end what it has begun. */
async function isBeingWritten(folder: string): Promise<boolean> {
  const locked = existsSync(join(folder, LOCK_FOLDER));
  if (locked) await sleep(300);
  return locked;
}

function damageOfReasons({ files }: Tree): Damage[] {
  return [...files]
    .filter((file) => !file.endsWith(REASON) && !files.has(file + REASON))
    .map((file) =>
      named(
        'reason-missing',
        file,
        'was set aside by a command that was cut off: the reason was not written down',
      ),
    );
}

async function damageOfLinks(
  folder: string,
  links: readonly string[],
  stored: readonly StoredEvent[],
): Promise<Damage[]> {
  const told = new Set(stored.map(({ file }) => file));
  const damage: Damage[] = [];
  for (const file of links.filter((link) => !told.has(link))) {
    try {
      if ((await insideLogbook(folder, file)) !== null) continue;
      damage.push(named('link-dead', file, 'is a link to nothing'));
    } catch (error) {
      if (!(error instanceof UserError)) throw error;
      const leadsOut = 'is a link that leads out of the logbook: it is not followed';
      damage.push(named(error.code, file, error.code === 'outside-logbook' ? leadsOut : error.message));
    }
  }
  return damage;
}

function named(code: string, file: string, message: string): Damage {
  return { code, place: { file }, message };
}
