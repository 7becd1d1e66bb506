import { fieldStateAt } from '../layout/field-state.ts';
import { fieldChange, isSameField } from '../layout/same-field.ts';
import type { FieldState } from '../record.ts';

/** How the field at a later time differs from that at an earlier one. */
export interface WiresChanged {
  /** How many radials were laid and lifted, as far as it is not undone. */
  readonly laid: number;
  readonly lifted: number;
  readonly radialsBefore: number;
  readonly radialsAfter: number;
  /** When the later field came to be, ISO 8601 with zone. */
  readonly since: string;
}

/**
 * What was done to the wires between two times.
 *
 * @param states - rising in time
 * @returns null when the same field lay there at both
 */
export function wiresChanged(
  states: readonly FieldState[],
  earlier: string,
  later: string,
): WiresChanged | null {
  const [before, after] = [fieldStateAt(states, earlier), fieldStateAt(states, later)];
  if (isSameField(before, after)) return null;
  const { laid, lifted } = fieldChange(before, after);
  return {
    laid: laid.length,
    lifted: lifted.length,
    radialsBefore: before.radials.length,
    radialsAfter: after.radials.length,
    since: after.since ?? later,
  };
}
