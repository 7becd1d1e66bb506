import type { Point } from './site.ts';
import type { Sweep } from './sweep/sweep.ts';

/** Where an impedance was seen. */
export type ReferencePlane = 'feedpoint' | 'shack';

/** One radial as the journal tells it; numbers run on and are never used again. */
export interface Radial {
  readonly number: number;
  readonly lengthM: number;
  /** Bearing at the base, degrees clockwise from true north; null when the user did not say. */
  readonly bearingDeg: number | null;
  /** From the base outwards, metres east and north of the base; null when only a length is known. */
  readonly route: readonly Point[] | null;
  /** ISO 8601 time with zone when it was laid (or planned, for a planned radial); null when only `site.json` tells of it. */
  readonly since: string | null;
}

/** Which radials lie where, from `since` until the next state. */
export interface FieldState {
  /** ISO 8601 with zone; null for the state before anything was laid. */
  readonly since: string | null;
  readonly radials: readonly Radial[];
  readonly wireM: number;
}

/** A reading or remark the user logged by `note`. */
export type ReadingKind =
  | 'soil-moisture'
  | 'rain'
  | 'temperature'
  | 'field-strength'
  | 'joint-resistance'
  | 'radial-current'
  | 'inspection'
  | 'repair'
  | 'text';

/** SI or the unit of its kind: moisture as fraction, rain m, temperature °C, field dB, joint ohm, current A. */
export interface Reading {
  readonly time: string;
  readonly kind: ReadingKind;
  readonly value: number | null;
  /** The place (field strength), joint (joint resistance, inspection) or radial number (current) it speaks of. */
  readonly subject: string | null;
  /** Transmitter power behind a field-strength or current reading, W. */
  readonly powerW: number | null;
  /** The band of a field-strength reading, such as `40m`; absent where nobody said. */
  readonly band?: string;
  readonly text: string;
}

/** One stored sweep: what the journal says of it. The sweep itself is loaded when wanted. */
export interface ShotRecord {
  readonly shot: number;
  readonly file: string;
  readonly sha256: string;
  readonly plane: ReferencePlane;
  /** `antenna`, or `reference-load` for the sweep that watches the instrument. */
  readonly target: 'antenna' | 'reference-load';
  readonly fromHz: number;
  readonly toHz: number;
  readonly referenceOhm: number;
  /** Where it came from: an imported file's name, or the instrument's model. */
  readonly source: string;
}

/** The shots taken within one state of the antenna. */
export interface VisitRecord {
  readonly visit: number;
  readonly time: string;
  readonly shots: readonly ShotRecord[];
  /** The user's word on whether it may serve as baseline; null when never said. */
  readonly baseline: boolean | null;
}

/** A visit with its sweeps in memory, moved to the plane that is asked for. */
export interface MeasuredVisit {
  readonly label: string;
  /** ISO 8601 with zone; null for loose files. */
  readonly time: string | null;
  readonly shots: readonly Sweep[];
  readonly referenceLoad: readonly Sweep[];
}
