/* Bending with axial force. */
#include "sample.h"

/* COMPUTED by hand, as in test_compression: f_c / F_c' = 0.181174, f_c / F_cE = 0.102463,
 * f_b = 4000 / 21.2058 = 188.628 psi over 1350: 0.139724; 0.032824 + 0.139724 / 0.897537.
 */
static void straight_post_agrees_with_the_hand_calculation(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input in = {.reference = &reference,
                               .diameter = inch(6.0),
                               .axial = pound(3000.0),
                               .moment = pound_inch(4000.0),
                               .load_duration = 1.0,
                               .diameter_small = inch(6.0),
                               .diameter_large = inch(6.0),
                               .length = inch(96.0),
                               .effective_factor = 1.0};

    assert_close(utilisation_of(&bwi_us_combined, &in), 0.188499, 5e-6);
    assert_true(bwi_us_combined.ratio(&in, NULL).capacity == 1.0);
}

/* f_t = 977 / 31.1725 in2, F_t' = 0.55 x 1350 x 1.15 (COMPUTED by hand). */
static void tension_adds_to_bending(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.axial = -pound(977.0);
    assert_close(utilisation_of(&bwi_us_combined, &in) -
                     utilisation_of(&bwi_us_bending, &in),
                 977.0 / 31.1725 / (0.55 * 1350.0 * 1.15), 1e-5);
}

static void without_axial_force_only_bending_is_left(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.axial = 0.0;
    assert_true(utilisation_of(&bwi_us_combined, &in) ==
                utilisation_of(&bwi_us_bending, &in));
}

/* With hardly any moment, over in compression is over in combination, and the reverse. */
static void pure_compression_agrees_on_the_verdict(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.moment = 0.0;
    for (double N = 1e3; N < 1e6; N *= 1.01) {
        in.axial = N;
        const double alone = utilisation_of(&bwi_us_compression, &in);
        assert_close(utilisation_of(&bwi_us_combined, &in), alone * alone, 1e-12);
    }
}

/* Beyond F_cE the printed formula turns negative; here it stays finite, over and growing.
 */
static void load_beyond_buckling_is_over_and_finite(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.length = inch(187.0);
    const bwi_column col = bwi_column_of(&in, in.axial);
    const double buckling = in.axial * col.euler / col.stress;
    for (double share = 0.99; share < 90.0; share *= 1.001) {
        in.axial = share * buckling;
        const double u = utilisation_of(&bwi_us_combined, &in);
        assert_true(isfinite(u) && u > 1.0 && u >= share);
    }
    assert_monotonic(&bwi_us_combined, &in, &in.axial, 0.0, 3.0 * buckling, true);
    in.moment = 0.0;
    in.axial = buckling;
    assert_true(utilisation_of(&bwi_us_combined, &in) > 1.0);
}

static void more_load_is_worse_and_more_wood_better(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_monotonic(&bwi_us_combined, &in, &in.moment, 0.0, 9.7e3, true);
    in = sample_input(&reference);
    assert_monotonic(&bwi_us_combined, &in, &in.diameter, 0.06, 0.9, false);
    in = sample_input(&reference);
    assert_monotonic(&bwi_us_combined, &in, &in.length, 0.2, 19.0, true);
    in = sample_input(&reference);
    assert_monotonic(&bwi_us_combined, &in, &in.diameter_small, 0.05, 0.9, false);
    in = sample_input(&reference);
    assert_monotonic(&bwi_us_combined, &in, &in.axial, 0.0, 4.1e5, true);
}

static void too_slender_a_post_is_over(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.axial = pound(0.7);
    in.length = 50.3 * sqrt(0.75) * sqrt(in.diameter_small * in.diameter_large);
    in.moment = 0.0;
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_combined, &in)), BW_OVER);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);
    const bw_check *check = &bwi_us_combined;

    assert_never_within(check, &in, &in.diameter, BAD_SIZES);
    assert_never_within(check, &in, &in.diameter_small, BAD_SIZES);
    assert_never_within(check, &in, &in.diameter_large, BAD_SIZES);
    assert_never_within(check, &in, &in.length, BAD_SIZES);
    assert_never_within(check, &in, &in.effective_factor, BAD_SIZES);
    assert_never_within(check, &in, &in.load_duration, BAD_SIZES);
    assert_never_within(check, &in, &in.axial, BAD_LOADS);
    assert_never_within(check, &in, &in.moment, BAD_LOADS);
    assert_never_within(check, &in, &reference.value[BW_COMPRESSION], BAD_SIZES);
    assert_never_within(check, &in, &reference.value[BW_BENDING_STRENGTH], BAD_SIZES);
    assert_never_within(check, &in, &reference.value[BW_MODULUS_MIN], BAD_SIZES);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(straight_post_agrees_with_the_hand_calculation),
        cmocka_unit_test(tension_adds_to_bending),
        cmocka_unit_test(without_axial_force_only_bending_is_left),
        cmocka_unit_test(pure_compression_agrees_on_the_verdict),
        cmocka_unit_test(load_beyond_buckling_is_over_and_finite),
        cmocka_unit_test(more_load_is_worse_and_more_wood_better),
        cmocka_unit_test(too_slender_a_post_is_over),
        cmocka_unit_test(senseless_input_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
