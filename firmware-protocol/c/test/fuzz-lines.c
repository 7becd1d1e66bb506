#include "fuzz.h"

#include <stdlib.h>
#include <string.h>

static uint32_t state = 1;

void seed(uint32_t value) { state = value | 1u; }

/* Marsaglia's xorshift, 32 bits (2003). */
uint32_t any(void) {
  state ^= state << 13;
  state ^= state >> 17;
  state ^= state << 5;
  return state;
}

uint32_t below(uint32_t limit) { return any() % limit; }

void require(int holds, const char *what) {
  if (holds) return;
  printf("does not hold: %s\n", what);
  exit(1);
}

uint32_t any_number(void) {
  static const uint32_t ends[] = {0, 1, 2, 99, 100, 65534, 65535, 65536, 9999999, 10000000, 4294957297u, 4294967295u};
  switch (below(3)) {
    case 0:
      return below(12);
    case 1:
      return ends[below(sizeof ends / sizeof ends[0])];
    default:
      return any() >> below(32);
  }
}

static void any_text(char *text, size_t capacity) {
  size_t length = below((uint32_t)capacity + 1);
  for (size_t i = 0; i < length; i++) {
    text[i] = "aZ09 .-_+/():"[below(13)];
    if (below(20) == 0) text[i] = (char)below(256);
  }
  if (length < capacity) text[length] = '\0';
}

static tw_message any_message(void) {
  tw_message message;
  memset(&message, 0, sizeof message);
  message.kind = (tw_kind)below(TW_FAULT + 2);
  uint32_t words[8];
  for (int i = 0; i < 8; i++) words[i] = any_number();
  memcpy(&message.as, words, sizeof words);
  if (message.kind == TW_IAM) {
    message.as.iam.correction = below(3);
    message.as.iam.plane = below(3);
    any_text(message.as.iam.model, sizeof message.as.iam.model);
    any_text(message.as.iam.serial, sizeof message.as.iam.serial);
  }
  if (message.kind == TW_FAULT) {
    message.as.fault.code = below(TW_FAULT_BROKEN + 2);
    any_text(message.as.fault.text, sizeof message.as.fault.text);
  }
  return message;
}

/* What is encoded decodes to the same message; what is refused has no length. */
static size_t check_encoder(char line[TW_LINE_BYTES]) {
  tw_message message = any_message(), decoded;
  size_t length;
  tw_failure failure = tw_encode(&message, line, &length);
  require((failure == TW_OK) == (length > 0), "a length comes with success only");
  if (failure != TW_OK) return 0;
  require(line[length - 1] == '\n' && tw_decode(line, length - 1, &decoded) == TW_OK, "an encoded line decodes");
  char before[ROW_BYTES], after[ROW_BYTES];
  describe(&message, before);
  describe(&decoded, after);
  require(strcmp(before, after) == 0, "a message survives the wire");
  return length - 1;
}

static size_t damage(char *line, size_t length, size_t capacity) {
  for (uint32_t times = below(4); times > 0; times--) {
    size_t at = below((uint32_t)length + 1);
    switch (below(4)) {
      case 0:
        if (at < length) line[at] = (char)(line[at] ^ (1 << below(8)));
        break;
      case 1:
        if (at < length) memmove(line + at, line + at + 1, --length - at);
        break;
      case 2:
        if (length < capacity) {
          memmove(line + at + 1, line + at, length++ - at);
          line[at] = "0123456789,*-\n\r\x1b"[below(16)];
        }
        break;
      default:
        length = at;
    }
  }
  return length;
}

/* Gives a line a right checksum, so that what lies behind that check is reached too. */
static size_t mend_checksum(char *line, size_t length) {
  size_t body = length >= 5 ? length - 5 : 0;
  char checksum[6];
  snprintf(checksum, sizeof checksum, "*%04X", (unsigned)tw_crc(TW_CRC_START, line, body));
  memcpy(line + body, checksum, 5);
  return body + 5;
}

void check_decoder(const char *line, size_t length) {
  char *exact = malloc(length > 0 ? length : 1);
  if (exact == NULL) abort();
  memcpy(exact, line, length);
  tw_message message;
  if (tw_decode(exact, length, &message) == TW_OK) {
    char again[TW_LINE_BYTES];
    size_t again_length;
    require(tw_encode(&message, again, &again_length) == TW_OK && again_length == length + 1 &&
                memcmp(again, line, length) == 0,
            "a line that decodes is what its message encodes to");
  }
  free(exact);
}

size_t any_line(char line[2 * TW_LINE_BYTES]) {
  size_t length = below(8) ? check_encoder(line) : below(2 * TW_LINE_BYTES - 8);
  if (length == 0 || length >= TW_LINE_BYTES) {
    for (size_t i = 0; i < length; i++) line[i] = (char)below(256);
  }
  if (below(2)) length = damage(line, length, 2 * TW_LINE_BYTES - 8);
  return below(2) ? mend_checksum(line, length) : length;
}
