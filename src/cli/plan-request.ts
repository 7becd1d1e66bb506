import { wavelengthM } from '../core/ground/free-space.ts';
import { MOST_RADIALS } from '../core/layout/budget.ts';
import { ALLOWANCE_M, stockLeft, stockLengths } from '../core/layout/cutting.ts';
import { type FreeArea, freeArea } from '../core/layout/free-area.ts';
import type { PlanRequest, WantedField } from '../core/layout/plan.ts';
import { SHORTEST_STRAIGHT_M } from '../core/layout/route.ts';
import { plural } from '../core/plural.ts';
import type { Advised } from '../core/proof/advice.ts';
import { formatDiameter, formatLength, parseQuantity, type UnitSystem } from '../core/quantity.ts';
import { quoted } from '../core/quoted.ts';
import type { Radial } from '../core/record.ts';
import type { Lot, Site } from '../core/site.ts';
import { type Band, bandCentreHz } from '../core/sweep/bands.ts';
import { UserError } from '../core/user-error.ts';
import { bandAsked } from './placed-at.ts';

/** The options of `plan` that shape the computation. */
export interface PlanOptions {
  readonly band?: readonly string[];
  readonly stock?: readonly string[];
  readonly count?: string;
  readonly length?: string;
  readonly compare?: readonly string[];
  readonly elevation?: readonly string[];
  readonly allowance?: string;
}

/** A site, and what lies on it already. */
export interface PlannedSite {
  readonly site: Site;
  readonly laid: readonly Radial[];
  /** Radials that a journal tells of: they were cut from the stock that the site file names. */
  readonly cutFromStock: readonly Radial[];
  /** What the measured handfuls of a logbook advise; null where nothing was measured. */
  readonly measured: Pick<Advised, 'advice' | 'why'> | null;
}

/** Wire diameter where the site states none: it hardly moves the loss, and the plan says so. */
export const ASSUMED_WIRE_DIAMETER_M = 1.5e-3;
const ASSUMED_ELEMENT_DIAMETER_M = 25e-3;
const TALLEST_WAVELENGTHS = 0.625;
const ELEVATIONS_DEG: readonly number[] = [10, 25, 45];

/** What `plan` computes from, what it assumed, and the bands it cannot compute. */
export interface PreparedPlan {
  readonly request: PlanRequest;
  readonly lot: Lot;
  readonly area: FreeArea;
  readonly notes: readonly string[];
  readonly tooTall: readonly { readonly band: string; readonly frequencyHz: number }[];
}

/**
 * Turns site and options into a plan's request, and asks for what is missing.
 * @throws UserError `plan-needs` naming the field of the site, and as the parts it reads
 */
export function preparePlan(planned: PlannedSite, options: PlanOptions): PreparedPlan {
  const { site, laid } = planned;
  const { antenna, radials, soil } = site;
  const lot = needed(site.lot, 'lot', "the lot's outline and the antenna's base");
  const heightM = needed(antenna.heightM, 'antenna.height', "the antenna's height, such as 10.1m");
  const ground = needed(soil, 'soil', 'the soil, such as "average"');
  const notes: string[] = [];
  const wireDiameterM =
    radials?.diameterM ?? assume(notes, 'radials.diameter', ASSUMED_WIRE_DIAMETER_M, site.units);
  const elementDiameterM =
    antenna.diameterM ?? assume(notes, 'antenna.diameter', ASSUMED_ELEMENT_DIAMETER_M, site.units);
  const bands = plannedBands(site, options).map((band) => ({
    band: band.band,
    frequencyHz: bandCentreHz(band),
  }));
  const fits = ({ frequencyHz }: { frequencyHz: number }): boolean =>
    heightM <= TALLEST_WAVELENGTHS * wavelengthM(frequencyHz);
  const tooTall = bands.filter((band) => !fits(band));
  if (tooTall.length === bands.length) {
    throw needs(
      'antenna.bands',
      `a band on which ${formatLength(heightM, site.units)} is at most 5/8 wavelength`,
    );
  }
  const wire = wireAtHand(planned, options);
  const { stockM, allowanceM } = wire;
  notes.push(...wire.notes);
  const wanted = parseWanted(options, site.units);
  if (wanted === null && stockM === null) {
    throw needs('stock', 'the wire at hand (or --stock 2x25m, or --count with --length)');
  }
  const area = freeArea(lot);
  return {
    lot,
    area,
    notes,
    tooTall,
    request: {
      area,
      setting: {
        monopole: { heightM, radiusM: elementDiameterM / 2 },
        soil: ground,
        wireRadiusM: wireDiameterM / 2,
        radiationResistanceOhm: antenna.radiationResistanceOhm ?? undefined,
        bands: bands.filter(fits),
      },
      stockM,
      allowanceM,
      units: site.units,
      wanted,
      compared: (options.compare ?? []).map((text) => parseField(text, '--compare', MOST_RADIALS)),
      laid,
      elevationsDeg: options.elevation?.map(parseElevation) ?? ELEVATIONS_DEG,
    },
  };
}

/** The bands that count: the command line's, else the site's. */
export function plannedBands(site: Site, options: PlanOptions): Band[] {
  const names = options.band ?? site.antenna.bands;
  if (names.length === 0) throw needs('antenna.bands', 'at least one band, such as "40m"');
  return names.map((name) => bandAsked(name, site.region, site.bandEdges));
}

