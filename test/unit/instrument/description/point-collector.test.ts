import { describe, expect, it } from 'vitest';
import type { Column } from '../../../../src/instrument/description/column.ts';
import type { PointsForm } from '../../../../src/instrument/description/description.ts';
import { PointCollector } from '../../../../src/instrument/description/point-collector.ts';
import { expectClose } from '../../../support/expect-close.ts';

const GRID = { startHz: 7_000_000, stopHz: 7_200_000, points: 3 };
const FREQUENCY: Column = { quantity: 'frequency', unit: 'MHz' };

function form(columns: readonly Column[], change: Partial<PointsForm> = {}): PointsForm {
  return { layout: 'line-each', separator: ',', columns, end: { by: 'count' }, ...change };
}

function collect(points: PointsForm, lines: readonly string[]): ReturnType<PointCollector['finish']> {
  const collector = new PointCollector(points, GRID);
  for (const line of lines) collector.take(line);
  return collector.finish(50);
}

describe('columns', () => {
  it('resistance and reactance become an impedance sweep', () => {
    const rows = form([
      { quantity: 'resistance', unit: 'ohm' },
      { quantity: 'reactance', unit: 'mohm' },
    ]);
    const sweep = collect(rows, ['36,-20000', '37,0', '38,20000']);
    expect(sweep).toMatchObject({
      kind: 'impedance',
      frequencyHz: Float64Array.of(7e6, 7.1e6, 7.2e6),
      reactanceOhm: Float64Array.of(-20, 0, 20),
    });
  });

  it.each([
    ['magnitude and angle', 'reflection-magnitude', '1', '0.5'],
    ['level and angle', 'reflection-magnitude', 'dB', '-6.0206'],
    ['return loss and angle', 'return-loss', 'dB', '6.0206'],
  ] as const)('reflection by %s', (_, quantity, unit, value) => {
    const rows = form([
      { quantity, unit },
      { quantity: 'reflection-phase', unit: 'deg' },
    ]);
    const sweep = collect(rows, [`${value},0`, `${value},90`, `${value},180`]);
    if (!('kind' in sweep) || sweep.kind !== 'reflection') throw new Error('no reflection');
    // -6.0206 dB is 0.5 to five digits.
    expectClose(sweep.reflectionIm[1], 0.5, { absolute: 1e-5 });
    expectClose(sweep.reflectionRe[2], -0.5, { absolute: 1e-5 });
  });

  it('|Z| and angle become R and X', () => {
    const rows = form([
      { quantity: 'impedance-magnitude', unit: 'ohm' },
      { quantity: 'impedance-phase', unit: 'deg' },
    ]);
    const sweep = collect(rows, ['50,53.13010235', '50,0', '50,-53.13010235']);
    if (!('kind' in sweep) || sweep.kind !== 'impedance') throw new Error('no impedance');
    // The 3-4-5 triangle.
    expectClose(sweep.resistanceOhm[0], 30, { absolute: 1e-6 });
    expectClose(sweep.reactanceOhm[2], -40, { absolute: 1e-6 });
  });

  it('SWR alone becomes a scalar sweep', () => {
    expect(collect(form([{ quantity: 'swr', unit: '1' }]), ['1.5', '1.2', '1.6'])).toMatchObject({
      kind: 'swr',
    });
  });

  it('ignored columns may hold anything', () => {
    const rows = form([
      { quantity: 'ignore', unit: 'any' },
      { quantity: 'swr', unit: '1' },
    ]);
    expect(collect(rows, ['#1,1.5', 'b,1.2', '?,1.6'])).toMatchObject({ kind: 'swr' });
  });
});

describe('layouts', () => {
  it('takes all points from one line', () => {
    const rows = form(
      [
        { quantity: 'reflection-real', unit: '1' },
        { quantity: 'reflection-imaginary', unit: '1' },
      ],
      { layout: 'one-line' },
    );
    const sweep = collect(rows, ['1.0E-1,+2.0E-1,.3,-0.4,5e-1,0']);
    expect(sweep).toMatchObject({ kind: 'reflection', reflectionRe: Float64Array.of(0.1, 0.3, 0.5) });
  });

  it('takes any run of blanks where the separator is a blank', () => {
    const rows = form([FREQUENCY, { quantity: 'swr', unit: '1' }], { separator: ' ' });
    expect(collect(rows, ['7.0   1.5', '7.1  1.2', '7.2 1.6'])).toMatchObject({ kind: 'swr' });
  });
});

describe('points with their frequency', () => {
  const rows = form([
    FREQUENCY,
    { quantity: 'resistance', unit: 'ohm' },
    { quantity: 'reactance', unit: 'ohm' },
  ]);

  it('may come in any order, and twice', () => {
    const sweep = collect(rows, ['7.2,38,20', '7.0,36,-20', '7.2,38,20', '7.1,37,0']);
    expect(sweep).toMatchObject({ resistanceOhm: Float64Array.of(36, 37, 38) });
  });

  it.each([
    ['one is missing', ['7.0,36,-20', '7.2,38,20'], /sent 2 of 3 points/u],
    [
      'one came twice with other figures',
      ['7.0,36,-20', '7.0,37,-20', '7.2,38,20'],
      /where 7100000 Hz was asked/u,
    ],
    ['one is of another grid', ['7.0,36,-20', '7.1,37,0', '14.2,38,20'], /14200000 Hz where 7200000 Hz/u],
    ['one is no number', ['7.0,36,-20', '7.1,9.91E37,0', '7.2,38,20'], /sent 2 of 3 points/u],
    ['one has an SWR below one', ['7.0,36', '7.1,n/a', '7.2'], /sent 0 of 3 points/u],
  ])('are no sweep when %s', (_, lines, problem) => {
    expect(collect(rows, lines)).toEqual({ problem: expect.stringMatching(problem) });
  });

  it('are no sweep when a figure is impossible', () => {
    const swr = form([FREQUENCY, { quantity: 'swr', unit: '1' }]);
    expect(collect(swr, ['7.0,1.5', '7.1,0.5', '7.2,1.6'])).toEqual({
      problem: expect.stringMatching(/1 or more, got 0\.5/u),
    });
  });
});
