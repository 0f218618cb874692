/* The report for a person: order, words, width. */
#include "report/internal.h"
#include "sample.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static int start(void **state)
{
    *state = bw_arena_new();
    return *state == NULL ? -1 : 0;
}

static int stop(void **state)
{
    bw_arena_free(*state);
    return 0;
}

/* The words with every run of blanks and line breaks as one blank: wrapping is not the
 * matter. */
static const char *flat(bw_arena *arena, const char *text)
{
    char *copy = bw_arena_copy(arena, text), *to = copy;
    for (; *text != '\0'; text++) {
        const bool blank = *text == ' ' || *text == '\n';
        if (!blank) {
            *to++ = *text;
        } else if (to > copy && to[-1] != ' ') {
            *to++ = ' ';
        }
    }
    *to = '\0';
    return copy;
}

static void assert_says(bw_arena *arena, const char *text, const char *words)
{
    if (strstr(flat(arena, text), words) == NULL) {
        print_error("not found: \"%s\" in\n%s\n", words, text);
        fail();
    }
}

static void over_names_member_check_share_place_loads_and_rider(void **state)
{
    const char *text = sample_text(sample_new(*state, BW_IMPERIAL), *state);
    assert_says(
        *state, text, /* 11.964 / 11.27 = 1.06158 */
        "OVER: stringer S2, bending at 106.2 % of its capacity, 3 ft 1 in from bent B1, "
        "under dead + rider, rider 2 ft 4 in past bent B1 on row left");
}

static void within_is_said_of_the_checks_made_only(void **state)
{
    const char *text = sample_text(sample_within(*state, BW_IMPERIAL), *state);
    assert_says(
        *state, text, /* 9.5123 / 11.27 = 0.84404 */
        "WITHIN LIMITS of the checks made here; nearest to its limit: stringer S2, "
        "bending at 84.5 % of its capacity");
    assert_null(strstr(text, "OVER"));
    assert_null(strstr(text, "CANNOT SAY"));
}

static void what_is_not_known_cannot_be_said(void **state)
{
    sample *s = sample_within(*state, BW_IMPERIAL);
    s->members[3].findings[BW_CHECK_COMPRESSION].ratio.utilisation = (double)NAN;
    const char *text = sample_text(s, *state);
    assert_says(*state, text, "CANNOT SAY, something needed is missing or out of range");
    assert_says(*state, text, "1. post B1 left, compression, which cannot be worked out");
    assert_null(strstr(text, "WITHIN LIMITS"));
    assert_null(strstr(text, " nan"));
    assert_null(strstr(text, "-nan"));
}

static void nothing_checked_is_not_within(void **state)
{
    sample *s = sample_within(*state, BW_METRIC);
    s->assessment.governing = NULL;
    s->assessment.n_members = 0;
    assert_says(*state, sample_text(s, *state), "CANNOT SAY: nothing could be checked");
}

static void the_word_safe_is_never_used(void **state)
{
    const char *texts[] = {sample_text(sample_new(*state, BW_IMPERIAL), *state),
                           sample_text(sample_within(*state, BW_METRIC), *state)};
    for (size_t i = 0; i < 2; i++) {
        assert_null(strstr(texts[i], "safe"));
        assert_null(strstr(texts[i], "Safe"));
        assert_null(strstr(texts[i], "SAFE"));
    }
}

static void sections_stand_in_the_order_of_need(void **state)
{
    static const char *const order[] = {"Sample deck\n",
                                        "Verdict\n",
                                        "OVER: ",
                                        "Look at these first:\n",
                                        "The governing line by hand\n",
                                        "Every member\n",
                                        "Materials\n",
                                        "Loads and assumptions\n",
                                        "Species and strengths\n",
                                        "Graded by eye\n",
                                        "Guards, falls and people\n",
                                        "NOT CHECKED\n",
                                        "Cautions\n"};
    const char *at = sample_text(sample_new(*state, BW_IMPERIAL), *state);
    for (size_t i = 0; i < sizeof order / sizeof order[0]; i++) {
        at = strstr(at, order[i]);
        assert_non_null(at);
    }
    const char *last = "  - Last caution of the sample.\n";
    assert_string_equal(at + strlen(at) - strlen(last), last);
}

/* 3245.7 N*m = 28727 lb-in, 9.137 MPa = 1325.2 psi, 2.713e-4 m3 = 16.556 in3 (COMPUTED
 * from 1 in = 25.4 mm and 1 lbf = 4.4482216152605 N, NIST SP 811 appendix B, READ). */
static void the_governing_line_stands_in_both_systems(void **state)
{
    const char *text = sample_text(sample_new(*state, BW_IMPERIAL), *state);
    assert_says(*state, text,
                "f_b = M / S <= F_b C_D C_F from: a standard of this sample, "
                "3.3.1 (read)");
    assert_says(*state, text,
                "M bending moment at the place 28727 lb-in 3.246 kN-m S section");
    assert_says(*state, text, "16.56 in3 271.3 cm3");
    assert_says(*state, text,
                "F_b reference bending stress 1325 psi 9.137 MPa computed [1]");
    assert_says(*state, text, "C_D load duration factor 1.6 read [2]");
    assert_says(*state, text, "[2] a standard of this sample, table 2.3.2");
    assert_says(*state, text, "demand 1735 psi (11.96 MPa)");
    assert_says(*state, text, "ratio demand / capacity = 106.2 %, rounded up: over");
}

