import { wavelengthM } from '../core/ground/free-space.ts';
import { statedResistance } from '../core/ground/stated-resistance.ts';
import { MOST_RADIALS } from '../core/layout/budget.ts';
import { type FreeArea, freeArea } from '../core/layout/free-area.ts';
import { meanWidthM } from '../core/layout/outline.ts';
import type { PlanRequest, WantedField } from '../core/layout/plan.ts';
import { SHORTEST_STRAIGHT_M } from '../core/layout/route.ts';
import { formatDiameter, formatLength, parseQuantity, type UnitSystem } from '../core/quantity.ts';
import { quoted } from '../core/quoted.ts';
import { unmatchedBands } from '../core/safety/transmissions.ts';
import type { Lot, Site } from '../core/site.ts';
import { type Band, bandCentreHz } from '../core/sweep/bands.ts';
import { UserError } from '../core/user-error.ts';
import { listed } from '../formats/words.ts';
import { bandAsked } from './placed-at.ts';
import type { PlannedSite, PlanOptions } from './plan-options.ts';
import { parseField, wireAtHand } from './plan-wire.ts';

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
    stated: statedResistance(site, band),
  }));
  notes.push(...new Set(bands.flatMap(({ stated }) => stated.note ?? [])));
  const fits = ({ frequencyHz }: { frequencyHz: number }): boolean =>
    heightM <= TALLEST_WAVELENGTHS * wavelengthM(frequencyHz);
  const tooTall = bands.filter((band) => !fits(band));
  if (tooTall.length === bands.length) {
    throw needs(
      'antenna.bands',
      `a band on which ${formatLength(heightM, site.units)} is at most 5/8 wavelength`,
    );
  }
  notes.push(...bandNotes(site, options));
  const wire = wireAtHand(planned, options);
  const { stockM, allowanceM } = wire;
  notes.push(...wire.notes);
  const wanted = parseWanted(options, site.units);
  if (wanted === null && stockM === null) {
    throw needs('stock', 'the wire at hand (or --stock 2x25m, or --count with --length)');
  }
  const area = freeArea(lot);
  notes.push(...serviceNotes(lot, site.units));
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
        bands: bands.filter(fits).map(({ band, frequencyHz, stated }) => ({
          band,
          frequencyHz,
          radiationResistanceOhm: stated.radiationResistanceOhm ?? undefined,
        })),
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

/** The bands that the site names to send on and the plan says nothing of; none where the command line chose the bands. */
export function bandNotes(site: Site, { band }: PlanOptions): string[] {
  const { onlyTransmit } = unmatchedBands(site);
  if (band !== undefined || onlyTransmit.length === 0) return [];
  const names = listed(onlyTransmit);
  return [
    `the site sends on ${names} (transmit), which antenna.bands does not name: the plan is made for antenna.bands alone (--band plans for others)`,
  ];
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
    `the site does not give ${field}: ${formatDiameter(diameterM, units)} is assumed, which hardly changes the loss`,
  );
  return diameterM;
}

/** No pipe or cable is so wide, m. */
const WIDEST_LINE_M = 0.5;

/** A service that is told as an area, where the way of a pipe or a cable may be meant. */
function serviceNotes({ obstacles }: Lot, units: UnitSystem): string[] {
  return obstacles
    .filter(({ kind, isLine }) => kind === 'service' && isLine !== true)
    .map(({ name, outline }) => ({ name, widthM: meanWidthM(outline) }))
    .filter(({ widthM }) => widthM > WIDEST_LINE_M)
    .map(
      ({ name, widthM }) =>
        `"${name}" is kept clear as an area about ${formatLength(widthM, units)} across; if it is a pipe or a cable, give its course under "line" instead of "outline"`,
    );
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
