import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createSweep, type Sweep } from '../../src/core/sweep/sweep.ts';
import { UserError } from '../../src/core/user-error.ts';
import { readCanonical, writeCanonical } from '../../src/formats/canonical.ts';
import { readCsv } from '../../src/formats/csv/read.ts';
import { DecimalScanner } from '../../src/formats/decimal-scanner.ts';
import { ProblemList } from '../../src/formats/problem.ts';
import { readSweeps, readSweepText } from '../../src/formats/read-sweeps.ts';
import { writeTouchstone } from '../../src/formats/touchstone/write.ts';
import { expectClose } from '../support/expect-close.ts';
import { TABLES } from '../support/sweep-tables.ts';

const SEED = 20_261_125;

const ohms = fc.double({ min: -1e5, max: 1e5, noNaN: true }).map((value) => value + 0);

/** Sweeps of 2 to 12 points with a resistance above zero, so that every form of a pair exists. */
const sweeps = fc
  .array(
    fc.tuple(
      fc.double({ min: 1e-3, max: 1e4, noNaN: true }),
      fc.double({ min: 1e-2, max: 1e5, noNaN: true }),
      ohms,
    ),
    {
      minLength: 2,
      maxLength: 12,
    },
  )
  .map((points): Sweep => {
    let hz = 0;
    return createSweep({
      frequencyHz: Float64Array.from(points, ([step]) => {
        hz = Math.round((hz + step) * 1e3 + 1) / 1e3;
        return hz;
      }),
      resistanceOhm: Float64Array.from(points, ([, r]) => r),
      reactanceOhm: Float64Array.from(points, ([, , x]) => x),
    });
  });

function onlySweep(text: string, name: string): Sweep {
  const { sweeps: found, problems } = readSweepText(text, name);
  expect(problems).toEqual([]);
  expect(found).toHaveLength(1);
  const [sweep] = found;
  if (sweep?.kind !== 'impedance') throw new Error('no impedance sweep');
  return sweep;
}

function expectSame(actual: Sweep, expected: Sweep): void {
  expect(actual.frequencyHz).toEqual(expected.frequencyHz);
  expect(actual.resistanceOhm).toEqual(expected.resistanceOhm);
  expect(actual.reactanceOhm).toEqual(expected.reactanceOhm);
}

