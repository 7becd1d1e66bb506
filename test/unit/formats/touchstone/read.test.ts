import { describe, expect, it } from 'vitest';
import type { ReadOptions } from '../../../../src/formats/read-options.ts';
import { readSweepText } from '../../../../src/formats/read-sweeps.ts';
import { expectClose } from '../../../support/expect-close.ts';

/** Points as Hz, ohm, ohm, and problems as `code line`. */
function read(text: string, name = 'sweep.s1p', options: ReadOptions = {}) {
  const { sweeps, problems } = readSweepText(text, name, options);
  return {
    sweeps: sweeps.map((sweep) =>
      Array.from(sweep.frequencyHz, (hz, i) =>
        sweep.kind === 'swr' ? [hz] : [hz, sweep.resistanceOhm[i] as number, sweep.reactanceOhm[i] as number],
      ),
    ),
    told: problems.map(({ severity, code, line }) => `${severity} ${code}${line === null ? '' : ` ${line}`}`),
  };
}

const MATCHED = '7 0 0\n8 0 0\n';

describe('the option line', () => {
  it('is not taken from an instrument’s block header before it', () => {
    const { sweeps, told } = read(`#48066!a transfer\n! second comment\n# Hz S RI R 50\n${MATCHED}`);
    expect(sweeps[0]?.[0]?.[0]).toBe(7);
    expect(told).toEqual(['note option-line-skipped 1']);
  });

  it('may follow no blank, be indented, carry a comment and any case', () => {
    for (const line of ['#MHz S dB R 50', '  # mhz s Db r 50 ! at the feed point', '#\tR 50 DB MHZ S']) {
      const { sweeps, told } = read(`${line}\n7 -20 0\n8 -20 0\n`);
      expect(told).toEqual([]);
      expect(sweeps[0]?.[0]?.[0]).toBe(7e6);
      expectClose(sweeps[0]?.[0]?.[1], (50 * 1.1) / 0.9, { relative: 1e-14 });
    }
  });

  it('counts once; a second one is told', () => {
    expect(read(`# MHz S RI R 50\n7 0 0\n# GHz Z RI R 50\n8 0 0\n`)).toEqual({
      sweeps: [
        [
          [7e6, 50, 0],
          [8e6, 50, 0],
        ],
      ],
      told: ['note option-line-ignored 3'],
    });
  });

  it('with column titles glued to it is none, and without any the file is refused', () => {
    const { sweeps, told } = read(`# HZ S RI RS11r S11i\n${MATCHED}`);
    expect(sweeps).toEqual([]);
    expect(told).toEqual(['note option-line-skipped 1', 'refused option-line-missing 2']);
  });

  it('refuses a complex or zero reference', () => {
    for (const reference of ['(50+1j)', '0', '-50', '50j', '']) {
      expect(read(`# MHz S RI R ${reference}\n${MATCHED}`).told).toContain('refused option-line-missing 2');
    }
  });

  it('takes a bare # as all defaults: GHz, S, MA, R 50', () => {
    expect(read('! c\n#\n0.007 0.5 0\n0.008 0.5 0\n').sweeps[0]?.[0]).toEqual([7e6, 150, 0]);
  });

  it('refuses parameters of two ports by name', () => {
    expect(read(`# MHz H RI R 50\n${MATCHED}`).told).toEqual(['refused parameter-two-port']);
  });
});

