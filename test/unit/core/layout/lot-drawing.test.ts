import { describe, expect, it } from 'vitest';
import { drawnRadials } from '../../../../src/core/layout/drawn-radials.ts';
import { drawLot } from '../../../../src/core/layout/lot-drawing.ts';
import type { Lot } from '../../../../src/core/site.ts';
import { expectClose } from '../../../support/expect-close.ts';

const LOT: Lot = {
  outline: [
    [0, 0],
    [10, 0],
    [10, 20],
    [0, 20],
  ],
  base: [5, 5],
  northDeg: 0,
  obstacles: [
    {
      name: 'shed <b>',
      kind: 'building',
      clearanceM: 0,
      outline: [
        [1, 1],
        [2, 1],
        [2, 2],
      ],
    },
  ],
  places: [{ name: '"bench" & co', at: [9, 2], heightM: 0 }],
};

/** The corners of the first polygon, in pixels. */
const outlineOf = (svg: string): number[][] =>
  (/<polygon points="([^"]+)"/u.exec(svg)?.[1] ?? '').split(' ').map((pair) => pair.split(',').map(Number));

describe('the drawing of a lot', () => {
  it('has north up and is to scale', () => {
    const [southWest, southEast, northEast] = outlineOf(drawLot(LOT, [])) as [number[], number[], number[]];
    expect(northEast[1]).toBeLessThan(southEast[1] as number);
    const width = (southEast[0] as number) - (southWest[0] as number);
    const height = (southEast[1] as number) - (northEast[1] as number);
    expectClose(height, 2 * width, { absolute: 0.2 });
  });

  it('is turned by north', () => {
    const [southWest, southEast] = outlineOf(drawLot({ ...LOT, northDeg: 90 }, [])) as [number[], number[]];
    expect(Math.abs((southEast[0] as number) - (southWest[0] as number))).toBeLessThan(1e-6);
    expect(southEast[1]).toBeGreaterThan(southWest[1] as number);
  });

  it('shows every name as text, whatever it holds', () => {
    const svg = drawLot(LOT, [], { title: '<script>alert(1)</script>\u001b[31m' });
    expect(svg).not.toContain('<script');
    expect(svg).not.toContain('<b>');
    expect(svg).not.toContain('\u001b');
    expect(svg).toContain('&quot;bench&quot; &amp; co');
  });

  it('draws planned wires dashed and laid ones darker with age', () => {
    const radial = (number: number, since: string) => ({
      number,
      lengthM: 5,
      bearingDeg: 10 * number,
      route: null,
      since,
    });
    const laid = drawnRadials([radial(1, '2024-01-01T00:00Z'), radial(2, '2025-01-01T00:00Z')], 'metric');
    expect(laid.map(({ age }) => age)).toEqual([1, 0]);
    const svg = drawLot(LOT, [
      ...laid,
      {
        number: 3,
        points: [
          [0, 0],
          [1, 1],
        ],
        state: 'planned',
        age: 0,
        label: 'planned',
      },
    ]);
    expect(svg.match(/<polyline/gu)).toHaveLength(3);
    expect(svg.match(/<polyline[^>]*stroke-dasharray/gu)).toHaveLength(1);
    expect(svg).toContain('laid 2024-01-01');
  });

  it('dots a laid wire of which nobody knows the way, and says so', () => {
    const unknown = { number: 1, lengthM: 4, bearingDeg: null, route: null, since: '2024-01-01T00:00Z' };
    const svg = drawLot(LOT, drawnRadials([unknown, { ...unknown, number: 2, bearingDeg: 90 }], 'metric'));
    expect(svg.match(/<polyline class="lot-wire lot-laid lot-assumed"[^>]*stroke-dasharray/gu)).toHaveLength(
      1,
    );
    expect(svg).toContain('radial 1, 4.0 m, laid 2024-01-01, its direction assumed');
    expect(svg).toContain('radial 2, 4.0 m, laid 2024-01-01</title>');
  });

  it('tells in a key what its strokes mean, and only those that it holds', () => {
    const wire = { number: 1, points: [[0, 0], [0, 4]], age: 0, label: '' } as const; // biome-ignore format: one wire
    const pipe = { name: 'main', kind: 'service', clearanceM: 0, outline: [[0, 9], [9, 9]], isLine: true } as const; // biome-ignore format: one line
    const keyOf = (svg: string) =>
      [...svg.matchAll(/<path d="M[^"]+h30"[^>]*\/><text[^>]*>([^<]+)</gu)].map(([, words]) => words);
    expect(keyOf(drawLot(LOT, []))).toEqual([]);
    expect(keyOf(drawLot(LOT, [{ ...wire, state: 'planned' }]))).toEqual(['planned radial']);
    const svg = drawLot({ ...LOT, obstacles: [pipe] }, [
      { ...wire, state: 'laid' },
      { ...wire, state: 'laid', assumed: true },
    ]);
    expect(keyOf(svg)).toEqual([
      'laid radial; the darker, the older',
      'laid radial, its direction assumed',
      'buried service',
    ]);
  });

  it('names the number that finds no room', () => {
    const wire = (number: number, east: number) =>
      ({ number, points: [[0, 0], [east, 0]], state: 'planned', age: 0, label: '' }) as const; // biome-ignore format: one wire
    const wide = Array.from({ length: 40 }, (_, i) => ({
      name: 'W'.repeat(60),
      at: [5, 4 + i / 20] as const,
      heightM: 0,
    }));
    expect(drawLot(LOT, [wire(7, 3)])).not.toContain('no room');
    expect(drawLot({ ...LOT, places: wide }, [wire(7, 3)])).toContain('no room for every number');
    const spread = [0, 1, 2, 3, 4, 5, 6, 7].map((i) => ({ ...wire(i + 1, 0), points: [[0, 0], [0, 2 + i]] }) as const); // biome-ignore format: one wire
    const left = drawLot({ ...LOT, places: wide }, [...spread, wire(9, 0.5)]);
    expect(left).toMatch(/no room for the number of radials? [\d, ]+</u);
  });

  it('numbers each wire at its end, by the number of the journal', () => {
    const wire = (number: number | null, points: [number, number][]) =>
      ({ number, points, state: 'planned', age: 0, label: '' }) as const;
    const svg = drawLot(LOT, [
      wire(33, [
        [0, 0],
        [0, 6],
      ]),
      wire(34, [
        [0, 0],
        [4, 0],
      ]),
      wire(null, [
        [0, 0],
        [-4, 0],
      ]),
    ]);
    const numbers = [...svg.matchAll(/<text x="([\d.]+)" y="([\d.]+)"[^>]*class="lot-number"[^>]*>(\d+)</gu)];
    expect(numbers.map(([, , , number]) => number)).toEqual(['33', '34']);
    // 6 m north of the base at [5, 5] of a lot of 20 m, 24 px to the metre, 1.5 m of margin.
    const [[, x, y]] = numbers as unknown as [string[]];
    expectClose(Number(x), 24 * 6.5, { absolute: 20 });
    expectClose(Number(y), 24 * 10.5, { absolute: 20 });
  });

  it('draws a pipe as the line that it is', () => {
    const pipe = { name: 'main', kind: 'service', isLine: true, clearanceM: 0.5 } as const;
    const outline: [number, number][] = [
      [0, 12],
      [6, 12],
      [6, 20],
    ];
    const svg = drawLot({ ...LOT, obstacles: [{ ...pipe, outline }] }, []);
    expect(svg).toMatch(/<polyline points="[^"]+" class="lot-line lot-service-line" fill="none"/u);
    expect(svg.match(/<polygon/gu)).toHaveLength(1);
  });

  it('shows a place a little outside the lot, and names one that is too far away', () => {
    const places = [
      { name: 'window', at: [14, 10], heightM: 2 },
      { name: 'far barn', at: [114, 5], heightM: 0 },
    ] as const;
    const svg = drawLot({ ...LOT, places }, []);
    const [, width = 0] = /viewBox="0 0 ([\d.]+)/u.exec(svg)?.map(Number) ?? [];
    const dots = [...svg.matchAll(/class="lot-place" cx="([\d.]+)"/gu)].map(([, x]) => Number(x));
    expect(dots[0]).toBeLessThan(width);
    expect(svg).toContain('not drawn: far barn, 109 m from the base');
    expect(svg).not.toContain('not drawn: window');
  });
});

describe('the paper of a drawing', () => {
  const sizeOf = (svg: string): number[] =>
    (/viewBox="0 0 (\d+) (\d+)"/u.exec(svg)?.slice(1) ?? []).map(Number);

  it('holds a whole ring that reaches beyond the lot, and tells its words', () => {
    const radiusM = 8;
    const svg = drawLot(LOT, [], { circles: [{ radiusM, label: '40m: 8.0 m <' }] });
    const [cx, cy, r] = (
      /<circle class="lot-circle" cx="([\d.]+)" cy="([\d.]+)"[^>]* r="([\d.]+)"/u.exec(svg) ?? []
    )
      .slice(1)
      .map(Number) as [number, number, number];
    const [width, height] = sizeOf(svg) as [number, number];
    expect([cx - r > 0, cy - r > 0, cx + r < width, cy + r < height]).toEqual([true, true, true, true]);
    expect(svg).toContain('<title>40m: 8.0 m &lt;</title></circle>');
  });

  it('cuts no name at its side', () => {
    const name = 'a long name of the hedge';
    const hedge = { ...LOT.obstacles[0], name } as Lot['obstacles'][number];
    const svg = drawLot({ ...LOT, obstacles: [hedge] }, []);
    const middle = Number(
      new RegExp(`<text x="([\\d.]+)"[^>]*text-anchor="middle"[^>]*>${name}`, 'u').exec(svg)?.[1],
    );
    // Letters of 13 pixels are about 0.6 of that wide.
    expect(middle - (0.6 * 13 * name.length) / 2).toBeGreaterThan(0);
  });
});
