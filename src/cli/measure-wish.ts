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
import { DEFAULT_POINTS } from '../instrument/sweep-plan.ts';
import { numberFlag } from './instrument-options.ts';
import { bandAsked } from './placed-at.ts';

/** Flags of `measure` and `watch` that say what to sweep. */
export interface WishFlags {
  readonly band?: string;
  readonly points?: string;
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
