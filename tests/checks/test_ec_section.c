/* Bending and shear of logs in limit-state design, whole, cut and notched. */
#include "ec_sample.h"

/* COMPUTED by hand: W = pi 0.163^3 / 32 = 4.25170e-4 m3; 830 / W = 1.952160 MPa; f_m,d =
 * 0.7 x 18 / 1.3 = 9.692308 MPa. */
static void bending_agrees_with_the_hand_calculation(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    const bw_check_input in = ec_input(&reference);
    const bw_ratio ratio = bwi_ec_bending.ratio(&in, NULL);

    assert_close(ratio.demand, 1.952160e6, 1e-6);
    assert_close(ratio.capacity, 9.692308e6, 1e-7);
}

/* tau = V S / (I b) of a circle by numerical integration of S, over k_cr = 0.67 (READ).
 */
static void shear_is_that_of_a_cracked_circle(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    const bw_check_input in = ec_input(&reference);
    const double R = in.diameter / 2.0, pi = acos(-1.0);
    double S = 0.0;
    const int steps = 200000;

    for (int i = 0; i < steps; i++) {
        const double y = R * (i + 0.5) / steps;
        S += y * 2.0 * sqrt(R * R - y * y) * R / steps;
    }
    const double I = pi * pow(in.diameter, 4.0) / 64.0;
    assert_close(bwi_ec_shear.ratio(&in, NULL).demand,
                 in.shear * S / (I * in.diameter) / 0.67, 1e-6);
    assert_close(bwi_ec_shear.ratio(&in, NULL).capacity, 0.7 * 3.4e6 / 1.3, 1e-12);
}

static void only_the_durations_of_wet_wood_are_taken(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);

    in.load_duration = 0.90;
    assert_close(bwi_ec_design(&in, BW_BENDING_STRENGTH), 0.9 * 18e6 / 1.3, 1e-12);
    in.load_duration = 1.10; /* instantaneous, but of dry wood */
    assert_true(isnan(bwi_ec_design(&in, BW_BENDING_STRENGTH)));
    in.load_duration = 1.6; /* a factor of the other basis */
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_bending, &in)), BW_CANNOT_SAY);
}

/* A half log, flat down: A = pi R^2 / 2; deep flats take the form factor of round timber
 * back (1.18, READ as C_fs = 0.97 = 1.18 x 0.82). */
static void given_section_takes_the_place_of_the_circle(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);

    in.section = (bw_check_section){.area = 0.0113,
                                    .modulus = 1.43e-4,
                                    .second_moment = 1.1e-5,
                                    .shear_factor = 127.3,
                                    .depth = 0.0815,
                                    .width = 0.163};
    assert_close(bwi_ec_bending.ratio(&in, NULL).demand, 830.0 / 1.43e-4, 1e-12);
    assert_close(bwi_ec_bending.ratio(&in, NULL).capacity, 0.7 * 18e6 / 1.3 / 1.18,
                 1e-12);
    assert_close(bwi_ec_shear.ratio(&in, NULL).demand, 3.19e3 * 127.3 / 0.67, 1e-12);
    in.section.round_form = true;
    assert_close(bwi_ec_bending.ratio(&in, NULL).capacity, 0.7 * 18e6 / 1.3, 1e-12);
}

