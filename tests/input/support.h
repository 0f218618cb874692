/* support.h - what the tests of the input layer share. cmocka needs its four includes
 * first. */
#ifndef BW_TESTS_INPUT_SUPPORT_H
#define BW_TESTS_INPUT_SUPPORT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "bolewright/input.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* A file of the source tree, whole and terminated; its length goes to *length unless
 * null. */
static inline char *slurp(bw_arena *arena, const char *path, size_t *length)
{
    FILE *stream = fopen(path, "rb");
    bw_text all = bw_text_new(arena);
    char piece[4096];
    size_t got = 0;
    assert_non_null(stream);
    bw_text_add(&all, "");
    while ((got = fread(piece, 1, sizeof piece, stream)) > 0) {
        bw_text_add_bytes(&all, piece, got);
    }
    assert_int_equal(fclose(stream), 0);
    assert_non_null(bw_text_string(&all));
    if (length != NULL) {
        *length = all.length;
    }
    char *text = bw_arena_copy(arena, bw_text_string(&all));
    assert_non_null(text);
    return text;
}

/* The table of tests/input/species.json. */
static inline bw_species_table test_woods(bw_arena *arena)
{
    bw_species_table table = {NULL, 0, NULL};
    bw_diags d = bw_diags_new(arena, "species.json");
    const char *text = slurp(arena, BW_SOURCE_DIR "/tests/input/species.json", NULL);
    assert_int_equal(bw_input_species_text(arena, text, &table, &d), BW_OK);
    assert_int_equal(d.count, 0);
    return table;
}

/* The text with the first part replaced; fails if the part is not there. */
static inline char *replaced(bw_arena *arena, const char *text, const char *part,
                             const char *by)
{
    const char *at = strstr(text, part);
    assert_non_null(at);
    bw_text all = bw_text_new(arena);
    bw_text_add_bytes(&all, text, (size_t)(at - text));
    bw_text_add(&all, by);
    bw_text_add(&all, at + strlen(part));
    char *copy = bw_arena_copy(arena, bw_text_string(&all));
    assert_non_null(copy);
    return copy;
}

static inline void assert_near(double found, double expected, double relative)
{
    const double off = found > expected ? found - expected : expected - found;
    const double size = expected < 0.0 ? -expected : expected;
    if (!(off <= relative * size)) {
        fail_msg("found %.17g, expected %.17g", found, expected);
    }
}

/* Prints the diagnostics and fails if the status is another one. */
static inline void assert_status(bw_arena *arena, bw_status found, bw_status expected,
                                 const bw_diags *d)
{
    if (found != expected) {
        bw_text out = bw_text_new(arena);
        bw_diags_print(d, &out);
        fail_msg("%s instead of %s\n%s", bw_status_text(found), bw_status_text(expected),
                 bw_text_string(&out));
    }
}

#endif
