/* A post under axial compression. */
#include "sample.h"

/* COMPUTED apart: D 6 in, d = 5.19615 in, l_e/d = 18.4752, F_cE = 1035.52 psi; F_c* 700
 * psi, r = 1.47932, C_P = 0.836634, F_c' = 585.644 psi; 3000 lb give f_c = 106.103 psi.
 */
static void straight_post_agrees_with_the_hand_calculation(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input in = {.reference = &reference,
                               .axial = pound(3000.0),
                               .load_duration = 1.0,
                               .diameter_small = inch(6.0),
                               .diameter_large = inch(6.0),
                               .length = inch(96.0),
                               .effective_factor = 1.0};
    const bw_ratio ratio = bwi_us_compression.ratio(&in, NULL);

    assert_close(ratio.demand, psi(106.103), 1e-5);
    assert_close(ratio.capacity, psi(585.644), 2e-6);
    assert_close(ratio.utilisation, 106.103 / 585.644, 5e-6);
}

/* A short tapered post crushes at its small end before the mean section is full. */
static void small_end_governs_a_short_tapered_post(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.length = inch(7.0);
    in.diameter_small = inch(4.3);
    const bw_ratio ratio = bwi_us_compression.ratio(&in, NULL);
    assert_close(ratio.demand,
                 in.axial / (3.14159265358979 * inch(4.3) * inch(4.3) / 4.0), 1e-12);
    assert_close(ratio.capacity, psi(700.0) * 1.15, 1e-12);
    assert_close(ratio.utilisation, ratio.demand / ratio.capacity, 1e-14);
}

static void slenderness_over_fifty_is_over_even_unloaded(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.axial = pound(1.3);
    in.diameter_small = in.diameter_large = inch(5.1);
    in.effective_factor = 2.1;
    in.length = 49.9 * inch(5.1) * sqrt(0.75) / 2.1;
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_compression, &in)), BW_WITHIN);
    in.length *= 50.2 / 49.9;
    assert_close(utilisation_of(&bwi_us_compression, &in), 50.2 / 50.0, 1e-12);
    assert_true(bwi_us_compression.ratio(&in, NULL).capacity == 0.0);
    in.axial = 0.0;
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_compression, &in)), BW_OVER);
}

static void tension_leaves_nothing_to_compress(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.axial = -pound(977.0);
    assert_true(utilisation_of(&bwi_us_compression, &in) == 0.0);
}

static void more_load_is_worse_and_more_wood_better(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_monotonic(&bwi_us_compression, &in, &in.axial, 0.0, 4.1e5, true);
    in = sample_input(&reference);
    assert_monotonic(&bwi_us_compression, &in, &in.length, 0.2, 19.0, true);
    in = sample_input(&reference);
    assert_monotonic(&bwi_us_compression, &in, &in.effective_factor, 0.5, 8.0, true);
    in = sample_input(&reference);
    assert_monotonic(&bwi_us_compression, &in, &in.diameter_large, 0.05, 0.9, false);
    in = sample_input(&reference);
    assert_monotonic(&bwi_us_compression, &in, &in.diameter_small, 0.05, 0.9, false);
    in.effective_factor = 2.1;
    assert_monotonic(&bwi_us_compression, &in, &in.diameter_small, 0.05, 0.9, false);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);
    const bw_check *check = &bwi_us_compression;

    assert_never_within(check, &in, &in.diameter_small, BAD_SIZES);
    assert_never_within(check, &in, &in.diameter_large, BAD_SIZES);
    assert_never_within(check, &in, &in.length, BAD_SIZES);
    assert_never_within(check, &in, &in.effective_factor, BAD_SIZES);
    assert_never_within(check, &in, &in.load_duration, BAD_SIZES);
    assert_never_within(check, &in, &in.axial, bad_loads, 2); /* -infinity is tension */
    assert_never_within(check, &in, &reference.value[BW_COMPRESSION], BAD_SIZES);
    assert_never_within(check, &in, &reference.value[BW_MODULUS_MIN], BAD_SIZES);
}

/* Every step from the working alone, as a person would take it. */
static void line_can_be_redone_from_its_working(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);
    bw_working w = bw_working_new(arena);
    in.length = inch(131.0); /* long enough for stability to govern over the small end */
    const bw_ratio ratio = bwi_us_compression.ratio(&in, &w);

    const double D = sqrt(recorded(&w, "D_small") * recorded(&w, "D_large"));
    const double slenderness = recorded(&w, "K_e") * recorded(&w, "l") / (sqrt(0.75) * D);
    const double F_cE = 0.822 * recorded(&w, "E_min") / (slenderness * slenderness);
    const double crushing = recorded(&w, "F_c") * recorded(&w, "C_D");
    const double b = (1.0 + F_cE / crushing) / (2.0 * recorded(&w, "c"));
    const double C_P = b - sqrt(b * b - F_cE / crushing / recorded(&w, "c"));
    assert_close(recorded(&w, "l_e/d"), slenderness, 1e-14);
    assert_close(recorded(&w, "C_P"), C_P, 1e-12);
    assert_close(ratio.capacity, crushing * C_P, 1e-12);
    assert_close(ratio.demand, recorded(&w, "N") / (3.14159265358979 * D * D / 4.0),
                 1e-12);
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(straight_post_agrees_with_the_hand_calculation),
        cmocka_unit_test(small_end_governs_a_short_tapered_post),
        cmocka_unit_test(slenderness_over_fifty_is_over_even_unloaded),
        cmocka_unit_test(tension_leaves_nothing_to_compress),
        cmocka_unit_test(more_load_is_worse_and_more_wood_better),
        cmocka_unit_test(senseless_input_is_never_within),
        cmocka_unit_test(line_can_be_redone_from_its_working),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
