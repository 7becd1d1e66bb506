/**
 * Skin depth of average soil (0.005 S/m, εr 13): handbook table, published, and computed from the plane
 * wave's propagation constant. Tolerance: half the printed digit, 0.05 m.
 * Named soils: terrain table of the ARRL type (published) and ITU-R P.527 (memory).
 */
import { describe, test } from 'vitest';
import { findSoil } from '../../src/core/ground/named-soils.ts';
import { soilSkinDepthM } from '../../src/core/ground/soil.ts';
import { expectClose } from '../support/expect-close.ts';

describe('average soil', () => {
  test.each([
    [0.5, 10.4],
    [1, 7.6],
    [2, 5.8],
    [4, 4.7],
    [6.9, 4.2],
    [8, 4.1],
    [16, 3.9],
  ])('%f MHz: %f m', (megahertz, depth) => {
    const average = { conductivitySPerM: 0.005, relativePermittivity: 13 };
    expectClose(soilSkinDepthM(average, megahertz * 1e6), depth, { absolute: 0.051 });
  });
});

describe('named soils', () => {
  test.each([
    ['very-good', 0.0303, 20],
    ['average', 0.005, 13],
    ['rocky', 0.002, 13],
    ['sandy', 0.002, 10],
    ['city', 0.001, 5],
    ['fresh-water', 0.001, 80],
    ['sea', 5, 81],
    ['wet', 1e-2, 30],
    ['medium-dry', 1e-3, 15],
    ['very-dry', 1e-4, 3],
  ])('%s: %f S/m, %f', (name, conductivity, permittivity) => {
    expectClose(findSoil(name)?.conductivitySPerM, conductivity, { relative: 0 });
    expectClose(findSoil(name)?.relativePermittivity, permittivity, { relative: 0 });
  });
});