describe('our own sweep file', () => {
  it('reads back every double that was written', () => {
    fc.assert(
      fc.property(sweeps, (sweep) => {
        expectSame(readCanonical(writeCanonical(sweep)), sweep);
      }),
      { seed: SEED, numRuns: 500 },
    );
  });

  it('is read by the general table reader to the same doubles', () => {
    fc.assert(
      fc.property(sweeps, (sweep) => {
        const [read] = readCsv(writeCanonical(sweep), {}, new ProblemList());
        if (read?.kind !== 'impedance') throw new Error('no impedance sweep');
        expectSame(read, sweep);
      }),
      { seed: SEED, numRuns: 200 },
    );
  });

  it('is refused, or read as it stands, after any one character is changed or lost', () => {
    const mutation = fc.record({ at: fc.nat(), character: fc.string({ minLength: 0, maxLength: 1 }) });
    fc.assert(
      fc.property(sweeps, mutation, (sweep, { at, character }) => {
        const text = writeCanonical(sweep);
        const k = at % text.length;
        const changed = text.slice(0, k) + character + text.slice(k + 1);
        let read: Sweep;
        try {
          read = readCanonical(changed);
        } catch (error) {
          expect(error).toBeInstanceOf(UserError);
          return;
        }
        const cells = changed
          .trimEnd()
          .split('\n')
          .slice(1)
          .map((row) => row.split(',').map(Number));
        expect(
          Array.from(read.frequencyHz, (hz, i) => [hz, read.resistanceOhm[i], read.reactanceOhm[i]]),
        ).toEqual(cells);
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });
});

describe('the decimal scanner', () => {
  it('rounds every decimal number as Number does', () => {
    const scanner = new DecimalScanner();
    const digits = fc.string({ unit: fc.constantFrom(...'0123456789'), minLength: 1, maxLength: 25 });
    fc.assert(
      fc.property(fc.constantFrom('', '-', '+'), digits, fc.option(digits), (sign, whole, decimals) => {
        const text = `${sign}${whole}${decimals === null ? '' : `.${decimals}`}`;
        expect(scanner.scan(text, 0, 46)).toBe(Number(text));
        expect(scanner.end).toBe(text.length);
      }),
      { seed: SEED, numRuns: 5000 },
    );
  });

  it('rounds the numbers next to the middle between two doubles as Number does', () => {
    const scanner = new DecimalScanner();
    fc.assert(
      fc.property(
        fc.integer({ min: 2 ** 53, max: 2 ** 54 }),
        fc.integer({ min: -2, max: 2 }),
        (even, off) => {
          const text = `${BigInt(even) * 2n + 1n + BigInt(off)}`;
          expect(scanner.scan(text, 0, 46)).toBe(Number(text));
        },
      ),
      { seed: SEED, numRuns: 2000 },
    );
  });
});

describe('a Touchstone file', () => {
  for (const version of ['1', '2.1'] as const) {
    for (const parameter of ['S', 'Y', 'Z'] as const) {
      for (const format of ['RI', 'MA', 'DB'] as const) {
        it(`of version ${version} in ${parameter} ${format} reads back as it was written`, () => {
          const units = fc.constantFrom('Hz' as const, 'kHz' as const, 'MHz' as const, 'GHz' as const);
          fc.assert(
            fc.property(
              sweeps,
              units,
              fc.double({ min: 1, max: 1000, noNaN: true }),
              (sweep, unit, referenceOhm) => {
                const text = writeTouchstone(sweep, { version, parameter, format, unit, referenceOhm });
                const read = onlySweep(text, 'written.s1p');
                for (let i = 0; i < sweep.frequencyHz.length; i++) {
                  const [r, x] = [sweep.resistanceOhm[i] as number, sweep.reactanceOhm[i] as number];
                  expectClose(read.frequencyHz[i], sweep.frequencyHz[i] as number, { relative: 1e-15 });
                  // An error of the last bit of Γ is magnified by |Z + R|²/2R in ohms, one of Z or Y is not.
                  const size = Math.hypot(r, x);
                  const gain =
                    parameter === 'S' ? Math.hypot(r + referenceOhm, x) ** 2 / (2 * referenceOhm) : size;
                  expectClose(read.resistanceOhm[i], r, { absolute: 1e-13 * gain + 1e-13 * size });
                  expectClose(read.reactanceOhm[i], x, { absolute: 1e-13 * gain + 1e-13 * size });
                }
              },
            ),
            { seed: SEED, numRuns: 60 },
          );
        });
      }
    }
  }
});

const names = fc.constantFrom('a.csv', 'a.s1p', 'a.s2p', 'a.txt', '-');

/** Bytes of anything, and files that people really have with a few bytes changed, doubled or lost. */
const bytes = fc.oneof(
  fc.uint8Array({ maxLength: 300 }),
  fc
    .string({ unit: fc.constantFrom(...'0123456789.,;+-eEdD \t\n\r"#![]/RXZSMAdBHzkMG°Ω'), maxLength: 300 })
    .map((text) => new TextEncoder().encode(text)),
  fc
    .tuple(
      fc.constantFrom(...TABLES.map(({ bytes: own }) => own)),
      fc.array(fc.tuple(fc.nat(), fc.uint8Array({ maxLength: 3 }), fc.nat({ max: 3 })), {
        minLength: 1,
        maxLength: 4,
      }),
    )
    .map(([own, changes]) => {
      let mutated = [...own];
      for (const [at, put, drop] of changes) {
        const k = at % (mutated.length + 1);
        mutated = [...mutated.slice(0, k), ...put, ...mutated.slice(k + drop)];
      }
      return Uint8Array.from(mutated);
    }),
);

describe('any bytes at all', () => {
  it('give sweeps or problems, never an exception', () => {
    fc.assert(
      fc.property(bytes, names, (content, name) => {
        const { sweeps: found, problems } = readSweeps(content, name);
        if (found.length === 0) expect(problems.some(({ severity }) => severity === 'refused')).toBe(true);
        for (const { message, line, column } of problems) {
          expect(message.length).toBeLessThan(400);
          expect(line === null || line >= 1).toBe(true);
          expect(column === null || column >= 1).toBe(true);
        }
      }),
      { seed: SEED, numRuns: 4000 },
    );
  });

  it('throw nothing but the reader’s own error under any flags', () => {
    const options = fc.record(
      {
        columns: fc.constantFrom('MHz,R,X', 'Hz,S11 dB,phase', 'f,-,SWR', 'nonsense', ''),
        delimiter: fc.constantFrom(',' as const, ';' as const, '\t' as const, ' ' as const),
        decimal: fc.constantFrom('point' as const, 'comma' as const),
        unit: fc.constantFrom('Hz' as const, 'MHz' as const),
        referenceOhm: fc.constantFrom(50, 75),
        port: fc.constantFrom(1, 2),
      },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(bytes, names, options, (content, name, flags) => {
        try {
          readSweeps(content, name, flags);
        } catch (error) {
          expect(error).toBeInstanceOf(UserError);
          expect((error as UserError).kind).toBe('command-line');
        }
      }),
      { seed: SEED, numRuns: 2000 },
    );
  });

  it('that are long and of one kind are read in no time to speak of', () => {
    for (const piece of [
      ' ',
      '[',
      '[ ',
      '#',
      '"',
      ';',
      ',',
      '1',
      '1.',
      '-',
      '(',
      '/ ',
      '\t',
      'R in ',
      '\r',
    ]) {
      for (const name of ['a.csv', 'a.s1p']) {
        const text = `Freq MHz,R,X\n${piece.repeat(9000)}x\n7,${piece.repeat(3000)},1\n# ${piece.repeat(2000)}\n7,30,1\n7.1,31,2\n`;
        readSweepText(text, name);
      }
    }
  });
});
