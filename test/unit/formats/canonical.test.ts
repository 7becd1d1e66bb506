import { describe, expect, it } from 'vitest';
import { createSweep } from '../../../src/core/sweep/sweep.ts';
import { UserError } from '../../../src/core/user-error.ts';
import { CANONICAL_HEADER, readCanonical, writeCanonical } from '../../../src/formats/canonical.ts';

const HEADER = `${CANONICAL_HEADER}\n`;

/** `code line:column` of the error. */
function refusal(text: string): string {
  try {
    readCanonical(text);
  } catch (error) {
    if (!(error instanceof UserError)) throw error;
    const { line, column } = error.place;
    return line === undefined ? error.code : `${error.code} ${line}:${column ?? ''}`;
  }
  return 'read';
}

describe('our own sweep file', () => {
  it('is written with the shortest digits and LF', () => {
    const sweep = createSweep({
      frequencyHz: Float64Array.of(7e6, 1e22),
      resistanceOhm: Float64Array.of(0.1 + 0.2, 1e-7),
      reactanceOhm: Float64Array.of(-0, -12),
    });
    expect(writeCanonical(sweep)).toBe(`${HEADER}7000000,0.30000000000000004,0\n1e+22,1e-7,-12\n`);
  });

  it('is read with the reference and plane that the journal keeps', () => {
    const sweep = readCanonical(`${HEADER}7000000,36.5,-1\n7100000,37,1e1\n`, {
      referenceOhm: 75,
      plane: 'shack',
    });
    expect(sweep).toMatchObject({ referenceOhm: 75, plane: 'shack' });
    expect([...sweep.reactanceOhm]).toEqual([-1, 10]);
  });

  it('is refused, with line and column, for everything that we do not write', () => {
    const row = '7000000,36.5,-1\n';
    expect(refusal('')).toBe('sweep-file-malformed 1:1');
    expect(refusal(`frequency_hz,resistance_ohm\n${row}`)).toBe('sweep-file-malformed 1:1');
    expect(refusal(`${HEADER.replace('\n', '\r\n')}${row}`)).toBe('sweep-file-malformed 1:1');
    expect(refusal(`${HEADER}${row}7100000,x,1\n`)).toBe('sweep-file-malformed 3:9');
    expect(refusal(`${HEADER}${row}7100000,37\n`)).toBe('sweep-file-malformed 3:9');
    expect(refusal(`${HEADER}${row}7100000,37,1,\n`)).toBe('sweep-file-malformed 3:12');
    expect(refusal(`${HEADER}${row}7100000,+37,1\n`)).toBe('sweep-file-malformed 3:9');
    expect(refusal(`${HEADER}${row}7100000,37.,1\n`)).toBe('sweep-file-malformed 3:9');
    expect(refusal(`${HEADER}${row}7100000, 37,1\n`)).toBe('sweep-file-malformed 3:9');
    expect(refusal(`${HEADER}${row}7100000,NaN,1\n`)).toBe('sweep-file-malformed 3:9');
    expect(refusal(`${HEADER}${row}7100000,1e,1\n`)).toBe('sweep-file-malformed 3:9');
    expect(refusal(`${HEADER}${row}\n7100000,37,1\n`)).toBe('sweep-file-malformed 3:1');
  });

  it('is refused when its last line end is missing: the number may be cut short', () => {
    expect(refusal(`${HEADER}7000000,36.5,-1\n7100000,37,12.5\n7200000,37,1`)).toBe(
      'sweep-file-malformed 4:',
    );
  });

  it('is refused when it is no sweep', () => {
    expect(refusal(`${HEADER}7000000,36.5,-1\n`)).toBe('sweep-too-short');
    expect(refusal(`${HEADER}7000000,36.5,-1\n7000000,37,1\n`)).toBe('sweep-not-rising');
    expect(refusal(`${HEADER}7000000,1e999,-1\n7100000,37,1\n`)).toBe('sweep-not-finite');
  });
});
