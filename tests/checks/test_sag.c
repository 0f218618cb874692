/* Long-term sag, with creep. */
#include "sample.h"

/* NDS 3.5.2 (MEMORY): K_cr x dead + live = 2 x 0.031 + 0.137 = 0.199 in; over
 * 101 in / 360 = 0.280556 in that is 0.709307 (COMPUTED). */
static void lasting_part_counts_twice(void **state)
{
    (void)state;
    const bw_check_input in = sample_input(NULL);
    const bw_ratio ratio = bwi_us_sag.ratio(&in, NULL);

    assert_close(ratio.demand, inch(0.199), 1e-12);
    assert_close(ratio.utilisation, 0.709307, 2e-6);
}

static void dead_load_alone_doubles(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);

    in.deflection = 0.0;
    assert_close(bwi_us_sag.ratio(&in, NULL).demand, 2.0 * in.deflection_dead, 1e-14);
}

/* A passing load that lifts the span does not undo what creeps. */
static void lifting_does_not_help(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);
    const double down = utilisation_of(&bwi_us_sag, &in);

    in.deflection = -in.deflection;
    assert_true(utilisation_of(&bwi_us_sag, &in) == down);
    in.deflection_dead = -in.deflection_dead;
    assert_true(utilisation_of(&bwi_us_sag, &in) == down);
}

static void more_deflection_or_a_stricter_limit_is_worse(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);

    assert_monotonic(&bwi_us_sag, &in, &in.deflection, 0.0, 0.2, true);
    assert_monotonic(&bwi_us_sag, &in, &in.deflection_dead, 0.0, 0.2, true);
    assert_monotonic(&bwi_us_sag, &in, &in.limit, 90.0, 720.0, true);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);

    assert_never_within(&bwi_us_sag, &in, &in.span, BAD_SIZES);
    assert_never_within(&bwi_us_sag, &in, &in.limit, BAD_SIZES);
    assert_never_within(&bwi_us_sag, &in, &in.deflection, BAD_LOADS);
    assert_never_within(&bwi_us_sag, &in, &in.deflection_dead, BAD_LOADS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lasting_part_counts_twice),
        cmocka_unit_test(dead_load_alone_doubles),
        cmocka_unit_test(lifting_does_not_help),
        cmocka_unit_test(more_deflection_or_a_stricter_limit_is_worse),
        cmocka_unit_test(senseless_input_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