/** Wire to plan with, and what each radial takes of it beyond its route. */
interface WireAtHand {
  /** Single lengths; null when neither site nor command line names any. */
  readonly stockM: readonly number[] | null;
  readonly allowanceM: number;
  readonly notes: readonly string[];
}

/**
 * The stock of the command line as it stands; that of the site less what the journal says was laid of it.
 * @throws UserError `plan-stock-short`, `plan-stock-used`, `plan-allowance`
 */
export function wireAtHand({ site, cutFromStock }: PlannedSite, options: PlanOptions): WireAtHand {
  const allowanceM =
    options.allowance === undefined
      ? ALLOWANCE_M
      : notNegative(parseQuantity(options.allowance, 'length', '--allowance'), options.allowance);
  const leastM = options.count === undefined ? SHORTEST_STRAIGHT_M + allowanceM : 0;
  if (options.stock !== undefined) {
    const stockM = stockLengths(options.stock.map((text) => parseField(text, '--stock')));
    if (Math.max(...stockM) < leastM) {
      const message = `needs a piece of at least ${formatLength(leastM, site.units, 2)}`;
      throw new UserError('plan-stock-short', message, { kind: 'command-line', place: { field: '--stock' } });
    }
    return { stockM, allowanceM, notes: [] };
  }
  if (site.stock.length === 0) return { stockM: null, allowanceM, notes: [] };
  const bought = stockLengths(site.stock);
  if (cutFromStock.length === 0) return { stockM: bought, allowanceM, notes: [] };
  const { stockM, fromElsewhere } = stockLeft(bought, cutFromStock, allowanceM);
  const length = (piecesM: readonly number[]): string =>
    formatLength(
      piecesM.reduce((sum, each) => sum + each, 0),
      site.units,
    );
  const laid = plural(cutFromStock.length, 'laid radial');
  if (Math.max(0, ...stockM) < leastM) {
    throw new UserError(
      'plan-stock-used',
      `${laid} used up the ${length(bought)} that site.json names: add what you bought since, or tell what is at hand with --stock`,
      { place: { field: 'stock' } },
    );
  }
  const notes = [
    `the stock in site.json is ${length(bought)}; ${laid} took some of it and ${length(stockM)} are left (if site.json tells what is left now, say so with --stock)`,
  ];
  if (fromElsewhere > 0)
    notes.push(`${plural(fromElsewhere, 'laid radial')} cannot have come from that stock`);
  return { stockM, allowanceM, notes };
}

/** A value the plan cannot do without. */
export function needed<T>(value: T | null, field: string, what: string): T {
  if (value === null) throw needs(field, what);
  return value;
}

/** The error that asks for what a site does not hold yet. */
export function needs(field: string, what: string): UserError {
  return new UserError('plan-needs', `plan needs ${what}`, { place: { field } });
}

/** Takes a usual figure for one that hardly matters, and says so. */
export function assume(notes: string[], field: string, diameterM: number, units: UnitSystem): number {
  notes.push(
    `${field} is not in the site: ${formatDiameter(diameterM, units)} assumed; it hardly moves the loss`,
  );
  return diameterM;
}

/** More wires than any field has: a slip of the keys would fill the memory. */
const MOST_WIRES = 1000;

/** `16x10m` as a count and a length. */
export function parseField(text: string, option: string, most: number = MOST_WIRES): WantedField {
  const match = /^(\d{1,9})\s*[x×]\s*(.+)$/iu.exec(text.trim());
  if (match === null || Number(match[1]) < 1 || Number(match[1]) > most) {
    throw new UserError(
      'plan-field-unclear',
      `needs a count from 1 to ${most} and a length such as 16x10m, got ${quoted(text)}`,
      { kind: 'command-line', place: { field: option } },
    );
  }
  return {
    count: Number(match[1]),
    lengthM: positive(parseQuantity(match[2] as string, 'length', option), match[2] as string, option),
  };
}

function parseWanted({ count, length }: PlanOptions, units: UnitSystem): WantedField | null {
  if (count === undefined && length === undefined) return null;
  if (count === undefined || length === undefined) {
    throw new UserError('plan-half-wanted', '--count and --length go together', { kind: 'command-line' });
  }
  const wanted = parseField(`${count}x${length}`, '--count, --length', MOST_RADIALS);
  if (wanted.lengthM >= SHORTEST_STRAIGHT_M) return wanted;
  const least = formatLength(SHORTEST_STRAIGHT_M, units);
  throw new UserError('plan-length-short', `needs at least ${least} a radial, got ${quoted(length)}`, {
    kind: 'command-line',
    place: { field: '--length' },
  });
}

function parseElevation(text: string): number {
  const elevationDeg = parseQuantity(text, 'angle', '--elevation');
  if (elevationDeg > 0 && elevationDeg < 90) return elevationDeg;
  throw new UserError('plan-elevation', `needs an angle above 0deg and below 90deg, got ${quoted(text)}`, {
    kind: 'command-line',
    place: { field: '--elevation' },
  });
}

function positive(lengthM: number, text: string, field: string): number {
  if (lengthM > 0) return lengthM;
  throw new UserError('plan-length-zero', `needs a length above 0, got ${quoted(text)}`, {
    kind: 'command-line',
    place: { field },
  });
}

function notNegative(lengthM: number, text: string): number {
  if (lengthM >= 0) return lengthM;
  throw new UserError('plan-allowance', `needs a length of 0 or more, got ${quoted(text)}`, {
    kind: 'command-line',
    place: { field: '--allowance' },
  });
}
