/* The end grain of a post. */
#include "sample.h"

/* COMPUTED by hand: 0.75 x 700 x 1.15 = 603.75 psi; 1130 lb on 17.9 in2 is 63.1285 psi.
 */
static void three_quarters_of_crushing_is_allowed(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input in = sample_input(&reference);
    const bw_ratio ratio = bwi_us_end_bearing.ratio(&in, NULL);

    assert_close(ratio.capacity, psi(603.75), 1e-14);
    assert_close(ratio.demand, psi(63.1285), 1e-6);
}

static void length_of_the_post_does_not_count(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);
    const double before = utilisation_of(&bwi_us_end_bearing, &in);

    in.length *= 3.7;
    assert_true(utilisation_of(&bwi_us_end_bearing, &in) == before);
}

static void more_load_is_worse_and_more_area_better(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_monotonic(&bwi_us_end_bearing, &in, &in.force, 0.0, 9.7e4, true);
    assert_monotonic(&bwi_us_end_bearing, &in, &in.bearing_area, 0.001, 0.09, false);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_never_within(&bwi_us_end_bearing, &in, &in.bearing_area, BAD_SIZES);
    assert_never_within(&bwi_us_end_bearing, &in, &in.load_duration, BAD_SIZES);
    assert_never_within(&bwi_us_end_bearing, &in, &in.force, BAD_LOADS);
    assert_never_within(&bwi_us_end_bearing, &in, &reference.value[BW_COMPRESSION],
                        BAD_SIZES);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(three_quarters_of_crushing_is_allowed),
        cmocka_unit_test(length_of_the_post_does_not_count),
        cmocka_unit_test(more_load_is_worse_and_more_area_better),
        cmocka_unit_test(senseless_input_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
