/*
 *   exchanges FILE   plays the host's part of each exchange and checks what the device sends
 *
 * How the file is written stands at the top of vectors/exchanges.txt.
 */
#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

#include "check.h"

#define SENT_BYTES 65536
#define IDLE_RUNS 8 /* as many steps without a line are enough to believe that none comes */

static struct {
  char sent[SENT_BYTES]; /* by the device, not yet expected by the file */
  size_t sent_length;
  uint32_t now_ms;
  int greeting_is_new; /* nothing was said or expected since power-up */
  int has_reading;
  uint32_t frequency_hz;
  tw_measured measured;
  tw_reading reading;
  char text[ROW_BYTES];
  unsigned wrong;
} world;

static tw_device device;

static void complain(const char *what, const char *row) {
  printf("%s: %s\n", what, row);
  world.wrong++;
}

static void take_bytes(void *context, const char *bytes, size_t length) {
  (void)context;
  if (world.sent_length + length > SENT_BYTES) abort();
  memcpy(world.sent + world.sent_length, bytes, length);
  world.sent_length += length;
}

static uint32_t now_ms(void *context) {
  (void)context;
  return world.now_ms;
}

static tw_measured measure(void *context, uint32_t frequency_hz, tw_reading *reading) {
  (void)context;
  if (!world.has_reading) return TW_NOT_YET;
  if (frequency_hz != world.frequency_hz) complain("measured at another frequency than", world.text);
  world.has_reading = 0;
  *reading = world.reading;
  return world.measured;
}

static void rest(void *context) { (void)context; }

static const tw_identity identity = {1000000, 60000000, TW_CAL, TW_LEAD, 50000, "garden bridge 2", "0007"};
static const tw_hardware hardware = {NULL, take_bytes, now_ms, measure, rest};

static void start(void) {
  world.sent_length = 0;
  world.greeting_is_new = 1;
  world.has_reading = 0;
  if (tw_device_start(&device, &identity, &hardware) != TW_OK) abort();
}

static void give(const char *bytes, size_t length) {
  for (size_t i = 0; i < length; i++) tw_device_receive(&device, bytes[i]);
}

/* Takes the next line that the device sends, bare LFs left out; empty when it sends none. */
static void next_sent(char line[ROW_BYTES]) {
  for (int run = 0; run < IDLE_RUNS && world.sent_length == 0; run++) tw_device_run(&device);
  size_t start_of_line = 0;
  while (start_of_line < world.sent_length && world.sent[start_of_line] == '\n') start_of_line++;
  size_t end = start_of_line;
  while (end < world.sent_length && world.sent[end] != '\n') end++;
  memcpy(line, world.sent + start_of_line, end - start_of_line);
  line[end - start_of_line] = '\0';
  if (end < world.sent_length) end++;
  memmove(world.sent, world.sent + end, world.sent_length - end);
  world.sent_length -= end;
}

static void expect_silence(const char *row) {
  char line[ROW_BYTES];
  next_sent(line);
  if (line[0] != '\0') {
    printf("got %s, and ", line);
    complain("expected nothing after", row);
  }
}

static void expect_line(const char *expected) {
  char line[ROW_BYTES];
  next_sent(line);
  if (strcmp(line, expected) == 0) return;
  printf("got %s, and ", line);
  complain("expected", expected);
}

static tw_fault_code fault_code(const char *word) {
  unsigned code = 0;
  while (code < TW_FAULT_BROKEN && strcmp(word, tw_fault_word((tw_fault_code)code)) != 0) code++;
  return (tw_fault_code)code;
}

static void set_reading(const char *row) {
  char word[ROW_BYTES];
  int text_at = 0;
  if (world.has_reading) complain("was not measured", world.text);
  snprintf(world.text, sizeof world.text, "%s", row);
  world.has_reading = 1;
  if (sscanf(row, "%" SCNu32 " %" SCNd32 " %" SCNd32, &world.frequency_hz, &world.reading.re,
             &world.reading.im) == 3) {
    world.measured = TW_MEASURED;
  } else if (sscanf(row, "%" SCNu32 " %[a-z]%n", &world.frequency_hz, word, &text_at) == 2) {
    world.measured = TW_FAILED;
    world.reading.fault = fault_code(word);
    world.reading.text = world.text[text_at] == ' ' ? world.text + text_at + 1 : NULL;
  } else {
    complain("no reading", row);
  }
}

static void send_line(char *line, int damaged) {
  size_t length = strlen(line);
  if (damaged) line[0] ^= 1;
  give("\n", 1);
  give(line, length);
  give("\n", 1);
}

static void leave_out_greeting(void) {
  if (world.greeting_is_new) world.sent_length = 0;
  world.greeting_is_new = 0;
}

static void play(char *row) {
  if (strncmp(row, "exchange", 8) == 0) {
    expect_silence(row);
    start();
  } else if (strcmp(row, "reset") == 0) {
    start();
  } else if (strcmp(row, ".") == 0) {
    expect_silence(row);
  } else if (strncmp(row, "> ", 2) == 0 || strncmp(row, "x> ", 3) == 0) {
    leave_out_greeting();
    send_line(strchr(row, ' ') + 1, row[0] == 'x');
  } else if (strncmp(row, "< ", 2) == 0 || strncmp(row, "x< ", 3) == 0) {
    world.greeting_is_new = 0;
    expect_line(strchr(row, ' ') + 1);
  } else if (strncmp(row, "= ", 2) == 0) {
    set_reading(row + 2);
  } else if (strncmp(row, "~ ", 2) == 0) {
    world.now_ms += (uint32_t)strtoul(row + 2, NULL, 10);
  } else if (strncmp(row, "! ", 2) == 0) {
    leave_out_greeting();
    give(row + 2, unescape(row + 2));
  } else {
    complain("no mark", row);
  }
}

int main(int count, char *arguments[]) {
  FILE *file = count == 2 ? fopen(arguments[1], "r") : NULL;
  if (file == NULL) {
    printf("usage: exchanges FILE\n");
    return 2;
  }
  char row[ROW_BYTES];
  unsigned rows = 0;
  start();
  leave_out_greeting();
  for (; read_row(file, row); rows++) play(row);
  fclose(file);
  expect_silence("the last row");
  if (world.has_reading) complain("was not measured", world.text);
  printf("%u rows, %u wrong\n", rows, world.wrong);
  return rows == 0 || world.wrong > 0;
}
