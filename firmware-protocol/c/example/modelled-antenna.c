/*
 * An instrument without hardware: it speaks the protocol on standard input and output, and "measures" a series
 * resonance, R + j·X0·(f/f0 - f0/f) with R = 41 ohm, X0 = 400 ohm, f0 = 7.1 MHz, against 50 ohm.
 *
 * A model may use floating point; the library does not.
 */
#define _POSIX_C_SOURCE 200809L
#include <math.h>
#include <poll.h>
#include <time.h>
#include <unistd.h>

#include "../turfwire.h"

#define RESISTANCE_OHM 41.0
#define SLOPE_OHM 400.0
#define RESONANCE_HZ 7.1e6
#define REFERENCE_OHM 50.0

static void send_bytes(void *context, const char *bytes, size_t length) {
  (void)context;
  while (length > 0) {
    ssize_t written = write(STDOUT_FILENO, bytes, length);
    if (written <= 0) return; /* the host has gone */
    bytes += written;
    length -= (size_t)written;
  }
}

static uint32_t now_ms(void *context) {
  struct timespec now;
  (void)context;
  clock_gettime(CLOCK_MONOTONIC, &now);
  return (uint32_t)now.tv_sec * 1000u + (uint32_t)(now.tv_nsec / 1000000);
}

static tw_measured measure(void *context, uint32_t frequency_hz, tw_reading *reading) {
  (void)context;
  double ratio = frequency_hz / RESONANCE_HZ;
  double reactance_ohm = SLOPE_OHM * (ratio - 1 / ratio);
  double below = RESISTANCE_OHM - REFERENCE_OHM;
  double above = RESISTANCE_OHM + REFERENCE_OHM;
  double size = above * above + reactance_ohm * reactance_ohm;
  reading->re = (int32_t)lround(1e6 * (below * above + reactance_ohm * reactance_ohm) / size);
  reading->im = (int32_t)lround(1e6 * reactance_ohm * (above - below) / size);
  return TW_MEASURED;
}

static void rest(void *context) { (void)context; }

int main(void) {
  static tw_device device;
  const tw_identity identity = {1000000, 60000000, TW_CAL, TW_PORT, 50000, "modelled antenna", "0"};
  const tw_hardware hardware = {NULL, send_bytes, now_ms, measure, rest};
  if (tw_device_start(&device, &identity, &hardware) != TW_OK) return 1;
  for (;;) {
    struct pollfd input = {STDIN_FILENO, POLLIN, 0};
    if (poll(&input, 1, tw_device_is_busy(&device) ? 0 : -1) > 0) {
      char bytes[64];
      ssize_t count = read(STDIN_FILENO, bytes, sizeof bytes);
      if (count <= 0) return 0;
      for (ssize_t i = 0; i < count; i++) tw_device_receive(&device, bytes[i]);
    }
    tw_device_run(&device);
  }
}
