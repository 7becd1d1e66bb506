import { describe, expect, it } from 'vitest';
import { crc16 } from '../../../../src/instrument/codec/crc16.ts';

const digits = new TextEncoder().encode('..123456789..');

describe('crc16', () => {
  it('takes a part of the bytes', () => {
    expect(crc16(digits, 2, 11)).toBe(0x29b1);
  });

  it('goes on from what it had, so data may come in pieces', () => {
    expect(crc16(digits, 7, 11, crc16(digits, 2, 7))).toBe(0x29b1);
  });
});
