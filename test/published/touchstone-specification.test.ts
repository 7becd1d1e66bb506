/**
 * Source: IBIS Open Forum, "Touchstone File Format Specification", version 2.1, ratified 26 January 2024: one-port
 * Examples 9, 10 and 11 and the option lines printed in its text. Status: published for the file texts; the ohms are
 * computed from them by the definitions of the same text (S: power wave reflection against R; Z of version 1 divided by
 * R, of version 2 plain ohms), rounded as shown.
 *
 * Tolerance: half a unit of the last digit shown.
 */
import { describe, expect, it } from 'vitest';
import type { Sweep } from '../../src/core/sweep/sweep.ts';
import { bestSwr, summariseBand } from '../../src/core/sweep/swr-summary.ts';
import { readSweepText } from '../../src/formats/read-sweeps.ts';
import { parseOptionLine } from '../../src/formats/touchstone/option-line.ts';
import { writeTouchstone } from '../../src/formats/touchstone/write.ts';
import { expectClose } from '../support/expect-close.ts';

/** The example has one frequency, a sweep needs two: the second repeats the pair. */
const EXAMPLE_9 = `!1-port S-parameter file, single frequency point
# MHz S MA R 50
!freq magS11 angS11
2.000 0.894 -12.136
3.000 0.894 -12.136
`;

const EXAMPLE_10 = `!1-port Z-parameter file, multiple frequency points
# MHz Z MA R 75
!freq magZ11 angZ11
100 0.99 -4
200 0.80 -22
300 0.707 -45
400 0.40 -62
500 0.01 -89
`;

const EXAMPLE_11 = `!1-port Z-parameter file, multiple frequency points
[Version] 2.1
# MHz Z MA
[Number of Ports] 1
[Number of Frequencies] 5
[Reference] 20.0
[Network Data]
!freq magZ11 angZ11
100 74.25 -4
200 60 -22
300 53.025 -45
400 30 -62
500 0.75 -89
[End]
`;

const OHMS_10_AND_11: readonly (readonly [mhz: number, r: number, x: number])[] = [
  [100, 74.069131, -5.179418],
  [200, 55.631031, -22.476396],
  [300, 37.494337, -37.494337],
  [400, 14.084147, -26.488428],
  [500, 0.013089, -0.749886],
];

function sweepOf(text: string): Sweep {
  const { sweeps, problems, format } = readSweepText(text, 'example.s1p');
  expect(problems).toEqual([]);
  expect(format).toBe('touchstone');
  const [sweep] = sweeps;
  if (sweep?.kind !== 'impedance') throw new Error('no impedance sweep');
  return sweep;
}

describe('Touchstone File Format Specification 2.1', () => {
  it('Example 9: reflection as magnitude and angle against 50 ohm', () => {
    const sweep = sweepOf(EXAMPLE_9);
    expect(sweep.frequencyHz[0]).toBe(2e6);
    expect(sweep.referenceOhm).toBe(50);
    expectClose(sweep.resistanceOhm[0], 196.0762, { absolute: 5e-5 });
    expectClose(sweep.reactanceOhm[0], -367.1192, { absolute: 5e-5 });
    expectClose(bestSwr(sweep).swr, 17.8679, { absolute: 5e-5 });
    const band = summariseBand(sweep, { band: 'all', fromHz: 2e6, toHz: 3e6 });
    // −20·log10(0.894) is 0.97325; the check value rounds it up, hence a whole unit of its last digit.
    expectClose(band?.worstReturnLossDb, 0.9733, { absolute: 1e-4 });
  });

  for (const [name, text] of [
    ['Example 10: version 1, Z divided by the 75 ohm of the option line', EXAMPLE_10],
    ['Example 11: version 2, Z in ohms; neither R = 50 by default nor [Reference] 20 counts', EXAMPLE_11],
  ] as const) {
    it(name, () => {
      const sweep = sweepOf(text);
      for (const [i, [mhz, r, x]] of OHMS_10_AND_11.entries()) {
        expect(sweep.frequencyHz[i]).toBe(mhz * 1e6);
        expectClose(sweep.resistanceOhm[i], r, { absolute: 5e-7 });
        expectClose(sweep.reactanceOhm[i], x, { absolute: 5e-7 });
      }
    });
  }

  it('Examples 10 and 11 hold the same data', () => {
    const [ten, eleven] = [sweepOf(EXAMPLE_10), sweepOf(EXAMPLE_11)];
    for (let i = 0; i < 5; i++) {
      expectClose(eleven.resistanceOhm[i], ten.resistanceOhm[i] ?? Number.NaN, { relative: 1e-14 });
      expectClose(eleven.reactanceOhm[i], ten.reactanceOhm[i] ?? Number.NaN, { relative: 1e-14 });
    }
  });

  it('Example 10 written as version 2.1 in Z MA has the numbers of Example 11', () => {
    const written = writeTouchstone(sweepOf(EXAMPLE_10), {
      version: '2.1',
      unit: 'MHz',
      parameter: 'Z',
      format: 'MA',
    });
    const data = written.split('\n').filter((line) => /^\d/u.test(line));
    const expected = [
      [100, 74.25, -4],
      [200, 60, -22],
      [300, 53.025, -45],
      [400, 30, -62],
      [500, 0.75, -89],
    ];
    expect(data).toHaveLength(expected.length);
    for (const [i, row] of expected.entries()) {
      for (const [k, value] of (data[i] ?? '').split(' ').entries()) {
        expectClose(Number(value), row[k] ?? Number.NaN, { relative: 1e-13 });
      }
    }
  });

  it('option lines printed in the text', () => {
    const defaults = { unit: 'GHz', parameter: 'S', format: 'MA', referencesOhm: [50] };
    expect(parseOptionLine('#')).toEqual(defaults);
    expect(parseOptionLine('# GHz S RI R 100')).toEqual({ ...defaults, format: 'RI', referencesOhm: [100] });
    expect(parseOptionLine('# S R 100 GHz RI')).toEqual(parseOptionLine('# GHz S RI R 100'));
    expect(parseOptionLine('# kHz Y RI R 100')).toEqual({
      unit: 'kHz',
      parameter: 'Y',
      format: 'RI',
      referencesOhm: [100],
    });
    expect(parseOptionLine('# Hz Z MA R 10')).toEqual({
      unit: 'Hz',
      parameter: 'Z',
      format: 'MA',
      referencesOhm: [10],
    });
    expect(parseOptionLine('# S GHz RI R 0.1 75.0')).toEqual({
      ...defaults,
      format: 'RI',
      referencesOhm: [0.1, 75],
    });
  });
});
