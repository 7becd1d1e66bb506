import { type Command, Option } from 'commander';
import { type BandComparison, compareVisits } from '../core/proof/compare-visits.ts';
import { coverage } from '../core/proof/coverage.ts';
import { resonanceFor } from '../core/proof/figures.ts';
import { overallVerdict } from '../core/proof/overall.ts';
import { compareStrength } from '../core/proof/strength.ts';
import type { ItuRegion } from '../core/site.ts';
import { type Band, bandsOfRegion, DEFAULT_REGION } from '../core/sweep/bands.ts';
import { UserError } from '../core/user-error.ts';
import { printAnswer } from './answer.ts';
import { comparisonJson } from './compare-json.ts';
import { comparisonText } from './compare-text.ts';
import { asksLogbook, type ComparedSides, sidesOfFiles, sidesOfLogbook } from './compared-sides.ts';
import type { Io } from './io.ts';
import { addLogbookOptions, type LogbookOptions } from './logbook-options.ts';
import { bandAsked } from './placed-at.ts';
import { addSweepInputOptions, type SweepFlags } from './sweep-flags.ts';

/** What the command line of `compare` can hold. */
export interface CompareFlags extends LogbookOptions, SweepFlags {
  readonly before?: string[];
  readonly after?: string[];
  readonly reversal?: string[];
  readonly state?: boolean;
  readonly band?: string;
  readonly region?: string;
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
        .option('--field <FILE>', 'received levels as CSV with the columns time,place,level_db,power_w')
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
  const asked = asksLogbook(flags) ? await sidesOfLogbook(io, flags) : await sidesOfFiles(io, flags);
  const { site, sides, states, line } = asked;
  const bands = bandsAsked(flags, asked);
  const comparisons = compareVisits(sides, bands, {
    antennaKind: site?.antenna.kind ?? null,
    instrument: site?.instrument ?? null,
    line,
    states,
  });
  const strength =
    asked.strength === null ? null : compareStrength(asked.strength.before, asked.strength.after);
  const found = {
    asked,
    strength,
    comparisons,
    overall: overallVerdict(comparisons[0] as BandComparison, strength),
  };
  printAnswer(io, { json: comparisonJson(found), text: comparisonText(found) }, flags.json === true);
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

/** The bands asked for, else those of the site, else the one that the sweeps are about. */
function bandsAsked(flags: CompareFlags, { site, sides }: ComparedSides): Band[] {
  const region = (Number(flags.region) || site?.region || DEFAULT_REGION) as ItuRegion;
  const names = flags.band?.split(',') ?? site?.antenna.bands ?? [];
  if (names.length > 0) return names.map((name) => bandAsked(name, region, site?.bandEdges));
  const sweeps = [...sides.before, ...sides.after].flatMap(({ visit }) => visit.shots);
  const covered = bandsOfRegion(region, site?.bandEdges).filter((band) => coverage(band, sweeps) !== null);
  const [only] = covered;
  if (only !== undefined && covered.length === 1) return [only];
  const resonant = covered.filter((band) =>
    sweeps.some((sweep) => {
      const f = resonanceFor(sweep, band)?.frequencyHz ?? 0;
      return f >= band.fromHz && f <= band.toHz;
    }),
  );
  if (resonant.length === 1) return resonant;
  throw new UserError(
    'band-needed',
    `needs a band, such as --band 40m; the sweeps have ${covered.map(({ band }) => band).join(', ') || 'none'} in common`,
    { kind: 'command-line', place: { field: '--band' } },
  );
}
