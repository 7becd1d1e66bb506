#include "check.h"

#include <stdlib.h>
#include <string.h>

int read_row(FILE *file, char row[ROW_BYTES]) {
  while (fgets(row, ROW_BYTES, file) != NULL) {
    row[strcspn(row, "\n")] = '\0';
    if (row[0] != '#' && row[0] != '\0') return 1;
  }
  return 0;
}

size_t unescape(char *text) {
  char *to = text;
  for (const char *from = text; *from != '\0'; from++) {
    if (*from != '\\') {
      *to++ = *from;
    } else if (from[1] == 'x') {
      char digits[3] = {from[2], from[3], '\0'};
      *to++ = (char)strtol(digits, NULL, 16);
      from += 3;
    } else {
      *to++ = *++from;
    }
  }
  return (size_t)(to - text);
}

static const char *correction(uint32_t value) { return value == TW_RAW ? "raw" : "cal"; }
static const char *plane(uint32_t value) { return value == TW_PORT ? "port" : "lead"; }

void describe(const tw_message *message, char text[ROW_BYTES]) {
#define SAY(...) snprintf(text, ROW_BYTES, __VA_ARGS__)
#define N(member) (unsigned long)message->as.member
  switch (message->kind) {
    case TW_WHO:
      SAY("who %lu %lu %lu", N(who.id), N(who.oldest), N(who.newest));
      break;
    case TW_WALK:
      SAY("walk %lu %lu %lu %lu", N(walk.id), N(walk.grid.start_hz), N(walk.grid.stop_hz), N(walk.grid.points));
      break;
    case TW_AGAIN:
      SAY("again %lu %lu %lu", N(again.id), N(again.first), N(again.last));
      break;
    case TW_HALT:
      SAY("halt %lu", N(halt.id));
      break;
    case TW_THERE:
      SAY("there %lu", N(there.id));
      break;
    case TW_WOKE:
      SAY("woke %lu %lu", N(woke.oldest), N(woke.newest));
      break;
    case TW_IAM:
      SAY("iam %lu %lu %lu %lu %lu %s %s %lu \"%s\" \"%s\"", N(iam.id), N(iam.version), N(iam.lowest_hz),
          N(iam.highest_hz), N(iam.most_points), correction(message->as.iam.correction),
          plane(message->as.iam.plane), N(iam.reference_milliohm), message->as.iam.model, message->as.iam.serial);
      break;
    case TW_BEGIN:
      SAY("begin %lu %lu %lu %lu", N(begin.id), N(begin.grid.start_hz), N(begin.grid.stop_hz),
          N(begin.grid.points));
      break;
    case TW_POINT:
      SAY("p %lu %lu %ld %ld", N(point.id), N(point.number), (long)message->as.point.re,
          (long)message->as.point.im);
      break;
    case TW_END:
      SAY("end %lu %lu %lu", N(end.id), N(end.points), N(end.checksum));
      break;
    case TW_STILL:
      SAY("still %lu", N(still.id));
      break;
    case TW_ALIVE:
      SAY("alive %lu %lu %lu", N(alive.id), N(alive.sweep), N(alive.sent));
      break;
    case TW_FAULT:
      SAY("fault %lu %s \"%s\"", N(fault.id), tw_fault_word((tw_fault_code)message->as.fault.code),
          message->as.fault.text);
      break;
  }
}
