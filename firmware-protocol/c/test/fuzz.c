/*
 *   fuzz [ROUNDS [SEED]]
 *
 * Throws random and damaged input at the decoder, the encoder and the device, always the same for the same seed.
 * To be compiled with the address and undefined sanitizers. What must hold is stated above each function.
 */
#include <stdlib.h>
#include <string.h>

#include "check.h"

static uint32_t state;

/* Marsaglia's xorshift, 32 bits (2003). */
static uint32_t any(void) {
  state ^= state << 13;
  state ^= state >> 17;
  state ^= state << 5;
  return state;
}

static uint32_t below(uint32_t limit) { return any() % limit; }

static void require(int holds, const char *what) {
  if (holds) return;
  printf("does not hold: %s\n", what);
  exit(1);
}

/* Small numbers are likely, and so are those at the ends. */
static uint32_t number(void) {
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
  for (int i = 0; i < 8; i++) words[i] = number();
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

/* No line is read past its end, and a line that decodes is the one line of its message. */
static void check_decoder(const char *line, size_t length) {
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

static size_t any_line(char line[2 * TW_LINE_BYTES]) {
  size_t length = below(8) ? check_encoder(line) : below(2 * TW_LINE_BYTES - 8);
  if (length == 0 || length >= TW_LINE_BYTES) {
    for (size_t i = 0; i < length; i++) line[i] = (char)below(256);
  }
  if (below(2)) length = damage(line, length, 2 * TW_LINE_BYTES - 8);
  return below(2) ? mend_checksum(line, length) : length;
}

/* ---- the device */

static tw_device device;
static struct {
  uint32_t now_ms;
  int signal_on;
  uint32_t sweep, points, next;
  uint16_t checksum;
  unsigned ends;
} heard;

/* Follows a running sweep as a host would, and requires what a host relies on. */
static void follow(const tw_message *message) {
  switch (message->kind) {
    case TW_BEGIN:
      heard.sweep = message->as.begin.id;
      heard.points = message->as.begin.grid.points;
      heard.next = 0;
      heard.checksum = tw_crc_of_grid(&message->as.begin.grid);
      break;
    case TW_POINT:
      require(message->as.point.id == heard.sweep, "a point belongs to the last sweep that began");
      require(message->as.point.number < heard.points, "a point belongs to its grid");
      if (heard.next == heard.points) break; /* a repetition */
      require(message->as.point.number == heard.next++, "points rise without a gap");
      heard.checksum = tw_crc_add_point(heard.checksum, message->as.point.re, message->as.point.im);
      break;
    case TW_END:
      require(message->as.end.id == heard.sweep && heard.next == heard.points, "an end comes after all points");
      require(message->as.end.checksum == heard.checksum, "the checksum of a sweep is that of its points");
      require(!heard.signal_on, "the signal is off after a sweep");
      heard.ends++;
      break;
    case TW_STILL:
      require(!heard.signal_on, "the signal is off after halt");
      break;
    default:
      break;
  }
}

/* Everything that is sent is a bare LF or one whole line of an instrument. */
static void take_bytes(void *context, const char *bytes, size_t length) {
  (void)context;
  tw_message message;
  if (length == 1 && bytes[0] == '\n') return;
  require(length <= TW_LINE_BYTES && bytes[length - 1] == '\n', "lines are sent whole");
  require(tw_decode(bytes, length - 1, &message) == TW_OK, "what is sent can be read");
  require(message.kind >= TW_WOKE, "an instrument sends the words of an instrument");
  follow(&message);
}

static uint32_t now_ms(void *context) {
  (void)context;
  return heard.now_ms += below(400);
}

static tw_measured measure(void *context, uint32_t frequency_hz, tw_reading *reading) {
  (void)context;
  require(frequency_hz >= 1000 && frequency_hz <= 4000000000u, "no frequency lies outside the limits");
  heard.signal_on = 1;
  reading->re = (int32_t)(below(3) ? below(2000001) - 1000000u : number());
  reading->im = (int32_t)(below(3) ? below(2000001) - 1000000u : number());
  reading->fault = (tw_fault_code)below(20);
  reading->text = below(2) ? "a text, with a comma" : NULL;
  return below(40) == 0 ? TW_FAILED : below(4) == 0 ? TW_NOT_YET : TW_MEASURED;
}

static void rest(void *context) {
  (void)context;
  heard.signal_on = 0;
}

static void give(const char *bytes, size_t length) {
  for (size_t i = 0; i < length; i++) tw_device_receive(&device, bytes[i]);
}

static void give_message(tw_message message) {
  char line[TW_LINE_BYTES];
  size_t length;
  if (tw_encode(&message, line, &length) == TW_OK) give(line, length);
}

/* A request that makes sense, for otherwise hardly a sweep would ever start. */
static void give_request(void) {
  uint32_t id = 1 + below(3), first = below(TW_POINTS + 1), last = first + below(3), newest = 1 + below(2);
  uint32_t start_hz = 990 + below(100), span_hz = below(2) ? TW_POINTS : any() / 2, points = 2 + below(TW_POINTS);
  tw_grid grid = {start_hz, start_hz + span_hz, points};
  switch (below(6)) {
    case 0:
      give_message((tw_message){.kind = TW_WHO, .as.who = {id, 1, newest}});
      break;
    case 1:
    case 2:
      give_message((tw_message){.kind = TW_WALK, .as.walk = {id, grid}});
      break;
    case 3:
      give_message((tw_message){.kind = TW_AGAIN, .as.again = {heard.sweep, first, last}});
      break;
    default:
      give_message((tw_message){.kind = below(4) ? TW_THERE : TW_HALT, .as.halt = {id}});
  }
}

int main(int count, char *arguments[]) {
  unsigned long rounds = count > 1 ? strtoul(arguments[1], NULL, 10) : 100000;
  state = count > 2 ? (uint32_t)strtoul(arguments[2], NULL, 10) | 1u : 20260101u;
  const tw_identity identity = {1000, 4000000000u, TW_RAW, TW_PORT, 50000, "fuzzed", "0"};
  const tw_hardware hardware = {NULL, take_bytes, now_ms, measure, rest};
  if (tw_device_start(&device, &identity, &hardware) != TW_OK) return 1;
  for (unsigned long round = 0; round < rounds; round++) {
    char line[2 * TW_LINE_BYTES];
    size_t length = any_line(line);
    check_decoder(line, length);
    give(line, length);
    if (below(4)) give("\n", 1);
    if (below(2)) give_request();
    for (uint32_t steps = below(12); steps > 0; steps--) tw_device_run(&device);
  }
  require(rounds < 1000 || heard.ends > rounds / 1000, "sweeps are finished, so all of the device is reached");
  printf("%lu rounds, %u sweeps and repetitions ended\n", rounds, heard.ends);
  return 0;
}
