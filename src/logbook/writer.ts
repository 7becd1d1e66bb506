import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { isStored, type JournalEvent, type RawEvent, type ShotEvent } from '../core/journal-event.ts';
import type { ReferencePlane, ShotRecord } from '../core/record.ts';
import type { StandardDefinition } from '../core/sweep/calibration-standards.ts';
import type { ReflectionSweep } from '../core/sweep/reflection-sweep.ts';
import type { Sweep } from '../core/sweep/sweep.ts';
import { UserError } from '../core/user-error.ts';
import { appendDurably, createDurably, cutDurably, type Disk } from './disk.ts';
import { insideLogbook, makeFolderInside, readInside } from './inside.ts';
import { eventToCells } from './journal-csv.ts';
import { JOURNAL_FILE, type JournalTail } from './journal-reader.ts';
import { checkOf, HEADER, rowText } from './journal-row.ts';
import { journalBytes, type Logbook } from './open-logbook.ts';
import { setAside } from './refused.ts';
import { reflectionBytes, sha256Of, shotName, sweepBytes, sweepFileName } from './sweep-file.ts';
import { isoWithZone } from './time.ts';

/** A visit to be stored. */
export interface NewVisit {
  /** ISO 8601 with zone. */
  readonly time: string;
  readonly shots: readonly NewShot[];
  readonly text?: string;
  /** An earlier visit of which these are further shots, and the number of its last one. */
  readonly joins?: { readonly visit: number; readonly lastShot: number } | undefined;
}

/** A shot to be stored. */
export interface NewShot {
  readonly sweep: Sweep;
  readonly plane: ReferencePlane;
  readonly target: ShotRecord['target'];
  readonly source: string;
  /** The uncorrected readings, where the sweep is a corrected one, and what it was corrected with. */
  readonly raw?: { readonly sweep: ReflectionSweep; readonly correction: string } | undefined;
}

/** A calibration standard to be stored, as a raw instrument saw it. */
export interface NewStandard {
  /** ISO 8601 with zone. */
  readonly time: string;
  readonly definition: StandardDefinition;
  readonly sweep: ReflectionSweep;
  /** Model and serial of the instrument. */
  readonly source: string;
}

/** A stored file that was not as the journal has it. */
export interface Amiss {
  /** Relative to the logbook. */
  readonly file: string;
  /** What was lost is restored; what was changed is left as it stands. */
  readonly was: 'lost' | 'changed';
}

/** The one writer of a logbook, as long as it holds the lock. */
export class Writer {
  /** The logbook as it was when the lock was taken. */
  readonly logbook: Logbook;
  readonly #disk: Disk;
  readonly #now: () => Date;
  readonly #requireHeld: () => Promise<void>;
  readonly #journal: string;
  #tail: JournalTail;
  #nextVisit: number;

  constructor(logbook: Logbook, disk: Disk, now: () => Date, requireHeld: () => Promise<void>) {
    this.logbook = logbook;
    this.#disk = disk;
    this.#now = now;
    this.#requireHeld = requireHeld;
    this.#journal = join(logbook.folder, JOURNAL_FILE);
    this.#tail = logbook.journal.tail;
    this.#nextVisit = logbook.nextVisit;
  }

