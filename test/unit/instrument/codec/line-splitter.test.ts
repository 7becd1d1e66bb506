import { describe, expect, it } from 'vitest';
import { LineSplitter } from '../../../../src/instrument/codec/line-splitter.ts';

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);
const text = (lines: Uint8Array[]): string[] => lines.map((line) => new TextDecoder().decode(line));

describe('LineSplitter', () => {
  it('gives each line when its LF has come, without CR and LF, and no empty ones', () => {
    const splitter = new LineSplitter();
    expect(text(splitter.push(bytes('one\ntwo\r\n\n\r\nthr')))).toEqual(['one', 'two']);
    expect(text(splitter.push(bytes('e')))).toEqual([]);
    expect(text(splitter.push(bytes('e\r')))).toEqual([]);
    expect(text(splitter.push(bytes('\nfour\n')))).toEqual(['three', 'four']);
    expect(splitter.droppedBytes).toBe(0);
  });

  it('removes one CR at the end and no other', () => {
    expect(text(new LineSplitter().push(bytes('\ra\rb\r\r\n')))).toEqual(['\ra\rb\r']);
  });

  it.each([1, 2, 3, 7, 64])('gives the same lines however the bytes are cut, here every %i', (size) => {
    const wire = bytes('first\r\nsecond\n\nthis is too long\r\n12345678\r\n123456789\n\nlast\n');
    const splitter = new LineSplitter(8);
    const lines: string[] = [];
    for (let i = 0; i < wire.length; i += size)
      lines.push(...text(splitter.push(wire.subarray(i, i + size))));
    expect(lines).toEqual(['first', 'second', '12345678', 'last']);
    expect(splitter.droppedLines).toBe(2);
    expect(splitter.droppedBytes).toBeGreaterThanOrEqual('this is too long'.length + '123456789'.length);
  });

  it('drops a line without end as it comes, counts it once, and goes on after the next LF', () => {
    const splitter = new LineSplitter(100);
    const noise = new Uint8Array(1 << 16).fill(0x55);
    for (let i = 0; i < 256; i++) expect(splitter.push(noise)).toEqual([]);
    expect(splitter.droppedLines).toBe(1);
    expect(splitter.droppedBytes).toBe(1 << 24);
    expect(text(splitter.push(bytes('rest of the noise\ngood\n')))).toEqual(['good']);
    expect(splitter.droppedLines).toBe(1);
  });

  it('forgets a half line when told so', () => {
    const splitter = new LineSplitter();
    splitter.push(bytes('7020000,par'));
    splitter.discardTail();
    expect(text(splitter.push(bytes('fresh\n')))).toEqual(['fresh']);
    expect(splitter.droppedBytes).toBe('7020000,par'.length);
  });

  it('keeps lines that were cut by a chunk apart from later chunks', () => {
    const splitter = new LineSplitter();
    splitter.push(bytes('ab'));
    const [first] = splitter.push(bytes('c\nde'));
    splitter.push(bytes('f\n'));
    expect(text([first as Uint8Array])).toEqual(['abc']);
  });
});
