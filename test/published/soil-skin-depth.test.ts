/**
 * Source: the skin depth of average soil (0.005 S/m, εr 13) from 0.5 to 16 MHz as radio handbooks print it.
 * Status: published, and computed from the propagation constant of a plane wave, δ = 1/Re √(jωμ0(σ + jωε0εr)).
 * Source: ARRL, The ARRL Antenna Book, table of terrain types: very good, average, rocky, sandy, city, fresh water,
 * sea. Status: published.
 * Source: ITU-R P.527, Electrical characteristics of the surface of the Earth: wet, medium dry and very dry ground.
 * Status: memory.
 *
 * Tolerance: half the printed digit, 0.05 m; none for the table of soils.
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