static void a_metric_case_puts_metric_first(void **state)
{
    const char *text = sample_text(sample_new(*state, BW_METRIC), *state);
    assert_says(*state, text, "3.246 kN-m 28727 lb-in");
    assert_says(
        *state, text,
        "rider with bike 115.2 kg 254 lb the same, pressing down at one place 3.389 kN");
}

static void members_show_every_check_and_mark_the_worst(void **state)
{
    const char *text = sample_text(sample_new(*state, BW_IMPERIAL), *state);
    assert_says(*state, text,
                "Stringer bending deflect result stringer S1 65 67* within "
                "stringer S2 107* 84 OVER");
    assert_says(*state, text, "Cap bending result cap of B1 37* within");
    assert_says(*state, text, "Post press result post B1 left 33* within");
}

static void a_check_that_a_member_lacks_is_a_dash(void **state)
{
    sample *s = sample_new(*state, BW_IMPERIAL);
    s->members[0].has[BW_CHECK_DEFLECTION] = false;
    assert_says(*state, sample_text(s, *state), "stringer S1 65* - within");
}

static void assumptions_carry_mark_and_source(void **state)
{
    const char *text = sample_text(sample_new(*state, BW_IMPERIAL), *state);
    assert_says(*state, text, "- the wood is wet [judgement]");
    assert_says(*state, text, "- boards weigh 7 psf [practice: sample of the trade]");
    assert_says(*state, text, "crowd none");
    assert_says(*state, text, "- fasteners and their spacing - sway across the deck");
    assert_says(*state, text, "Species tables: 2026-11");
}

/* Nobody reads that far down to find what the verdict hangs on. */
static void what_is_to_be_done_stands_below_the_verdict_alone(void **state)
{
    sample *s = sample_new(*state, BW_IMPERIAL);
    const char *text = sample_text(s, *state);
    const char *to_do =
        strstr(text, "\nTo be done, or the verdict does not hold:\n  - hold "
                     "the far ends down for 389 N [computed: NOT CHECKED: "
                     "spikes]\n");
    assert_non_null(to_do);
    assert_true(to_do < strstr(text, "Look at these first"));
    assert_null(strstr(strstr(text, "Assumed (in brackets"), "hold the far ends"));
    s->assessment.n_assumptions = 2;
    assert_null(strstr(sample_text(s, *state), "To be done"));
}

/* ---- the id of a check has no place in a sentence ---- */

static const bw_check two_words = {.kind = BW_CHECK_END_BEARING,
                                   .id = "end_bearing",
                                   .title = "End bearing of a post",
                                   .formula = "f_c <= F_c",
                                   .source = "a standard of this sample",
                                   .mark = BW_MARK_READ,
                                   .quantity = BW_STRESS};

/* The sample, whose second stringer is over in a check with an id of two words. */
static sample *sample_of_two_words(bw_arena *arena)
{
    sample *s = sample_new(arena, BW_IMPERIAL);
    sample_find(s, 1, &two_words, 13.9e6, 11.27e6);
    s->assessment.governing = &s->members[1].findings[BW_CHECK_END_BEARING];
    return s;
}

static void assert_in_words(bw_text *out, const char *words)
{
    const char *text = flat(out->arena, bw_text_string(out));
    assert_says(out->arena, text, words);
    assert_null(strstr(text, "end_bearing"));
}

static void ids_of_checks_are_words_in_the_text(void **state)
{
    sample *s = sample_of_two_words(*state);
    bw_text out = bw_text_new(*state);
    bw_report_text(&s->assessment, &out);
    assert_in_words(&out, "OVER: stringer S2, end bearing at 123.4 %");
    bw_finding *f = &s->members[1].findings[BW_CHECK_END_BEARING];
    assert_non_null(strstr(bwi_remedy(*state, f), "stringer S2, end bearing: "));
    f->verdict = BW_CANNOT_SAY;
    f->ratio.utilisation = (double)NAN;
    assert_non_null(strstr(bwi_remedy(*state, f), "stringer S2, end bearing: give what"));
}

static void ids_of_checks_are_words_in_what_to_replace(void **state)
{
    const sample *s = sample_of_two_words(*state);
    bw_aged_member member = {.name = "stringer S2",
                             .log = &s->logs[0],
                             .section_left = 0.71,
                             .built = 0.83,
                             .today = 1.2334,
                             .worst = s->assessment.governing};
    const bw_aged_deck aged = {.built = s->assessment,
                               .today = s->assessment,
                               .members = &member,
                               .n_members = 1,
                               .last = {2027, 5, 3},
                               .verdict = BW_OVER};
    bw_text out = bw_text_new(*state);
    bw_report_age_text(&aged, &out);
    assert_in_words(&out, "replace stringer S2: end bearing at 123.4 %");
}

