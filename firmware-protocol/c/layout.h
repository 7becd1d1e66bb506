/* Inside the library: the fields of every message, from which lines are both read and written. */
#ifndef TURFWIRE_LAYOUT_H
#define TURFWIRE_LAYOUT_H

#include "turfwire.h"

typedef enum { FORM_UNSIGNED, FORM_SIGNED, FORM_HEX, FORM_CHOICE, FORM_TEXT } tw_form;

/* What a field may hold: numbers from min to max, words of a list, or text of up to max characters. */
typedef struct {
  tw_form form;
  uint32_t min, max;
  const char *const *choices; /* max + 1 of them */
} tw_field_form;

typedef struct {
  uint8_t form;   /* index of tw_field_forms */
  uint8_t offset; /* of the field in the union of a tw_message */
} tw_field;

typedef struct {
  const char *word;
  const tw_field *fields;
  uint8_t count;
} tw_layout;

extern const tw_field_form tw_field_forms[];
extern const tw_layout tw_layouts[TW_FAULT + 1]; /* by tw_kind */

/* Whether fields that are right one by one also agree with one another. */
bool tw_is_consistent(const tw_message *message);

/* Whether these bytes keep the rules for text. */
bool tw_is_text(const char *bytes, size_t length, size_t max_length);

#endif
