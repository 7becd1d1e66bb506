/*
 *   vectors lines FILE      checks the decoder and the encoder against vectors/lines.txt
 *   vectors grids FILE      checks the frequencies against vectors/grids.txt
 *   vectors outcomes FILE   prints the outcome of each row of such lines, whatever the row says it is
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

/* Cuts a row into the expected outcome, which stays in `row`, and the line, and decodes the line. */
static int decode_row(char *row, char outcome[ROW_BYTES]) {
  char *line = strchr(row, '\t');
  if (line == NULL) {
    printf("no tab: %s\n", row);
    return 0;
  }
  *line++ = '\0';
  size_t length = unescape(line);
  tw_message message;
  tw_failure failure = tw_decode(line, length, &message);
  if (failure != TW_OK) {
    snprintf(outcome, ROW_BYTES, "%s", tw_failure_name(failure));
    return 1;
  }
  describe(&message, outcome);
  return encodes_to(&message, line, length);
}

static int print_outcome(char *row) {
  char outcome[ROW_BYTES] = "";
  int good = decode_row(row, outcome);
  if (good) printf("%s\n", outcome);
  return good;
}

static int check_line(char *row) {
  char outcome[ROW_BYTES] = "";
  int good = decode_row(row, outcome) && strcmp(outcome, row) == 0;
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

static int (*check_of(const char *what))(char *) {
  if (strcmp(what, "lines") == 0) return check_line;
  if (strcmp(what, "grids") == 0) return check_grid;
  return strcmp(what, "outcomes") == 0 ? print_outcome : NULL;
}

int main(int count, char *arguments[]) {
  int (*check)(char *) = count == 3 ? check_of(arguments[1]) : NULL;
  FILE *file = check == NULL ? NULL : fopen(arguments[2], "r");
  if (file == NULL) {
    printf("usage: vectors lines|grids|outcomes FILE\n");
    return 2;
  }
  char row[ROW_BYTES];
  unsigned rows = 0, bad = 0;
  for (; read_row(file, row); rows++) bad += !check(row);
  fclose(file);
  if (check != print_outcome) printf("%u vectors, %u wrong\n", rows, bad);
  return rows == 0 || bad > 0;
}
