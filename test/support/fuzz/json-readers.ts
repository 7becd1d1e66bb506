import { readdirSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { fieldStateOfSite } from '../../../src/core/layout/field-state.ts';
import { bandsOfRegion } from '../../../src/core/sweep/bands.ts';
import { UserError } from '../../../src/core/user-error.ts';
import { parsePageData, serialisePageData, unpackVisits } from '../../../src/formats/page-data.ts';
import { fillPlaceholders } from '../../../src/instrument/description/placeholders.ts';
import { PointCollector } from '../../../src/instrument/description/point-collector.ts';
import { parseDescription } from '../../../src/instrument/description/read-description.ts';
import { parseSite } from '../../../src/logbook/site-file.ts';
import { type FuzzedReader, require } from './fuzzed-reader.ts';
import { PAGE_SEED } from './page-seed.ts';

const ROOT = resolve(import.meta.dirname, '../../..');
const DESCRIPTIONS = resolve(ROOT, 'descriptions');

/** Every key of `site.json` at least once. */
const FULL_SITE = {
  version: 1,
  name: 'Lakeside',
  units: 'imperial',
  region: 2,
  antenna: {
    kind: 'other',
    height: '33ft',
    diameter: '1in',
    bands: ['40m'],
    baseHeight: '0m',
    radiationResistance: '30ohm',
  },
  radials: { diameter: '14AWG', insulated: true, metal: 'copper', depth: '20mm', count: 24, length: '6m' },
  soil: { conductivity: '5mS/m', permittivity: 13 },
  lot: {
    outline: [
      ['0m', '0m'],
      ['10m', '0m'],
      ['10m', '20m'],
      ['0m', '20m'],
    ],
    base: ['4m', '6m'],
    north: '0deg',
    obstacles: [
      {
        name: 'pipe',
        kind: 'service',
        outline: [
          ['1m', '1m'],
          ['2m', '1m'],
        ],
        clearance: '0.3m',
      },
    ],
    places: [{ name: 'bench', at: ['9m', '2m'], height: '0m' }],
  },
  stock: [{ length: '25m', count: 2 }],
  feedline: { type: 'RG-58', length: '12m', velocityFactor: 0.66, impedance: '50ohm' },
  instrument: { reference: '50ohm', reflectionUncertainty: 0.005 },
  joints: [{ name: 'plate', metals: ['copper', 'brass'], where: 'outdoor' }],
  transmit: [{ band: '40m', peakPower: '100W', mode: 'ssb', onAirFraction: 0.5 }],
  limits: 'fcc-general',
  worthwhile: '0.25dB',
  bandEdges: { '40m': ['7MHz', '7.3MHz'] },
};

export const siteReader: FuzzedReader = {
  name: 'site',
  isJson: true,
  seeds: [
    Buffer.from(JSON.stringify(FULL_SITE, null, 1)),
    readFileSync(resolve(ROOT, 'samples/site.json')),
    Buffer.from('{"version":1,"name":"x","antenna":{"kind":"quarter-wave"}}'),
  ],
  words: [
    ...wordsOf(FULL_SITE),
    'feedline',
    '0ohm',
    '14 AWG',
    '1e308m',
    '5constructor',
    '6m',
    '-6m',
    '90deg',
  ],
  read: (bytes) => {
    const site = parseSite(textOf(bytes), 'site.json');
    requireFinite(site);
    requireFinite(fieldStateOfSite(site));
    bandsOfRegion(site.region ?? 1, site.bandEdges);
  },
};

export const descriptionReader: FuzzedReader = {
  name: 'description',
  isJson: true,
  seeds: readdirSync(DESCRIPTIONS)
    .filter((file) => file.endsWith('.json'))
    .map((file) => readFileSync(resolve(DESCRIPTIONS, file))),
  words: [
    '{startHz}',
    '{stopMhz}',
    '{points}',
    '{constructor}',
    '{',
    '}',
    'points',
    'line-each',
    'one-line',
    '200ms',
    'swr',
  ],
  read: (bytes) => {
    const description = parseDescription(textOf(bytes), 'mine.json');
    requireFinite(description);
    const grid = { startHz: 7e6, stopHz: 7.2e6, points: 3 };
    for (const { send } of description.sweep) {
      require(!fillPlaceholders(send, grid).includes('[object'), 'a placeholder that is no number');
    }
    const collector = new PointCollector(description.points, grid);
    for (const line of ['7000000,0.1,0.2,3,4', '7e6 1 2', '1;2', '']) collector.take(line);
    collector.finish(description.referenceOhm);
  },
};

export const pageReader: FuzzedReader = {
  name: 'page',
  isJson: true,
  seeds: [Buffer.from(serialisePageData(PAGE_SEED))],
  words: ['version', 'sweeps', 'grids', 'data', 'missing', 'value', 'improved', 'questions'],
  read: (bytes) => {
    const data = parsePageData(textOf(bytes));
    if (!isRefused(() => unpackVisits(data.sweeps))) requireFinite(unpackVisits(data.sweeps));
  },
};

function isRefused(call: () => unknown): boolean {
  try {
    call();
    return false;
  } catch (error) {
    if (error instanceof UserError) return true;
    throw error;
  }
}

/** Every number in a value must be one. */
function requireFinite(value: unknown): void {
  if (typeof value === 'number') require(Number.isFinite(value), 'a number that is none');
  if (typeof value === 'object' && value !== null) Object.values(value).forEach(requireFinite);
}

/** Keys and words of a document. */
function wordsOf(value: unknown): string[] {
  if (typeof value === 'string') return [value];
  if (typeof value !== 'object' || value === null) return [];
  return [...(Array.isArray(value) ? [] : Object.keys(value)), ...Object.values(value).flatMap(wordsOf)];
}

function textOf(bytes: Uint8Array): string {
  return new TextDecoder().decode(bytes);
}
