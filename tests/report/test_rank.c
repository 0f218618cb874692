/* The verdict of a report and the order of what to look at. The rules are those of the
 * program's own design: over outweighs all, and what is not known is never within limits.
 */
#include "report/internal.h"
#include "sample.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>

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

static void all_within_is_within(void **state)
{
    const sample *s = sample_within(*state, BW_IMPERIAL);
    assert_int_equal(bw_report_verdict(&s->assessment), BW_WITHIN);
}

static void one_finding_over_outweighs_the_assessments_own_word(void **state)
{
    sample *s = sample_new(*state, BW_IMPERIAL);
    s->assessment.verdict = BW_WITHIN;
    assert_int_equal(bw_report_verdict(&s->assessment), BW_OVER);
}

static void a_finding_that_is_not_finite_cannot_say(void **state)
{
    sample *s = sample_within(*state, BW_IMPERIAL);
    s->members[3].findings[BW_CHECK_COMPRESSION].ratio.utilisation = (double)NAN;
    assert_int_equal(bw_report_verdict(&s->assessment), BW_CANNOT_SAY);
    s->members[3].findings[BW_CHECK_COMPRESSION].ratio.utilisation = HUGE_VAL;
    assert_int_equal(bw_report_verdict(&s->assessment), BW_CANNOT_SAY);
}

static void a_member_without_any_check_cannot_say(void **state)
{
    sample *s = sample_within(*state, BW_IMPERIAL);
    s->members[2].has[BW_CHECK_BENDING] = false;
    assert_int_equal(bwi_member_verdict(&s->members[2]), BW_CANNOT_SAY);
    assert_int_equal(bw_report_verdict(&s->assessment), BW_CANNOT_SAY);
}

static void nothing_checked_cannot_say(void **state)
{
    sample *s = sample_within(*state, BW_IMPERIAL);
    s->assessment.governing = NULL;
    assert_int_equal(bw_report_verdict(&s->assessment), BW_CANNOT_SAY);
}

static void a_residual_that_is_no_number_cannot_say(void **state)
{
    sample *s = sample_within(*state, BW_IMPERIAL);
    s->assessment.worst_residual = (double)NAN;
    assert_int_equal(bw_report_verdict(&s->assessment), BW_CANNOT_SAY);
}

static void over_stays_over_beside_one_that_cannot_say(void **state)
{
    sample *s = sample_new(*state, BW_IMPERIAL);
    s->members[0].findings[BW_CHECK_BENDING].verdict = BW_CANNOT_SAY;
    assert_int_equal(bw_report_verdict(&s->assessment), BW_OVER);
}

static void findings_fall_in_utilisation_and_unknown_ones_come_first(void **state)
{
    sample *s = sample_new(*state, BW_IMPERIAL);
    const bw_finding *first[3] = {0};
    assert_int_equal(bwi_rank(&s->assessment, first, 3), 3);
    assert_ptr_equal(first[0], &s->members[1].findings[BW_CHECK_BENDING]);    /* 1.062 */
    assert_ptr_equal(first[1], &s->members[1].findings[BW_CHECK_DEFLECTION]); /* 0.839 */
    assert_ptr_equal(first[2], &s->members[0].findings[BW_CHECK_DEFLECTION]); /* 0.669 */
    s->members[3].findings[BW_CHECK_COMPRESSION].ratio.utilisation = (double)NAN;
    assert_int_equal(bwi_rank(&s->assessment, first, 3), 3);
    assert_ptr_equal(first[0], &s->members[3].findings[BW_CHECK_COMPRESSION]);
    assert_ptr_equal(first[1], &s->members[1].findings[BW_CHECK_BENDING]);
}

static void equal_findings_keep_the_order_of_the_case(void **state)
{
    sample *s = sample_new(*state, BW_IMPERIAL);
    for (int i = 0; i < 3; i++) {
        s->members[i].findings[BW_CHECK_BENDING].ratio.utilisation = 1.062;
    }
    const bw_finding *first[8] = {0};
    assert_int_equal(bwi_rank(&s->assessment, first, 8), 6);
    for (int i = 0; i < 3; i++) {
        assert_ptr_equal(first[i], &s->members[i].findings[BW_CHECK_BENDING]);
    }
}

static void percent_is_rounded_up_but_not_beyond_the_limit(void **state)
{
    assert_string_equal(bwi_percent(*state, 1.0, 0), "100");
    assert_string_equal(bwi_percent(*state, 1.0 + 1e-10, 1),
                        "100.0"); /* counts as within */
    assert_string_equal(bwi_percent(*state, 1.0 + 1e-8, 1), "100.1");
    assert_string_equal(bwi_percent(*state, 0.83171, 0), "84");
    assert_string_equal(bwi_percent(*state, 9.9871, 1), "998.8");
    assert_string_equal(bwi_percent(*state, 140.243, 1), "over 999");
    assert_string_equal(bwi_percent(*state, 0.83171, 1), "83.2");
    assert_string_equal(bwi_percent(*state, 0.0, 0), "0");
    assert_string_equal(bwi_percent(*state, (double)NAN, 0), "cannot say");
}

static void every_quantity_has_an_si_unit_name(void **state)
{
    (void)state;
    for (int q = 1; q < BW_QUANTITY_COUNT; q++) {
        const char *unit = bwi_si_unit((bw_quantity)q);
        if (q == BW_SLOPE) {
            assert_string_equal(unit, "1");
            continue;
        }
        assert_string_not_equal(unit, "1");
        char plain[16] = {0};
        size_t length = 0;
        for (const char *at = unit; *at != '\0'; at++) {
            plain[length++] = (char)(*at == '*' ? '-' : *at);
        }
        assert_true(fabs(bw_unit_size((bw_quantity)q, plain) - 1.0) == 0.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(all_within_is_within, start, stop),
        cmocka_unit_test_setup_teardown(
            one_finding_over_outweighs_the_assessments_own_word, start, stop),
        cmocka_unit_test_setup_teardown(a_finding_that_is_not_finite_cannot_say, start,
                                        stop),
        cmocka_unit_test_setup_teardown(a_member_without_any_check_cannot_say, start,
                                        stop),
        cmocka_unit_test_setup_teardown(nothing_checked_cannot_say, start, stop),
        cmocka_unit_test_setup_teardown(a_residual_that_is_no_number_cannot_say, start,
                                        stop),
        cmocka_unit_test_setup_teardown(over_stays_over_beside_one_that_cannot_say, start,
                                        stop),
        cmocka_unit_test_setup_teardown(
            findings_fall_in_utilisation_and_unknown_ones_come_first, start, stop),
        cmocka_unit_test_setup_teardown(equal_findings_keep_the_order_of_the_case, start,
                                        stop),
        cmocka_unit_test_setup_teardown(percent_is_rounded_up_but_not_beyond_the_limit,
                                        start, stop),
        cmocka_unit_test(every_quantity_has_an_si_unit_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
