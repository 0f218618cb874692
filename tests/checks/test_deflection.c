/* Deflection under the moving load. */
#include "sample.h"

/* COMPUTED: 101 in / 360 = 0.280556 in; 0.137 in is 0.488317 of it. */
static void span_over_limit_is_allowed(void **state)
{
    (void)state;
    const bw_check_input in = sample_input(NULL);
    const bw_ratio ratio = bwi_us_deflection.ratio(&in, NULL);

    assert_close(ratio.capacity, inch(0.280556), 2e-6);
    assert_close(ratio.utilisation, 0.488317, 2e-6);
}

static void upward_counts_as_much_as_downward(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);
    const double down = utilisation_of(&bwi_us_deflection, &in);

    in.deflection = -in.deflection;
    assert_true(utilisation_of(&bwi_us_deflection, &in) == down);
}

static void more_deflection_or_a_stricter_limit_is_worse(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);

    assert_monotonic(&bwi_us_deflection, &in, &in.deflection, 0.0, 0.2, true);
    assert_monotonic(&bwi_us_deflection, &in, &in.limit, 90.0, 720.0, true);
    assert_monotonic(&bwi_us_deflection, &in, &in.span, 0.3, 9.0, false);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);

    assert_never_within(&bwi_us_deflection, &in, &in.span, BAD_SIZES);
    assert_never_within(&bwi_us_deflection, &in, &in.limit, BAD_SIZES);
    assert_never_within(&bwi_us_deflection, &in, &in.deflection, BAD_LOADS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(span_over_limit_is_allowed),
        cmocka_unit_test(upward_counts_as_much_as_downward),
        cmocka_unit_test(more_deflection_or_a_stricter_limit_is_worse),
        cmocka_unit_test(senseless_input_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
