/* Random input for fuzzing, the same for the same seed, and what must hold of lines. */
#ifndef TURFWIRE_FUZZ_H
#define TURFWIRE_FUZZ_H

#include "check.h"

void seed(uint32_t value);
uint32_t any(void);
uint32_t below(uint32_t limit);

/* Small numbers are likely, and so are those at the ends of ranges. */
uint32_t any_number(void);

/* Good lines, damaged ones, damaged ones with a right checksum, and noise. Encodes and checks messages on the way. */
size_t any_line(char line[2 * TW_LINE_BYTES]);

/* No line is read past its end, and a line that decodes is the one line of its message. */
void check_decoder(const char *line, size_t length);

/* Ends the program unless it holds. */
void require(int holds, const char *what);

#endif
