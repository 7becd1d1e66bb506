import type { LimitRange, LimitSet, PowerLaw } from './limits.ts';

/** When the table below was last compared with its sources. */
export const LIMITS_DATE = '2026-11-25';

const NERVE_PUBLIC: readonly LimitRange[] = [row(0.003, 10, [83, 0], [21, 0], null, 'memory')];
const NERVE_INFORMED: readonly LimitRange[] = [row(0.003, 10, [170, 0], [80, 0], null, 'memory')];

const FCC_SOURCE = '47 CFR 1.1310(e)(1), table 1 (85 FR 18145, 1 April 2020)';
const ICNIRP_SOURCE =
  'ICNIRP, Health Physics 118(5), 483-524 (2020), table 5, whole body; with it, as it asks, ICNIRP, Health Physics 99(6), 818-836 (2010) below 10 MHz';
const CANADA_SOURCE = 'Health Canada, Safety Code 6 (2015), ISBN 978-0-660-02466-0';

/**
 * The sets of limits that the program knows. Rows that were read in the source are `published`, rows
 * recalled are `memory`; check those against the local rule before relying on them.
 *
 * ICNIRP 2020 gives no power density at or below 30 MHz: there the two fields decide.
 * ICNIRP 2020 covers heating alone and leaves nerve stimulation below 10 MHz to ICNIRP 2010, whose levels
 * (83 and 170 V/m; 27 and 100 µT, as 21 and 80 A/m) hold at every moment, so they stand beside it.
 */
export const LIMIT_SETS: readonly LimitSet[] = [
  {
    id: 'fcc-general',
    title: 'FCC, general population (uncontrolled)',
    covers: 'public',
    averagingMinutes: 30,
    averaged: [
      row(0.3, 1.34, [614, 0], [1.63, 0], [1000, 0], 'published'),
      row(1.34, 30, [824, -1], [2.19, -1], [1800, -2], 'published'),
      row(30, 300, [27.5, 0], [0.073, 0], [2, 0], 'published'),
    ],
    instantaneous: [],
    contactCurrent: null,
    source: FCC_SOURCE,
  },
  {
    id: 'fcc-controlled',
    title: 'FCC, occupational (controlled)',
    covers: 'informed',
    averagingMinutes: 6,
    averaged: [
      row(0.3, 3, [614, 0], [1.63, 0], [1000, 0], 'published'),
      row(3, 30, [1842, -1], [4.89, -1], [9000, -2], 'published'),
      row(30, 300, [61.4, 0], [0.163, 0], [10, 0], 'published'),
    ],
    instantaneous: [],
    contactCurrent: null,
    source: FCC_SOURCE,
  },
  {
    id: 'icnirp-2020-general',
    title: 'ICNIRP 2020, general public',
    covers: 'public',
    averagingMinutes: 30,
    averaged: [
      row(0.1, 30, [300, -0.7], [2.2, -1], null, 'published'),
      row(30, 400, [27.7, 0], [0.073, 0], [2, 0], 'published'),
    ],
    instantaneous: NERVE_PUBLIC,
    contactCurrent: { fromMhz: 0.1, toMhz: 10, currentA: 0.02 },
    source: ICNIRP_SOURCE,
  },
  {
    id: 'icnirp-2020-occupational',
    title: 'ICNIRP 2020, occupational',
    covers: 'informed',
    averagingMinutes: 30,
    averaged: [
      row(0.1, 30, [660, -0.7], [4.9, -1], null, 'memory'),
      row(30, 400, [61, 0], [0.16, 0], [10, 0], 'memory'),
    ],
    instantaneous: NERVE_INFORMED,
    contactCurrent: { fromMhz: 0.1, toMhz: 10, currentA: 0.04 },
    source: ICNIRP_SOURCE,
  },
  {
    id: 'safety-code-6-uncontrolled',
    title: 'Safety Code 6 (2015), uncontrolled',
    covers: 'public',
    averagingMinutes: 6,
    averaged: [
      row(1.1, 10, [87, -0.5], null, null, 'memory'),
      row(0.1, 10, null, [0.73, -1], null, 'memory'),
      row(10, 20, [27.46, 0], [0.0728, 0], [2, 0], 'memory'),
      row(20, 48, [58.07, -0.25], [0.154, -0.25], [8.944, -0.5], 'memory'),
      row(48, 300, [22.06, 0], [0.05852, 0], [1.291, 0], 'memory'),
    ],
    instantaneous: [row(0.003, 10, [83, 0], [90, 0], null, 'memory')],
    contactCurrent: null,
    source: CANADA_SOURCE,
  },
  {
    id: 'safety-code-6-controlled',
    title: 'Safety Code 6 (2015), controlled',
    covers: 'informed',
    averagingMinutes: 6,
    averaged: [
      row(1.29, 10, [193, -0.5], null, null, 'memory'),
      row(0.1, 10, null, [1.6, -1], null, 'memory'),
      row(10, 20, [61.4, 0], [0.163, 0], [10, 0], 'memory'),
      row(20, 48, [129.8, -0.25], [0.3444, -0.25], [44.72, -0.5], 'memory'),
      row(48, 100, [49.33, 0], [0.1309, 0], [6.455, 0], 'memory'),
    ],
    instantaneous: [row(0.003, 10, [170, 0], [180, 0], null, 'memory')],
    contactCurrent: null,
    source: CANADA_SOURCE,
  },
  {
    id: 'eu-public',
    title: 'EU recommendation, general public',
    covers: 'public',
    averagingMinutes: 6,
    averaged: [
      row(1, 10, [87, -0.5], [0.73, -1], null, 'memory'),
      row(10, 400, [28, 0], [0.073, 0], [2, 0], 'memory'),
    ],
    instantaneous: [],
    contactCurrent: null,
    source: 'Council Recommendation 1999/519/EC, annex III (its peak levels are not used here)',
  },
  {
    id: 'eu-workers',
    title: 'EU directive, workers',
    covers: 'informed',
    averagingMinutes: 6,
    averaged: [
      row(1, 3.59, [610, -1], null, null, 'memory'),
      row(3.59, 10, [610, -1], null, null, 'published'),
      row(10, 400, [61, 0], null, null, 'published'),
      row(0.1, 10, null, [1.6, -1], null, 'memory'),
      row(10, 400, null, [0.16, 0], null, 'memory'),
    ],
    instantaneous: [
      row(0.003, 3.59, [170, 0], [80, 0], null, 'published'),
      row(3.59, 10, [170, 0], [80, 0], null, 'memory'),
    ],
    contactCurrent: null,
    source: 'Directive 2013/35/EU, annexes II and III, low action levels; magnetic levels from memory',
  },
];

function row(
  fromMhz: number,
  toMhz: number,
  electricVPerM: PowerLaw | null,
  magneticAPerM: PowerLaw | null,
  powerDensityWPerM2: PowerLaw | null,
  status: 'published' | 'memory',
): LimitRange {
  return { fromMhz, toMhz, electricVPerM, magneticAPerM, powerDensityWPerM2, status };
}
