import { describe, expect, it } from 'vitest';
import { decodeLine } from '../../../../src/instrument/codec/decode-line.ts';
import { encodeMessage, withChecksum } from '../../../../src/instrument/codec/encode-message.ts';
import {
  describeOutcome,
  escapeBytes,
  readLineVectors,
  readRows,
} from '../../../support/protocol-vectors.ts';

const vectors = readLineVectors();

describe('decodeLine', () => {
  it.each(vectors.map((vector) => ({ ...vector, shown: escapeBytes(vector.line) })))(
    'makes of $shown what the vectors say',
    ({ outcome, line }) => {
      expect(describeOutcome(decodeLine(line))).toBe(outcome);
    },
  );

  it('reads text as it reads bytes', () => {
    for (const { outcome, line } of vectors) {
      expect(describeOutcome(decodeLine(String.fromCharCode(...line)))).toBe(outcome);
    }
  });

  it('reads a line in the middle of a larger buffer', () => {
    const wire = new TextEncoder().encode(`xx${withChecksum('there,17')}yy`);
    expect(decodeLine(wire.subarray(2, wire.length - 2))).toEqual({ kind: 'there', id: 17 });
  });

  it('refuses characters that only look like ASCII', () => {
    expect(decodeLine(withChecksum('there,17').replace('t', 'ｔ'))).toEqual({
      kind: 'unreadable',
      reason: 'not-ascii',
    });
    // The low byte of the first character is a "t".
    expect(decodeLine(withChecksum('there,17').replace('t', 'Ŵ'))).toEqual({
      kind: 'unreadable',
      reason: 'not-ascii',
    });
  });

  it('names the field that is wrong', () => {
    expect(decodeLine(withChecksum('p,1,2,3,x'))).toEqual({
      kind: 'unreadable',
      reason: 'bad-number',
      field: 4,
    });
  });

  it('gives the values their names', () => {
    expect(decodeLine(withChecksum('p,61701,3,-129071,72970'))).toEqual({
      kind: 'point',
      id: 61701,
      number: 3,
      reMicro: -129071,
      imMicro: 72970,
    });
  });
});

describe('encodeMessage', () => {
  it('makes of every good line of the vectors the same line again', () => {
    const good = vectors.filter(({ outcome }) => outcome.includes(' '));
    expect(good.length).toBeGreaterThan(30);
    for (const { line } of good) {
      const decoded = decodeLine(line);
      if (decoded.kind === 'unreadable') throw new Error(decoded.reason);
      expect(encodeMessage(decoded)).toBe(`${String.fromCharCode(...line)}\n`);
    }
  });

  it('refuses to send what the other side would refuse', () => {
    expect(() => encodeMessage({ kind: 'there', id: 0 })).toThrow(
      'there cannot be sent: out-of-range in field 1',
    );
    expect(() => encodeMessage({ kind: 'point', id: 1, number: 0, reMicro: 0.5, imMicro: 0 })).toThrow(
      'bad-number',
    );
    expect(() => encodeMessage({ kind: 'point', id: 1, number: 0, reMicro: Number.NaN, imMicro: 0 })).toThrow(
      'bad-number',
    );
    expect(() => encodeMessage({ kind: 'fault', id: 1, code: 'broken', text: 'one, two' })).toThrow(
      'field-count',
    );
    expect(() => encodeMessage({ kind: 'walk', id: 1, startHz: 2, stopHz: 1, points: 2 })).toThrow(
      'inconsistent',
    );
  });
});

describe('the vectors', () => {
  it('show every kind of message and every failure', () => {
    const shown = new Set(
      vectors.map(({ line }) => decodeLine(line)).map((d) => (d.kind === 'unreadable' ? d.reason : d.kind)),
    );
    expect(shown.size).toBe(13 + 12);
    expect(readRows('vectors/lines.txt').length).toBe(vectors.length);
  });
});
