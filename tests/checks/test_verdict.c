/* Verdicts: the words, and that nothing doubtful becomes "within limits". */
#include "sample.h"

static void one_is_within_and_a_little_more_is_over(void **state)
{
    (void)state;
    assert_int_equal(bw_verdict_of(0.0), BW_WITHIN);
    assert_int_equal(bw_verdict_of(0.998), BW_WITHIN);
    assert_int_equal(bw_verdict_of(1.0), BW_WITHIN);
    assert_int_equal(bw_verdict_of(1.0 + 0.5e-9), BW_WITHIN);
    assert_int_equal(bw_verdict_of(1.0 + 2e-9), BW_OVER);
    assert_int_equal(bw_verdict_of(37.2), BW_OVER);
    assert_int_equal(bw_verdict_of(1e300), BW_OVER);
}

static void what_is_no_utilisation_cannot_say(void **state)
{
    (void)state;
    assert_int_equal(bw_verdict_of((double)NAN), BW_CANNOT_SAY);
    assert_int_equal(bw_verdict_of((double)INFINITY), BW_CANNOT_SAY);
    assert_int_equal(bw_verdict_of(-(double)INFINITY), BW_CANNOT_SAY);
    assert_int_equal(bw_verdict_of(-0.3), BW_CANNOT_SAY);
}

static void verdicts_have_words(void **state)
{
    (void)state;
    assert_string_equal(bw_verdict_text(BW_WITHIN), "within limits");
    assert_string_equal(bw_verdict_text(BW_OVER), "over");
    assert_string_equal(bw_verdict_text(BW_CANNOT_SAY), "cannot say");
    assert_string_equal(bw_verdict_text((bw_verdict)(BW_CANNOT_SAY + 1)), "cannot say");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(one_is_within_and_a_little_more_is_over),
        cmocka_unit_test(what_is_no_utilisation_cannot_say),
        cmocka_unit_test(verdicts_have_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
