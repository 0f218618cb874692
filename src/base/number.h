/* number.h - private to the base layer: numbers as people write them, in plain text. */
#ifndef BWI_NUMBER_H
#define BWI_NUMBER_H

#include "bolewright/base.h"

/* Longest quantity that is read, in bytes of plain text, terminator included. */
enum { bwi_plain_size = 96 };

/* Rewrites a quantity in plain ASCII: lower case, single spaces, none at the ends; primes
 * and typographic quotes as ' and ", minus signs and dashes as -, raised figures as ^2,
 * vulgar fractions as 1/2, the degree sign as a word. What has no place in a quantity
 * becomes '?'. False if it does not fit. */
bool bwi_plain_write(const char *text, char plain[bwi_plain_size]);

bool bwi_is_digit(char letter);
bool bwi_is_letter(char letter); /* a to z */
void bwi_skip_space(const char **at);

/* Reads an unsigned number: 25, 2.29, .5, 1.08e6, 1/2, 25 1/2 or 25-1/2. *is_whole:
 * digits only. Moves *at past it on BW_PARSE_OK. */
bw_parse bwi_number_read(const char **at, double *value, bool *is_whole);

#endif
