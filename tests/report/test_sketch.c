/* The row in characters: ASCII but for names, no wider than the page, logs where the case
 * has them. */
#include "../base/arena_fixture.h"

#include "bolewright/input.h"
#include "bolewright/report.h"

#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

enum { BENTS = 24 };

/* A row of bays of 2.37 m, the first of them up a ramp from a sill. */
static const char *case_text(bw_arena *arena, int n_bents, const char *more)
{
    bw_text t = bw_text_new(arena);
    bw_text_add(&t,
                "{\"format\": 1, \"title\": \"Reeds\", \"units\": \"metric\", \"deck\": "
                "{\"width\": \"1.13 m\"},"
                "\"logs\": [{\"name\": \"log\", \"species\": \"Douglas-fir\", "
                "\"butt_diameter\": \"237 mm\", \"tip_diameter\": \"223 mm\", \"bark\": "
                "\"off\"}], \"rows\": [{\"name\": \"one\", \"across\": \"-0.41 m\"}, "
                "{\"name\": \"two\", \"across\": \"0.41 m\"}], \"bents\": [");
    for (int k = 0; k < n_bents; k++) {
        bw_text_print(&t, "%s{\"name\": \"B%d\", \"at\": \"%.2f m\", ", k > 0 ? "," : "",
                      k, 2.37 * k);
        bw_text_add(&t, k == 0
                            ? "\"deck_height\": \"0.6 m\", \"sill\": \"log\"}"
                            : "\"deck_height\": \"1.4 m\", \"cap\": \"log\", \"posts\": "
                              "[{\"row\": \"one\", \"log\": \"log\", \"hole_depth\": "
                              "\"1.2 m\"}, {\"row\": \"two\", \"log\": \"log\", "
                              "\"hole_depth\": \"1.2 m\"}]}");
    }
    bw_text_add(&t, "], \"stringers\": [");
    for (int k = 0; k + 1 < n_bents; k++) {
        for (int row = 0; row < 2; row++) {
            bw_text_print(
                &t,
                "%s{\"row\": \"%s\", \"log\": \"log\", \"from\": \"B%d\", \"to\": "
                "\"B%d\"}",
                k + row > 0 ? "," : "", row == 0 ? "one" : "two", k, k + 1);
        }
    }
    bw_text_print(
        &t,
        "], %s \"ground\": {\"soil\": \"gravel\"}, \"loads\": {\"crowd\": \"2.4 "
        "kPa\"}}",
        more);
    return bw_text_string(&t);
}

/* The text from the heading Drawings to the next one. */
static const char *sketch_of(bw_arena *arena, int n_bents, const char *more)
{
    bw_species_table species;
    bw_case *deck = BW_NEW(arena, bw_case, 1);
    bw_assessment *a = BW_NEW(arena, bw_assessment, 1);
    bw_diags d = bw_diags_new(arena, "deck.json");
    assert_int_equal(bw_input_species(arena, NULL, &species, &d), BW_OK);
    const bw_status read =
        bw_input_case(arena, case_text(arena, n_bents, more), &species, deck, &d);
    if (read != BW_OK) {
        bw_text faults = bw_text_new(arena);
        bw_diags_print(&d, &faults);
        print_error("%s\n", bw_text_string(&faults));
    }
    assert_int_equal(read, BW_OK);
    assert_int_equal(bw_deck_assess(arena, deck, a, &d), BW_OK);
    bw_text text = bw_text_new(arena);
    bw_report_text(a, &text);
    const char *from = strstr(bw_text_string(&text), "Drawings\n");
    const char *to = strstr(from, "Every member\n");
    return bw_arena_print(arena, "%.*s", (int)(to - from), from);
}

static int count(const char *text, const char *words)
{
    int n = 0;
    for (; (text = strstr(text, words)) != NULL; text++) {
        n++;
    }
    return n;
}

