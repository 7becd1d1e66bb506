import { randomUUID } from 'node:crypto';
import * as fs from 'node:fs';
import { lstat, mkdir, readFile, rm, rmdir } from 'node:fs/promises';
import { hostname } from 'node:os';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { UserError } from '../core/user-error.ts';
import { diskError } from './disk.ts';

/** Stands in the logbook while someone writes to it. */
export const LOCK_FOLDER = 'journal.csv.lock';
const HOLDER_FILE = 'holder.json';

/** A living holder refreshes its lock every second; one that was silent for this long is gone. */
const SILENT_MS = 10_000;
/** Enough when the holder's process is known to be dead on this machine. */
const SILENT_AND_DEAD_MS = 2_500;
const REFRESH_MS = 1_000;
/** Longer than any silence, so that a lock left by a dead process never refuses a command. */
const DEFAULT_WAIT_MS = 20_000;

/** A lock that is held. */
export interface Lock {
  /** @throws UserError `logbook-lock-lost` when another process took over because this one was silent too long */
  requireHeld(): Promise<void>;
  release(): Promise<void>;
}

/** Who holds a lock, kept inside of it. */
interface Holder {
  readonly process: number;
  readonly host: string;
  readonly since: string;
  readonly key: string;
}

/**
 * Locks a logbook for writing: one writer at a time. Waits for another writer, and takes over from one
 * that died.
 *
 * @throws UserError `logbook-locked` with who holds it, since when, and what to do; `disk-refuses`
 */
export async function lockLogbook(folder: string, waitMs: number = DEFAULT_WAIT_MS): Promise<Lock> {
  const { lock } = await import('proper-lockfile');
  const path = join(folder, LOCK_FOLDER);
  const deadline = Date.now() + waitMs;
  for (;;) {
    const holder: Holder = {
      process: process.pid,
      host: hostname(),
      since: new Date().toISOString(),
      key: randomUUID(),
    };
    try {
      const release = await lock(folder, {
        lockfilePath: path,
        update: REFRESH_MS,
        // Never stale to the library: two that find one stale lock at the same moment would both get in
        // by its own way. It is judged below, by one process at a time.
        stale: Number.MAX_SAFE_INTEGER,
        fs: signingFs(holder),
        onCompromised: () => {}, // requireHeld looks for itself
      });
      const isHeld = async () => (await readHolder(path))?.key === holder.key;
      return {
        requireHeld: async () => {
          if (await isHeld()) return;
          throw new UserError('logbook-lock-lost', 'another process took over the lock: try again');
        },
        release: async () => {
          if (await isHeld()) await release();
        },
      };
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'ELOCKED') throw diskError(error, path);
    }
    if (await isAbandoned(path)) await takeAway(path);
    else if (Date.now() > deadline) throw await stillLocked(path);
    await sleep(5 + Math.random() * 50);
  }
}

/** The file system as the lock library sees it: a lock is signed as it is made, and removed with its signature. */
function signingFs(holder: Holder) {
  return {
    ...fs,
    mkdir: (path: string, done: (error: Error | null) => void): void => {
      fs.mkdir(path, (error) => {
        if (error !== null) return done(error);
        fs.writeFile(join(path, HOLDER_FILE), `${JSON.stringify(holder)}\n`, (failed) => {
          if (failed === null) done(null);
          else fs.rm(path, { recursive: true, force: true }, () => done(failed));
        });
      });
    },
    rmdir: (path: string, done: (error: Error | null) => void): void =>
      fs.rm(path, { recursive: true, force: true }, done),
    rmdirSync: (path: string): void => fs.rmSync(path, { recursive: true, force: true }),
  };
}

/** Removes an abandoned lock, one process at a time, after a second look. */
async function takeAway(path: string): Promise<void> {
  const turn = `${path}.taking-over`;
  try {
    await mkdir(turn);
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw diskError(error, turn);
    // Whoever died in the few milliseconds below left this behind.
    if ((await silentMs(turn)) > SILENT_MS) await rmdir(turn).catch(() => {});
    return;
  }
  try {
    if (await isAbandoned(path)) await rm(path, { recursive: true, force: true });
  } finally {
    await rmdir(turn);
  }
}

async function isAbandoned(path: string): Promise<boolean> {
  const silent = await silentMs(path);
  if (silent <= SILENT_AND_DEAD_MS) return false;
  const holder = await readHolder(path);
  return silent > SILENT_MS || (holder !== null && holder.host === hostname() && !isAlive(holder.process));
}

/** A link in the place of a lock is judged, and removed, for itself: what it leads to is none of ours. */
async function silentMs(path: string): Promise<number> {
  try {
    return Date.now() - (await lstat(path)).mtimeMs;
  } catch {
    return 0;
  }
}

async function readHolder(path: string): Promise<Holder | null> {
  try {
    return JSON.parse(await readFile(join(path, HOLDER_FILE), 'utf8')) as Holder;
  } catch {
    return null;
  }
}

function isAlive(processId: number): boolean {
  try {
    process.kill(processId, 0);
    return true;
  } catch (error) {
    return (error as NodeJS.ErrnoException).code !== 'ESRCH';
  }
}

async function stillLocked(path: string): Promise<UserError> {
  const holder = await readHolder(path);
  const who = holder === null ? 'another process' : `process ${holder.process} on ${holder.host}`;
  const since = holder === null ? '' : ` since ${holder.since}`;
  return new UserError(
    'logbook-locked',
    `${who} has been writing to this logbook${since} and is still alive: wait until it is done, or end it, ` +
      'then try again; nothing was logged',
    { place: { file: path } },
  );
}