describe('the data of version 1', () => {
  it('may come in every form of blanks, line end and number', () => {
    const { sweeps, told } = read(
      '! a !! b\r\n\r\n# MHz Z RI R 1\r\n\t 7.0\t.95   -3.357854e+001 ! port impedance\r\n!between\r\n\r\n  8  1.E-02 2',
    );
    expect(told).toEqual([]);
    expect(sweeps).toEqual([
      [
        [7e6, 0.95, -33.57854],
        [8e6, 0.01, 2],
      ],
    ]);
    expect(read('# MHz S RI R 50\r7 0 0\r8 0 0\r').sweeps[0]).toHaveLength(2);
  });

  it('with a D exponent is read, and told', () => {
    expect(read('# MHz Z RI R 1\n7 1.5D+01 2d0\n8 1 2\n')).toEqual({
      sweeps: [
        [
          [7e6, 15, 2],
          [8e6, 1, 2],
        ],
      ],
      told: ['note exponent-letter 2', 'note exponent-letter 2'],
    });
  });

  it('with decimal commas is refused with the option that chooses', () => {
    const text = '# MHz Z RI R 1\n7,5 1,5 0,2\n8,5 1 2\n';
    const { problems } = readSweepText(text, 'a.s1p');
    expect(problems[0]?.settledBy?.choices).toEqual([{ decimal: 'comma' }]);
    expect([problems[0]?.line, problems[0]?.column]).toEqual([2, 1]);
    expect(read(text, 'a.s1p', { decimal: 'comma' }).sweeps[0]).toEqual([
      [7.5e6, 1.5, 0.2],
      [8.5e6, 1, 2],
    ]);
  });

  it('tells each line that is not three numbers, and reads the rest', () => {
    expect(read('# MHz Z RI R 1\n7 1 2\n7.1 1\n7.2 x 1\n8 1 2\n9 1 2 3\n')).toEqual({
      sweeps: [
        [
          [7e6, 1, 2],
          [8e6, 1, 2],
        ],
      ],
      told: ['refused number-count 3', 'refused number-wrong 4', 'refused number-count 6'],
    });
  });

  it('that fall, repeat or start again are turned round, kept once, taken as shots, and told', () => {
    expect(read('# MHz Z RI R 1\n8 1 2\n7 3 4\n7 3 4\n')).toEqual({
      sweeps: [
        [
          [7e6, 3, 4],
          [8e6, 1, 2],
        ],
      ],
      told: ['note frequency-repeated 4', 'note sweep-reversed 2'],
    });
    expect(read(`# MHz S RI R 50\n${MATCHED}${MATCHED}`).sweeps).toHaveLength(2);
  });

  it('with |Γ| of 1 and more are counted; an open circuit has no ohms', () => {
    const { sweeps, told } = read('# MHz S RI R 50\n0 -1 0\n7 1 0\n8 1.01 0.1\n9 0 0\n');
    expect(sweeps[0]?.map(([hz]) => hz)).toEqual([0, 8e6, 9e6]);
    expect(sweeps[0]?.[0]).toEqual([0, 0, 0]);
    expect(told).toEqual(['note point-open 3', 'note reflection-not-below-one']);
  });

  it('are refused where there are none, or one alone', () => {
    expect(read('# MHz S RI R 50\n').told).toEqual(['refused data-none']);
    expect(read('# MHz S RI R 50\n7 0 0\n').told).toEqual(['refused sweep-too-short 2']);
  });

  it('of 10,000 points are read whole', () => {
    const rows = Array.from({ length: 10_000 }, (_, i) => `${1e6 + i * 1000} 0.1 0.2`);
    expect(read(`# Hz S RI R 50\n${rows.join('\n')}\n`, 'ring slot, measured.s1p').sweeps[0]).toHaveLength(
      10_000,
    );
  });
});

describe('several ports', () => {
  const TWO = '# MHz S RI R 50\n7 0.5 0 0 1 0 2 0 0\n8 0.5 0 0 1 0 2 -0.5 0\n';

  it('are refused with the option that chooses', () => {
    for (const name of ['a.s2p', 'a.s1p', 'a.txt'])
      expect(read(TWO, name).told).toEqual(['refused several-ports 2']);
    expect(readSweepText(TWO, 'a.s2p').problems[0]?.settledBy?.choices).toEqual([{ port: 1 }]);
  });

  it('give one port’s reflection when it is asked for', () => {
    expect(read(TWO, 'a.s2p', { port: 1 }).sweeps[0]?.map(([, r]) => r)).toEqual([150, 150]);
    const second = read(TWO, 'a.s2p', { port: 2 }).sweeps[0]?.map(([, r]) => r);
    expect(second?.[0]).toBe(50);
    expectClose(second?.[1], 50 / 3, { relative: 1e-15 });
    expect(read(TWO, 'a.s2p', { port: 3 }).told).toEqual(['refused port-unknown']);
  });

  it('leave noise data alone', () => {
    const noisy = `${TWO}2 1 0.5 30 0.2\n3 1 0.5 30 0.2\n`;
    expect(read(noisy, 'a.s2p', { port: 1 }).told).toEqual(['note noise-not-read 4']);
  });

  it('of three take the row of the matrix, over line breaks', () => {
    const row = (hz: number) => `${hz} 0 0 0 0 0 0\n 0 0 0.5 0 0 0\n 0 0 0 0 0 0\n`;
    const three = `# MHz S RI R 50\n${row(7)}${row(8)}`;
    expect(read(three, 'a.s3p', { port: 2 }).sweeps[0]?.map(([, r]) => r)).toEqual([150, 150]);
    expect(read(three, 'a.s3p', { port: 3 }).sweeps[0]?.map(([, r]) => r)).toEqual([50, 50]);
  });

  it('hold a reflection in S alone', () => {
    expect(read(TWO.replace('S', 'Z'), 'a.s2p', { port: 1 }).told).toEqual([
      'refused parameter-not-reflection',
    ]);
  });
});

