import type { Place } from '../core/user-error.ts';

/** Something wrong in a logbook; the rest of it can be read all the same. */
export interface Damage {
  /** Stable, kebab-case, for programs. */
  readonly code: string;
  readonly place: Place;
  readonly message: string;
}
