import type { Sweep } from '../../core/sweep/sweep.ts';
import { UserError } from '../../core/user-error.ts';
import { type FrequencyUnit, HZ_PER_UNIT } from '../frequency-unit.ts';
import { impedanceToPair, type NetworkParameter, type PairFormat } from '../network-pair.ts';

/** The form of a Touchstone file to be written. */
export interface TouchstoneWriting {
  /** 1 for what every program reads (the default), or 2.1. */
  readonly version?: '1' | '2.1';
  readonly unit?: FrequencyUnit;
  readonly parameter?: NetworkParameter;
  readonly format?: PairFormat;
  /** The sweep's own unless given. */
  readonly referenceOhm?: number;
  /** Lines for people, put first. */
  readonly comments?: readonly string[];
}

/**
 * Writes a one-port Touchstone file: ASCII, LF, rising frequency, the shortest digits that read back to the same
 * double. In version 1 Z and Y are divided by what they are referred to, in 2.1 they are ohm and siemens.
 * Source: Touchstone File Format Specification 2.1 (2024).
 *
 * @throws UserError `pair-impossible` for a point that the chosen form has no number for (S at Z = −R, dB of zero)
 */
export function writeTouchstone(sweep: Sweep, writing: TouchstoneWriting = {}): string {
  const { version = '1', unit = 'Hz', parameter = 'S', format = 'RI', comments = [] } = writing;
  const referenceOhm = writing.referenceOhm ?? sweep.referenceOhm;
  const meaning = { parameter, format, referenceOhm, normalised: version === '1' };
  const { frequencyHz, resistanceOhm, reactanceOhm } = sweep;
  const data: string[] = [];
  for (let i = 0; i < frequencyHz.length; i++) {
    const hz = frequencyHz[i] as number;
    const impedance = { re: resistanceOhm[i] as number, im: reactanceOhm[i] as number };
    const pair = impedanceToPair(meaning, impedance);
    if (pair === null) {
      throw new UserError(
        'pair-impossible',
        `point ${i + 1} (${hz} Hz, ${impedance.re} + j${impedance.im} ohm) cannot be written as ${parameter} ${format}: choose another form, such as Z RI`,
      );
    }
    data.push(`${hz / HZ_PER_UNIT[unit]} ${pair[0]} ${pair[1]}`);
  }
  const option = `# ${unit} ${parameter} ${format} R ${referenceOhm}`;
  const lines =
    version === '1'
      ? [option, ...data]
      : [
          '[Version] 2.1',
          option,
          '[Number of Ports] 1',
          `[Number of Frequencies] ${data.length}`,
          `[Reference] ${referenceOhm}`,
          '[Network Data]',
          ...data,
          '[End]',
        ];
  return `${[...comments.flatMap(commentLines), ...lines].join('\n')}\n`;
}

/** A user's text as comment lines: the format knows ASCII alone and no `!` inside a comment is needed. */
function commentLines(text: string): string[] {
  return text
    .split(/\r\n|\n|\r/u)
    .map((line) => `! ${line.replaceAll('!', '').replace(/[^\x20-\x7e]/gu, '?')}`);
}
