import type { ReferencePlane } from '../core/record.ts';
import type { FrequencyUnit } from './frequency-unit.ts';

/** What may stand between cells; a blank stands for any run of blanks. */
export type Delimiter = ',' | ';' | '\t' | ' ';

/** The words for delimiters on a command line. */
export const DELIMITER_NAMES: Readonly<Record<Delimiter, string>> = {
  ',': 'comma',
  ';': 'semicolon',
  '\t': 'tab',
  ' ': 'blanks',
};

/** The mark before the decimals. */
export type DecimalMark = 'point' | 'comma';

/** The unit of phases. */
export type AngleUnit = 'deg' | 'rad';

/** What a user may say about a file that the file does not say itself; each wins over what was guessed. */
export interface ReadOptions {
  /** The header that a table lacks, in the words of a header: `MHz,R,X` or `Hz,S11 dB,phase`; `-` skips one. */
  readonly columns?: string | undefined;
  /** `' '` stands for any run of blanks and tabs. */
  readonly delimiter?: Delimiter | undefined;
  readonly decimal?: DecimalMark | undefined;
  /** Unit of the frequency column where the file names none. */
  readonly unit?: FrequencyUnit | undefined;
  /** Unit of the phases where the header names none. */
  readonly angle?: AngleUnit | undefined;
  /** The reference that SWR is asked for, and of reflection columns whose file states none; ohm. */
  readonly referenceOhm?: number | undefined;
  /** The reference where neither the file nor `referenceOhm` says one; ohm. */
  readonly instrumentReferenceOhm?: number | undefined;
  /** Where the sweep was measured. */
  readonly plane?: ReferencePlane | undefined;
  /** Which port's reflection to take from a file of several ports, counted from 1. */
  readonly port?: number | undefined;
}
