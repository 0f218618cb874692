/* json_write.c - JSON (RFC 8259) with a stable layout: two blanks per level, one member a
 * line. */
#include "internal.h"

#include <math.h>
#include <string.h>

/* U+FFFD for a malformed byte: RFC 8259, section 8.1 wants UTF-8, whatever a case holds.
 */
static void add_character(bw_text *out, const char *at, size_t length)
{
    const unsigned char c = (unsigned char)*at;
    if (length == 0) {
        bw_text_add(out, "\\ufffd");
    } else if (c == '"') { /* drawings are full of them */
        bw_text_add(out, "\\\"");
    } else if (c == '\\') {
        bw_text_add(out, "\\\\");
    } else if (c == '\n') {
        bw_text_add(out, "\\n");
    } else if (c == '\t') {
        bw_text_add(out, "\\t");
    } else if (c < 0x20U || c == 0x7FU) {
        bw_text_print(out, "\\u%04x", (unsigned)c);
    } else {
        bw_text_add_bytes(out, at, length);
    }
}

/* Bytes from here on that stand for themselves, in ASCII. */
static size_t plain_length(const char *text)
{
    size_t n = 0;
    while (text[n] >= 0x20 && text[n] < 0x7F && text[n] != '"' && text[n] != '\\') {
        n++;
    }
    return n;
}

void bw_json_string(bw_text *out, const char *text)
{
    bw_text_add(out, "\"");
    while (*text != '\0') {
        const size_t plain = plain_length(text);
        if (plain > 0) {
            bw_text_add_bytes(out, text, plain);
            text += plain;
            continue;
        }
        const size_t length = bwi_character_length(text);
        add_character(out, text, length);
        text += length == 0 ? 1 : length;
    }
    bw_text_add(out, "\"");
}

void bw_json_number(bw_text *out, double value)
{
    if (!isfinite(value)) {
        bw_text_add(out, "null");
    } else if (value == 0.0) {
        bw_text_add(out, "0"); /* never "-0" */
    } else {
        bw_text_print(out, "%.15g", value);
    }
}

bwi_json bwi_json_new(bw_text *out)
{
    return (bwi_json){.out = out};
}

static void new_line(bwi_json *json)
{
    bw_text_add(json->out, "\n");
    bwi_blanks(json->out, 2 * (size_t)json->depth);
}

static void begin(bwi_json *json, const char *key)
{
    if (json->depth > 0) {
        bw_text_add(json->out, json->has_before ? "," : "");
        new_line(json);
    }
    if (key != NULL) {
        bw_json_string(json->out, key);
        bw_text_add(json->out, ": ");
    }
    json->has_before = true;
}

void bwi_json_begin(bwi_json *json, const char *key, char open)
{
    begin(json, key);
    bw_text_add_bytes(json->out, &open, 1);
    json->depth++;
    json->has_before = false;
}

void bwi_json_end(bwi_json *json, char close)
{
    json->depth--;
    if (json->has_before) {
        new_line(json);
    }
    bw_text_add_bytes(json->out, &close, 1);
    json->has_before = true;
    if (json->depth == 0) {
        bw_text_add(json->out, "\n");
    }
}

void bwi_json_text(bwi_json *json, const char *key, const char *text)
{
    begin(json, key);
    if (text == NULL) {
        bw_text_add(json->out, "null");
    } else {
        bw_json_string(json->out, text);
    }
}

void bwi_json_real(bwi_json *json, const char *key, double value)
{
    begin(json, key);
    bw_json_number(json->out, value);
}

void bwi_json_known(bwi_json *json, const char *key, double value, bool known)
{
    if (known) {
        bwi_json_real(json, key, value);
    } else {
        bwi_json_text(json, key, NULL);
    }
}

void bwi_json_whole(bwi_json *json, const char *key, int value)
{
    begin(json, key);
    bw_text_print(json->out, "%d", value);
}

void bwi_json_assumptions(bwi_json *json, const char *key, const bw_assessment *a,
                          bool to_do)
{
    bwi_json_begin(json, key, '[');
    for (size_t i = 0; i < a->n_assumptions; i++) {
        if (a->assumptions[i].to_do == to_do) {
            bwi_json_text(json, NULL, bwi_assumption_text(&a->assumptions[i], json->out));
        }
    }
    bwi_json_end(json, ']');
}

void bwi_json_texts(bwi_json *json, const char *key, const char *const *items)
{
    bwi_json_begin(json, key, '[');
    for (; items != NULL && *items != NULL; items++) {
        bwi_json_text(json, NULL, *items);
    }
    bwi_json_end(json, ']');
}
