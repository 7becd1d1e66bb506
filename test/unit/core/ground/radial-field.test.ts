import { describe, expect, test } from 'vitest';
import { CONDUCTORS, COPPER, findConductor } from '../../../../src/core/ground/conductor.ts';
import { sectorField, uniformField, wireLengthM } from '../../../../src/core/ground/radial-field.ts';
import { fieldRings } from '../../../../src/core/ground/rings.ts';
import { asUniform } from '../../../../src/core/ground/uniform-field.ts';
import { expectClose } from '../../../support/expect-close.ts';
import { userErrorOf } from '../../../support/user-error-of.ts';

const wire = (...route: [number, number][]): { route: [number, number][]; radiusM: number } => ({
  route,
  radiusM: 1e-3,
});

describe('uniformField', () => {
  test('spreads straight wires evenly, the first to the north', () => {
    const { wires } = uniformField(4, 5, 1e-3);
    const ends = wires.map(({ route }) => (route[1] ?? []).map((m) => Math.round(m * 1e9) / 1e9 + 0));
    expect(ends).toEqual([
      [0, 5],
      [5, 0],
      [0, -5],
      [-5, 0],
    ]);
    expect(wires[0]?.conductor).toBe(COPPER);
  });

  test('with none is an empty field', () => {
    expect(uniformField(0, 5, 1e-3).wires).toEqual([]);
  });

  test.each([
    [2.5, 5, 1e-3, 'bad-count', 'radials.count'],
    [-1, 5, 1e-3, 'bad-count', 'radials.count'],
    [4, 0, 1e-3, 'not-positive', 'radials.length'],
    [4, 5, -1e-3, 'not-positive', 'radials.diameter'],
  ])('refuses %f of %f m', (count, length, radius, code, field) => {
    expect(userErrorOf(() => uniformField(count, length, radius))).toEqual([code, field]);
  });
});

describe('sectorField', () => {
  test('lays each wire in the middle of its share', () => {
    const { wires } = sectorField([{ fromDeg: 0, toDeg: 90, count: 2, lengthM: 1 }], 1e-3);
    const bearings = wires.map(
      ({ route }) => (Math.atan2(route[1]?.[0] ?? 0, route[1]?.[1] ?? 0) * 180) / Math.PI,
    );
    expectClose(bearings[0], 22.5, { absolute: 1e-9 });
    expectClose(bearings[1], 67.5, { absolute: 1e-9 });
  });

  test('refuses a sector that ends before it starts or goes round twice', () => {
    const sector = { fromDeg: 10, toDeg: 10, count: 2, lengthM: 1 };
    expect(userErrorOf(() => sectorField([sector], 1e-3))).toEqual(['bad-sector', 'radials.sector']);
    expect(userErrorOf(() => sectorField([{ ...sector, toDeg: 400 }], 1e-3))).toEqual([
      'bad-sector',
      'radials.sector',
    ]);
  });
});

test('wireLengthM follows the bends', () => {
  expectClose(wireLengthM(wire([0, 0], [3, 4], [3, 10])), 11, { absolute: 1e-12 });
});

test('a conductor is found by name, and each has one and a source', () => {
  expect(new Set(CONDUCTORS.map(({ name }) => name)).size).toBe(CONDUCTORS.length);
  expect(CONDUCTORS.every(({ source, resistivityOhmM }) => source !== '' && resistivityOhmM > 0)).toBe(true);
  expect(findConductor('aluminium')?.resistivityOhmM).toBe(2.826e-8);
  expect(findConductor('cheese')).toBeUndefined();
});

describe('asUniform', () => {
  test('sees an even circle whatever wire it starts with', () => {
    const sectors = [0, 120, 240].map((fromDeg) => ({ fromDeg, toDeg: fromDeg + 120, count: 5, lengthM: 7 }));
    const field = sectorField(sectors, 1e-3);
    const shuffled = { wires: [...field.wires.slice(4), ...field.wires.slice(0, 4)] };
    const found = asUniform(shuffled);
    expect(found?.count).toBe(15);
    expectClose(found?.lengthM, 7, { relative: 1e-9 });
  });

  test('is not taken in by a gap, a longer wire, a bend, another wire size or an offset start', () => {
    const even = uniformField(6, 5, 1e-3).wires;
    const [first, ...rest] = even;
    if (first === undefined) throw new Error('no wire');
    const end = first.route[1] ?? [0, 0];
    expect(asUniform({ wires: rest })).toBeNull();
    expect(asUniform({ wires: [] })).toBeNull();
    expect(
      asUniform({
        wires: [
          {
            ...first,
            route: [
              [0, 0],
              [0, 5.01],
            ],
          },
          ...rest,
        ],
      }),
    ).toBeNull();
    expect(asUniform({ wires: [{ ...first, route: [[0, 0], [0.1, 2], end] }, ...rest] })).toBeNull();
    expect(asUniform({ wires: [{ ...first, radiusM: 2e-3 }, ...rest] })).toBeNull();
    expect(asUniform({ wires: [{ ...first, route: [[0, 0.1], end] }, ...rest] })).toBeNull();
  });
});

describe('fieldRings', () => {
  const crossing = (field: Parameters<typeof fieldRings>[0], distanceM: number): number[] => {
    const { count, azimuthRad } = fieldRings(field).crossings(distanceM);
    return Array.from(azimuthRad.subarray(0, count), (rad) => (rad * 180) / Math.PI);
  };

  test('finds azimuths from north in rising order', () => {
    const field = { wires: [wire([0, 0], [-5, 0]), wire([0, 0], [0, 5]), wire([0, 0], [5, 0])] };
    const [north, east, west, ...more] = crossing(field, 2);
    expectClose(north, 0, { absolute: 1e-9 });
    expectClose(east, 90, { absolute: 1e-9 });
    expectClose(west, 270, { absolute: 1e-9 });
    expect(more).toEqual([]);
  });

  test('follows a wire that runs on past its bend', () => {
    // North 3 m, then east 4 m: at 4 m from the base it is at (√7, 3).
    const [azimuth] = crossing({ wires: [wire([0, 0], [0, 3], [4, 3])] }, 4);
    expectClose(azimuth, (Math.atan2(Math.sqrt(7), 3) * 180) / Math.PI, { absolute: 1e-9 });
  });

  test('meets twice a wire that comes nearer again, and no ring beyond its reach', () => {
    // East 5 m, then back past the base at 3 m north of it.
    const field = { wires: [wire([0, 0], [4, 3], [-4, 3])] };
    expect(crossing(field, 4)).toHaveLength(3);
    expect(crossing(field, 2)).toHaveLength(1);
    expect(crossing(field, 5.1)).toHaveLength(0);
    expect(fieldRings(field).breakpointsM).toEqual([1e-3, 3, 5]);
  });

  test('takes a first point near the base as bonded to it', () => {
    expect(crossing({ wires: [wire([0.2, 0], [5, 0])] }, 0.1)).toHaveLength(1);
  });

  test.each([
    ['one point', [[0, 0]]],
    [
      'a start 2 m off',
      [
        [2, 0],
        [5, 0],
      ],
    ],
    [
      'a corner that is no number',
      [
        [0, 0],
        [Number.NaN, 1],
      ],
    ],
  ] as [string, [number, number][]][])('refuses a route with %s', (_, route) => {
    expect(userErrorOf(() => fieldRings({ wires: [wire(...route)] }))).toEqual([
      'bad-route',
      'radials.route',
    ]);
  });
});
