import type { JournalEvent } from '../core/journal-event.ts';
import { type Disk, REAL_DISK } from './disk.ts';
import { lockLogbook } from './lock.ts';
import { journalBytes, type Logbook, openUnderLock } from './open-logbook.ts';
import { type NewVisit, Writer } from './writer.ts';

/** What a writer may be told; everything has a default. */
export interface WriteOptions {
  /** Hears what the user must know, such as torn bytes that were set aside. */
  readonly tell?: (message: string) => void;
  readonly now?: () => Date;
  readonly disk?: Disk;
  /** How long to wait for another writer. */
  readonly waitMs?: number;
}

/** What was written, event by event, and the number of the row of each. */
export interface Appended<E extends JournalEvent> {
  readonly events: readonly E[];
  readonly rows: readonly number[];
}

/**
 * Appends events to the journal of a logbook.
 *
 * @param events - or what makes them of the logbook, for numbers that only the lock makes certain
 * @throws UserError `logbook-locked`, `disk-full`, `disk-refuses`, and those of `openLogbook`
 */
export async function appendEvents<E extends JournalEvent>(
  folder: string,
  events: readonly E[] | ((logbook: Logbook) => readonly E[]),
  options: WriteOptions = {},
): Promise<Appended<E>> {
  return withWriter(folder, options, async (writer) => {
    const wanted = typeof events === 'function' ? events(writer.logbook) : events;
    return { events: wanted, rows: await writer.append(wanted) };
  });
}

/** Stores one visit and returns its number; throws as {@link appendEvents}. */
export async function addVisit(folder: string, visit: NewVisit, options: WriteOptions = {}): Promise<number> {
  return withWriter(folder, options, (writer) => writer.addVisit(visit));
}

/** Runs `work` as the only writer of a logbook. */
export async function withWriter<T>(
  folder: string,
  options: WriteOptions,
  work: (writer: Writer) => Promise<T>,
): Promise<T> {
  await journalBytes(folder); // no lock is made where there is no logbook
  const lock = await lockLogbook(folder, options.waitMs);
  try {
    const logbook = await openUnderLock(folder);
    const disk = options.disk ?? REAL_DISK;
    const now = options.now ?? (() => new Date());
    const writer = new Writer(logbook, disk, now, () => lock.requireHeld());
    const kept = await writer.setTornBytesAside();
    if (kept !== null) {
      options.tell?.(
        `the last command before this one was cut short as it was written: its bytes are kept in ${kept}`,
      );
    }
    return await work(writer);
  } finally {
    await lock.release();
  }
}
