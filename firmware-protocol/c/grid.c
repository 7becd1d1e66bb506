#include "turfwire.h"

uint32_t tw_grid_frequency_hz(const tw_grid *grid, uint32_t number) {
  /* number * remainder + steps / 2 is below 65534 * 65533 + 32767, so 32 bits hold it. */
  uint32_t steps = grid->points - 1;
  uint32_t span_hz = grid->stop_hz - grid->start_hz;
  uint32_t quotient_hz = span_hz / steps;
  uint32_t remainder = span_hz % steps;
  return grid->start_hz + number * quotient_hz + (number * remainder + steps / 2) / steps;
}
