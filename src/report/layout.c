/* layout.c - lines, paragraphs and headings that fit the page. */
#include "internal.h"

#include <string.h>

static bool is_continuation(char byte)
{
    return ((unsigned char)byte & 0xC0U) == 0x80U;
}

static size_t announced_length(unsigned char lead)
{
    if (lead < 0x80U) {
        return 1;
    }
    if (lead >= 0xC2U && lead < 0xE0U) {
        return 2;
    }
    if (lead >= 0xE0U && lead < 0xF0U) {
        return 3;
    }
    return lead >= 0xF0U && lead < 0xF5U ? 4 : 0;
}

/* RFC 3629, section 4: besides the lead byte, the second byte decides about overlong
 * forms, surrogates and what lies beyond U+10FFFF. */
static bool second_fits(unsigned char lead, unsigned char second)
{
    switch (lead) {
    case 0xE0U:
        return second >= 0xA0U;
    case 0xEDU:
        return second < 0xA0U;
    case 0xF0U:
        return second >= 0x90U;
    case 0xF4U:
        return second < 0x90U;
    default:
        return true;
    }
}

size_t bwi_character_length(const char *text)
{
    const unsigned char lead = (unsigned char)text[0];
    const size_t length = announced_length(lead);
    for (size_t i = 1; i < length; i++) {
        if (!is_continuation(text[i])) {
            return 0;
        }
    }
    return length < 2 || second_fits(lead, (unsigned char)text[1]) ? length : 0;
}

static bool is_control(const char *text, size_t length)
{
    const unsigned char lead = (unsigned char)text[0];
    if (length == 2) { /* U+0080 to U+009F steer terminals too */
        return lead == 0xC2U && (unsigned char)text[1] < 0xA0U;
    }
    return length == 1 && (lead < 0x20U || lead == 0x7FU);
}

const char *bwi_clean(bw_arena *arena, const char *text)
{
    char *clean = text == NULL ? NULL : bw_arena_copy(arena, text);
    if (clean == NULL) {
        return NULL;
    }
    char *to = clean;
    while (*text != '\0') {
        const size_t length = bwi_character_length(text);
        if (*text == '\n' || *text == '\t' || *text == '\r') {
            *to++ = ' ';
        } else if (length == 0 || is_control(text, length)) {
            *to++ = '?';
        } else {
            memcpy(to, text, length);
            to += length;
        }
        text += length == 0 ? 1 : length;
    }
    *to = '\0';
    return clean;
}

const char *bwi_take_line(const char **text, size_t width, size_t *length)
{
    const char *start = *text + strspn(*text, " ");
    const char *at = start, *blank = NULL;
    size_t columns = 0;
    while (*at != '\0' && (columns < width || *at == ' ' || is_continuation(*at))) {
        if (*at == ' ') {
            blank = at;
            if (columns >= width) {
                break;
            }
        }
        columns += is_continuation(*at) ? 0U : 1U;
        at++;
    }
    const char *end = *at != '\0' && blank != NULL ? blank : at;
    *text = end + strspn(end, " ");
    while (end > start && end[-1] == ' ') {
        end--;
    }
    *length = (size_t)(end - start);
    return start;
}

void bwi_blanks(bw_text *out, size_t count)
{
    static const char blanks[] = "                                ";
    const size_t most = sizeof blanks - 1;
    for (; count > most; count -= most) {
        bw_text_add_bytes(out, blanks, most);
    }
    bw_text_add_bytes(out, blanks, count);
}

void bwi_paragraph(bw_text *out, const char *lead, const char *text)
{
    const size_t hang = bw_text_columns(lead);
    const char *rest = bwi_or_fail(out, bwi_clean(out->arena, text));
    bw_text_add(out, lead);
    for (bool first = true; first || *rest != '\0'; first = false) {
        size_t length = 0;
        const char *line = bwi_take_line(&rest, BWI_PAGE_COLUMNS - hang, &length);
        if (!first) {
            bwi_blanks(out, hang);
        }
        bw_text_add_bytes(out, line, length);
        bw_text_add(out, "\n");
    }
}

void bwi_heading(bw_text *out, const char *text)
{
    bw_text_print(out, "\n%s\n", text);
    for (size_t i = bw_text_columns(text); i > 0; i--) {
        bw_text_add(out, "-");
    }
    bw_text_add(out, "\n");
}
