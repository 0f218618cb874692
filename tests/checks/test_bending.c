/* Bending of a round section. */
#include "sample.h"

/* COMPUTED by hand: C = 18.5 in, S = C^3 / (32 pi^2) = 20.0477 in3, so that 1350 psi and
 * C_D 1.6 carry 43303.1 lb-in; the printed cell is 43.30 kip-in (AWC 2001 supplement,
 * Table 5.10, READ). */
static void pole_of_known_girth_is_full_at_its_printed_moment(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input in = {.reference = &reference,
                               .diameter = inch(18.5 / 3.14159265358979),
                               .moment = pound_inch(43303.1),
                               .load_duration = 1.6};

    assert_close(utilisation_of(&bwi_us_bending, &in), 1.0, 1e-5);
}

static void sign_of_the_moment_does_not_matter(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);
    const double sagging = utilisation_of(&bwi_us_bending, &in);

    in.moment = -in.moment;
    assert_true(utilisation_of(&bwi_us_bending, &in) == sagging);
}

/* Twice the diameter carries eight times the moment at equal stress, and the ninth root
 * of the size: M ~ D^3 D^(-1/9) above the size limit. */
static void large_sections_lose_by_size(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);
    in.diameter = inch(15.3);
    const double small = utilisation_of(&bwi_us_bending, &in);
    in.diameter = inch(30.6);

    assert_close(utilisation_of(&bwi_us_bending, &in) / small, pow(2.0, 1.0 / 9.0 - 3.0),
                 1e-12);
}

static void more_load_is_worse_and_more_wood_better(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_monotonic(&bwi_us_bending, &in, &in.moment, 0.0, 9.7e3, true);
    assert_monotonic(&bwi_us_bending, &in, &in.diameter, 0.04, 0.9, false);
    assert_monotonic(&bwi_us_bending, &in, &in.load_duration, 0.9, 2.0, false);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_never_within(&bwi_us_bending, &in, &in.diameter, BAD_SIZES);
    assert_never_within(&bwi_us_bending, &in, &in.load_duration, BAD_SIZES);
    assert_never_within(&bwi_us_bending, &in, &in.moment, BAD_LOADS);
    assert_never_within(&bwi_us_bending, &in, &reference.value[BW_BENDING_STRENGTH],
                        BAD_SIZES);
}

static void line_can_be_redone_from_its_working(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);
    bw_working w = bw_working_new(arena);

    in.diameter = inch(17.7);
    const bw_ratio ratio = bwi_us_bending.ratio(&in, &w);
    assert_close(recorded(&w, "M") / recorded(&w, "S"), ratio.demand, 1e-14);
    assert_close(recorded(&w, "F_b") * recorded(&w, "C_D") * recorded(&w, "C_F"),
                 ratio.capacity, 1e-14);
    assert_true(recorded(&w, "C_F") < 1.0);
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pole_of_known_girth_is_full_at_its_printed_moment),
        cmocka_unit_test(sign_of_the_moment_does_not_matter),
        cmocka_unit_test(large_sections_lose_by_size),
        cmocka_unit_test(more_load_is_worse_and_more_wood_better),
        cmocka_unit_test(senseless_input_is_never_within),
        cmocka_unit_test(line_can_be_redone_from_its_working),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
