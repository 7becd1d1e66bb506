#include <string.h>

#include "layout.h"

typedef struct {
  char *bytes;
  size_t length;
} writer;

/* What a line may be long is not checked byte by byte: the limits of the fields keep the longest message within it. */
static void put(writer *line, char byte) { line->bytes[line->length++] = byte; }

static void put_text(writer *line, const char *text) {
  while (*text != '\0') put(line, *text++);
}

static void put_unsigned(writer *line, uint32_t value) {
  char digits[10];
  size_t count = 0;
  do {
    digits[count++] = (char)('0' + value % 10);
    value /= 10;
  } while (value > 0);
  while (count > 0) put(line, digits[--count]);
}

static void put_hex(writer *line, uint32_t value) {
  for (unsigned shift = 16; shift > 0; shift -= 4) put(line, "0123456789ABCDEF"[(value >> (shift - 4)) & 15u]);
}

/* The length of a text, or one more than allowed when there is no end within what is allowed. */
static size_t bounded_length(const char *text, size_t max_length) {
  const char *end = memchr(text, '\0', max_length + 1);
  return end == NULL ? max_length + 1 : (size_t)(end - text);
}

static tw_failure put_field(writer *line, const tw_field_form *form, const char *from) {
  if (form->form == FORM_TEXT) {
    if (!tw_is_text(from, bounded_length(from, form->max), form->max)) return TW_BAD_TEXT;
    put_text(line, from);
    return TW_OK;
  }
  uint32_t value;
  memcpy(&value, from, sizeof value);
  bool negative = form->form == FORM_SIGNED && (value >> 31) != 0;
  if (negative) value = 0u - value;
  if (value < form->min || value > form->max) return form->form == FORM_CHOICE ? TW_BAD_CHOICE : TW_OUT_OF_RANGE;
  if (negative) put(line, '-');
  if (form->form == FORM_CHOICE) {
    put_text(line, form->choices[value]);
  } else if (form->form == FORM_HEX) {
    put_hex(line, value);
  } else {
    put_unsigned(line, value);
  }
  return TW_OK;
}

tw_failure tw_encode(const tw_message *message, char line[TW_LINE_BYTES], size_t *length) {
  *length = 0;
  if ((unsigned)message->kind > TW_FAULT) return TW_UNKNOWN_WORD;
  const tw_layout *layout = &tw_layouts[message->kind];
  writer out = {line, 0};
  put_text(&out, layout->word);
  for (unsigned i = 0; i < layout->count; i++) {
    put(&out, ',');
    const char *from = (const char *)&message->as + layout->fields[i].offset;
    tw_failure failure = put_field(&out, &tw_field_forms[layout->fields[i].form], from);
    if (failure != TW_OK) return failure;
  }
  if (!tw_is_consistent(message)) return TW_INCONSISTENT;
  uint16_t checksum = tw_crc(TW_CRC_START, out.bytes, out.length);
  put(&out, '*');
  put_hex(&out, checksum);
  put(&out, '\n');
  *length = out.length;
  return TW_OK;
}
