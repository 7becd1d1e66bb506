/*
 * The line protocol for one-port instruments, version 1: reference in C99 for a small controller.
 *
 * The protocol itself is described in ../README.md. This library does no input or output, allocates nothing,
 * uses no floating point and no static variables. It needs nothing but <stddef.h>, <stdint.h>, <stdbool.h>
 * and memchr, memcmp, memcpy, memset, strlen of <string.h>.
 *
 * An instrument has one tw_device and three duties: give it the bytes that arrive (tw_device_receive), call
 * tw_device_run over and over, and supply the four functions of tw_hardware.
 */
#ifndef TURFWIRE_H
#define TURFWIRE_H

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* The most points of a sweep. Each takes 8 bytes of memory, because a finished sweep is kept for `again`. */
#ifndef TW_POINTS
#define TW_POINTS 201
#endif

#if TW_POINTS < 2 || TW_POINTS > 65535
#error "TW_POINTS must be 2 to 65535"
#endif

#define TW_VERSION 1           /* of the protocol */
#define TW_LINE_BYTES 96       /* the longest line, LF included */
#define TW_MODEL_LENGTH 16     /* of model and serial, in characters */
#define TW_FAULT_LENGTH 48     /* of the text of a fault, in characters */
#define TW_MILLIONTHS 9999999  /* the largest real or imaginary part, either sign */
#define TW_ALIVE_MS 1000       /* silence within a sweep after which the device says `alive` */

/* ---------------------------------------------------------------- lines */

/* What is wrong with a line, or with a message that is to become one. Checked in this order. */
typedef enum {
  TW_OK,
  TW_EMPTY,         /* no bytes before the line end */
  TW_TOO_LONG,      /* more than 95 bytes before the line end */
  TW_NOT_ASCII,     /* a byte outside 0x20 to 0x7E */
  TW_NO_CHECKSUM,   /* does not end with * and four digits 0-9, A-F */
  TW_BAD_CHECKSUM,  /* the checksum is another */
  TW_UNKNOWN_WORD,  /* no message starts with this word */
  TW_FIELD_COUNT,   /* more or fewer fields than the message has */
  TW_BAD_NUMBER,    /* no integer, or not in its one spelling */
  TW_OUT_OF_RANGE,  /* an integer outside the limits of its field */
  TW_BAD_CHOICE,    /* not one of the words of its field */
  TW_BAD_TEXT,      /* a character, length, start or end that text must not have */
  TW_INCONSISTENT   /* fields that are right one by one, but not together */
} tw_failure;

/* Host to instrument first, then instrument to host. */
typedef enum {
  TW_WHO,
  TW_WALK,
  TW_AGAIN,
  TW_HALT,
  TW_THERE,
  TW_WOKE,
  TW_IAM,
  TW_BEGIN,
  TW_POINT,
  TW_END,
  TW_STILL,
  TW_ALIVE,
  TW_FAULT
} tw_kind;

typedef enum { TW_RAW, TW_CAL } tw_correction;
typedef enum { TW_PORT, TW_LEAD } tw_plane;

typedef enum {
  TW_FAULT_GARBLED,
  TW_FAULT_UNKNOWN,
  TW_FAULT_FORM,
  TW_FAULT_VERSION,
  TW_FAULT_UNMET,
  TW_FAULT_RANGE,
  TW_FAULT_GONE,
  TW_FAULT_BUSY,
  TW_FAULT_OVERLOAD,
  TW_FAULT_UNLOCKED,
  TW_FAULT_SUPPLY,
  TW_FAULT_HEAT,
  TW_FAULT_BROKEN
} tw_fault_code;

/* The frequencies of a sweep: stop_hz - start_hz is at least points - 1, points at least 2. */
typedef struct {
  uint32_t start_hz, stop_hz, points;
} tw_grid;

/* One message. `as` has the member of the kind; texts end with a NUL. */
typedef struct {
  tw_kind kind;
  union {
    struct { uint32_t id, oldest, newest; } who;
    struct { uint32_t id; tw_grid grid; } walk;
    struct { uint32_t id, first, last; } again;
    struct { uint32_t id; } halt;
    struct { uint32_t id; } there;
    struct { uint32_t oldest, newest; } woke;
    struct {
      uint32_t id, version, lowest_hz, highest_hz, most_points;
      uint32_t correction; /* tw_correction */
      uint32_t plane;      /* tw_plane */
      uint32_t reference_milliohm;
      char model[TW_MODEL_LENGTH + 1], serial[TW_MODEL_LENGTH + 1];
    } iam;
    struct { uint32_t id; tw_grid grid; } begin;
    struct { uint32_t id, number; int32_t re, im; } point; /* millionths */
    struct { uint32_t id, points, checksum; } end;
    struct { uint32_t id; } still;
    struct { uint32_t id, sweep, sent; } alive;
    struct {
      uint32_t id;
      uint32_t code; /* tw_fault_code */
      char text[TW_FAULT_LENGTH + 1];
    } fault;
  } as;
} tw_message;

