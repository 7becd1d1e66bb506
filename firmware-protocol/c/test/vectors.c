/*
 *   vectors lines FILE   checks the decoder and the encoder against vectors/lines.txt
 *   vectors grids FILE   checks the frequencies against vectors/grids.txt
 */
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"

/* A good line must also be what the encoder makes of its message. */
static int encodes_to(const tw_message *message, const char *line, size_t length) {
  char again[TW_LINE_BYTES];
  size_t again_length;
  return tw_encode(message, again, &again_length) == TW_OK && again_length == length + 1 &&
         memcmp(again, line, length) == 0 && again[length] == '\n';
}

static int check_line(char *row) {
  char *line = strchr(row, '\t');
  if (line == NULL) {
    printf("no tab: %s\n", row);
    return 0;
  }
  *line++ = '\0';
  size_t length = unescape(line);
  tw_message message;
  tw_failure failure = tw_decode(line, length, &message);
  char outcome[ROW_BYTES];
  if (failure == TW_OK) {
    describe(&message, outcome);
  } else {
    snprintf(outcome, sizeof outcome, "%s", tw_failure_name(failure));
  }
  int good = strcmp(outcome, row) == 0 && (failure != TW_OK || encodes_to(&message, line, length));
  if (!good) printf("expected %s, got %s\n", row, outcome);
  return good;
}

static int check_grid(char *row) {
  tw_grid grid;
  uint32_t number, expected;
  if (sscanf(row, "%" SCNu32 " %" SCNu32 " %" SCNu32 " %" SCNu32 " %" SCNu32, &grid.start_hz, &grid.stop_hz,
             &grid.points, &number, &expected) != 5) {
    printf("no five numbers: %s\n", row);
    return 0;
  }
  uint32_t frequency_hz = tw_grid_frequency_hz(&grid, number);
  if (frequency_hz != expected) printf("%s: got %" PRIu32 "\n", row, frequency_hz);
  return frequency_hz == expected;
}

int main(int count, char *arguments[]) {
  FILE *file = count == 3 ? fopen(arguments[2], "r") : NULL;
  if (file == NULL) {
    printf("usage: vectors lines|grids FILE\n");
    return 2;
  }
  int (*check)(char *) = strcmp(arguments[1], "grids") == 0 ? check_grid : check_line;
  char row[ROW_BYTES];
  unsigned rows = 0, bad = 0;
  for (; read_row(file, row); rows++) bad += !check(row);
  fclose(file);
  printf("%u vectors, %u wrong\n", rows, bad);
  return rows == 0 || bad > 0;
}
