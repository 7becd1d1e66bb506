/* Inside the library: what a device says. */
#ifndef TURFWIRE_SEND_H
#define TURFWIRE_SEND_H

#include "turfwire.h"

void tw_send_bytes(tw_device *device, const char *bytes, size_t length);
tw_failure tw_send(tw_device *device, const tw_message *message);

/*
 * Code and text may come from the instrument's own functions: a code that does not exist becomes `broken`, and
 * a text that breaks the rules, or NULL, becomes the word of the code.
 */
void tw_send_fault(tw_device *device, uint32_t id, tw_fault_code code, const char *text);

/* `id` is that of the request, 0 when nobody asked. */
void tw_send_alive(tw_device *device, uint32_t id);

void tw_send_point(tw_device *device, uint32_t number);
void tw_send_end(tw_device *device);

/* The answer to `who`. */
tw_message tw_self_description(const tw_identity *identity, uint32_t id);

#endif
