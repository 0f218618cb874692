/* Bearing across the grain. */
#include "sample.h"

/* COMPUTED by hand: 1130 lb on 17.9 in2 is 63.1285 psi; C_b = (3.3 + 0.375) / 3.3
 * = 1.113636, 240 psi become 267.273 psi. */
static void inside_a_piece_agrees_with_the_hand_calculation(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input in = sample_input(&reference);
    const bw_ratio ratio = bwi_us_bearing.ratio(&in, NULL);

    assert_close(ratio.demand, psi(63.1285), 1e-6);
    assert_close(ratio.capacity, psi(267.273), 2e-6);
}

static void near_an_end_nothing_is_added(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.bearing_inside = false;
    in.bearing_length = 0.0;
    assert_close(bwi_us_bearing.ratio(&in, NULL).capacity, psi(240.0), 1e-14);
}

static void load_duration_does_not_count(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);
    const double ten_minutes = utilisation_of(&bwi_us_bearing, &in);

    in.load_duration = 0.9;
    assert_true(utilisation_of(&bwi_us_bearing, &in) == ten_minutes);
}

static void lifting_cannot_say(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.force = -pound(213.0);
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_bearing, &in)), BW_CANNOT_SAY);
}

static void more_load_is_worse_and_more_area_better(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_monotonic(&bwi_us_bearing, &in, &in.force, 0.0, 9.7e4, true);
    assert_monotonic(&bwi_us_bearing, &in, &in.bearing_area, 0.001, 0.09, false);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_never_within(&bwi_us_bearing, &in, &in.bearing_area, BAD_SIZES);
    assert_never_within(&bwi_us_bearing, &in, &in.bearing_length, BAD_SIZES);
    assert_never_within(&bwi_us_bearing, &in, &in.force, BAD_LOADS);
    assert_never_within(&bwi_us_bearing, &in, &reference.value[BW_BEARING], BAD_SIZES);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(inside_a_piece_agrees_with_the_hand_calculation),
        cmocka_unit_test(near_an_end_nothing_is_added),
        cmocka_unit_test(load_duration_does_not_count),
        cmocka_unit_test(lifting_cannot_say),
        cmocka_unit_test(more_load_is_worse_and_more_area_better),
        cmocka_unit_test(senseless_input_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