static void it_is_ascii_and_fits(void **state)
{
    static const int decks[] = {2, 7, BENTS};
    for (size_t k = 0; k < sizeof decks / sizeof decks[0]; k++) {
        for (const char *at = sketch_of(*state, decks[k], ""); *at != '\0';) {
            const size_t length = strcspn(at, "\n");
            assert_true(length <= 80);
            for (size_t j = 0; j < length; j++) {
                assert_true(at[j] >= ' ' && at[j] <= '~');
            }
            at += length + 1;
        }
    }
}

/* 0.6 m up to 1.4 m, then level: the ramp takes more than one line, the posts stand only
 * under the upper bents, holes reach 1.2 m down. */
static void logs_stand_where_the_case_has_them(void **state)
{
    const char *text = sketch_of(*state, 3, "");
    assert_int_equal(count(text, "Row one seen from the side, bents B0 to B2"), 1);
    assert_int_equal(count(text, "Row two seen from the side"), 1);
    const char *ramp = strstr(text, "====");
    assert_non_null(ramp);
    assert_true(count(text, "+") == 1 + 2); /* the explanation, and once in each row */
    const char *ground = strstr(text, "~~~~");
    assert_non_null(ground);
    assert_true(ramp < ground);
    const char *hole = strstr(ground, ":");
    assert_non_null(hole);
    const char *shares = strstr(hole, "\nstringer ");
    assert_non_null(shares);
    assert_non_null(strstr(shares, "\nsill "));
    assert_non_null(strstr(shares, "\ncap "));
    assert_non_null(strstr(shares, "\npost "));
}

/* The line of a picture that holds the words, as far as its end. */
static const char *line_with(bw_arena *arena, const char *text, const char *words)
{
    const char *at = strstr(text, words);
    assert_non_null(at);
    while (at > text && at[-1] != '\n') {
        at--;
    }
    return bw_arena_print(arena, "%.*s", (int)strcspn(at, "\n"), at);
}

/* Bents stand at 0, 2.37 and 4.74 m: their names are as far apart. */
static void bents_are_to_scale(void **state)
{
    const char *names = line_with(*state, sketch_of(*state, 3, ""), " B1 ");
    const long a = strstr(names, "B0") - names, b = strstr(names, "B1") - names,
               c = strstr(names, "B2") - names;
    assert_true(b - a - (c - b) <= 1 && c - b - (b - a) <= 1);
    assert_true(b - a > 20);
}

static void a_brace_slopes_the_way_it_stands(void **state)
{
    static const char rising[] =
        "\"braces\": [{\"name\": \"b\", \"kind\": \"diagonal\", \"row\": \"one\", "
        "\"log\": \"log\", "
        "\"from\": {\"bent\": \"B1\", \"height\": \"0.2 m\"}, \"to\": {\"bent\": \"B2\", "
        "\"height\": \"0.9 m\"}}],";
    const char *text = strstr(sketch_of(*state, 3, rising), "Row one");
    const char *picture =
        bw_arena_print(*state, "%.*s", (int)(strstr(text, "\nstringer ") - text), text);
    assert_true(count(picture, "/") > 5);
    assert_int_equal(count(picture, "\\"), 0);
    assert_non_null(strstr(text, "\nbrace "));
}

static void a_long_deck_is_broken_and_says_so(void **state)
{
    const char *text = sketch_of(*state, BENTS, "");
    assert_int_equal(count(text, "seen from the side"), 2); /* one strip of each row */
    assert_non_null(strstr(text, "The deck is long"));
    const char *whole = sketch_of(*state, 6, "");
    assert_int_equal(count(whole, "seen from the side"), 2 * 2);
    assert_null(strstr(whole, "The deck is long"));
}

static void the_same_case_gives_the_same_bytes(void **state)
{
    assert_string_equal(sketch_of(*state, 5, ""), sketch_of(*state, 5, ""));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(it_is_ascii_and_fits),
        WITH_ARENA(logs_stand_where_the_case_has_them),
        WITH_ARENA(bents_are_to_scale),
        WITH_ARENA(a_brace_slopes_the_way_it_stands),
        WITH_ARENA(a_long_deck_is_broken_and_says_so),
        WITH_ARENA(the_same_case_gives_the_same_bytes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
