import { type Command, Option } from 'commander';
import { compareVisits } from '../core/proof/compare-visits.ts';
import { answerBands, comparisonJson } from '../core/proof/comparison-document.ts';
import { UserError } from '../core/user-error.ts';
import { comparisonText } from './compare-text.ts';
import type { BandFlags } from './compared-bands.ts';
import { askedOfFiles } from './compared-files.ts';
import { asksLogbook } from './compared-sides.ts';
import { askedOfLogbook } from './compared-visits.ts';
import { printWithoutLost } from './failure.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions } from './logbook-options.ts';
import { addSweepInputOptions, type SweepFlags } from './sweep-flags.ts';

/** What the command line of `compare` can hold. */
export interface CompareFlags extends LogbookOptions, SweepFlags, BandFlags {
  readonly before?: string[];
  readonly after?: string[];
  readonly reversal?: string[];
  readonly state?: boolean;
  readonly site?: string;
  readonly field?: string;
  readonly laidAt?: string;
}

/** `turfwire compare`: is the difference between two visits real? */
export function register(command: Command, io: Io): void {
  addSweepInputOptions(
    addLogbookOptions(
      command
        .option('--before <WHAT...>', 'sweep files, or visits of the logbook by number')
        .option('--after <WHAT...>', 'the same, after the change')
        .option('--reversal <WHAT...>', 'three visits: as it is, new wires disconnected, as it is again')
        .option('--state', 'numbers are field states, as progress counts them, and not visits')
        .option('--band <NAMES>', 'bands, such as 40m or 40m,15m (default: those of the site)')
        .addOption(new Option('--region <NUMBER>', 'ITU region of the bands').choices(['1', '2', '3']))
        .option(
          '--site <FILE>',
          'site.json for loose files: antenna, instrument, feed line with --plane shack',
        )
        .option('--field <FILE>', 'received levels as CSV with the columns time,place,level_db,power_w,band')
        .option(
          '--laid-at <TIME>',
          'with --field and loose files: when the wires were laid, ISO 8601 with zone',
        ),
    ),
  )
    .addHelpText(
      'after',
      '\nExample: turfwire compare --before old-shot1.csv old-shot2.csv --after new-shot1.csv new-shot2.csv --band 40m',
    )
    .action((flags: CompareFlags) => compare(io, flags));
}

async function compare(io: Io, flags: CompareFlags): Promise<void> {
  refuseHalfQuestions(flags);
  const asked = asksLogbook(flags) ? await askedOfLogbook(io, flags) : await askedOfFiles(io, flags);
  const { site, questions, strength: levels } = asked;
  const comparisons = compareVisits(questions, {
    antennaKind: site?.antenna.kind ?? null,
    instrument: site?.instrument ?? null,
    units: site?.units,
  });
  const found = { asked, bands: answerBands(comparisons, levels, asked.assumedBand) };
  printWithoutLost(
    io,
    { json: comparisonJson(found), text: comparisonText(found) },
    asked.lost,
    flags.json === true,
  );
}

function refuseHalfQuestions({ before, after, reversal }: CompareFlags): void {
  const fault =
    reversal !== undefined
      ? before !== undefined || after !== undefined
        ? 'either --reversal, or --before with --after, but not both'
        : null
      : (before === undefined) !== (after === undefined)
        ? `--before and --after are needed together, got only ${before === undefined ? '--after' : '--before'}`
        : null;
  if (fault !== null) throw new UserError('compare-question', fault, { kind: 'command-line' });
}
