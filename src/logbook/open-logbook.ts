import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { isReading, type JournalEvent, type ShotEvent } from '../core/journal-event.ts';
import {
  type FieldHistory,
  fieldStateOfSite,
  nextRadialAfter,
  replayField,
} from '../core/layout/field-state.ts';
import type { FieldState, Radial, Reading, ShotRecord, VisitRecord } from '../core/record.ts';
import type { Site } from '../core/site.ts';
import { UserError } from '../core/user-error.ts';
import { standingEvents } from '../core/withdrawal.ts';
import type { Damage } from './damage.ts';
import { insideLogbook, readInside } from './inside.ts';
import { readGrownJournal } from './journal-cache.ts';
import { JOURNAL_FILE, type Journal, readJournal } from './journal-reader.ts';
import { LOCK_FOLDER } from './lock.ts';
import { readSite } from './site-file.ts';
import { SWEEPS_FOLDER } from './sweep-file.ts';

export { JOURNAL_FILE } from './journal-reader.ts';

/** The site file's name in its logbook. */
export const SITE_FILE = 'site.json';

/** A logbook as its files tell it at one moment. */
export interface Logbook {
  /** Path of the folder. */
  readonly folder: string;
  readonly site: Site;
  /** Every event that stands, in the order of the rows; {@link journal} holds the withdrawn ones too. */
  readonly events: readonly JournalEvent[];
  /** Rising by number. */
  readonly visits: readonly VisitRecord[];
  /** One above every visit ever stored, also of those that were withdrawn: their files stay. */
  readonly nextVisit: number;
  readonly readings: readonly Reading[];
  /** Rising in time, derived by replay; the first holds before anything was laid (`since: null`). */
  readonly fieldStates: readonly FieldState[];
  /** Radials of the newest plan that have not been laid. */
  readonly planned: readonly Radial[];
  /** One above every radial ever laid or planned, also of those that were withdrawn: they may stand again. */
  readonly nextRadial: number;
  readonly journal: Journal;
  /** Damage that reading could live with; `turfwire check` looks further. */
  readonly problems: readonly Damage[];
}

type JournalReading = (bytes: Uint8Array) => Journal;

/**
 * Reads a logbook. Changes nothing, takes no lock, and never fails for damage in single rows.
 *
 * @param reading - other than row by row
 * @throws UserError `logbook-missing`, `journal-missing`, and those of {@link readOwnSite}
 */
export async function openLogbook(folder: string, reading: JournalReading = readJournal): Promise<Logbook> {
  const journal = await openJournal(folder, reading);
  return derive(folder, await readOwnSite(folder), journal);
}

/** {@link openLogbook} for a command that asks of a logbook that grows: rows it once read are remembered. */
export function openGrownLogbook(folder: string): Promise<Logbook> {
  return openLogbook(folder, (bytes) => readGrownJournal(folder, bytes));
}

/** {@link openLogbook} for the holder of the lock, who need not wait for any writer. */
export async function openUnderLock(folder: string): Promise<Logbook> {
  const journal = readJournal(await journalBytes(folder));
  return derive(folder, await readOwnSite(folder), journal);
}

/**
 * Reads the `site.json` of a logbook, or of a folder that is to become one.
 * @throws UserError `outside-logbook`, and those of `readSite`
 */
export async function readOwnSite(folder: string): Promise<Site> {
  await insideLogbook(folder, SITE_FILE);
  return readSite(join(folder, SITE_FILE));
}

/**
 * Reads the journal alone, whatever the site file is like. A writer at work looks like a torn row for a
 * moment, and so gets a little time before it is called damage.
 *
 * @throws UserError `logbook-missing`, `journal-missing`, `outside-logbook`, `file-unreadable`
 */
export async function openJournal(folder: string, reading: JournalReading = readJournal): Promise<Journal> {
  for (let attempt = 1; ; attempt++) {
    const journal = reading(await journalBytes(folder));
    const isTorn = journal.problems.some(({ code }) => code === 'journal-torn');
    if (!isTorn || attempt > MOST_ATTEMPTS || !existsSync(join(folder, LOCK_FOLDER))) return journal;
    await sleep(50);
  }
}

