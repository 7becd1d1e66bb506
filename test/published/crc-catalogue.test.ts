/**
 * Source: G. Cook, Catalogue of parametrised CRC algorithms, reveng.sourceforge.io, entry CRC-16/IBM-3740, also known
 * as CRC-16/CCITT-FALSE: width 16, polynomial 0x1021, start 0xFFFF, nothing reflected, final 0x0000. Status: published,
 * or computed where a check says so.
 *
 * Tolerance: none; checksums are exact.
 */
import { describe, expect, it } from 'vitest';
import { CRC16_START, crc16 } from '../../src/instrument/codec/crc16.ts';

const ascii = (text: string): Uint8Array => new TextEncoder().encode(text);

describe('CRC-16/IBM-3740', () => {
  // Status: published (catalogue, column "check"). Exact.
  it('gives the check value 0x29B1 for the nine digits', () => {
    expect(crc16(ascii('123456789'))).toBe(0x29b1);
  });

  // Status: published (catalogue, column "residue"). Exact: data followed by their own checksum leave 0.
  it('leaves the residue 0x0000', () => {
    expect(crc16(Uint8Array.of(...ascii('123456789'), 0x29, 0xb1))).toBe(0x0000);
  });

  // Status: computed, by division with the polynomial bit by bit outside this project. Exact.
  it('gives 0xFFFF for nothing and 0xB915 for "A"', () => {
    expect(crc16(ascii(''))).toBe(0xffff);
    expect(crc16(ascii('A'))).toBe(0xb915);
  });

  // Status: computed, the definition itself. Exact.
  it('is the remainder of long division, for every single byte', () => {
    for (let byte = 0; byte < 256; byte++) {
      let remainder = CRC16_START ^ (byte << 8);
      for (let bit = 0; bit < 8; bit++) {
        remainder = remainder & 0x8000 ? ((remainder << 1) ^ 0x1021) & 0xffff : remainder << 1;
      }
      expect(crc16(Uint8Array.of(byte))).toBe(remainder);
    }
  });
});
