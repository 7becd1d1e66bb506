import { describe, expect, it } from 'vitest';
import { createSweep } from '../../../src/core/sweep/sweep.ts';
import {
  type PageData,
  type PageSweep,
  parsePageData,
  SweepPacker,
  serialisePageData,
  unpackVisits,
} from '../../../src/formats/page-data.ts';
import { emptyPageData } from '../../support/empty-page-data.ts';

const DATA = emptyPageData();

const HOSTILE =
  '</script><script>alert(1)</script><!-- & \u2028\u2029 <img src=x onerror=alert(1)> \u{1f331}é';

describe('page data as text', () => {
  it('come back as they went', () => {
    expect(parsePageData(serialisePageData(DATA))).toEqual(DATA);
  });

  it('hold nothing that could end the element they stand in, whatever a name holds, and lose none of it', () => {
    const hostile: PageData = { ...DATA, program: HOSTILE };
    const text = serialisePageData(hostile);
    expect(text).toMatch(/^[\x20-\x7e]*$/u);
    expect(text).not.toMatch(/[<>&]/u);
    expect(parsePageData(text)).toEqual(hostile);
  });

  it.each([
    ['no JSON', '{', 'page-data-unreadable'],
    ['no version', '{}', 'page-data-version'],
    ['another version', JSON.stringify({ ...DATA, version: 1 }), 'page-data-version'],
    ['nothing', 'null', 'page-data-version'],
    ['a text for a list', JSON.stringify({ ...DATA, readings: 'x' }), 'page-data-wrong'],
    [
      'a column with a hole',
      JSON.stringify({ ...DATA, sweeps: { grids: [[1, null]], visits: [], leftOut: 0 } }),
      'page-data-wrong',
    ],
    ['a part that is neither there nor missing', JSON.stringify({ ...DATA, lot: {} }), 'page-data-wrong'],
  ])('with %s are refused', (_, text, code) => {
    expect(() => parsePageData(text)).toThrow(expect.objectContaining({ code }));
  });

  it('say where they are wrong', () => {
    const text = JSON.stringify({ ...DATA, sweeps: { ...DATA.sweeps, visits: [{ visit: 'one' }] } });
    expect(() => parsePageData(text)).toThrow(
      expect.objectContaining({ place: { field: 'sweeps.visits.0.visit' } }),
    );
  });
});

describe('sweeps of a page', () => {
  const sweep = (shift: number) =>
    createSweep({
      frequencyHz: Float64Array.of(7e6, 7.1e6),
      resistanceOhm: Float64Array.of(36.12344 + shift, 1e5 / 3),
      reactanceOhm: Float64Array.of(-0.00004, -1 / 3),
      referenceOhm: 75,
      plane: 'shack',
    });

  it('keep each set of frequencies once', () => {
    const packer = new SweepPacker();
    const packed = [sweep(0), sweep(1)].map((one) => packer.pack(one));
    expect(packer.grids).toEqual([[7e6, 7.1e6]]);
    expect(packed.map(({ grid }) => grid)).toEqual([0, 0]);
  });

  const visitOf = (shot: PageSweep) => ({
    visit: 1,
    time: '2026-03-01T10:15:00Z',
    radials: 0,
    wireM: 0,
    field: 0,
    counts: true,
    shots: [shot],
    referenceLoad: [],
  });

  it('come back to a milliohm, with their reference and plane', () => {
    const packer = new SweepPacker();
    const visits = [visitOf(packer.pack(sweep(0)))];
    expect(unpackVisits({ grids: packer.grids, visits })).toEqual([
      {
        referenceLoad: [],
        shots: [
          createSweep({
            frequencyHz: Float64Array.of(7e6, 7.1e6),
            resistanceOhm: Float64Array.of(36.123, 33333.333),
            reactanceOhm: Float64Array.of(0, -0.333),
            referenceOhm: 75,
            plane: 'shack',
          }),
        ],
      },
    ]);
  });

  it('are refused when their frequencies are not there, or others than they need', () => {
    const visits = [visitOf(new SweepPacker().pack(sweep(0)))];
    for (const grids of [[], [[7e6, 7.1e6, 7.2e6]]]) {
      expect(() => unpackVisits({ grids, visits })).toThrow(
        expect.objectContaining({ code: 'sweep-lengths-differ' }),
      );
    }
  });

  it('come back at a teraohm where an instrument gave more', () => {
    const packer = new SweepPacker();
    const open = createSweep({
      frequencyHz: Float64Array.of(7e6, 7.1e6),
      resistanceOhm: Float64Array.of(1e300, -1e13),
      reactanceOhm: Float64Array.of(0, 1),
    });
    const [visit] = unpackVisits({ grids: packer.grids, visits: [visitOf(packer.pack(open))] });
    expect(visit?.shots[0]?.resistanceOhm).toEqual(Float64Array.of(1e12, -1e12));
  });
});
