import { describe, expect, it } from 'vitest';
import { asBearing, bearingsBetween } from '../../../../src/core/layout/bearings.ts';

describe('bearings between', () => {
  it.each<[number, number, number, number[]]>([
    [0, 270, 4, [0, 90, 180, 270]],
    [0, 360, 4, [0, 90, 180, 270]],
    [45, 45, 2, [45, 225]],
    [350, 10, 3, [350, 0, 10]],
    [0, 90, 1, [45]],
    [0, 360, 1, [0]],
  ])('spreads from %f to %f over %i radials', (from, to, count, expected) => {
    expect(bearingsBetween(from, to, count)).toEqual(expected);
  });

  it('brings any angle to a bearing from 0 to below 360', () => {
    expect([asBearing(-90), asBearing(360), asBearing(725)]).toEqual([270, 0, 5]);
  });
});
