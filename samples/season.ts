/**
 * The invented story behind the demo: two seasons on a narrow plot between a lake and a shed. Nobody measured
 * these data; `make.ts` computes them from the truth written here, which the tool never sees.
 */

/** How a sweep file is laid out, on purpose as differently as people's files are. */
export type Layout =
  | 'own-csv'
  | 'semicolon-comma'
  | 'touchstone-ri'
  | 'touchstone-z'
  | 'tab-db-phase'
  | 'utf16-magnitude-phase'
  | 'no-header';

export interface SeasonVisit {
  readonly at: string;
  /** Planned radials (numbers of the plan) that are laid just before this visit. */
  readonly laid: readonly number[];
  /** Volumetric moisture of the soil, 0 to 1: the truth, and, to 1 %, what is noted. */
  readonly moisture: number;
  readonly temperatureC: number;
  /** Resistance of the joint between plate and strap, ohm: the truth. */
  readonly jointOhm: number;
  readonly layout: Layout;
  /** Received strength at a place, dB, as a friend reads it; empty when nobody stood there. */
  readonly strength: readonly { readonly place: string; readonly db: number }[];
}

/** Every radial of the plan gets this much wire where the plot allows it, m. */
export const RADIAL_LENGTH_M = 7;
export const RADIAL_COUNT = 32;
export const BEGUN = '2024-03-30T10:00:00+01:00';

/** Planned numbers taken so that every handful is spread all round: 4, 8, 12, 16, 24, 32. */
const handful = (start: number, step: number): number[] =>
  Array.from({ length: Math.floor((RADIAL_COUNT - start) / step) + 1 }, (_, i) => start + i * step);

export const SEASON: readonly SeasonVisit[] = [
  visit('2024-04-06T11:00:00+01:00', handful(1, 8), 0.28, 9, 0.02, 'own-csv', -31.6, -34.9),
  visit('2024-04-20T11:30:00+01:00', handful(5, 8), 0.27, 11, 0.02, 'semicolon-comma', -29.9, -33.4),
  visit('2024-05-11T16:00:00+01:00', handful(3, 8), 0.25, 15, 0.02, 'touchstone-ri', -29.2, -32.5),
  visit('2024-06-08T10:00:00+01:00', handful(7, 8), 0.22, 18, 0.02, 'tab-db-phase', -28.7, -32.1),
  visit('2024-07-27T18:00:00+01:00', [], 0.09, 27, 0.02, 'own-csv'),
  visit('2024-09-14T15:00:00+01:00', handful(2, 4), 0.22, 16, 0.02, 'touchstone-z', -28.0, -31.5),
  visit('2024-10-05T14:00:00+01:00', handful(4, 4), 0.25, 12, 0.02, 'utf16-magnitude-phase', -27.8, -31.2),
  visit('2024-11-02T13:00:00+00:00', [], 0.29, 8, 0.02, 'own-csv'),
  visit('2024-12-07T12:30:00+00:00', [], 0.31, 4, 0.02, 'no-header'),
  visit('2025-02-01T13:00:00+00:00', [], 0.32, 3, 0.02, 'own-csv'),
  visit('2025-04-05T11:00:00+01:00', [], 0.27, 10, 0.03, 'own-csv'),
  visit('2025-06-14T17:00:00+01:00', [], 0.2, 19, 0.03, 'touchstone-ri'),
  visit('2025-09-06T16:00:00+01:00', [], 0.21, 17, 0.03, 'own-csv'),
  visit('2025-11-08T13:00:00+00:00', [], 0.3, 7, 0.05, 'own-csv'),
  visit('2026-01-10T12:00:00+00:00', [], 0.31, 2, 2.4, 'own-csv'),
  visit('2026-02-14T12:30:00+00:00', [], 0.3, 4, 6.1, 'own-csv'),
];

function visit(
  at: string,
  laid: readonly number[],
  moisture: number,
  temperatureC: number,
  jointOhm: number,
  layout: Layout,
  benchDb?: number,
  gateDb?: number,
): SeasonVisit {
  const strength = [
    ...(benchDb === undefined ? [] : [{ place: 'bench', db: benchDb }]),
    ...(gateDb === undefined ? [] : [{ place: "neighbour's gate", db: gateDb }]),
  ];
  return { at, laid, moisture, temperatureC, jointOhm, layout, strength };
}

/** The name of a shot's file, without its ending: `2024-04-06-shot1`. */
export function shotName(visitOfSeason: SeasonVisit, shot: number): string {
  return `${visitOfSeason.at.slice(0, 10)}-shot${shot}`;
}