  /**
   * The next row must not stand glued to half a row: what is torn moves whole to `refused/`.
   * @returns where it is kept; null when nothing is torn
   */
  async setTornBytesAside(): Promise<string | null> {
    if (this.logbook.journal.tornBytes === 0) return null;
    const { wholeBytes } = this.#tail;
    const bytes = await journalBytes(this.logbook.folder);
    const why =
      'The last rows of journal.csv were cut short by a power cut or a crash. ' +
      'No command had reported them as done. They were moved here as they stood.';
    const kept = await this.setAside('journal-torn.csv', bytes.subarray(wholeBytes), why);
    await this.#requireHeld();
    await cutDurably(this.#disk, this.#journal, wholeBytes);
    return kept;
  }

  /** Writes events, all or none, and returns the numbers of their rows when they are on the disk. */
  async append(events: readonly JournalEvent[]): Promise<number[]> {
    if (events.length === 0) return [];
    let { sequence, check, wholeBytes, missingLineEnd } = this.#tail;
    const rows = events.map((_, i) => sequence + i + 1);
    const recorded = isoWithZone(this.#now());
    let text = wholeBytes === 0 ? HEADER : missingLineEnd;
    events.forEach((event, i) => {
      sequence++;
      const cells = {
        ...eventToCells(event),
        sequence: String(sequence),
        part: `${i + 1} of ${events.length}`,
        recorded,
      };
      check = checkOf(check, cells);
      text += rowText({ ...cells, check });
    });
    const bytes = new TextEncoder().encode(text);
    await this.#requireHeld();
    await appendDurably(this.#disk, this.#journal, wholeBytes, bytes);
    this.#tail = { sequence, check, wholeBytes: wholeBytes + bytes.length, missingLineEnd: '' };
    return rows;
  }

  /** Stores a visit's sweeps and then its rows; returns its number. */
  async addVisit({ time, shots, text = '', joins }: NewVisit): Promise<number> {
    if (shots.length === 0) throw new UserError('visit-empty', 'a visit needs at least one sweep, got none');
    const visit = joins?.visit ?? this.#nextVisit;
    const lastShot = joins?.lastShot ?? 0;
    const events: (ShotEvent | RawEvent)[] = [];
    // The files first: a power cut in between leaves an orphan that `check` names, never a row without its file.
    for (const [i, { sweep, plane, target, source, raw }] of shots.entries()) {
      const shot = lastShot + i + 1;
      const name = shotName(visit, shot);
      const stored = await this.#storeSweep(time, name, sweepBytes(sweep), sweep);
      events.push({ event: 'shot', time, text, visit, shot, target, plane, ...stored, source });
      if (raw === undefined) continue;
      const kept = await this.#storeSweep(time, `${name}-raw`, reflectionBytes(raw.sweep), raw.sweep);
      events.push({ event: 'raw', time, text: raw.correction, visit, shot, ...kept, source });
    }
    await this.append(events);
    this.#nextVisit = Math.max(this.#nextVisit, visit + 1);
    return visit;
  }

  /** Stores a standard's readings and then its row. */
  async addStandard({ time, definition, sweep, source }: NewStandard): Promise<void> {
    const name = `standard-${definition.standard}`;
    const stored = await this.#storeSweep(time, name, reflectionBytes(sweep), sweep);
    await this.append([{ event: 'standard', time, text: '', definition, ...stored, source }]);
  }

  /**
   * Restores stored files that are gone from bytes that the journal knows by their SHA-256, also those of withdrawn
   * rows. A file that stands there with other bytes is never overwritten.
   *
   * @returns the files that were not as they were stored; empty when all are
   */
  async restore(bytes: Uint8Array): Promise<Amiss[]> {
    const sha256 = sha256Of(bytes);
    const amiss: Amiss[] = [];
    for (const { event } of this.logbook.journal.entries) {
      if (!isStored(event) || event.sha256 !== sha256) continue;
      const { file } = event;
      const there = await readInside(this.logbook.folder, file);
      if (there === null) await this.#store(file, bytes);
      else if (Buffer.compare(there, bytes) === 0) continue;
      amiss.push({ file, was: there === null ? 'lost' : 'changed' });
    }
    return amiss;
  }

  /** Keeps unreadable input in `refused/`; returns where. */
  setAside(name: string, bytes: Uint8Array, why: string): Promise<string> {
    return setAside(this.#disk, this.logbook.folder, name, bytes, why);
  }

  /** Stores the bytes of a sweep under its name, and tells what the journal has to say of them. */
  async #storeSweep(
    time: string,
    name: string,
    bytes: Uint8Array,
    { frequencyHz, referenceOhm }: Pick<Sweep, 'frequencyHz' | 'referenceOhm'>,
  ): Promise<Pick<ShotRecord, 'file' | 'sha256' | 'fromHz' | 'toHz' | 'referenceOhm'>> {
    const sha256 = sha256Of(bytes);
    const file = sweepFileName(time, name, sha256);
    await this.#store(file, bytes);
    return {
      fromHz: frequencyHz[0] as number,
      toHz: frequencyHz.at(-1) as number,
      referenceOhm,
      file,
      sha256,
    };
  }

  async #store(file: string, bytes: Uint8Array): Promise<void> {
    const { folder } = this.logbook;
    await makeFolderInside(this.#disk, folder, file.slice(0, file.lastIndexOf('/')));
    const path = await insideLogbook(folder, file);
    if (path === null) return createDurably(this.#disk, join(folder, file), bytes);
    // A visit that was cut off before its rows left this very file behind.
    if (Buffer.compare(await readFile(path), bytes) === 0) return;
    throw new UserError('sweep-file-taken', 'another file stands in the place of a new sweep: move it away', {
      kind: 'logbook',
      place: { file },
    });
  }
}
