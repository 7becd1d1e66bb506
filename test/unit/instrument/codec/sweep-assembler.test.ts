import { describe, expect, it } from 'vitest';
import type { Point } from '../../../../src/instrument/codec/messages.ts';
import { SweepAssembler } from '../../../../src/instrument/codec/sweep-assembler.ts';
import { sweepChecksum } from '../../../../src/instrument/codec/sweep-checksum.ts';

const grid = { startHz: 7_000_000, stopHz: 7_000_010, points: 11 };
const reMicro = Int32Array.from({ length: 11 }, (_, number) => number * 1000 - 9_999_999);
const imMicro = Int32Array.from({ length: 11 }, (_, number) => -number);
const end = { kind: 'end', id: 5, points: 11, checksum: sweepChecksum(grid, reMicro, imMicro) } as const;

function point(number: number, id = 5): Point {
  return {
    kind: 'point',
    id,
    number,
    reMicro: reMicro[number] as number,
    imMicro: imMicro[number] as number,
  };
}

function assemblerWith(numbers: readonly number[]): SweepAssembler {
  const assembler = new SweepAssembler(5, grid);
  for (const number of numbers) assembler.accept(point(number));
  return assembler;
}

const all = [0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10];

describe('SweepAssembler', () => {
  it('gives the sweep as columns once all points and the end are there', () => {
    const assembler = assemblerWith(all);
    expect(assembler.sweep()).toBeNull();
    expect(assembler.accept(end)).toBe('taken');
    expect(assembler.nextAgain()).toBeNull();
    expect(assembler.sweep()).toEqual({
      frequencyHz: Float64Array.from(all, (number) => 7_000_000 + number),
      reflectionRe: Float64Array.from(reMicro, (micro) => micro / 1e6),
      reflectionIm: Float64Array.from(imMicro, (micro) => micro / 1e6),
    });
  });

  it('takes points in any order, repeated, and after the end', () => {
    const assembler = assemblerWith([10, 3, 1, 0, 9]);
    assembler.accept(end);
    expect(assembler.accept(point(3))).toBe('duplicate');
    expect(assembler.complete).toBe(false);
    for (const number of all) assembler.accept(point(number));
    expect(assembler.received).toBe(11);
    expect(assembler.complete).toBe(true);
  });

  it('asks for the first gap, together with gaps that are near', () => {
    expect(assemblerWith([0, 2, 3, 4, 5, 7]).nextAgain()).toEqual({
      kind: 'again',
      id: 5,
      first: 1,
      last: 10,
    });
    expect(assemblerWith([0, 2, 3, 4, 5, 6, 7, 8, 10]).nextAgain()).toEqual({
      kind: 'again',
      id: 5,
      first: 1,
      last: 1,
    });
    expect(assemblerWith([]).nextAgain()).toEqual({ kind: 'again', id: 5, first: 0, last: 10 });
  });

  it('asks for the last point when only the end is missing', () => {
    const assembler = assemblerWith(all);
    expect(assembler.ended).toBe(false);
    expect(assembler.nextAgain()).toEqual({ kind: 'again', id: 5, first: 10, last: 10 });
  });

  it('drops both when a point comes with two values', () => {
    const assembler = assemblerWith(all);
    expect(assembler.accept({ ...point(4), reMicro: 0 })).toBe('conflict');
    expect(assembler.nextAgain()).toEqual({ kind: 'again', id: 5, first: 4, last: 4 });
    assembler.accept(end);
    expect(assembler.accept(point(4))).toBe('taken');
    expect(assembler.complete).toBe(true);
  });

  it('does not let a stray point spoil a sweep whose checksum was right', () => {
    const assembler = assemblerWith(all);
    assembler.accept(end);
    expect(assembler.accept({ ...point(4), reMicro: 0 })).toBe('conflict');
    expect(assembler.complete).toBe(true);
  });

  it('drops everything and asks for it again when the checksum of the sweep is wrong', () => {
    const assembler = assemblerWith(all.slice(0, 10));
    assembler.accept({ ...point(10), imMicro: 77 });
    expect(assembler.accept(end)).toBe('checksum-mismatch');
    expect(assembler.received).toBe(0);
    expect(assembler.ended).toBe(false);
    expect(assembler.nextAgain()).toEqual({ kind: 'again', id: 5, first: 0, last: 10 });
    for (const number of all) assembler.accept(point(number));
    assembler.accept(end);
    expect(assembler.complete).toBe(true);
  });

  it('leaves alone what belongs to another sweep', () => {
    const assembler = new SweepAssembler(5, grid);
    expect(assembler.accept(point(0, 4))).toBe('not-ours');
    expect(assembler.accept({ ...end, id: 4 })).toBe('not-ours');
    expect(assembler.accept({ kind: 'begin', id: 4, ...grid })).toBe('not-ours');
    expect(assembler.accept({ kind: 'alive', id: 0, sweep: 5, sent: 0 })).toBe('not-ours');
    expect(assembler.received).toBe(0);
  });

  it('notices an instrument that walks another grid', () => {
    const assembler = new SweepAssembler(5, grid);
    expect(assembler.accept({ kind: 'begin', id: 5, ...grid })).toBe('taken');
    expect(assembler.accept({ kind: 'begin', id: 5, ...grid, stopHz: 7_000_011 })).toBe('other-grid');
    expect(assembler.accept({ ...end, points: 10 })).toBe('other-grid');
    expect(assembler.accept({ ...point(0), number: 11 })).toBe('other-grid');
  });
});

describe('sweepChecksum', () => {
  it('is that of the worked exchange', () => {
    const re = Int32Array.of(-69127, -113404, -134249, -129071, -98736);
    const im = Int32Array.of(-278266, -168659, -48976, 72970, 188925);
    expect(sweepChecksum({ startHz: 7_000_000, stopHz: 7_200_001, points: 5 }, re, im)).toBe(0xae5c);
  });
});
