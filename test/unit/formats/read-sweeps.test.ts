import { describe, expect, it } from 'vitest';
import type { AnySweep } from '../../../src/core/sweep/sweep.ts';
import { readSweeps, readSweepText } from '../../../src/formats/read-sweeps.ts';
import { expectClose } from '../../support/expect-close.ts';
import { TABLES } from '../../support/sweep-tables.ts';
import { userErrorOf } from '../../support/user-error-of.ts';

function pointsOf(sweep: AnySweep): number[][] {
  const { frequencyHz } = sweep;
  return Array.from(frequencyHz, (hz, i) =>
    sweep.kind === 'swr'
      ? [hz, sweep.swr[i] as number]
      : [hz, sweep.resistanceOhm[i] as number, sweep.reactanceOhm[i] as number],
  );
}

describe('a file as people have it', () => {
  for (const { what, file, bytes, options, sweeps, problems = [] } of TABLES) {
    it(`${sweeps === null ? 'is refused' : 'is read'}: ${what}`, () => {
      const result = readSweeps(bytes, file, options);
      const told = result.problems.map(({ severity, code, line, column }) =>
        [severity, code, [line, column].filter((part) => part !== null).join(':')].join(' ').trim(),
      );
      expect(told).toEqual(problems);
      expect(result.sweeps).toHaveLength(sweeps?.length ?? 0);
      for (const [k, sweep] of result.sweeps.entries()) {
        const points = pointsOf(sweep);
        expect(points).toHaveLength(sweeps?.[k]?.length ?? 0);
        for (const [i, point] of points.entries()) {
          for (const [j, value] of point.entries()) {
            const expected = sweeps?.[k]?.[i]?.[j] as number;
            if (Number.isNaN(expected)) expect(value).toBeNaN();
            else expectClose(value, expected, { absolute: 1e-12 * Math.max(100, Math.abs(expected)) });
          }
        }
      }
    });
  }
});

describe('a file that can be read in several ways', () => {
  for (const { what, file, bytes, options, sweeps } of TABLES) {
    const open = readSweeps(bytes, file, options).problems.flatMap(({ settledBy }) => settledBy ?? []);
    const [settling] = open.filter(({ examples }) => !examples);
    if (sweeps !== null || settling === undefined) continue;
    it(`is read by each of the choices that are named: ${what}`, () => {
      const readings = settling.choices.map((choice) => {
        const { sweeps, problems } = readSweeps(bytes, file, { ...options, ...choice });
        expect(problems.filter(({ severity }) => severity === 'refused')).toEqual([]);
        return JSON.stringify(sweeps.map(pointsOf));
      });
      expect(new Set(readings).size).toBe(settling.choices.length);
    });
  }
});

describe('the reader of sweep files', () => {
  it('tells the format that it found', () => {
    const own = 'frequency_hz,resistance_ohm,reactance_ohm\n7000000,36.5,-1\n7100000,37,1\n';
    expect(readSweepText(own, 'a.csv').format).toBe('turfwire');
    expect(readSweepText(own.replaceAll('\n', '\r\n'), 'a.csv').format).toBe('csv');
    expect(readSweepText('# MHz S RI R 50\n7 0 0\n8 0 0\n', 'a').format).toBe('touchstone');
    expect(readSweepText('\0', 'a').format).toBeNull();
  });

  it('tells every fault of a file under our own header, not the first alone', () => {
    const { sweeps, problems } = readSweepText(
      'frequency_hz,resistance_ohm,reactance_ohm\n7000000,x,-1\n7100000,37,1\n7200000,38,y\n7300000,39,2\n',
      'a.csv',
    );
    expect(problems.map(({ line, column }) => [line, column])).toEqual([
      [2, 9],
      [4, 12],
    ]);
    expect(sweeps).toHaveLength(1);
  });

  it('takes the reference that is asked for, else the file’s, else the instrument’s, else 50 ohm', () => {
    const touchstone = '# MHz S RI R 75\n7 0 0\n8 0 0\n';
    const table = 'MHz,S11 re,S11 im\n7,0,0\n7.1,0,0\n';
    const read = (text: string, options = {}) => {
      const [sweep] = readSweepText(text, 'a', options).sweeps;
      return sweep?.kind === 'impedance' ? [sweep.resistanceOhm[0], sweep.referenceOhm] : null;
    };
    expect(read(touchstone)).toEqual([75, 75]);
    expect(read(touchstone, { referenceOhm: 50 })).toEqual([75, 50]);
    expect(read(touchstone, { instrumentReferenceOhm: 60 })).toEqual([75, 75]);
    expect(read(table)).toEqual([50, 50]);
    expect(read(table, { instrumentReferenceOhm: 60 })).toEqual([60, 60]);
    expect(read(table, { referenceOhm: 75, instrumentReferenceOhm: 60 })).toEqual([75, 75]);
  });

  it('marks the plane that it is told and moves nothing', () => {
    const [sweep] = readSweepText('MHz,R,X\n7,36,0\n7.1,37,1\n', 'a', { plane: 'shack' }).sweeps;
    expect(sweep?.plane).toBe('shack');
  });

  it('throws only for a flag that is wrong in itself', () => {
    expect(userErrorOf(() => readSweepText('', 'a', { columns: 'MHz,Q' }))).toEqual([
      'columns-unknown',
      '--columns',
    ]);
  });

  it('says how many columns a flag names when the rows have others', () => {
    const { problems } = readSweepText('7,36,0\n7.1,37,1\n', 'a', { columns: 'MHz,SWR' });
    expect(problems.map(({ code }) => code)).toEqual(['columns-count']);
  });
});
