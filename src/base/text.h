/* text.h - private to the base layer. */
#ifndef BWI_TEXT_H
#define BWI_TEXT_H

#include "bolewright/base.h"

BW_PRINTF(2, 0)
void bwi_text_vprint(bw_text *text, const char *format, va_list pieces);

/* Adds the piece with everything that could disturb a terminal or break a line (control
 * characters, bytes that are not UTF-8) written as \xNN. */
void bwi_text_add_visible(bw_text *text, const char *piece);

/* Bytes of the UTF-8 character at the start of a string, 1 to 4; 0 if it is malformed
 * (overlong, surrogate, beyond U+10FFFF or cut short). Never looks past the terminator.
 */
size_t bwi_utf8_length(const char *text);

#endif