static void ids_of_checks_are_words_where_logs_go(void **state)
{
    const sample *s = sample_of_two_words(*state);
    const bw_match_line line = {.member = "stringer S2",
                                .role = "stringer",
                                .species = "Sample pine",
                                .utilisation = 1.2334,
                                .check = "end_bearing"};
    const bw_match_report report = {.assessment = &s->assessment,
                                    .pile = "pile.csv",
                                    .lines = &line,
                                    .n_lines = 1,
                                    .n_missing = 1};
    bw_text out = bw_text_new(*state), csv = bw_text_new(*state);
    bw_report_match_text(&report, &out);
    assert_in_words(&out, "it works at 124 % (end bearing)");
    bw_report_match_csv(&report, &csv);
    assert_non_null(strstr(bw_text_string(&csv), "\"end_bearing\""));
}

static void assert_fits(const char *text)
{
    char line[4096];
    while (*text != '\0') {
        const size_t length = strcspn(text, "\n");
        assert_true(length < sizeof line);
        memcpy(line, text, length);
        line[length] = '\0';
        if (bw_text_columns(line) > 80) {
            print_error("wider than 80 columns: %s\n", line);
            fail();
        }
        text += length + (text[length] == '\n' ? 1 : 0);
    }
}

static void every_line_fits_80_columns(void **state)
{
    assert_fits(sample_text(sample_new(*state, BW_IMPERIAL), *state));
    assert_fits(sample_text(sample_within(*state, BW_METRIC), *state));
}

static void absurdly_long_names_still_fit(void **state)
{
    sample *s = sample_new(*state, BW_IMPERIAL);
    char name[300];
    memset(name, 'w', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    s->deck.title = name;
    s->deck.landowner = name;
    s->logs[0].name = name;
    s->members[1].name = name;
    s->members[1].role = name;
    s->members[1].findings[BW_CHECK_BENDING].member = name;
    s->members[1].findings[BW_CHECK_BENDING].place = name;
    s->assumptions[0].text = name;
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        s->members[1].findings[kind] = s->members[1].findings[BW_CHECK_BENDING];
        s->members[1].has[kind] = true;
    }
    assert_fits(sample_text(s, *state));
}

static void a_name_cannot_steer_the_terminal(void **state)
{
    sample *s = sample_new(*state, BW_IMPERIAL);
    s->deck.title = "\x1b[2J deck";
    s->members[1].findings[BW_CHECK_BENDING].member = "log \x1b[31m";
    s->logs[0].name = "\x9b 31m";
    const char *text = sample_text(s, *state);
    for (const char *at = text; *at != '\0'; at++) {
        assert_true((unsigned char)*at >= 0x20 || *at == '\n');
        assert_true((unsigned char)*at != 0x9B);
    }
}

static void the_same_assessment_gives_the_same_bytes(void **state)
{
    const sample *s = sample_new(*state, BW_METRIC);
    assert_string_equal(sample_text(s, *state), sample_text(s, *state));
}

/* Every allocation fails once: the report is then whole, or said to have failed. */
static void without_memory_there_is_no_half_report(void **state)
{
    const sample *s = sample_new(*state, BW_IMPERIAL);
    const char *whole = sample_text(s, *state);
    unsigned long n = 1;
    for (;; n++) {
        bw_arena *arena = bw_arena_new();
        assert_non_null(arena);
        bw_arena_fail_after(n);
        const char *text = sample_text(s, arena);
        bw_arena_fail_after(0);
        const bool done = text != NULL;
        if (done) {
            assert_string_equal(text, whole);
        }
        bw_arena_free(arena);
        if (done) {
            break;
        }
    }
    assert_true(n > 10);
}

int main(void)
{
#define TEST(name) cmocka_unit_test_setup_teardown(name, start, stop)
    const struct CMUnitTest tests[] = {
        TEST(over_names_member_check_share_place_loads_and_rider),
        TEST(within_is_said_of_the_checks_made_only),
        TEST(what_is_not_known_cannot_be_said),
        TEST(nothing_checked_is_not_within),
        TEST(the_word_safe_is_never_used),
        TEST(sections_stand_in_the_order_of_need),
        TEST(the_governing_line_stands_in_both_systems),
        TEST(a_metric_case_puts_metric_first),
        TEST(members_show_every_check_and_mark_the_worst),
        TEST(a_check_that_a_member_lacks_is_a_dash),
        TEST(assumptions_carry_mark_and_source),
        TEST(what_is_to_be_done_stands_below_the_verdict_alone),
        TEST(ids_of_checks_are_words_in_the_text),
        TEST(ids_of_checks_are_words_in_what_to_replace),
        TEST(ids_of_checks_are_words_where_logs_go),
        TEST(every_line_fits_80_columns),
        TEST(absurdly_long_names_still_fit),
        TEST(a_name_cannot_steer_the_terminal),
        TEST(the_same_assessment_gives_the_same_bytes),
        TEST(without_memory_there_is_no_half_report),
    };
#undef TEST
    return cmocka_run_group_tests(tests, NULL, NULL);
}
