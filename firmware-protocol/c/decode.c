#include <string.h>

#include "layout.h"

#define CHECKSUM_LENGTH 5 /* "*0000" */

typedef struct {
  const char *at;
  size_t length;
} slice;

/* Cuts off what comes before the next comma; the comma itself goes too. */
static slice next_field(slice *rest) {
  size_t length = 0;
  while (length < rest->length && rest->at[length] != ',') length++;
  slice field = {rest->at, length};
  size_t cut = length < rest->length ? length + 1 : length;
  rest->at += cut;
  rest->length -= cut;
  return field;
}

static size_t count_commas(slice body) {
  size_t commas = 0;
  for (size_t i = 0; i < body.length; i++) commas += body.at[i] == ',';
  return commas;
}

static bool equals(slice field, const char *word) {
  return strlen(word) == field.length && memcmp(word, field.at, field.length) == 0;
}

static bool read_hex(const char *digits, uint32_t *value) {
  *value = 0;
  for (size_t i = 0; i < 4; i++) {
    char digit = digits[i];
    if (digit >= '0' && digit <= '9') {
      *value = *value * 16 + (uint32_t)(digit - '0');
    } else if (digit >= 'A' && digit <= 'F') {
      *value = *value * 16 + (uint32_t)(digit - 'A' + 10);
    } else {
      return false;
    }
  }
  return true;
}

/* Magnitude and sign of an integer in its one spelling. A magnitude past 32 bits is out of range. */
static tw_failure read_integer(slice field, uint32_t *magnitude, bool *negative) {
  *negative = field.length > 0 && field.at[0] == '-';
  if (*negative) {
    field.at++;
    field.length--;
  }
  if (field.length == 0) return TW_BAD_NUMBER;
  if (field.at[0] == '0' && (*negative || field.length > 1)) return TW_BAD_NUMBER;
  bool overflow = false;
  *magnitude = 0;
  for (size_t i = 0; i < field.length; i++) {
    if (field.at[i] < '0' || field.at[i] > '9') return TW_BAD_NUMBER;
    uint32_t digit = (uint32_t)(field.at[i] - '0');
    overflow = overflow || *magnitude > (UINT32_MAX - digit) / 10;
    *magnitude = *magnitude * 10 + digit;
  }
  return overflow ? TW_OUT_OF_RANGE : TW_OK;
}

static tw_failure read_number(slice field, const tw_field_form *form, uint32_t *value) {
  bool negative;
  tw_failure failure = read_integer(field, value, &negative);
  if (failure != TW_OK) return failure;
  if (*value < form->min || *value > form->max) return TW_OUT_OF_RANGE;
  if (negative) {
    if (form->form != FORM_SIGNED) return TW_OUT_OF_RANGE;
    *value = 0u - *value; /* two's complement, as int32_t is */
  }
  return TW_OK;
}

static tw_failure read_choice(slice field, const tw_field_form *form, uint32_t *value) {
  for (*value = 0; *value <= form->max; (*value)++) {
    if (equals(field, form->choices[*value])) return TW_OK;
  }
  return TW_BAD_CHOICE;
}

static tw_failure read_field(slice field, const tw_field_form *form, char *into) {
  uint32_t value = 0;
  tw_failure failure = TW_OK;
  switch (form->form) {
    case FORM_UNSIGNED:
    case FORM_SIGNED:
      failure = read_number(field, form, &value);
      break;
    case FORM_HEX:
      failure = field.length == 4 && read_hex(field.at, &value) ? TW_OK : TW_BAD_NUMBER;
      break;
    case FORM_CHOICE:
      failure = read_choice(field, form, &value);
      break;
    case FORM_TEXT:
      if (!tw_is_text(field.at, field.length, form->max)) return TW_BAD_TEXT;
      memcpy(into, field.at, field.length);
      into[field.length] = '\0';
      return TW_OK;
  }
  if (failure == TW_OK) memcpy(into, &value, sizeof value);
  return failure;
}

static tw_failure read_body(slice body, tw_message *message) {
  size_t fields = count_commas(body);
  slice word = next_field(&body);
  for (unsigned kind = 0; kind <= TW_FAULT; kind++) {
    const tw_layout *layout = &tw_layouts[kind];
    if (!equals(word, layout->word)) continue;
    if (fields != layout->count) return TW_FIELD_COUNT;
    message->kind = (tw_kind)kind;
    for (unsigned i = 0; i < layout->count; i++) {
      char *into = (char *)&message->as + layout->fields[i].offset;
      tw_failure failure = read_field(next_field(&body), &tw_field_forms[layout->fields[i].form], into);
      if (failure != TW_OK) return failure;
    }
    return tw_is_consistent(message) ? TW_OK : TW_INCONSISTENT;
  }
  return TW_UNKNOWN_WORD;
}

tw_failure tw_decode(const char *line, size_t length, tw_message *message) {
  if (length == 0) return TW_EMPTY;
  if (length >= TW_LINE_BYTES) return TW_TOO_LONG;
  for (size_t i = 0; i < length; i++) {
    if (line[i] < ' ' || line[i] > '~') return TW_NOT_ASCII;
  }
  if (length < CHECKSUM_LENGTH) return TW_NO_CHECKSUM;
  slice body = {line, length - CHECKSUM_LENGTH};
  uint32_t checksum;
  if (line[body.length] != '*' || !read_hex(line + body.length + 1, &checksum)) return TW_NO_CHECKSUM;
  if (checksum != tw_crc(TW_CRC_START, line, body.length)) return TW_BAD_CHECKSUM;
  tw_message read;
  tw_failure failure = read_body(body, &read);
  if (failure == TW_OK) *message = read;
  return failure;
}

const char *tw_failure_name(tw_failure failure) {
  static const char *const names[] = {
      "ok",          "empty",      "too-long",     "not-ascii",  "no-checksum", "bad-checksum", "unknown-word",
      "field-count", "bad-number", "out-of-range", "bad-choice", "bad-text",    "inconsistent",
  };
  return names[failure];
}
