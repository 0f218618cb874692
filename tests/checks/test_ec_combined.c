/* Bending with axial force in limit-state design. */
#include "ec_sample.h"

static double bending_alone(const bw_check_input *in)
{
    return utilisation_of(&bwi_ec_bending, in);
}

/* (6.23) with k_m = 1: both shares add up. */
static void slender_post_adds_both_shares(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    const bw_check_input in = ec_input(&reference);

    assert_close(utilisation_of(&bwi_ec_combined, &in),
                 utilisation_of(&bwi_ec_compression, &in) + bending_alone(&in), 1e-12);
}

/* (6.19): the share of compression squared, up to lambda_rel = 0.3. */
static void stocky_post_squares_the_compression(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);

    in.length = 0.3;
    assert_true(bwi_ec_column_of(&in, in.axial).relative < 0.3);
    const double share = utilisation_of(&bwi_ec_compression, &in);
    assert_close(utilisation_of(&bwi_ec_combined, &in),
                 share * share + bending_alone(&in), 1e-12);
}

/* (6.17), f_t,0,k = 0.5 f_m,k: below all classes of EN 338:2016 (READ), of which C14 with
 * 7.2 / 14 is the lowest. */
static void tension_adds_to_bending(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);

    assert_true(0.5 < 7.2 / 14.0);
    in.axial = -7.7e3;
    assert_close(utilisation_of(&bwi_ec_combined, &in) - bending_alone(&in),
                 7.7e3 / bwi_circle_area(in.diameter) / (0.5 * 0.7 * 18e6 / 1.3), 1e-9);
    in.axial = 0.0;
    assert_true(utilisation_of(&bwi_ec_combined, &in) == bending_alone(&in));
}

static void more_load_is_worse_and_more_wood_better(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    const bw_check *check = &bwi_ec_combined;
    bw_check_input in = ec_input(&reference);

    assert_monotonic(check, &in, &in.moment, 0.0, 9e3, true);
    in = ec_input(&reference);
    assert_monotonic(check, &in, &in.axial, 0.0, 4e5, true);
    in = ec_input(&reference);
    assert_monotonic(check, &in, &in.length, 0.1, 12.0, true);
    in = ec_input(&reference);
    assert_monotonic(check, &in, &in.diameter, 0.05, 0.9, false);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);
    const bw_check *check = &bwi_ec_combined;

    assert_never_within(check, &in, &in.diameter, BAD_SIZES);
    assert_never_within(check, &in, &in.diameter_small, BAD_SIZES);
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
        cmocka_unit_test(slender_post_adds_both_shares),
        cmocka_unit_test(stocky_post_squares_the_compression),
        cmocka_unit_test(tension_adds_to_bending),
        cmocka_unit_test(more_load_is_worse_and_more_wood_better),
        cmocka_unit_test(senseless_input_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
