import type { Command } from 'commander';
import { parseQuantity } from '../core/quantity.ts';
import type { ReferencePlane } from '../core/record.ts';
import type { Site } from '../core/site.ts';
import type { Band } from '../core/sweep/bands.ts';
import {
  idealStandard,
  STANDARD_NAMES,
  type StandardDefinition,
} from '../core/sweep/calibration-standards.ts';
import { UserError } from '../core/user-error.ts';
import { reachesInto } from '../core/visits-in-band.ts';
import { DEFAULT_POINTS, type RangeAsked } from '../instrument/sweep-plan.ts';
import { numberFlag } from './instrument-options.ts';
import { bandAsked } from './placed-at.ts';

/** Flags of `measure` and `watch` that say what to sweep. */
export interface WishFlags {
  readonly band?: string;
  readonly points?: string;
  readonly from?: string;
  readonly to?: string;
  readonly plane?: string;
}

/** Help of `--band` for `measure` and `watch`. */
export const BANDS_HELP = 'bands, such as 40m or 40m,20m; may be given again (default: those of the site)';

/** `--band 40m --band 20m` is `--band 40m,20m`. */
export function andBands(bands: string, before: string | undefined): string {
  return before === undefined ? bands : `${before},${bands}`;
}

/** The bands of `--band 40m,20m`, each once, or those of the site. */
export function bandsWanted({ band }: WishFlags, site: Site | null): Band[] {
  const names =
    band === undefined ? (site?.antenna.bands ?? []) : band.split(',').filter((name) => name.trim() !== '');
  if (names.length === 0) {
    throw new UserError('band-needed', 'needs --band, such as 40m or 40m,20m; the site names none', {
      kind: 'command-line',
    });
  }
  const bands = names.map((name) => bandAsked(name, site?.region, site?.bandEdges));
  return bands.filter(({ band }, i) => bands.findIndex((other) => other.band === band) === i);
}

/** Points of a sweep. @throws UserError `flag-wrong` for what is no whole number from 2 to 10,001 */
export function pointsWanted({ points }: WishFlags): number {
  return points === undefined ? DEFAULT_POINTS : numberFlag('--points', points, 2, 10_001, true);
}

/** `--from` and `--to` for `measure` and `watch`. */
export function addRangeOptions(command: Command): Command {
  return command
    .option('--from <FREQUENCY>', 'lowest frequency, such as 6MHz (default: chosen, and told)')
    .option('--to <FREQUENCY>', 'highest frequency, such as 8.2MHz');
}

/**
 * The ends of the range that were named.
 * @throws UserError `flag-wrong` where they do not reach into the one band that they are for
 */
export function rangeAsked({ from, to }: WishFlags, bands: readonly Band[]): RangeAsked {
  const read = (text: string | undefined, field: string): number | null =>
    text === undefined ? null : Math.round(parseQuantity(text, 'frequency', field));
  const asked = { fromHz: read(from, '--from'), toHz: read(to, '--to') };
  const { fromHz, toHz } = asked;
  if (fromHz === null && toHz === null) return asked;
  const [band, another] = bands as [Band, ...Band[]];
  const reaches = reachesInto({ fromHz: fromHz ?? 0, toHz: toHz ?? Number.POSITIVE_INFINITY }, band);
  if (another === undefined && reaches && !(fromHz !== null && toHz !== null && fromHz >= toHz)) return asked;
  const need =
    another === undefined
      ? `needs a range that rises and reaches into ${band.band} (${band.fromHz / 1e6} to ${band.toHz / 1e6} MHz)`
      : 'needs one band, named with --band';
  throw new UserError('flag-wrong', `${need}, got ${[from, to].filter(Boolean).join(' to ')}`, {
    kind: 'command-line',
    place: { field: from === undefined ? '--to' : '--from' },
  });
}

/** The plane that was named, else the feed point. */
export function planeWanted({ plane }: WishFlags): ReferencePlane {
  return plane === 'shack' ? 'shack' : 'feedpoint';
}

/** Flags of a calibration standard. */
export interface StandardFlags {
  readonly standard?: string;
  readonly standardDelay?: string;
  readonly standardCapacitance?: string;
  readonly standardInductance?: string;
  readonly standardResistance?: string;
}

/** The standard that is to be swept, or null when the flags ask for none. */
export function standardWanted(flags: StandardFlags): StandardDefinition | null {
  const standard = STANDARD_NAMES.find((name) => name === flags.standard);
  if (standard === undefined) {
    if (Object.keys(flags).some((flag) => flag.startsWith('standard'))) {
      throw new UserError('flag-wrong', 'needs --standard open, short or load beside its figures', {
        kind: 'command-line',
      });
    }
    return null;
  }
  const { standardDelay, standardCapacitance, standardInductance, standardResistance } = flags;
  const ideal = idealStandard(standard);
  return {
    standard,
    offsetDelayS: standardDelay === undefined ? 0 : parseQuantity(standardDelay, 'delay', '--standard-delay'),
    shuntCapacitanceF:
      standardCapacitance === undefined
        ? 0
        : parseQuantity(standardCapacitance, 'capacitance', '--standard-capacitance'),
    seriesInductanceH:
      standardInductance === undefined
        ? 0
        : parseQuantity(standardInductance, 'inductance', '--standard-inductance'),
    loadOhm:
      standardResistance === undefined
        ? ideal.loadOhm
        : parseQuantity(standardResistance, 'resistance', '--standard-resistance'),
  };
}
