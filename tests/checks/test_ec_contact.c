/* Contact across the grain, at an angle and on end grain, in limit-state design. */
#include "ec_sample.h"

/* 30 mm at each side (READ), at most the length itself and what lies beyond (MEMORY). */
static void contact_spreads_by_thirty_millimetres_at_most(void **state)
{
    (void)state;
    assert_close(bwi_ec_contact_length(0.079, 1.3, 0.7), 0.079 + 0.030 + 0.030, 1e-12);
    assert_close(bwi_ec_contact_length(0.079, 0.0, 0.7), 0.079 + 0.030, 1e-12);
    assert_close(bwi_ec_contact_length(0.079, 0.0, 0.011), 0.079 + 0.011, 1e-12);
    assert_close(bwi_ec_contact_length(0.019, 1.3, 0.7), 3.0 * 0.019, 1e-12);
    assert_true(isnan(bwi_ec_contact_length(0.0, 1.0, 1.0)));
    assert_true(isnan(bwi_ec_contact_length(0.079, -0.01, 1.0)));
}

static void discrete_support_gains_only_in_softwood_and_far_from_others(void **state)
{
    (void)state;
    assert_true(bwi_ec_support_factor(BW_SOFTWOOD, 0.41, 0.2) == 1.5);
    assert_true(bwi_ec_support_factor(BW_SOFTWOOD, 0.39, 0.2) == 1.0);
    assert_true(bwi_ec_support_factor(BW_HARDWOOD, 4.1, 0.2) == 1.0);
    assert_true(isnan(bwi_ec_support_factor(BW_SOFTWOOD, -1.0, 0.2)));
    assert_true(isnan(bwi_ec_support_factor(BW_SOFTWOOD, 1.0, 0.0)));
}

static void bearing_takes_no_spread_where_nothing_is_known(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);
    const double design = 0.7 * 2.2e6 / 1.3;

    assert_close(utilisation_of(&bwi_ec_bearing, &in), 6.1e3 / 0.0087 / design, 1e-12);
    in.bearing_beyond = 1.9;
    assert_close(utilisation_of(&bwi_ec_bearing, &in),
                 6.1e3 / (0.0087 * 0.109 / 0.079) / design, 1e-12);
    in.bearing_inside = true;
    assert_close(utilisation_of(&bwi_ec_bearing, &in),
                 6.1e3 / (0.0087 * 0.139 / 0.079) / design, 1e-12);
    in.bearing_beyond = 0.0;
    assert_close(utilisation_of(&bwi_ec_bearing, &in),
                 6.1e3 / (0.0087 * 0.139 / 0.079) / design, 1e-12);
}

/* The formula of Hankinson in its usual form, N = P Q / (P sin^2 + Q cos^2). */
static void strength_at_an_angle_is_that_of_hankinson(void **state)
{
    (void)state;
    const double P = 9.7e6, Q = 1.3e6;

    for (double a = 0.0; a <= 1.5707; a += 0.1) {
        const double s2 = pow(sin(a), 2.0), c2 = pow(cos(a), 2.0);
        assert_close(bwi_ec_angle_strength(P, Q, a), P * Q / (P * s2 + Q * c2), 1e-12);
    }
    assert_true(isnan(bwi_ec_angle_strength(P, 0.0, 0.5)));
    assert_true(isnan(bwi_ec_angle_strength((double)NAN, Q, 0.5)));
}

static void end_grain_takes_the_whole_design_strength(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    const bw_check_input in = ec_input(&reference);

    assert_close(utilisation_of(&bwi_ec_end_bearing, &in),
                 6.1e3 / 0.0087 / (0.7 * 18e6 / 1.3), 1e-12);
}

static void lifting_is_no_bearing(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);

    in.force = -1.0;
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_bearing, &in)), BW_CANNOT_SAY);
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_end_bearing, &in)),
                     BW_CANNOT_SAY);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);
    const bw_check *const checks[] = {&bwi_ec_bearing, &bwi_ec_end_bearing};

    for (int i = 0; i < 2; i++) {
        assert_never_within(checks[i], &in, &in.bearing_area, BAD_SIZES);
        assert_never_within(checks[i], &in, &in.load_duration, BAD_SIZES);
        assert_never_within(checks[i], &in, &in.force, BAD_LOADS);
    }
    assert_never_within(&bwi_ec_bearing, &in, &reference.value[BW_BEARING], BAD_SIZES);
    assert_never_within(&bwi_ec_end_bearing, &in, &reference.value[BW_COMPRESSION],
                        BAD_SIZES);
    in.bearing_inside = true;
    assert_never_within(&bwi_ec_bearing, &in, &in.bearing_length, BAD_SIZES);
    assert_never_within(&bwi_ec_bearing, &in, &in.bearing_beyond, BAD_LOADS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(contact_spreads_by_thirty_millimetres_at_most),
        cmocka_unit_test(discrete_support_gains_only_in_softwood_and_far_from_others),
        cmocka_unit_test(bearing_takes_no_spread_where_nothing_is_known),
        cmocka_unit_test(strength_at_an_angle_is_that_of_hankinson),
        cmocka_unit_test(end_grain_takes_the_whole_design_strength),
        cmocka_unit_test(lifting_is_no_bearing),
        cmocka_unit_test(senseless_input_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