/*
 * Reads one line, given without its line end (CR, LF). The line may hold any bytes and needs no NUL.
 * *message is written only when the result is TW_OK.
 */
tw_failure tw_decode(const char *line, size_t length, tw_message *message);

/*
 * Writes the line of a message, checksum and LF included, no NUL. *length is its length, 0 unless the result
 * is TW_OK. No message that tw_decode would refuse is written.
 */
tw_failure tw_encode(const tw_message *message, char line[TW_LINE_BYTES], size_t *length);

/* The name of a failure as ../README.md spells it: "bad-checksum". */
const char *tw_failure_name(tw_failure failure);

/* The word of a fault code: "overload". */
const char *tw_fault_word(tw_fault_code code);

/* ---------------------------------------------------------------- checksums and frequencies */

#define TW_CRC_START 0xFFFFu

/* CRC-16/CCITT-FALSE of some more bytes, beginning with TW_CRC_START. "123456789" gives 0x29B1. */
uint16_t tw_crc(uint16_t crc, const void *bytes, size_t length);

/* The checksum of a sweep: first its grid, then its points in the order of their numbers. */
uint16_t tw_crc_of_grid(const tw_grid *grid);
uint16_t tw_crc_add_point(uint16_t crc, int32_t re, int32_t im);

/* The frequency in Hz of point `number`, 0 to points - 1: equally spaced, to the nearest hertz, halves up. */
uint32_t tw_grid_frequency_hz(const tw_grid *grid, uint32_t number);

/* ---------------------------------------------------------------- the device */

/* What the instrument says of itself. */
typedef struct {
  uint32_t lowest_hz, highest_hz;
  tw_correction correction;
  tw_plane plane;
  uint32_t reference_milliohm;
  const char *model, *serial; /* 1 to 16 characters each, by the rules for text */
} tw_identity;

/* One measurement: a reflection coefficient in millionths, or why there is none. */
typedef struct {
  int32_t re, im;
  tw_fault_code fault; /* read only after TW_FAILED */
  const char *text;    /* the same for people, or NULL */
} tw_reading;

typedef enum {
  TW_MEASURED,
  TW_NOT_YET, /* it is under way: the device asks again, with the same frequency, at its next run */
  TW_FAILED
} tw_measured;

/* What the instrument supplies. `context` is handed to each function as it is. */
typedef struct {
  void *context;
  /* Sends all these bytes; waits if it must. */
  void (*send)(void *context, const char *bytes, size_t length);
  /* A clock in milliseconds that runs over at 2^32. */
  uint32_t (*now_ms)(void *context);
  /* Starts a measurement, or looks whether it is done. If it needs more than 500 ms it must say TW_NOT_YET meanwhile. */
  tw_measured (*measure)(void *context, uint32_t frequency_hz, tw_reading *reading);
  /* A sweep is over, however it ended: turn the signal off. */
  void (*rest)(void *context);
} tw_hardware;

typedef enum { TW_UNMET, TW_IDLE, TW_WALKING, TW_REPEATING } tw_state;

/* The whole state of an instrument's side. To be set up by tw_device_start and otherwise left alone. */
typedef struct {
  const tw_identity *identity;
  const tw_hardware *hardware;
  tw_state state;
  bool has_complained; /* of a bad line, and no request was readable since */
  size_t heard;        /* bytes of the line that is arriving; more than the next array when it is too long */
  char line[TW_LINE_BYTES]; /* 95 and a CR */
  uint32_t last_sent_ms;
  uint32_t sweep_id;   /* of the sweep that runs or is kept, 0 when there is none */
  tw_grid grid;
  uint32_t next, last; /* the point to be sent next, and the last one of this sweep or repetition */
  uint16_t checksum;
  int32_t re[TW_POINTS], im[TW_POINTS];
} tw_device;

/*
 * Sets up the device and sends its greeting. Both structures must live as long as the device. The result is
 * not TW_OK when the identity breaks a limit of the protocol; then nothing is sent.
 */
tw_failure tw_device_start(tw_device *device, const tw_identity *identity, const tw_hardware *hardware);

/* Takes one byte that has arrived; at the end of a line the answer is sent. Not to be called from an interrupt. */
void tw_device_receive(tw_device *device, char byte);

/* Takes one step of what is to be done: at most one measurement, and one line sent. */
void tw_device_run(tw_device *device);

/* Whether tw_device_run has something to do before the next byte arrives. */
bool tw_device_is_busy(const tw_device *device);

#endif
