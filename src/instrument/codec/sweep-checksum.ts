import { CRC16_START, crc16 } from './crc16.ts';
import type { Grid } from './grid.ts';

/**
 * The checksum of a whole sweep, as `end` carries it: CRC-16 over start, stop and points, then the real
 * and imaginary part of each point in the order of its number, every value as 32 bits, most significant byte
 * first, negative ones in two's complement. It is taken over the values, not over the lines, so it also
 * finds a point that went into the wrong sweep and a digit that was misread.
 */
export function sweepChecksum(grid: Grid, reMicro: Int32Array, imMicro: Int32Array): number {
  const scratch = new Uint8Array(12);
  const view = new DataView(scratch.buffer);
  view.setUint32(0, grid.startHz);
  view.setUint32(4, grid.stopHz);
  view.setUint32(8, grid.points);
  let register = crc16(scratch, 0, 12, CRC16_START);
  for (let number = 0; number < grid.points; number++) {
    view.setInt32(0, reMicro[number] as number);
    view.setInt32(4, imMicro[number] as number);
    register = crc16(scratch, 0, 8, register);
  }
  return register;
}
