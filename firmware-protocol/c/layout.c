#include "layout.h"

enum {
  ID,
  ID_OR_NONE,
  VERSION,
  HERTZ,
  POINTS,
  NUMBER,
  COUNT,
  MILLIONTHS,
  MILLIOHMS,
  CHECKSUM,
  CORRECTION,
  PLANE,
  CODE,
  MODEL,
  REASON
};

static const char *const corrections[] = {"raw", "cal"};
static const char *const planes[] = {"port", "lead"};
static const char *const codes[] = {"garbled", "unknown", "form",     "version", "unmet", "range", "gone",
                                    "busy",    "overload", "unlocked", "supply",  "heat",  "broken"};

const tw_field_form tw_field_forms[] = {
    [ID] = {FORM_UNSIGNED, 1, 65535, NULL},
    [ID_OR_NONE] = {FORM_UNSIGNED, 0, 65535, NULL},
    [VERSION] = {FORM_UNSIGNED, 1, 99, NULL},
    [HERTZ] = {FORM_UNSIGNED, 1, 4294967295u, NULL},
    [POINTS] = {FORM_UNSIGNED, 2, 65535, NULL},
    [NUMBER] = {FORM_UNSIGNED, 0, 65534, NULL},
    [COUNT] = {FORM_UNSIGNED, 0, 65535, NULL},
    [MILLIONTHS] = {FORM_SIGNED, 0, TW_MILLIONTHS, NULL},
    [MILLIOHMS] = {FORM_UNSIGNED, 1, 999999, NULL},
    [CHECKSUM] = {FORM_HEX, 0, 65535, NULL},
    [CORRECTION] = {FORM_CHOICE, 0, TW_CAL, corrections},
    [PLANE] = {FORM_CHOICE, 0, TW_LEAD, planes},
    [CODE] = {FORM_CHOICE, 0, TW_FAULT_BROKEN, codes},
    [MODEL] = {FORM_TEXT, 1, TW_MODEL_LENGTH, NULL},
    [REASON] = {FORM_TEXT, 1, TW_FAULT_LENGTH, NULL},
};

/* Every member of the union starts at its beginning. */
#define AT(member) (uint8_t)(offsetof(tw_message, as.member) - offsetof(tw_message, as))
#define LAYOUT(word, fields) {word, fields, (uint8_t)(sizeof(fields) / sizeof(fields)[0])}

static const tw_field who[] = {{ID, AT(who.id)}, {VERSION, AT(who.oldest)}, {VERSION, AT(who.newest)}};
static const tw_field walk[] = {{ID, AT(walk.id)},
                                {HERTZ, AT(walk.grid.start_hz)},
                                {HERTZ, AT(walk.grid.stop_hz)},
                                {POINTS, AT(walk.grid.points)}};
static const tw_field again[] = {{ID, AT(again.id)}, {NUMBER, AT(again.first)}, {NUMBER, AT(again.last)}};
static const tw_field only_id[] = {{ID, AT(halt.id)}};
static const tw_field woke[] = {{VERSION, AT(woke.oldest)}, {VERSION, AT(woke.newest)}};
static const tw_field iam[] = {{ID, AT(iam.id)},
                               {VERSION, AT(iam.version)},
                               {HERTZ, AT(iam.lowest_hz)},
                               {HERTZ, AT(iam.highest_hz)},
                               {POINTS, AT(iam.most_points)},
                               {CORRECTION, AT(iam.correction)},
                               {PLANE, AT(iam.plane)},
                               {MILLIOHMS, AT(iam.reference_milliohm)},
                               {MODEL, AT(iam.model)},
                               {MODEL, AT(iam.serial)}};
static const tw_field point[] = {{ID, AT(point.id)},
                                 {NUMBER, AT(point.number)},
                                 {MILLIONTHS, AT(point.re)},
                                 {MILLIONTHS, AT(point.im)}};
static const tw_field end[] = {{ID, AT(end.id)}, {POINTS, AT(end.points)}, {CHECKSUM, AT(end.checksum)}};
static const tw_field alive[] = {{ID_OR_NONE, AT(alive.id)}, {ID_OR_NONE, AT(alive.sweep)}, {COUNT, AT(alive.sent)}};
static const tw_field fault[] = {{ID_OR_NONE, AT(fault.id)}, {CODE, AT(fault.code)}, {REASON, AT(fault.text)}};

const tw_layout tw_layouts[TW_FAULT + 1] = {
    [TW_WHO] = LAYOUT("who", who),       [TW_WALK] = LAYOUT("walk", walk),   [TW_AGAIN] = LAYOUT("again", again),
    [TW_HALT] = LAYOUT("halt", only_id), [TW_THERE] = LAYOUT("there", only_id), [TW_WOKE] = LAYOUT("woke", woke),
    [TW_IAM] = LAYOUT("iam", iam),       [TW_BEGIN] = LAYOUT("begin", walk), [TW_POINT] = LAYOUT("p", point),
    [TW_END] = LAYOUT("end", end),       [TW_STILL] = LAYOUT("still", only_id), [TW_ALIVE] = LAYOUT("alive", alive),
    [TW_FAULT] = LAYOUT("fault", fault),
};

const char *tw_fault_word(tw_fault_code code) { return codes[code]; }

bool tw_is_consistent(const tw_message *message) {
  switch (message->kind) {
    case TW_WHO:
      return message->as.who.oldest <= message->as.who.newest;
    case TW_WOKE:
      return message->as.woke.oldest <= message->as.woke.newest;
    case TW_WALK:
    case TW_BEGIN: {
      const tw_grid *grid = &message->as.walk.grid;
      return grid->stop_hz > grid->start_hz && grid->stop_hz - grid->start_hz >= grid->points - 1;
    }
    case TW_AGAIN:
      return message->as.again.first <= message->as.again.last;
    case TW_IAM:
      return message->as.iam.lowest_hz < message->as.iam.highest_hz;
    case TW_ALIVE:
      return message->as.alive.sweep != 0 || message->as.alive.sent == 0;
    default:
      return true;
  }
}

static bool is_letter_or_digit(char byte) {
  return (byte >= '0' && byte <= '9') || (byte >= 'A' && byte <= 'Z') || (byte >= 'a' && byte <= 'z');
}

static bool is_plain(char byte) {
  switch (byte) {
    case ' ':
    case '.':
    case '-':
    case '_':
    case '+':
    case '/':
    case '(':
    case ')':
    case ':':
      return true;
    default:
      return is_letter_or_digit(byte);
  }
}

bool tw_is_text(const char *bytes, size_t length, size_t max_length) {
  if (length == 0 || length > max_length) return false;
  for (size_t i = 0; i < length; i++) {
    if (!is_plain(bytes[i])) return false;
  }
  return is_letter_or_digit(bytes[0]) && bytes[length - 1] != ' ';
}
