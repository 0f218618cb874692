/* The same deck written otherwise: in the other units, with other names, with every list
 * and every key in the opposite order. Random decks give the same utilisations.
 *
 * BW_LAWS_DECKS=2000 tries so many, BW_LAWS_FIRST=17 begins at that one. */
#include "../base/arena_fixture.h"
#include "law_deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* Fewer where memory is watched, which takes several times as long. */
#ifdef __SANITIZE_ADDRESS__
enum { DECKS = 2 };
#else
enum { DECKS = 10 };
#endif

typedef struct {
    const char *words;
    bool inches, renamed, backwards;
    /* Of the utilisations: what is the same number is found in the same way; what is
     * converted to and fro differs in the last digit, and the search for the worst place
     * stops elsewhere within its own rounding. */
    double agree;
} way;

static const way ways[] = {
    {"in inches and pounds", true, false, false, 1e-6},
    {"with other names", false, true, false, 1e-12},
    {"from the end", false, false, true, 1e-9},
};

/* ---- writing otherwise ---- */

static const char *after_space(const char *s)
{
    return s + strspn(s, " \n");
}

/* "1.5 m" as "59.055118110236222 in". */
static bool converted(const char *text, bw_text *out)
{
    static const struct {
        const char *unit, *other;
        double size;
    } units[] = {{" m", "in", 0.0254},
                 {" kg", "lb", 0.45359237},
                 {" Pa", "psf", 0.45359237 * 9.80665 / 0.3048 / 0.3048}};
    char *end = NULL;
    const double value = strtod(text, &end);
    for (size_t k = 0; k < 3 && end != text; k++) {
        if (strcmp(end, units[k].unit) == 0) {
            bw_text_print(out, "\"%.17g %s\"", value / units[k].size, units[k].other);
            return true;
        }
    }
    return false;
}

/* Rows r0, r1 ... and bents b0, b1 ..., and what is called after them: the alphabet runs
 * the other way then. */
static bool renamed(const char *text, bw_text *out)
{
    const bool row = text[0] == 'r', bent = text[0] == 'b';
    if (!(row || bent) || text[1] < '0' || text[1] > '9') {
        return false;
    }
    bw_text_print(out, "\"%s %c%s\"", row ? "zig" : "an", '0' + ('9' - text[1]),
                  text + 2);
    return true;
}

static const char *copy_string(const char *s, bw_text *out, const way *how,
                               bw_arena *arena)
{
    const size_t n = strcspn(s + 1, "\"");
    const char *text = bw_arena_print(arena, "%.*s", (int)n, s + 1);
    assert_non_null(text);
    if (how->inches && strcmp(text, "metric") == 0) {
        bw_text_add(out, "\"imperial\"");
    } else if (!(how->inches && converted(text, out)) &&
               !(how->renamed && renamed(text, out))) {
        bw_text_print(out, "\"%s\"", text);
    }
    return s + n + 2;
}

static const char *copy_value(const char *s, bw_text *out, const way *how,
                              bw_arena *arena);

/* Items of a list, or keys with their values. */
static const char *copy_items(const char *s, bw_text *out, const way *how,
                              bw_arena *arena)
{
    enum { ROOM = 32 };
    const char *items[ROOM];
    const char close = *s == '[' ? ']' : '}';
    size_t n = 0;
    bw_text_print(out, "%c", *s);
    for (s = after_space(s + 1); *s != close; s = after_space(s)) {
        bw_text item = bw_text_new(arena);
        if (close == '}') {
            s = after_space(copy_string(s, &item, &(way){.words = "as it is"}, arena));
            bw_text_add(&item, ": ");
            s++;
        }
        s = after_space(copy_value(s, &item, how, arena));
        assert_true(n < ROOM);
        items[n++] = bw_text_string(&item);
        s += *s == ',';
    }
    for (size_t k = 0; k < n; k++) {
        bw_text_print(out, "%s%s", k > 0 ? ", " : "",
                      items[how->backwards ? n - 1 - k : k]);
    }
    bw_text_print(out, "%c", close);
    return s + 1;
}

static const char *copy_value(const char *s, bw_text *out, const way *how,
                              bw_arena *arena)
{
    s = after_space(s);
    if (*s == '{' || *s == '[') {
        return copy_items(s, out, how, arena);
    }
    if (*s == '"') {
        return copy_string(s, out, how, arena);
    }
    const size_t n = strcspn(s, ",]} \n");
    bw_text_print(out, "%.*s", (int)n, s);
    return s + n;
}

