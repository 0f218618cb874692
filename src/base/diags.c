/* diags.c - collects what a person must read about faults, and prints it. */
#include "text.h"

#include <limits.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

bw_diags bw_diags_new(bw_arena *arena, const char *file)
{
    const bw_diags diags = {.arena = arena, .file = file};
    return diags;
}

/* A copy in the arena; null stays null. */
static const char *keep(bw_diags *diags, const char *text)
{
    if (text == NULL) {
        return NULL;
    }
    const char *copy = bw_arena_copy(diags->arena, text);
    diags->failed = diags->failed || copy == NULL;
    return copy;
}

static bool is_equal(const char *a, const char *b)
{
    return a == NULL || b == NULL ? a == b : strcmp(a, b) == 0;
}

/* Whoever tries a deck with other loads or logs hears the same warnings again. */
static bool is_warned(const bw_diags *diags, const bw_diag *diag)
{
    bool warned = false;
    for (size_t k = 0; k < diags->count && diag->severity == BW_WARNING && !warned; k++) {
        const bw_diag *said = &diags->items[k];
        warned = said->severity == BW_WARNING && said->line == diag->line &&
                 said->column == diag->column && is_equal(said->id, diag->id) &&
                 is_equal(said->path, diag->path) && said->message != NULL &&
                 is_equal(said->message, diag->message);
    }
    return warned;
}

void bw_diags_add(bw_diags *diags, const bw_diag *diag)
{
    if (is_warned(diags, diag)) {
        return;
    }
    /* Counted first: a fault must not vanish because there was no memory to describe it.
     */
    diags->errors += diag->severity == BW_ERROR ? 1 : 0;
    bw_diag *items = bw_arena_grow(diags->arena, diags->items, diags->count,
                                   &diags->capacity, sizeof(bw_diag));
    if (items == NULL) {
        diags->failed = true;
        return;
    }
    diags->items = items;
    bw_diag *copy = &items[diags->count++];
    *copy = *diag;
    copy->id = keep(diags, diag->id);
    copy->path = keep(diags, diag->path);
    copy->message = keep(diags, diag->message);
    copy->allowed = keep(diags, diag->allowed);
    copy->hint = keep(diags, diag->hint);
}

BW_PRINTF(3, 0)
static void add_printed(bw_diags *diags, bw_diag diag, const char *format, va_list pieces)
{
    bw_text message = bw_text_new(diags->arena);
    bwi_text_vprint(&message, format, pieces);
    diag.message = bw_text_string(&message);
    diags->failed = diags->failed || message.failed;
    bw_diags_add(diags, &diag);
}

void bw_diags_error(bw_diags *diags, const char *id, const char *path, const char *hint,
                    const char *format, ...)
{
    const bw_diag diag = {.severity = BW_ERROR, .id = id, .path = path, .hint = hint};
    va_list pieces;
    va_start(pieces, format);
    add_printed(diags, diag, format, pieces);
    va_end(pieces);
}

void bw_diags_warn(bw_diags *diags, const char *id, const char *path, const char *hint,
                   const char *format, ...)
{
    const bw_diag diag = {.severity = BW_WARNING, .id = id, .path = path, .hint = hint};
    va_list pieces;
    va_start(pieces, format);
    add_printed(diags, diag, format, pieces);
    va_end(pieces);
}

/* By line and column; what has no place in the file comes last. Equal places keep the
 * order in which they were found (both point into one array, so the pointers compare). */
static int compare_places(const void *left, const void *right)
{
    const bw_diag *const a = *(const bw_diag *const *)left;
    const bw_diag *const b = *(const bw_diag *const *)right;
    const int line_a = a->line > 0 ? a->line : INT_MAX;
    const int line_b = b->line > 0 ? b->line : INT_MAX;
    if (line_a != line_b) {
        return line_a < line_b ? -1 : 1;
    }
    if (a->column != b->column) {
        return a->column < b->column ? -1 : 1;
    }
    return a < b ? -1 : a > b ? 1 : 0;
}

static void print_place(const bw_diags *diags, const bw_diag *diag, bw_text *out)
{
    bw_text_add(out, "bolewright: ");
    if (diags->file != NULL) {
        bwi_text_add_visible(out, diags->file);
        if (diag->line > 0) {
            bw_text_print(out, ":%d", diag->line);
        }
        if (diag->line > 0 && diag->column > 0) {
            bw_text_print(out, ":%d", diag->column);
        }
        bw_text_add(out, ": ");
    }
}

/* The pointer is left out where the message begins with it. */
static void print_path(const bw_diag *diag, const char *message, bw_text *out)
{
    if (diag->path != NULL && diag->path[0] != '\0' &&
        strncmp(message, diag->path, strlen(diag->path)) != 0) {
        bwi_text_add_visible(out, diag->path);
        bw_text_add(out, ": ");
    }
}

static void print_line(const char *label, const char *text, bw_text *out)
{
    if (text != NULL) {
        bw_text_print(out, "  %s: ", label);
        bwi_text_add_visible(out, text);
        bw_text_add(out, "\n");
    }
}

static void print_diag(const bw_diags *diags, const bw_diag *diag, bw_text *out)
{
    static const char *const words[] = {
        [BW_NOTE] = "note: ", [BW_WARNING] = "warning: ", [BW_ERROR] = ""};
    const char *message = diag->message != NULL ? diag->message : "(no memory for words)";
    print_place(diags, diag, out);
    bw_text_add(out, words[diag->severity]);
    print_path(diag, message, out);
    bwi_text_add_visible(out, message);
    bw_text_add(out, "\n");
    print_line("allowed", diag->allowed, out);
    print_line("hint", diag->hint, out);
}

void bw_diags_print(const bw_diags *diags, bw_text *out)
{
    const bw_diag **order = BW_NEW(out->arena, const bw_diag *, diags->count);
    if (order == NULL) {
        out->failed = true;
        return;
    }
    for (size_t i = 0; i < diags->count; i++) {
        order[i] = &diags->items[i];
    }
    qsort(order, diags->count, sizeof(const bw_diag *), compare_places);
    for (size_t i = 0; i < diags->count; i++) {
        print_diag(diags, order[i], out);
    }
}
