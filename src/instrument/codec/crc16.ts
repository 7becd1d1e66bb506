/** The register before the first byte. */
export const CRC16_START = 0xffff;

/**
 * CRC-16/CCITT-FALSE (catalogued as CRC-16/IBM-3740): polynomial 0x1021, start 0xFFFF, nothing
 * reflected or inverted. A table of 256 steps takes a byte at a time.
 *
 * @param bytes - the data; `start` and `end` narrow it as in `subarray`
 * @param register - the result so far, when the data come in pieces
 * @returns 0 to 65,535; 0x29B1 for the ASCII text "123456789"
 */
export function crc16(
  bytes: Uint8Array,
  start = 0,
  end: number = bytes.length,
  register: number = CRC16_START,
): number {
  let crc = register;
  for (let i = start; i < end; i++) {
    crc = ((crc << 8) & 0xffff) ^ (STEPS[(crc >> 8) ^ (bytes[i] as number)] as number);
  }
  return crc;
}

const STEPS = tableOfSteps(0x1021);

function tableOfSteps(polynomial: number): Uint16Array {
  const steps = new Uint16Array(256);
  for (let byte = 0; byte < 256; byte++) {
    let crc = byte << 8;
    for (let bit = 0; bit < 8; bit++) crc = crc & 0x8000 ? (crc << 1) ^ polynomial : crc << 1;
    steps[byte] = crc;
  }
  return steps;
}
