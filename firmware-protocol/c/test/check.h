/* What the test programs share. They print every difference and end with 1 if there was one. */
#ifndef TURFWIRE_CHECK_H
#define TURFWIRE_CHECK_H

#include <stdio.h>

#include "../turfwire.h"

#define ROW_BYTES 1024

/* Reads a row without its LF. Returns 0 at the end of the file. Rows of comment (#) and empty ones are left out. */
int read_row(FILE *file, char row[ROW_BYTES]);

/* Replaces \xHH and \\ in place and returns the new length. */
size_t unescape(char *text);

/* The decoded message in the notation of vectors/lines.txt: `there 17`. */
void describe(const tw_message *message, char text[ROW_BYTES]);

#endif
