/* html.c - markup, and the one function that lets text into it. */
#include "html.h"

#include <string.h>

static const char *entity(char c)
{
    switch (c) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return NULL;
    }
}

static bool is_control(const char *text, size_t length)
{
    const unsigned char lead = (unsigned char)text[0];
    return (length == 1 && (lead < 0x20U || lead == 0x7FU)) ||
           (length == 2 && lead == 0xC2U && (unsigned char)text[1] < 0xA0U);
}

/* U+FFFE and U+FFFF are no characters, in HTML either. */
static bool is_no_character(const char *text, size_t length)
{
    return length == 3 && memcmp(text, "\xEF\xBF", 2) == 0 &&
           (unsigned char)text[2] >= 0xBEU;
}

static void add_text(bw_text *out, const char *text)
{
    while (*text != '\0') {
        const size_t length = bwi_character_length(text);
        if (length == 1 && entity(*text) != NULL) {
            bw_text_add(out, entity(*text));
        } else if (*text == '\n' || *text == '\t' || *text == '\r') {
            bw_text_add(out, " ");
        } else if (length == 0 || is_control(text, length) ||
                   is_no_character(text, length)) {
            bw_text_add(out, "\xEF\xBF\xBD");
        } else {
            bw_text_add_bytes(out, text, length);
        }
        text += length == 0 ? 1 : length;
    }
}

void bwi_html(bw_text *out, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    while (*format != '\0') {
        const size_t plain = strcspn(format, "%");
        bw_text_add_bytes(out, format, plain);
        format += plain;
        if (format[0] == '%' && format[1] == 's') {
            add_text(out, bwi_or_fail(out, va_arg(arguments, const char *)));
            format += 2;
        } else if (format[0] == '%') {
            bw_text_add(out, "%");
            format += format[1] == '%' ? 2 : 1;
        }
    }
    va_end(arguments);
}

const char *bwi_short(bw_arena *arena, const char *text, size_t columns)
{
    if (text == NULL || bw_text_columns(text) <= columns) {
        return text;
    }
    const char *end = text;
    for (size_t n = 0; n + 1 < columns && *end != '\0'; n++) {
        const size_t length = bwi_character_length(end);
        end += length == 0 ? 1 : length;
    }
    return bw_arena_print(arena, "%.*s\xE2\x80\xA6", (int)(end - text), text);
}

static void open_table(bw_text *out, const char *name, const char *classes,
                       const char *const *columns, size_t n_columns)
{
    bwi_html(out,
             "<div class=\"wide\" role=\"region\" tabindex=\"0\" aria-label=\"%s\">\n"
             "<table class=\"%s\">\n<caption>%s</caption>\n<thead><tr>",
             name, classes, name);
    for (size_t i = 0; i < n_columns; i++) {
        const bool right = columns[i][0] == '>';
        bwi_html(out,
                 right ? "<th scope=\"col\" class=\"n\">%s</th>"
                       : "<th scope=\"col\">%s</th>",
                 columns[i] + (right ? 1 : 0));
    }
    bw_text_add(out, "</tr></thead>\n");
}

void bwi_table_open(bw_text *out, const char *name, const char *const *columns,
                    size_t n_columns)
{
    open_table(out, name, "t", columns, n_columns);
    bw_text_add(out, "<tbody>\n");
}

void bwi_grouped_table_open(bw_text *out, const char *name, const char *const *columns,
                            size_t n_columns)
{
    open_table(out, name, "groups", columns, n_columns);
}

void bwi_table_close(bw_text *out)
{
    bw_text_add(out, "</tbody></table></div>\n");
}

void bwi_cell(bw_text *out, const char *text)
{
    bwi_html(out, "<td>%s</td>", text);
}

void bwi_number_cell(bw_text *out, const char *text)
{
    bwi_html(out, "<td class=\"n\">%s</td>", text);
}

void bwi_head_cell(bw_text *out, const char *text)
{
    bwi_html(out, "<th scope=\"row\">%s</th>", text);
}
