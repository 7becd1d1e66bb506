#include <string.h>

#include "send.h"

/* ---- the sweep */

/* Ends a running sweep or repetition. A sweep that did not reach its end is not kept. */
static void stop(tw_device *device) {
  if (device->state == TW_WALKING) {
    device->sweep_id = 0;
    device->hardware->rest(device->hardware->context);
  }
  if (device->state != TW_UNMET) device->state = TW_IDLE;
}

static void fail_sweep(tw_device *device, tw_fault_code code, const char *text) {
  uint32_t id = device->sweep_id;
  stop(device);
  device->sweep_id = 0;
  tw_send_fault(device, id, code, text);
}

static bool fits(const tw_reading *reading) {
  return reading->re >= -TW_MILLIONTHS && reading->re <= TW_MILLIONTHS && reading->im >= -TW_MILLIONTHS &&
         reading->im <= TW_MILLIONTHS;
}

static void walk_on(tw_device *device) {
  const tw_hardware *hardware = device->hardware;
  tw_reading reading = {0, 0, TW_FAULT_BROKEN, NULL};
  switch (hardware->measure(hardware->context, tw_grid_frequency_hz(&device->grid, device->next), &reading)) {
    case TW_NOT_YET:
      if (hardware->now_ms(hardware->context) - device->last_sent_ms >= TW_ALIVE_MS) tw_send_alive(device, 0);
      return;
    case TW_FAILED:
      fail_sweep(device, reading.fault, reading.text);
      return;
    case TW_MEASURED:
      break;
  }
  if (!fits(&reading)) {
    fail_sweep(device, TW_FAULT_OVERLOAD, "reading past the scale");
    return;
  }
  device->re[device->next] = reading.re;
  device->im[device->next] = reading.im;
  device->checksum = tw_crc_add_point(device->checksum, reading.re, reading.im);
  tw_send_point(device, device->next++);
}

static void finish(tw_device *device) {
  if (device->state == TW_WALKING) device->hardware->rest(device->hardware->context);
  device->state = TW_IDLE;
  tw_send_end(device);
}

void tw_device_run(tw_device *device) {
  if (!tw_device_is_busy(device)) return;
  if (device->next > device->last) {
    finish(device);
  } else if (device->state == TW_WALKING) {
    walk_on(device);
  } else {
    tw_send_point(device, device->next++);
  }
}

bool tw_device_is_busy(const tw_device *device) {
  return device->state == TW_WALKING || device->state == TW_REPEATING;
}

/* ---- requests */

static void obey_who(tw_device *device, const tw_message *request) {
  stop(device);
  device->sweep_id = 0;
  if (request->as.who.oldest > TW_VERSION || request->as.who.newest < TW_VERSION) {
    device->state = TW_UNMET;
    tw_send_fault(device, request->as.who.id, TW_FAULT_VERSION, "speaks 1 to 1");
    return;
  }
  device->state = TW_IDLE;
  tw_message iam = tw_self_description(device->identity, request->as.who.id);
  (void)tw_send(device, &iam);
}

static void obey_walk(tw_device *device, const tw_message *request) {
  const tw_grid *grid = &request->as.walk.grid;
  stop(device);
  device->sweep_id = 0;
  if (grid->start_hz < device->identity->lowest_hz || grid->stop_hz > device->identity->highest_hz ||
      grid->points > TW_POINTS) {
    tw_send_fault(device, request->as.walk.id, TW_FAULT_RANGE, "outside the limits told in iam");
    return;
  }
  device->state = TW_WALKING;
  device->sweep_id = request->as.walk.id;
  device->grid = *grid;
  device->next = 0;
  device->last = grid->points - 1;
  device->checksum = tw_crc_of_grid(grid);
  tw_message begin = {.kind = TW_BEGIN, .as.begin = {.id = device->sweep_id, .grid = *grid}};
  (void)tw_send(device, &begin);
}

static void obey_again(tw_device *device, const tw_message *request) {
  if (request->as.again.id != device->sweep_id) {
    tw_send_fault(device, request->as.again.id, TW_FAULT_GONE, "that sweep is not kept");
  } else if (device->state == TW_WALKING) {
    return; /* the points and the end are on their way */
  } else if (request->as.again.last >= device->grid.points) {
    fail_sweep(device, TW_FAULT_RANGE, "the sweep has fewer points");
  } else {
    device->state = TW_REPEATING;
    device->next = request->as.again.first;
    device->last = request->as.again.last;
  }
}

static void obey_halt(tw_device *device, const tw_message *request) {
  stop(device);
  tw_message still = {.kind = TW_STILL, .as.still = {.id = request->as.halt.id}};
  (void)tw_send(device, &still);
}

static void obey(tw_device *device, const tw_message *request) {
  bool unmet = device->state == TW_UNMET;
  switch (request->kind) {
    case TW_WHO:
      obey_who(device, request);
      break;
    case TW_WALK:
      if (unmet) {
        tw_send_fault(device, request->as.walk.id, TW_FAULT_UNMET, "say who first");
      } else {
        obey_walk(device, request);
      }
      break;
    case TW_AGAIN:
      if (unmet) {
        tw_send_fault(device, request->as.again.id, TW_FAULT_UNMET, "say who first");
      } else {
        obey_again(device, request);
      }
      break;
    case TW_HALT:
      obey_halt(device, request);
      break;
    case TW_THERE:
      tw_send_alive(device, request->as.there.id);
      break;
    default:
      return; /* the word of an instrument: an echo, and no request */
  }
  device->has_complained = false;
}

/* ---- lines */

static void complain(tw_device *device, tw_failure failure) {
  if (device->has_complained) return;
  device->has_complained = true;
  tw_fault_code code = failure < TW_UNKNOWN_WORD    ? TW_FAULT_GARBLED
                       : failure == TW_UNKNOWN_WORD ? TW_FAULT_UNKNOWN
                                                    : TW_FAULT_FORM;
  tw_send_fault(device, 0, code, tw_failure_name(failure));
}

static void hear_line(tw_device *device) {
  size_t length = device->heard;
  tw_message message;
  tw_failure failure = TW_TOO_LONG;
  if (length <= sizeof device->line) {
    if (length > 0 && device->line[length - 1] == '\r') length--;
    failure = tw_decode(device->line, length, &message);
  }
  if (failure == TW_OK) {
    obey(device, &message);
  } else if (failure != TW_EMPTY) {
    complain(device, failure);
  }
}

void tw_device_receive(tw_device *device, char byte) {
  if (byte == '\n') {
    hear_line(device);
    device->heard = 0;
  } else if (device->heard < sizeof device->line) {
    device->line[device->heard++] = byte;
  } else {
    device->heard = sizeof device->line + 1;
  }
}

tw_failure tw_device_start(tw_device *device, const tw_identity *identity, const tw_hardware *hardware) {
  char line[TW_LINE_BYTES];
  size_t length;
  tw_message iam = tw_self_description(identity, 65535);
  tw_failure failure = tw_encode(&iam, line, &length);
  if (failure != TW_OK) return failure;
  memset(device, 0, sizeof *device);
  device->identity = identity;
  device->hardware = hardware;
  device->state = TW_UNMET;
  tw_send_bytes(device, "\n", 1);
  tw_message woke = {.kind = TW_WOKE, .as.woke = {.oldest = TW_VERSION, .newest = TW_VERSION}};
  return tw_send(device, &woke);
}
