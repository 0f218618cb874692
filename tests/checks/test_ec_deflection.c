/* Deflection at once and in the end, in limit-state design. */
#include "ec_sample.h"

static void deflection_at_once_counts_what_lasts_too(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    const bw_check_input in = ec_input(&reference);

    assert_close(utilisation_of(&bwi_ec_deflection, &in), 0.0038 / (2.57 / 360.0), 1e-12);
}

/* k_def = 2.0 in service class 3 and 1.0 for wood built in green (MEMORY): 0.7 x 4 + 3.1
 * (1 + 0.6 x 3) = 11.48 mm, by hand. */
static void final_deflection_creeps_by_both_parts(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    const bw_check_input in = ec_input(&reference);

    assert_close(bwi_ec_sag.ratio(&in, NULL).demand, 0.01148, 1e-12);
}

static void whatever_lifts_does_not_undo_what_creeps(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);
    const double sag = utilisation_of(&bwi_ec_sag, &in);

    in.deflection = -in.deflection;
    assert_true(utilisation_of(&bwi_ec_sag, &in) == sag);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);
    const bw_check *const checks[] = {&bwi_ec_deflection, &bwi_ec_sag};
    static const double bad_shares[] = {-0.1, 1.1, (double)NAN, (double)INFINITY};

    in.limit = 150.0;
    for (int i = 0; i < 2; i++) {
        assert_never_within(checks[i], &in, &in.span, BAD_SIZES);
        assert_never_within(checks[i], &in, &in.limit, BAD_SIZES);
        assert_never_within(checks[i], &in, &in.deflection, BAD_LOADS);
        assert_never_within(checks[i], &in, &in.deflection_dead, BAD_LOADS);
    }
    assert_never_within(&bwi_ec_sag, &in, &in.lasting_share, bad_shares, 4);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(deflection_at_once_counts_what_lasts_too),
        cmocka_unit_test(final_deflection_creeps_by_both_parts),
        cmocka_unit_test(whatever_lifts_does_not_undo_what_creeps),
        cmocka_unit_test(senseless_input_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
