#include "send.h"

#include <string.h>

void tw_send_bytes(tw_device *device, const char *bytes, size_t length) {
  device->hardware->send(device->hardware->context, bytes, length);
  device->last_sent_ms = device->hardware->now_ms(device->hardware->context);
}

tw_failure tw_send(tw_device *device, const tw_message *message) {
  char line[TW_LINE_BYTES];
  size_t length;
  tw_failure failure = tw_encode(message, line, &length);
  if (failure == TW_OK) tw_send_bytes(device, line, length);
  return failure;
}

/* Copies up to `capacity` characters; the rest of the field is zero already, or there is no room for an end. */
static void copy_text(char *to, size_t capacity, const char *from) {
  for (size_t i = 0; i < capacity && from[i] != '\0'; i++) to[i] = from[i];
}

void tw_send_fault(tw_device *device, uint32_t id, tw_fault_code code, const char *text) {
  if ((unsigned)code > TW_FAULT_BROKEN) code = TW_FAULT_BROKEN;
  tw_message fault = {.kind = TW_FAULT, .as.fault = {.id = id, .code = code, .text = ""}};
  if (text != NULL) copy_text(fault.as.fault.text, TW_FAULT_LENGTH, text);
  if (tw_send(device, &fault) == TW_OK) return;
  memset(fault.as.fault.text, 0, sizeof fault.as.fault.text);
  copy_text(fault.as.fault.text, TW_FAULT_LENGTH, tw_fault_word(code));
  (void)tw_send(device, &fault);
}

void tw_send_alive(tw_device *device, uint32_t id) {
  bool walking = device->state == TW_WALKING;
  tw_message alive = {
      .kind = TW_ALIVE,
      .as.alive = {.id = id, .sweep = walking ? device->sweep_id : 0, .sent = walking ? device->next : 0}};
  (void)tw_send(device, &alive);
}

void tw_send_point(tw_device *device, uint32_t number) {
  tw_message point = {.kind = TW_POINT,
                      .as.point = {.id = device->sweep_id,
                                   .number = number,
                                   .re = device->re[number],
                                   .im = device->im[number]}};
  (void)tw_send(device, &point);
}

void tw_send_end(tw_device *device) {
  tw_message end = {
      .kind = TW_END,
      .as.end = {.id = device->sweep_id, .points = device->grid.points, .checksum = device->checksum}};
  (void)tw_send(device, &end);
}

tw_message tw_self_description(const tw_identity *identity, uint32_t id) {
  tw_message iam = {.kind = TW_IAM,
                    .as.iam = {.id = id,
                               .version = TW_VERSION,
                               .lowest_hz = identity->lowest_hz,
                               .highest_hz = identity->highest_hz,
                               .most_points = TW_POINTS,
                               .correction = identity->correction,
                               .plane = identity->plane,
                               .reference_milliohm = identity->reference_milliohm}};
  /* One character more than allowed is copied, so that a longer text is refused and not cut. */
  copy_text(iam.as.iam.model, sizeof iam.as.iam.model, identity->model);
  copy_text(iam.as.iam.serial, sizeof iam.as.iam.serial, identity->serial);
  return iam;
}