const MOST_ATTEMPTS = 20;

/**
 * The bytes of the journal; what is not there is told in words.
 * @throws UserError `logbook-missing`, `journal-missing`, `outside-logbook`, `file-unreadable`
 */
export async function journalBytes(folder: string): Promise<Uint8Array> {
  const bytes = await readInside(folder, JOURNAL_FILE);
  if (bytes !== null) return bytes;
  const hasSite = (await insideLogbook(folder, SITE_FILE)) !== null;
  // `begin` makes the folder of sweeps just before the journal, and may be cut off in between.
  if (hasSite && (await insideLogbook(folder, SWEEPS_FOLDER)) !== null) {
    throw new UserError(
      'journal-missing',
      `there is a ${SITE_FILE} but no ${JOURNAL_FILE}: if there never was a journal, \`turfwire begin\` starts one; ` +
        'if it is lost, bring it back from a copy',
      { kind: 'logbook', place: { file: join(folder, JOURNAL_FILE) } },
    );
  }
  throw new UserError(
    'logbook-missing',
    hasSite
      ? `there is a ${SITE_FILE}, but no logbook was begun here: begin it with \`turfwire begin\`, which keeps that file`
      : 'no logbook here: name its folder with --logbook, or make one with `turfwire begin`',
    { place: { file: folder } },
  );
}

/** What follows from a site and a journal. */
function derive(folder: string, site: Site, journal: Journal): Logbook {
  const events = standingEvents(journal.entries);
  const field = replayField(events);
  const ofSite = field.states.length === 1 ? fieldStateOfSite(site) : null;
  return {
    folder,
    site,
    events,
    visits: visitsOf(events),
    nextVisit: nextVisitAfter(journal),
    readings: events.filter(isReading).map(({ event, ...reading }) => ({ ...reading, kind: event })),
    fieldStates: ofSite === null ? field.states : [ofSite],
    planned: field.planned,
    nextRadial: nextRadialAfter(journal.entries.map(({ event }) => event)),
    journal,
    problems: [...journal.problems, ...contradictions(field)],
  };
}

function visitsOf(events: readonly JournalEvent[]): VisitRecord[] {
  const visits = new Map<number, { time: string; shots: ShotRecord[]; baseline: boolean | null }>();
  for (const event of events) {
    if (event.event === 'shot') {
      const record = visits.get(event.visit) ?? { time: event.time, shots: [], baseline: null };
      record.shots.push(shotOf(event));
      visits.set(event.visit, record);
    } else if (event.event === 'baseline') {
      const record = visits.get(event.visit);
      if (record !== undefined) record.baseline = event.baseline;
    }
  }
  return [...visits].map(([visit, record]) => ({ visit, ...record })).sort((a, b) => a.visit - b.visit);
}

/** Written out, because a rest of a destructuring is slow and a year has many shots. */
function shotOf(event: ShotEvent): ShotRecord {
  const { shot, file, sha256, plane, target, fromHz, toHz, referenceOhm, source } = event;
  return { shot, file, sha256, plane, target, fromHz, toHz, referenceOhm, source };
}

function nextVisitAfter({ entries }: Journal): number {
  let last = 0;
  for (const { event } of entries) if (event.event === 'shot') last = Math.max(last, event.visit);
  return last + 1;
}

/** The number of the last shot of each visit, also of shots that were withdrawn: they may stand again. */
export function lastShots({ entries }: Journal): Map<number, number> {
  const last = new Map<number, number>();
  for (const { event } of entries) {
    if (event.event === 'shot') last.set(event.visit, Math.max(last.get(event.visit) ?? 0, event.shot));
  }
  return last;
}

/** Rows that contradict one another, as damage. */
export function contradictions({ problems }: FieldHistory): Damage[] {
  return problems.map((message) => ({
    code: 'field-contradiction',
    place: { file: JOURNAL_FILE },
    message,
  }));
}
