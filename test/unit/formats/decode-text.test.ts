import { describe, expect, it } from 'vitest';
import {
  checkText,
  decodeText,
  MAX_FILE_BYTES,
  MAX_LINE_CHARACTERS,
  MAX_LINES,
} from '../../../src/formats/decode-text.ts';
import { ProblemList } from '../../../src/formats/problem.ts';

function decode(bytes: readonly number[] | Uint8Array): { text: string | null; told: string[] } {
  const problems = new ProblemList();
  const text = decodeText(Uint8Array.from(bytes), problems);
  return { text, told: problems.list().map(({ severity, code }) => `${severity} ${code}`) };
}

describe('bytes as text', () => {
  it('are what a byte order mark says', () => {
    expect(decode([0xef, 0xbb, 0xbf, 0x41])).toEqual({ text: 'A', told: [] });
    expect(decode([0xff, 0xfe, 0xa9, 0x03])).toEqual({ text: 'Ω', told: [] });
    expect(decode([0xfe, 0xff, 0x03, 0xa9])).toEqual({ text: 'Ω', told: [] });
  });

  it('are UTF-8 where that is valid', () => {
    expect(decode([0xce, 0xa9])).toEqual({ text: 'Ω', told: [] });
  });

  it('are windows-1252 otherwise, and that is told', () => {
    expect(decode([0xb0, 0x80])).toEqual({ text: '°€', told: ['note encoding-assumed'] });
  });

  it('that are no text are refused', () => {
    expect(decode([0x50, 0x4b, 0, 0])).toEqual({ text: null, told: ['refused file-binary'] });
  });
});

describe('the limits', () => {
  it('of size: one byte more is refused', () => {
    expect(decode(new Uint8Array(MAX_FILE_BYTES + 1)).told).toEqual(['refused file-too-large']);
    const largest = new Uint8Array(MAX_FILE_BYTES).fill(0x78);
    for (let i = 0; i < largest.length; i += 8192) largest[i] = 0x0a;
    expect(decode(largest).told).toEqual([]);
  });

  it('of lines: one more is refused, whatever ends them', () => {
    for (const lineEnd of ['\n', '\r\n', '\r']) {
      const most = `7,1,2${lineEnd}`.repeat(MAX_LINES);
      const problems = new ProblemList();
      expect(checkText(most, problems)).not.toBeNull();
      expect(checkText(`${most}7,1,2`, problems)).toBeNull();
      expect(problems.list()).toMatchObject([{ code: 'too-many-lines', line: MAX_LINES + 1 }]);
    }
  });

  it('of a line: one character more is refused, with its line, whatever ends lines', () => {
    const longest = 'x'.repeat(MAX_LINE_CHARACTERS);
    for (const lineEnd of ['\n', '\r\n', '\r']) {
      const problems = new ProblemList();
      expect(checkText(['a', longest, 'b'].join(lineEnd), problems)).not.toBeNull();
      expect(checkText(['a', 'b', `${longest}x`].join(lineEnd), problems)).toBeNull();
      expect(problems.list()).toMatchObject([
        { code: 'line-too-long', line: 3, column: MAX_LINE_CHARACTERS + 1 },
      ]);
    }
  });
});
