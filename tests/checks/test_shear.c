/* Shear along the grain of a round section. */
#include "sample.h"

/* V Q / (I b) at the middle of a circle, with Q and I by strips (COMPUTED here). */
static double stress_by_strips(double V, double D)
{
    const int n = 200000;
    const double R = D / 2.0;
    double I = 0.0, Q = 0.0;

    for (int i = 0; i < n; i++) {
        const double y = (i + 0.5) * R / n;
        const double strip = 2.0 * sqrt(R * R - y * y) * R / n;
        Q += y * strip;
        I += 2.0 * y * y * strip;
    }
    return V * Q / (I * D);
}

static void stress_agrees_with_strips(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input in = sample_input(&reference);
    const bw_ratio ratio = bwi_us_shear.ratio(&in, NULL);

    assert_close(ratio.demand, stress_by_strips(in.shear, in.diameter), 1e-6);
    assert_close(ratio.capacity, psi(85.0) * 1.15, 1e-14);
}

static void sign_of_the_shear_does_not_matter(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);
    const double up = utilisation_of(&bwi_us_shear, &in);

    in.shear = -in.shear;
    assert_true(utilisation_of(&bwi_us_shear, &in) == up);
}

static void more_load_is_worse_and_more_wood_better(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_monotonic(&bwi_us_shear, &in, &in.shear, 0.0, 4.1e4, true);
    assert_monotonic(&bwi_us_shear, &in, &in.diameter, 0.04, 0.9, false);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_never_within(&bwi_us_shear, &in, &in.diameter, BAD_SIZES);
    assert_never_within(&bwi_us_shear, &in, &in.load_duration, BAD_SIZES);
    assert_never_within(&bwi_us_shear, &in, &in.shear, BAD_LOADS);
    assert_never_within(&bwi_us_shear, &in, &reference.value[BW_SHEAR_STRENGTH],
                        BAD_SIZES);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stress_agrees_with_strips),
        cmocka_unit_test(sign_of_the_shear_does_not_matter),
        cmocka_unit_test(more_load_is_worse_and_more_wood_better),
        cmocka_unit_test(senseless_input_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
