import type { ReadingKind, ShotRecord } from './record.ts';
import type { Point } from './site.ts';
import type { StandardDefinition } from './sweep/calibration-standards.ts';

interface Happening {
  /** When it happened, ISO 8601 with zone; the journal also keeps when it was written down. */
  readonly time: string;
  /** A remark in the user's words, or empty. */
  readonly text: string;
}

/** The first row of a journal. */
interface BeginEvent extends Happening {
  readonly event: 'begin';
}

/** One radial laid, or planned to be laid under the same number. */
export interface RadialEvent extends Happening {
  readonly event: 'lay' | 'plan';
  readonly number: number;
  readonly lengthM: number;
  readonly bearingDeg: number | null;
  /** Metres east and north of the base, from the base outwards. */
  readonly route: readonly Point[] | null;
}

/** One radial taken up again. */
export interface LiftEvent extends Happening {
  readonly event: 'lift';
  readonly number: number;
}

/** One sweep stored. */
export interface ShotEvent extends Happening, ShotRecord {
  readonly event: 'shot';
  readonly visit: number;
}

/** One file of reflection coefficients. */
interface ReflectionFile {
  readonly fromHz: number;
  readonly toHz: number;
  readonly referenceOhm: number;
  readonly file: string;
  readonly sha256: string;
  /** Model and serial of the instrument. */
  readonly source: string;
}

/** One calibration standard as a raw instrument saw it. */
export interface StandardEvent extends Happening, ReflectionFile {
  readonly event: 'standard';
  readonly definition: StandardDefinition;
}

/** The uncorrected readings behind a stored sweep; the text says what it was corrected with. */
export interface RawEvent extends Happening, ReflectionFile {
  readonly event: 'raw';
  readonly visit: number;
  readonly shot: number;
}

/** The user's word on whether a visit may serve as baseline; the last one counts. */
interface BaselineEvent extends Happening {
  readonly event: 'baseline';
  readonly visit: number;
  readonly baseline: boolean;
}

/** An earlier row taken back, with the reason as its text: it counts as never logged. Of a withdrawal: what it took back stands again. */
interface WithdrawEvent extends Happening {
  readonly event: 'withdraw';
  /** The number of that row. */
  readonly row: number;
}

/** Something read off the ground, the sky or a meter, or a remark. */
export interface ReadingEvent extends Happening {
  readonly event: ReadingKind;
  readonly value: number | null;
  readonly subject: string | null;
  readonly powerW: number | null;
  /** The band of a field-strength reading; absent where nobody said. */
  readonly band?: string;
}

/** What a journal can tell, one row each. */
export type JournalEvent =
  | BeginEvent
  | RadialEvent
  | LiftEvent
  | ShotEvent
  | StandardEvent
  | RawEvent
  | BaselineEvent
  | WithdrawEvent
  | ReadingEvent;

/** The events that stand for a file of the logbook. */
export type StoredEvent = ShotEvent | StandardEvent | RawEvent;

/** Whether an event stands for a file under `sweeps/`. */
export function isStored(event: JournalEvent): event is StoredEvent {
  return event.event === 'shot' || event.event === 'standard' || event.event === 'raw';
}

/** The unit in which the value of each reading is kept; null for readings without a value. */
export const READING_UNITS: Readonly<Record<ReadingKind, string | null>> = {
  'soil-moisture': 'fraction',
  rain: 'm',
  temperature: 'degC',
  'field-strength': 'dB',
  'joint-resistance': 'ohm',
  'radial-current': 'A',
  inspection: null,
  repair: null,
  text: null,
};

/** True for the events that are readings or remarks. */
export function isReading(event: JournalEvent): event is ReadingEvent {
  return Object.hasOwn(READING_UNITS, event.event);
}