static const char *written(const char *text, const way *how, bw_arena *arena)
{
    bw_text out = bw_text_new(arena);
    copy_value(text, &out, how, arena);
    return bw_text_string(&out);
}

/* ---- comparing ---- */

/* A member is known by its place: bents come in their order along the deck whatever the
 * file says, rows in that of the file. */
static const bw_member_result *same_member(const bw_assessment *in,
                                           const bw_member_result *m, const way *how)
{
    const int n_rows = (int)in->deck->n_rows;
    const int row = how->backwards && m->row >= 0 ? n_rows - 1 - m->row : m->row;
    const bw_member_result *found = NULL;
    for (size_t k = 0; k < in->n_members; k++) {
        const bw_member_result *x = &in->members[k];
        if (strcmp(x->role, m->role) == 0 && x->bent == m->bent && x->row == row &&
            (strcmp(m->role, "brace") != 0 || strcmp(x->name, m->name) == 0)) {
            found = x;
        }
    }
    assert_non_null(found);
    return found;
}

static void compare(const bw_assessment *a, const bw_assessment *b, const way *how,
                    long number)
{
    assert_int_equal(a->n_members, b->n_members);
    if (a->verdict != b->verdict) {
        fail_msg("deck %ld, %s: another verdict", number, how->words);
    }
    for (size_t k = 0; k < a->n_members; k++) {
        const bw_member_result *x = &a->members[k], *y = same_member(b, x, how);
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            if (x->has[kind] != y->has[kind]) {
                fail_msg("deck %ld, %s: %s %s has %s once", number, how->words, x->role,
                         x->name, bw_us_asd.checks[kind]->id);
            }
            const double u = x->findings[kind].ratio.utilisation;
            const double v = y->findings[kind].ratio.utilisation;
            const bool same = isnan(u) ? isnan(v) : fabs(v - u) <= how->agree * u + 1e-9;
            if (x->has[kind] && !same) {
                fail_msg("deck %ld, %s: %s %s, %s: %.12g and %.12g", number, how->words,
                         x->role, x->name, bw_us_asd.checks[kind]->id, u, v);
            }
        }
    }
}

static void try_deck(long number, bw_arena *arena)
{
    const bwt_deck d = bwt_law_deck(number);
    const char *text = bwt_deck_text(&d, arena);
    bw_assessment a, b;
    assert_int_equal(bwt_text_assess(text, arena, &a, NULL), BW_OK);
    for (size_t k = 0; k < sizeof ways / sizeof ways[0]; k++) {
        const char *other = written(text, &ways[k], arena);
        assert_string_not_equal(other, text);
        assert_int_equal(bwt_text_assess(other, arena, &b, NULL), BW_OK);
        compare(&a, &b, &ways[k], number);
    }
}

static void however_it_is_written_it_is_the_same_deck(void **state)
{
    const long first = bwt_law_number("BW_LAWS_FIRST", 0);
    const long n = bwt_law_number("BW_LAWS_DECKS", DECKS);
    for (long k = first; k < first + n; k++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        try_deck(k, *state);
        bw_arena_back(*state, mark);
    }
}

/* The rewriting itself: a test that changed nothing could not fail. */
static void a_deck_is_written_otherwise(void **state)
{
    const char *text = "{\"units\": \"metric\", \"rows\": [{\"name\": \"r0\"}, 2.5], "
                       "\"at\": \"-1.27 m\"}";
    assert_string_equal(written(text, &ways[0], *state),
                        "{\"units\": \"imperial\", \"rows\": [{\"name\": \"r0\"}, 2.5], "
                        "\"at\": \"-50 in\"}");
    assert_string_equal(written(text, &ways[1], *state),
                        "{\"units\": \"metric\", \"rows\": [{\"name\": \"zig 9\"}, 2.5], "
                        "\"at\": \"-1.27 m\"}");
    assert_string_equal(written(text, &ways[2], *state),
                        "{\"at\": \"-1.27 m\", \"rows\": [2.5, {\"name\": \"r0\"}], "
                        "\"units\": \"metric\"}");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_deck_is_written_otherwise),
        WITH_ARENA(however_it_is_written_it_is_the_same_deck),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
