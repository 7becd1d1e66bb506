import { describe, expect, it } from 'vitest';
import { describePlace, UserError } from '../../../src/core/user-error.ts';
import { migrate, parseSite } from '../../../src/logbook/site-file.ts';
import { expectClose } from '../../support/expect-close.ts';

const MINIMAL = { version: 1, name: 'Lakeside', antenna: { kind: 'quarter-wave' } };

const FULL = {
  ...MINIMAL,
  units: 'imperial',
  region: 2,
  antenna: {
    kind: 'quarter-wave',
    height: '33ft',
    diameter: '25mm',
    bands: ['40m', '15'],
    baseHeight: '0m',
    radiationResistance: '36.5ohm',
  },
  radials: { diameter: '14AWG', insulated: true, metal: 'copper', depth: '20mm', count: 24, length: '6m' },
  soil: { conductivity: '5mS/m', permittivity: 13 },
  lot: {
    outline: [
      ['0m', '0m'],
      ['40ft', '0m'],
      ['12m', '-9m'],
    ],
    base: ['9m', '-4m'],
    north: '15deg',
    obstacles: [
      {
        name: 'shed',
        kind: 'building',
        outline: [
          ['1m', '1m'],
          ['2m', '1m'],
          ['2m', '2m'],
        ],
        clearance: '0.3m',
      },
    ],
    places: [{ name: 'bench', at: ['9m', '2m'] }],
  },
  stock: [{ length: '25m', count: 2 }],
  feedline: { type: 'RG-58', length: '12m', loss: [{ frequency: '10MHz', per100ft: '1.4dB' }] },
  instrument: { reference: '50ohm', reflectionUncertainty: 0.005, phaseUncertainty: '0.5deg' },
  joints: [{ name: 'plate to strap', metals: ['copper', 'stainless-18-8'] }],
  transmit: [{ band: '40m', peakPower: '0.1kW', mode: 'ssb', onAirFraction: 0.5 }],
  limits: 'fcc-general',
  worthwhile: '0.25dB',
  bandEdges: { '40m': ['7MHz', '7250kHz'] },
};

const site = (value: unknown) => parseSite(JSON.stringify(value, null, 2), 'site.json');

/** Everything the refusal tells, place and message. */
function refusal(value: unknown): string {
  try {
    typeof value === 'string' ? parseSite(value, 'site.json') : site(value);
  } catch (error) {
    if (error instanceof UserError) return describePlace(error.place) + error.message;
    throw error;
  }
  return 'accepted';
}

/** The full site with one place changed. */
function changed(path: readonly (string | number)[], value: unknown): unknown {
  const copy = structuredClone(FULL);
  let here: Record<string | number, unknown> = copy;
  for (const key of path.slice(0, -1)) here = here[key] as Record<string | number, unknown>;
  here[path.at(-1) as string] = value;
  return copy;
}

