/* test_case_grade.c - the answers about a log, as a case gives them. Faults are in
 * test_bad.c. */
#include "support.h"

#include <math.h>

static const char pattern[] =
    "{\"format\": 1, \"title\": \"Ford\", \"units\": \"imperial\","
    "\"deck\": {\"width\": \"4 ft\"}, \"logs\": ["
    " {\"name\": \"beam\", \"species\": \"Test pine\", \"butt_girth\": \"29 in\","
    " \"tip_girth\": \"25 in\", \"bark\": \"off\"%s}],"
    "\"rows\": [{\"name\": \"left\", \"across\": \"-18 in\"},"
    " {\"name\": \"right\", \"across\": \"18 in\"}],"
    "\"bents\": [{\"name\": \"B1\", \"at\": \"0 ft\", \"deck_height\": \"2 ft\","
    " \"sill\": \"beam\"}, {\"name\": \"B2\", \"at\": \"8 ft\", \"deck_height\": \"2 "
    "ft\","
    " \"sill\": \"beam\"}], \"stringers\": ["
    " {\"row\": \"left\", \"log\": \"beam\", \"from\": \"B1\", \"to\": \"B2\"},"
    " {\"row\": \"right\", \"log\": \"beam\", \"from\": \"B1\", \"to\": \"B2\"}]}";

static bw_eye_grade grade_of(bw_arena *arena, const char *grade)
{
    bw_diags d = bw_diags_new(arena, "case.json");
    const bw_species_table woods = test_woods(arena);
    bw_case deck;
    bw_text text = bw_text_new(arena);
    bw_text_print(&text, pattern, grade);
    assert_status(arena, bw_input_case(arena, bw_text_string(&text), &woods, &deck, &d),
                  BW_OK, &d);
    assert_int_equal(d.count, 0);
    return deck.logs[0].grade;
}

static void assert_answer(const bw_answer *answer, double wanted)
{
    assert_true(answer->given);
    assert_true(fabs(answer->value - wanted) <= 1e-12);
}

static void no_grade_answers_nothing(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_eye_grade none = grade_of(arena, "");
    const bw_eye_grade empty = grade_of(arena, ", \"grade\": {}");
    for (size_t q = 0; q < BW_GRADE_QUESTIONS; q++) {
        assert_false(bw_grade_is_answered(&none, q));
        assert_false(bw_grade_is_answered(&empty, q));
    }
    bw_arena_free(arena);
}

/* Lengths are shares of the thinner end: 25 in of girth, 25 in / pi of diameter. */
static void measured_answers_become_shares_of_the_thin_end(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_eye_grade g = grade_of(
        arena, ", \"grade\": {\"largest_knot\": \"2 1/2 in\", \"knots_in_foot\": "
               "\"6 in\", \"spiral_grain\": \"1 in 14\", \"drying_check\": \"1 "
               "3/4 in\", \"sweep\": {\"bow\": \"1 1/4 in\", \"over\": \"11 ft\"},"
               " \"insects\": \"pinholes\", \"decay\": \"none\","
               " \"dead_when_cut\": true}");
    assert_answer(&g.largest_knot, 2.5 / 25.0);
    assert_answer(&g.knots_in_foot, 6.0 / 25.0);
    assert_answer(&g.spiral_grain, 1.0 / 14.0);
    assert_answer(&g.drying_check, 1.75 * 3.14159265358979323846 / 25.0);
    assert_answer(&g.sweep, 1.25 / 132.0);
    assert_int_equal(g.insects, BW_PINHOLES);
    assert_int_equal(g.decay, BW_NO);
    assert_int_equal(g.dead_when_cut, BW_YES);
    bw_arena_free(arena);
}

static void bare_numbers_are_shares_already(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_eye_grade g =
        grade_of(arena, ", \"grade\": {\"largest_knot\": 0.13, \"knots_in_foot\": 0,"
                        " \"drying_check\": 0.41, \"insects\": \"borers\","
                        " \"decay\": \"signs\", \"dead_when_cut\": false}");
    assert_answer(&g.largest_knot, 0.13);
    assert_answer(&g.knots_in_foot, 0.0);
    assert_answer(&g.drying_check, 0.41);
    assert_false(g.spiral_grain.given);
    assert_int_equal(g.insects, BW_BORERS);
    assert_int_equal(g.decay, BW_YES);
    assert_int_equal(g.dead_when_cut, BW_NO);
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(no_grade_answers_nothing),
        cmocka_unit_test(measured_answers_become_shares_of_the_thin_end),
        cmocka_unit_test(bare_numbers_are_shares_already),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
