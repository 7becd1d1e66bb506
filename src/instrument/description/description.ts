import type { SerialSettings } from '../serial/serial-transport.ts';
import type { Column } from './column.ts';

/** How to drive an instrument that answers in text lines; all defaults are filled in. */
export interface Description {
  readonly name: string;
  readonly summary: string | null;
  readonly wire: SerialSettings;
  /** What ends a command. Answers have to end with LF, or CR and LF. */
  readonly commandEnd: string;
  /** What the instrument prints in front of a line when it is ready for a command; removed. */
  readonly prompt: string | null;
  /** Waited for after opening: a line that begins so, or just the time. */
  readonly greeting: { readonly line: string | null; readonly waitMs: number };
  readonly identity: Identification | null;
  /** False when the readings need the sweeps of an open, a short and a load. */
  readonly corrected: boolean;
  readonly referenceOhm: number;
  readonly limits: {
    readonly lowestHz: number | null;
    readonly highestHz: number | null;
    readonly points: number | null;
  };
  /** The instrument repeats each command before it answers. */
  readonly echo: boolean;
  /** The last step, and only that, reads the points. */
  readonly sweep: readonly Step[];
  readonly points: PointsForm;
  readonly errors: {
    /** Lines that begin so (in any case) report an error. */
    readonly lines: readonly string[];
    readonly query: string | null;
    /** The answer to the query when there is none. */
    readonly none: string;
  };
  readonly pacing: {
    readonly betweenCommandsMs: number;
    readonly replyMs: number;
    readonly betweenPointsMs: number;
    readonly sweepMs: number;
  };
}

/** How the instrument is asked who it is. */
export interface Identification {
  readonly send: string;
  readonly separator: string | null;
  readonly fields: readonly ('model' | 'serial' | 'ignore')[];
}

/** One command; it may hold placeholders such as `{startHz}`. */
export interface Step {
  readonly send: string;
  /** The answer that is waited for; compared as a number when both are. */
  readonly expect: string | null;
  readonly read: 'points' | null;
  /** How long this answer may take, where that is longer than others. */
  readonly waitMs: number | null;
}

/** How the points come. */
export interface PointsForm {
  readonly layout: 'line-each' | 'one-line';
  readonly separator: string;
  readonly columns: readonly Column[];
  readonly end:
    | { readonly by: 'count' }
    | { readonly by: 'line'; readonly line: string }
    | { readonly by: 'silence'; readonly waitMs: number };
}
