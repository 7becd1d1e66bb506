/*
 *   fuzz [ROUNDS [SEED]]
 *
 * Throws random and damaged input at the decoder, the encoder and the device, always the same for the same seed.
 * To be compiled with the address and undefined sanitizers. What must hold is stated above each function.
 */
#include <stdlib.h>

#include "fuzz.h"

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
  reading->re = (int32_t)(below(3) ? below(2000001) - 1000000u : any_number());
  reading->im = (int32_t)(below(3) ? below(2000001) - 1000000u : any_number());
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
  seed(count > 2 ? (uint32_t)strtoul(arguments[2], NULL, 10) : 20260101u);
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