describe('site.json', () => {
  it('needs only a version, a name and an antenna; what is missing is null or empty, never guessed', () => {
    expect(site(MINIMAL)).toMatchObject({
      units: 'metric',
      region: null,
      antenna: { heightM: null, diameterM: null, bands: [] },
      radials: null,
      soil: null,
      lot: null,
      stock: [],
      feedline: null,
      limits: null,
      worthwhileDb: null,
    });
    expect(refusal({ version: 1 })).toMatch(/name: is required.*\n.*antenna: is required/u);
  });

  it('turns every quantity into SI', () => {
    const read = site(FULL);
    expectClose(read.antenna.heightM, 10.0584, { absolute: 1e-12 });
    expectClose(read.radials?.diameterM, 1.628e-3, { absolute: 1e-6 });
    expect(read.soil).toEqual({ name: null, conductivitySPerM: 0.005, relativePermittivity: 13 });
    expectClose(read.lot?.outline[1]?.[0], 12.192, { absolute: 1e-12 });
    expectClose(read.feedline?.loss[0]?.dbPer100M, 4.593, { absolute: 1e-3 });
    expect(read.transmit[0]?.peakPowerW).toBe(100);
    expect(read.bandEdges).toEqual({ '40m': [7e6, 7.25e6] });
    expect(read.antenna.bands).toEqual(['40m', '15m']);
  });

  it('takes a named soil with its figures', () => {
    expect(site({ ...MINIMAL, soil: 'average' }).soil).toEqual({
      name: 'average',
      conductivitySPerM: 0.005,
      relativePermittivity: 13,
    });
    expect(refusal({ ...MINIMAL, soil: 'averge' })).toContain('did you mean "average"?');
  });

  it.each<[string, readonly (string | number)[], unknown, string]>([
    [
      'a key that is nearly right',
      ['antenna', 'heigth'],
      '10m',
      'antenna.heigth: unknown key, did you mean "height"?',
    ],
    [
      'a key deep inside',
      ['lot', 'places', 0, 'hight'],
      '1m',
      'lot.places[0].hight: unknown key, did you mean "height"?',
    ],
    ['a key that only JavaScript knows', ['constructor'], 1, 'constructor: unknown key'],
    [
      'a key that the program has no need of',
      ['radials', 'velocityFactor'],
      0.95,
      'radials.velocityFactor: unknown key: the program computes it from the wire',
    ],
    [
      'a bare number',
      ['antenna', 'height'],
      10.1,
      'antenna.height: needs a unit, such as 10.1m or 33ft, got "10.1"',
    ],
    ['a bare number as text', ['lot', 'outline', 1, 0], '5', 'lot.outline[1][0]: needs a unit'],
    ['an unknown unit', ['worthwhile'], '3furlong', 'worthwhile: unit "furlong" is not one of'],
    ['a unit where none belongs', ['soil', 'permittivity'], '13F/m', 'soil.permittivity: needs a number'],
    [
      'a height with the wrong unit',
      ['antenna', 'height'],
      '10km',
      'antenna.height: must be more than zero and at most 300 m (984 ft), got "10km"',
    ],
    [
      'a mast as thick as a house',
      ['antenna', 'diameter'],
      '25m',
      'antenna.diameter: must be more than zero',
    ],
    [
      'a base in the clouds',
      ['antenna', 'baseHeight'],
      '301m',
      'baseHeight: must be zero or more and at most',
    ],
    ['a radial of a mile', ['radials', 'length'], '5280ft', 'radials.length: must be more than zero and at'],
    ['a wire of metres', ['radials', 'diameter'], '1.6m', 'radials.diameter: must be more than zero and at'],
    ['a wire in a mine', ['radials', 'depth'], '20m', 'radials.depth: must be zero or more and at most 2 m'],
    ['a reel round the town', ['stock', 0, 'length'], '25km', 'stock[0].length: must be more than zero and'],
    ['a line between towns', ['feedline', 'length'], '12km', 'feedline.length: must be zero or more and at'],
    [
      'a corner out of sight',
      ['lot', 'outline', 1, 0],
      '-40km',
      'lot.outline[1][0]: must be within 10 km (32800 ft) of the corner, got "-40km"',
    ],
    [
      'a clearance wider than a lot',
      ['lot', 'obstacles', 0, 'clearance'],
      '300m',
      'clearance: must be zero or more and at most 100 m',
    ],
    [
      'a place above the masts',
      ['lot', 'places', 0, 'height'],
      '2km',
      'lot.places[0].height: must be zero or more and at most 300 m',
    ],
    ['a height of zero', ['antenna', 'height'], '0m', 'antenna.height: must be more than zero'],
    [
      'a negative height',
      ['lot', 'places', 0, 'height'],
      '-1m',
      'lot.places[0].height: must be zero or more',
    ],
    [
      'a fraction above one',
      ['transmit', 0, 'onAirFraction'],
      1.2,
      'transmit[0].onAirFraction: must be from 0 to 1',
    ],
    [
      'a reference of zero',
      ['instrument', 'reference'],
      '0ohm',
      'instrument.reference: must be more than zero',
    ],
    ['half a radial', ['radials', 'count'], 2.5, 'radials.count: must be a whole number'],
    ['a negative soil', ['soil', 'conductivity'], '-5mS/m', 'soil.conductivity: must be zero or more'],
    ['a zero stock', ['stock', 0, 'count'], 0, 'stock[0].count: must be from 1 to 1000'],
    ['an unknown band', ['transmit', 0, 'band'], '41m', 'transmit[0].band: band "41m" is not one of'],
    [
      'an unknown cable without figures',
      ['feedline'],
      { type: 'X-1', length: '5m' },
      'feedline: type "X-1" is not one of',
    ],
    ['a corner with one coordinate', ['lot', 'base'], ['4m'], 'lot.base: needs two lengths'],
    ['an unknown mode', ['transmit', 0, 'mode'], 'sbb', 'did you mean "ssb"'],
    ['an unknown metal', ['joints', 0, 'metals', 0], 'coper', 'joints[0].metals[0]: needs one of'],
    ['unknown limits', ['limits'], 'fcc-genral', 'did you mean "fcc-general"'],
    ['falling band edges', ['bandEdges', '40m'], ['7.2MHz', '7MHz'], 'bandEdges.40m: needs two rising'],
    [
      'a building of two corners',
      ['lot', 'obstacles', 0, 'outline'],
      [
        ['0m', '0m'],
        ['1m', '1m'],
      ],
      'needs at least 3 corners',
    ],
    [
      'a pipe typed as an area',
      ['lot', 'obstacles', 0],
      {
        name: 'main',
        kind: 'service',
        outline: [
          ['0m', '1m'],
          ['5m', '1m'],
          ['5m', '0m'],
          ['2m', '2m'],
        ],
      },
      'the course of a pipe, a cable or a path goes under "line"',
    ],
    [
      'a building told as a line',
      ['lot', 'obstacles', 0],
      {
        name: 'shed',
        kind: 'building',
        line: [
          ['0m', '1m'],
          ['5m', '1m'],
        ],
      },
      'lot.obstacles[0].line: is for a service or a path',
    ],
    [
      'an outline and a line of one thing',
      ['lot', 'obstacles', 0],
      {
        name: 'main',
        kind: 'service',
        line: [
          ['0m', '1m'],
          ['5m', '1m'],
        ],
        outline: [
          ['0m', '1m'],
          ['5m', '1m'],
        ],
      },
      'lot.obstacles[0].line: stands in for "outline"',
    ],
    [
      'an obstacle that is nowhere',
      ['lot', 'obstacles', 0],
      { name: 'main', kind: 'service' },
      'lot.obstacles[0].outline: is required and missing',
    ],
    ['a list for an object', ['antenna'], [], 'antenna: must be an object'],
    ['a word for a flag', ['radials', 'insulated'], 'yes', 'radials.insulated: must be true or false'],
  ])('refuses %s, naming the field', (_title, path, value, expected) => {
    expect(refusal(changed(path, value))).toContain(expected);
  });

  it('tells every problem at once, each with its line', () => {
    const told = refusal(
      '{ "version": 1, "name": "x",\n"antenna": { "kind": "other",\n"hight": 1 },\n"zoil": 2 }',
    );
    expect(told).toContain('site.json:3: antenna.hight: unknown key');
    expect(told).toContain('site.json:4: zoil: unknown key, did you mean "soil"?');
  });

  it('refuses two places or joints of one name, which no verdict and no note could tell apart', () => {
    const [place, joint] = [FULL.lot.places[0], FULL.joints[0]];
    const twice = (name: string) => ({
      ...FULL,
      lot: { ...FULL.lot, places: [place, { ...place, name }] },
      joints: [joint, { ...joint, name: 'Plate to strap ' }],
    });
    expect(refusal(JSON.stringify(twice('Bench'), null, 1))).toMatch(
      /lot\.places\[1\]\.name: needs a name of its own, got that of lot\.places\[0\], "Bench".*joints\[1\]\.name: needs/su,
    );
    expect(refusal(JSON.stringify(twice('seat')))).not.toContain('lot.places');
  });

  it('refuses a newer version by name, before it judges its keys', () => {
    const told = refusal({ version: 2, name: 'x', surprise: true });
    expect(told).toContain('version 2');
    expect(told).not.toContain('surprise');
  });

  it('brings an older version up to date step by step', () => {
    const steps = {
      1: (older: object) => ({ ...older, version: 2, moved: true }),
      2: (older: object) => ({ ...older, version: 3 }),
    };
    expect(migrate({ version: 1, name: 'x' }, 'site.json', steps, 3)).toEqual({
      version: 3,
      name: 'x',
      moved: true,
    });
  });

  it.each([
    ['', 'site.json:1:1: this is not JSON'],
    ['{\n  "version": 1,\n  "name": "x",\n}', 'site.json:4:1: this is not JSON'],
    ['{ "version": 1 // one\n}', 'site.json:1:16: this is not JSON'],
    ['{ "version": 1,\n "name": "a", "name": "b" }', '"name" appears twice'],
    [`${'['.repeat(5000)}${']'.repeat(5000)}`, 'levels of brackets'],
  ])('points at what is no JSON: %#', (text, expected) => {
    expect(refusal(text)).toContain(expected);
  });
});
