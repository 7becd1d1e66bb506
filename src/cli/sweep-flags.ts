import { type Command, Option } from 'commander';
import { parseQuantity } from '../core/quantity.ts';
import type { ReferencePlane } from '../core/record.ts';
import { UserError } from '../core/user-error.ts';
import { type FrequencyUnit, frequencyUnit } from '../formats/frequency-unit.ts';
import {
  type AngleUnit,
  DELIMITER_NAMES,
  type DecimalMark,
  type Delimiter,
} from '../formats/read-options.ts';

/** What the flags of {@link addSweepInputOptions} give: what a sweep file does not say itself. */
export interface SweepFlags {
  readonly columns?: string | undefined;
  readonly delimiter?: Delimiter | undefined;
  readonly decimal?: DecimalMark | undefined;
  readonly unit?: FrequencyUnit | undefined;
  readonly angle?: AngleUnit | undefined;
  /** Ohm. */
  readonly reference?: number | undefined;
  readonly plane?: ReferencePlane | undefined;
  readonly portOfFile?: number | undefined;
}

/** Adds the flags that say what a sweep file does not say itself. */
export function addSweepInputOptions(command: Command): Command {
  return command
    .option('--columns <NAMES>', 'what the columns are: "MHz,R,X", "Hz,S11 dB,phase"; - skips one')
    .addOption(
      new Option(
        '--delimiter <NAME>',
        'what stands between cells: comma, semicolon, tab or blanks',
      ).argParser(readDelimiter),
    )
    .addOption(new Option('--decimal <MARK>', 'the decimal mark').choices(['point', 'comma']))
    .addOption(
      new Option('--unit <UNIT>', 'unit of the frequencies: Hz, kHz, MHz or GHz').argParser(readUnit),
    )
    .addOption(new Option('--angle <UNIT>', 'unit of the phases: deg or rad').choices(['deg', 'rad']))
    .addOption(new Option('--reference <OHM>', 'reference for SWR and reflection').argParser(readOhms))
    .addOption(
      new Option('--plane <PLANE>', 'where the sweeps were measured').choices(['feedpoint', 'shack']),
    )
    .addOption(
      new Option('--port-of-file <NUMBER>', 'the port to take from a file of several').argParser(readPort),
    );
}

function readDelimiter(text: string): Delimiter {
  const names = Object.entries(DELIMITER_NAMES) as [Delimiter, string][];
  const named = names.find((names) => names.includes(text));
  return named?.[0] ?? wrongFlag('--delimiter', 'comma, semicolon, tab or blanks', text);
}

function readUnit(text: string): FrequencyUnit {
  return frequencyUnit(text) ?? wrongFlag('--unit', 'Hz, kHz, MHz or GHz', text);
}

function readPort(text: string): number {
  return /^[1-9]\d{0,3}$/u.test(text) ? Number(text) : wrongFlag('--port-of-file', 'a number from 1', text);
}

function readOhms(text: string): number {
  const ohms = /[a-zΩω]/iu.test(text)
    ? parseQuantity(text, 'resistance', '--reference')
    : Number(text || 'x');
  return ohms > 0 && Number.isFinite(ohms)
    ? ohms
    : wrongFlag('--reference', 'ohms above 0, such as 50', text);
}

function wrongFlag(flag: string, needed: string, came: string): never {
  throw new UserError('flag-wrong', `needs ${needed}, got "${came}"`, {
    kind: 'command-line',
    place: { field: flag },
  });
}