describe('version 2', () => {
  const head = '[Version] 2.0\n# MHz S RI R 50\n[Number of Ports] 1\n[Number of Frequencies] 2\n';

  it('refers S to [Reference], which may start on the next line', () => {
    const text = `${head}[Reference]\n75\n[Begin Information]\nby hand: 1 2 3\n[End Information]\n[Network Data]\n${MATCHED}[End]\n`;
    expect(read(text)).toEqual({
      sweeps: [
        [
          [7e6, 75, 0],
          [8e6, 75, 0],
        ],
      ],
      told: [],
    });
  });

  it('takes Y as siemens, not normalised', () => {
    const text = `${head.replace('S RI', 'Y RI')}[Network Data]\n7 0.02 0\n8 0 0.01\n[End]\n`;
    expect(read(text).sweeps[0]).toEqual([
      [7e6, 50, 0],
      [8e6, 0, -100],
    ]);
  });

  it('lets numbers break over lines, a frequency always beginning one', () => {
    expect(read(`${head}[Network Data]\n7\n0 0\n8 0\n0\n[End]\n`).sweeps[0]).toHaveLength(2);
  });

  it('reads the diagonal of half a matrix', () => {
    const file = (format: string, numbers: string) =>
      `[Version] 2.1\n# MHz S RI R 50\n[Number of Ports] 2\n[Two-Port Data Order] 21_12\n[Number of Frequencies] 2\n[Matrix Format] ${format}\n[Network Data]\n7 ${numbers}\n8 ${numbers}\n[End]\n`;
    for (const format of ['Lower', 'Upper']) {
      const text = file(format, '0 0 0.9 0 0.5 0');
      expect(read(text, 'a.ts', { port: 1 }).sweeps[0]?.[0]).toEqual([7e6, 50, 0]);
      expect(read(text, 'a.ts', { port: 2 }).sweeps[0]?.[0]).toEqual([7e6, 150, 0]);
    }
  });

  it('notes what leaves the data readable', () => {
    expect(read(`${head} [Network Data]\n${MATCHED}`).told).toEqual([
      'note keyword-indented 5',
      'note end-missing',
    ]);
    expect(
      read(`# MHz S RI\n[Version] 2.1\n[Number of Ports] 1\n[Network Data]\n${MATCHED}[End]\n`).told,
    ).toEqual(['note version-late 2', 'note keyword-missing']);
    expect(read(`${head}[Network Data]\n${MATCHED}[End]\nmore\n`).told).toEqual(['note text-after-end 9']);
    expect(read(`${head}[Network Data]\n${MATCHED}9 0 0\n[End]\n`).told).toEqual(['note frequency-count']);
  });

  it('refuses what leaves their meaning open, by name', () => {
    const refused = (text: string) => read(text, 'a.ts').told[0];
    expect(refused(`[Version] 3.0\n# MHz S RI R 50\n${MATCHED}`)).toBe('refused version-unknown 1');
    expect(refused(`# MHz S RI R 50\n[Number of Ports] 1\n[Network Data]\n${MATCHED}`)).toBe(
      'refused version-missing 2',
    );
    expect(refused(`# MHz S RI R 50\n${MATCHED}[Version] 2.1\n`)).toBe('refused version-late 4');
    expect(refused(`[Version] 2.1\n# MHz S RI\n[Network Data]\n${MATCHED}[End]\n`)).toBe(
      'refused keyword-missing 1',
    );
    expect(refused(`${head}${MATCHED}[End]\n`)).toBe('refused data-misplaced 5');
    expect(refused(`${head}[Network Date]\n${MATCHED}`)).toBe('refused keyword-unknown 5');
    expect(refused(`${head}[Reference] 50 75\n[Network Data]\n${MATCHED}[End]\n`)).toBe(
      'refused reference-not-positive 5',
    );
    expect(refused(`${head}[Reference] 0\n[Network Data]\n${MATCHED}[End]\n`)).toBe(
      'refused reference-not-positive 5',
    );
    expect(refused(`[Version] 2.1\n# MHz S RI\n[Number of Ports] one\n`)).toBe('refused count-wrong 3');
    expect(refused(`${head}[Matrix Format] Sparse\n`)).toBe('refused matrix-unknown 5');
  });
});
