#include "turfwire.h"

uint16_t tw_crc(uint16_t crc, const void *bytes, size_t length) {
  const unsigned char *byte = bytes;
  for (; length > 0; length--) {
    /* Eight steps of polynomial 0x1021 at once, without a table: the feedback byte is x, its taps lie at 0, 5, 12. */
    unsigned x = (unsigned)(crc >> 8) ^ *byte++;
    x ^= x >> 4;
    crc = (uint16_t)(((unsigned)crc << 8) ^ (x << 12) ^ (x << 5) ^ x);
  }
  return crc;
}

static uint16_t add_word(uint16_t crc, uint32_t word) {
  const unsigned char bytes[4] = {(unsigned char)(word >> 24), (unsigned char)(word >> 16),
                                  (unsigned char)(word >> 8), (unsigned char)word};
  return tw_crc(crc, bytes, sizeof bytes);
}

uint16_t tw_crc_of_grid(const tw_grid *grid) {
  return add_word(add_word(add_word(TW_CRC_START, grid->start_hz), grid->stop_hz), grid->points);
}

uint16_t tw_crc_add_point(uint16_t crc, int32_t re, int32_t im) {
  return add_word(add_word(crc, (uint32_t)re), (uint32_t)im);
}
