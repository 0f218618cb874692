/* text.c - a growing UTF-8 buffer in an arena. */
#include "text.h"

#include <stdint.h>
#include <stdio.h>
#include <string.h>

bw_text bw_text_new(bw_arena *arena)
{
    const bw_text text = {.arena = arena};
    return text;
}

/* Makes room for length more bytes and the terminator. */
static bool make_room(bw_text *text, size_t length)
{
    if (text->failed || length > SIZE_MAX / 2 - text->length) {
        text->failed = true;
        return false;
    }
    char *data = bw_arena_grow(text->arena, text->data, text->length + length,
                               &text->capacity, sizeof(char));
    if (data == NULL) {
        text->failed = true;
        return false;
    }
    text->data = data;
    return true;
}

void bw_text_add_bytes(bw_text *text, const char *piece, size_t length)
{
    if (!make_room(text, length)) {
        return;
    }
    if (length > 0) {
        memcpy(text->data + text->length, piece, length);
    }
    text->length += length;
    text->data[text->length] = '\0';
}

void bw_text_add(bw_text *text, const char *piece)
{
    bw_text_add_bytes(text, piece, strlen(piece));
}

/* Most of what is printed is no longer: it is printed once then. */
static const size_t usual_print = 64;

void bwi_text_vprint(bw_text *text, const char *format, va_list pieces)
{
    if (!make_room(text, usual_print)) {
        return;
    }
    const size_t room = text->capacity - text->length;
    va_list again;
    va_copy(again, pieces);
    /* clang-tidy 14 forgets va_copy when it is given several files at once */
    /* NOLINTNEXTLINE(clang-analyzer-valist.Uninitialized) */
    const int length = vsnprintf(text->data + text->length, room, format, again);
    va_end(again);
    if (length < 0) {
        text->failed = true;
    } else if ((size_t)length < room) {
        text->length += (size_t)length;
    } else if (make_room(text, (size_t)length)) {
        vsnprintf(text->data + text->length, (size_t)length + 1, format, pieces);
        text->length += (size_t)length;
    }
}

void bw_text_print(bw_text *text, const char *format, ...)
{
    va_list pieces;
    va_start(pieces, format);
    bwi_text_vprint(text, format, pieces);
    va_end(pieces);
}

const char *bw_text_string(const bw_text *text)
{
    if (text->failed || bw_arena_failed(text->arena)) {
        return NULL;
    }
    return text->data == NULL ? "" : text->data;
}

static bool is_continuation(unsigned char byte)
{
    return (byte & 0xC0U) == 0x80U;
}

size_t bw_text_columns(const char *text)
{
    size_t columns = 0;
    for (const char *at = text; *at != '\0'; at++) {
        columns += is_continuation((unsigned char)*at) ? 0 : 1;
    }
    return columns;
}

/* The second byte carries what forbids overlong forms, surrogates and values beyond
 * U+10FFFF: Unicode Standard, table 3-7, "Well-Formed UTF-8 Byte Sequences" (MEMORY). */
static bool second_byte_fits(unsigned char first, unsigned char second)
{
    switch (first) {
    case 0xE0:
        return second >= 0xA0 && second <= 0xBF;
    case 0xED:
        return second >= 0x80 && second <= 0x9F;
    case 0xF0:
        return second >= 0x90 && second <= 0xBF;
    case 0xF4:
        return second >= 0x80 && second <= 0x8F;
    default:
        return is_continuation(second);
    }
}

size_t bwi_utf8_length(const char *text)
{
    const unsigned char first = (unsigned char)text[0];
    if (first < 0x80) {
        return 1;
    }
    if (first < 0xC2 || first > 0xF4) {
        return 0;
    }
    const size_t length = first < 0xE0 ? 2 : first < 0xF0 ? 3 : 4;
    if (!second_byte_fits(first, (unsigned char)text[1])) {
        return 0;
    }
    for (size_t i = 2; i < length; i++) {
        if (!is_continuation((unsigned char)text[i])) {
            return 0;
        }
    }
    return length;
}

/* C0 and C1 control characters and DEL. */
static bool is_control(const char *at)
{
    const unsigned char first = (unsigned char)at[0];
    return first < 0x20 || first == 0x7F ||
           (first == 0xC2 && (unsigned char)at[1] < 0xA0);
}

void bwi_text_add_visible(bw_text *text, const char *piece)
{
    while (*piece != '\0') {
        const size_t length = bwi_utf8_length(piece);
        if (length == 0 || is_control(piece)) {
            bw_text_print(text, "\\x%02X", (unsigned)(unsigned char)*piece);
            piece++;
            /* the second byte of a C1 control is no character of its own: it comes next
             */
        } else {
            bw_text_add_bytes(text, piece, length);
            piece += length;
        }
    }
}
