/* Text in the record: whatever a case calls its parts, the page stays a page, labels do
 * not lie on each other, and a table for spreadsheets stays a table. */
#include "../base/arena_fixture.h"
#include "report/html.h"
#include "sample.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static const char *escaped(bw_arena *arena, const char *text)
{
    bw_text out = bw_text_new(arena);
    bwi_html(&out, "%s", text);
    return bw_text_string(&out);
}

static void markup_in_a_text_becomes_text(void **state)
{
    assert_string_equal(escaped(*state, "<b>\"5'\" & more</b>"),
                        "&lt;b&gt;&quot;5&#39;&quot; &amp; more&lt;/b&gt;");
    assert_string_equal(escaped(*state, "H\xC3\xA9ron \xE2\x80\x93 bent"),
                        "H\xC3\xA9ron \xE2\x80\x93 bent");
}

static void what_is_no_text_is_replaced(void **state)
{
    assert_string_equal(escaped(*state, "a\x01z"), "a\xEF\xBF\xBDz");
    assert_string_equal(escaped(*state, "\xFFz"), "\xEF\xBF\xBDz");
    assert_string_equal(escaped(*state, "\xC2\x85z"), "\xEF\xBF\xBDz");
    assert_string_equal(escaped(*state, "\xEF\xBF\xBFz"), "\xEF\xBF\xBDz");
    assert_string_equal(escaped(*state, "\xED\xA0\x80"),
                        "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD");
    assert_string_equal(escaped(*state, "one\ntwo\tthree"), "one two three");
}

/* splitmix64 (Steele, Lea & Flood, 2014; MEMORY). */
static uint64_t next(uint64_t *random)
{
    uint64_t z = (*random += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

static bool stays_text(const char *text)
{
    while (*text != '\0') {
        const size_t length = bwi_character_length(text);
        if (length == 0 || strchr("<>\"'", *text) != NULL ||
            (unsigned char)*text < 0x20U) {
            return false;
        }
        if (*text == '&' && strncmp(text, "&lt;", 4) != 0 &&
            strncmp(text, "&gt;", 4) != 0 && strncmp(text, "&amp;", 5) != 0 &&
            strncmp(text, "&quot;", 6) != 0 && strncmp(text, "&#39;", 5) != 0) {
            return false;
        }
        text += length;
    }
    return true;
}

static void no_bytes_break_out(void **state)
{
    uint64_t random = 7311;
    for (int trial = 0; trial < 3000; trial++) {
        char bytes[24];
        for (size_t i = 0; i + 1 < sizeof bytes; i++) {
            bytes[i] = (char)(next(&random) & 0xFFU);
        }
        bytes[sizeof bytes - 1] = '\0';
        assert_true(stays_text(escaped(*state, bytes)));
        assert_true(stays_text(escaped(*state, bwi_short(*state, bytes, 7))));
    }
}

static void long_names_are_cut_at_a_character(void **state)
{
    assert_string_equal(bwi_short(*state, "north", 5), "north");
    assert_string_equal(bwi_short(*state, "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9", 3),
                        "\xC3\xA9\xC3\xA9\xE2\x80\xA6");
}

/* ---- labels ---- */

static void labels_find_room_or_stay_out(void **state)
{
    bw_text out = bw_text_new(*state);
    bwi_svg svg = {.out = &out, .width = 300.0, .height = 120.0, .id = "x"};
    const bwi_spot spot = {150.0, 60.0, 'm'};
    int written = 0;
    for (int k = 0; k < 40; k++) {
        written +=
            bwi_svg_label(&svg, BWI_PLAIN, &spot, 1, "wide enough to matter") ? 1 : 0;
    }
    assert_in_range(written, 3, 8); /* as many lines as are high enough in 120 pixels */
    assert_int_equal(svg.n_boxes, written);
    for (size_t i = 0; i < svg.n_boxes; i++) {
        const bwi_box *a = &svg.boxes[i];
        assert_true(a->left >= 0.0 && a->top >= 0.0 && a->right <= svg.width &&
                    a->bottom <= svg.height);
        for (size_t j = 0; j < i; j++) {
            const bwi_box *b = &svg.boxes[j];
            assert_true(a->bottom <= b->top || b->bottom <= a->top);
        }
    }
}

static void the_first_free_spot_is_taken(void **state)
{
    bw_text out = bw_text_new(*state);
    bwi_svg svg = {.out = &out, .width = 300.0, .height = 120.0, .id = "x"};
    const bwi_spot spots[] = {{80.0, 60.0, 'm'}, {220.0, 60.0, 'm'}};
    bwi_svg_take(&svg, (bwi_box){70.0, 50.0, 90.0, 70.0});
    assert_true(bwi_svg_label(&svg, BWI_SMALL, spots, 2, "A1"));
    assert_non_null(strstr(bw_text_string(&out), "x=\"220.0\""));
}

/* ---- the table for spreadsheets ---- */

static void quotes_are_doubled_and_formulas_stay_text(void **state)
{
    sample *s = sample_new(*state, BW_METRIC);
    bw_text out = bw_text_new(*state);
    s->members[0].name = "=1+1, \"log\"";
    bw_report_csv(&s->assessment, &out);
    const char *csv = bw_text_string(&out);
    assert_non_null(strstr(csv, "\r\n\"'=1+1, \"\"log\"\"\",\"stringer\""));
}

static void an_unknown_share_is_an_empty_cell(void **state)
{
    sample *s = sample_new(*state, BW_METRIC);
    bw_text out = bw_text_new(*state);
    s->members[0].findings[BW_CHECK_BENDING].ratio.utilisation = (double)NAN;
    bw_report_csv(&s->assessment, &out);
    assert_non_null(
        strstr(bw_text_string(&out), "\"cannot say\",,7310000,11270000,\"Pa\""));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(markup_in_a_text_becomes_text),
        WITH_ARENA(what_is_no_text_is_replaced),
        WITH_ARENA(no_bytes_break_out),
        WITH_ARENA(long_names_are_cut_at_a_character),
        WITH_ARENA(labels_find_room_or_stay_out),
        WITH_ARENA(the_first_free_spot_is_taken),
        WITH_ARENA(quotes_are_doubled_and_formulas_stay_text),
        WITH_ARENA(an_unknown_share_is_an_empty_cell),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