/* 6.5.2 for what the row of the summary sheet leaves open. */
static void notch_factor_falls_with_depth_and_reach_and_rises_with_slope(void **state)
{
    (void)state;
    double before = 1.0;

    for (double left = 0.20; left > 0.02; left -= 0.01) {
        const bwi_ec_notch notch = {0.211, left, 0.047, 0.0};
        const double k_v = bwi_ec_notch_factor(&notch);
        assert_true(k_v > 0.0 && k_v <= before);
        const bwi_ec_notch farther = {0.211, left, 0.094, 0.0};
        assert_true(bwi_ec_notch_factor(&farther) <= k_v);
        const bwi_ec_notch sloped = {0.211, left, 0.047, 3.1};
        assert_true(bwi_ec_notch_factor(&sloped) >= k_v);
        before = k_v;
    }
    const bwi_ec_notch none = {0.211, 0.211, 0.047, 0.0};
    assert_true(bwi_ec_notch_factor(&none) == 1.0);
    const bwi_ec_notch taller = {0.211, 0.23, 0.047, 0.0};
    assert_true(isnan(bwi_ec_notch_factor(&taller)));
    const bwi_ec_notch nothing = {0.211, 0.0, 0.047, 0.0};
    assert_true(isnan(bwi_ec_notch_factor(&nothing)));
}

static void deeper_notch_is_never_better(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);
    const double whole = utilisation_of(&bwi_ec_shear, &in);
    double before = 0.0;

    in.notch_whole = in.diameter;
    for (int i = 99; i > 40; i--) {
        in.notch_left = in.diameter * i / 100.0;
        in.section.area = bwi_circle_area(in.diameter) * i / 100.0;
        in.section.shear_factor = 4.0 / (3.0 * in.section.area);
        const double now = utilisation_of(&bwi_ec_shear, &in);
        assert_true(now > whole && now >= before);
        before = now;
    }
    in.notch_left = 0.0; /* a depth beside a notch without the depth over it */
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_shear, &in)), BW_CANNOT_SAY);
}

static void thin_sawn_boards_gain_by_size_up_to_a_limit(void **state)
{
    (void)state;
    assert_true(bwi_ec_size_factor(0.150) == 1.0);
    assert_true(bwi_ec_size_factor(0.22) == 1.0);
    assert_close(bwi_ec_size_factor(0.150 / pow(1.3, 5.0)), 1.3, 1e-12);
    assert_true(bwi_ec_size_factor(0.02) == 1.3);
    assert_true(isnan(bwi_ec_size_factor(0.0)));
}

static void more_load_is_worse_and_more_wood_better(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);

    assert_monotonic(&bwi_ec_bending, &in, &in.moment, 0.0, 9e3, true);
    assert_monotonic(&bwi_ec_shear, &in, &in.shear, 0.0, 9e4, true);
    in = ec_input(&reference);
    assert_monotonic(&bwi_ec_bending, &in, &in.diameter, 0.05, 0.9, false);
    assert_monotonic(&bwi_ec_shear, &in, &in.diameter, 0.05, 0.9, false);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);
    const bw_check *const checks[] = {&bwi_ec_bending, &bwi_ec_shear};

    for (int i = 0; i < 2; i++) {
        assert_never_within(checks[i], &in, &in.diameter, BAD_SIZES);
        assert_never_within(checks[i], &in, &in.load_duration, BAD_SIZES);
    }
    assert_never_within(&bwi_ec_bending, &in, &in.moment, BAD_LOADS);
    assert_never_within(&bwi_ec_shear, &in, &in.shear, BAD_LOADS);
    assert_never_within(&bwi_ec_bending, &in, &reference.value[BW_BENDING_STRENGTH],
                        BAD_SIZES);
    assert_never_within(&bwi_ec_shear, &in, &reference.value[BW_SHEAR_STRENGTH],
                        BAD_SIZES);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bending_agrees_with_the_hand_calculation),
        cmocka_unit_test(shear_is_that_of_a_cracked_circle),
        cmocka_unit_test(only_the_durations_of_wet_wood_are_taken),
        cmocka_unit_test(given_section_takes_the_place_of_the_circle),
        cmocka_unit_test(notch_factor_falls_with_depth_and_reach_and_rises_with_slope),
        cmocka_unit_test(deeper_notch_is_never_better),
        cmocka_unit_test(thin_sawn_boards_gain_by_size_up_to_a_limit),
        cmocka_unit_test(more_load_is_worse_and_more_wood_better),
        cmocka_unit_test(senseless_input_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
