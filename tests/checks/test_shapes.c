/* Checks of sections that are not full circles: flats, half logs, hollow posts, notches.
 */
#include "sample.h"

/* A circle of 8 in with a notch 1 in and 2 in deep (COMPUTED for NDS 3.4.3.2; in inches):
 * area and the smaller modulus. */
static const struct {
    double depth, area, modulus;
} notches[] = {{1.0, 46.639, 41.63}, {2.0, 40.439, 30.53}};

static bw_check_input cut_input(const bw_reference *reference)
{
    bw_check_input in = sample_input(reference);

    in.section = (bw_check_section){.area = in_unit(BW_AREA, 23.7, "in2"),
                                    .modulus = in_unit(BW_SECTION_MODULUS, 16.3, "in3"),
                                    .second_moment = 23.1e-6,
                                    .shear_factor = 83.7,
                                    .depth = inch(5.2),
                                    .width = inch(6.3),
                                    .round_form = true,
                                    .words = "what is left: a flat 1 1/8 in deep on top"};
    in.weakest = in.section;
    return in;
}

/* ---- numbers of a circle in the fields of a section ---- */

static void circle_given_as_numbers_is_a_circle(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check *const checks[] = {&bwi_us_bending, &bwi_us_shear, &bwi_us_combined};
    const double pi = acos(-1.0);

    for (size_t k = 0; k < 3; k++) {
        bw_check_input in = sample_input(&reference);
        const double circle = utilisation_of(checks[k], &in);
        const double D = in.diameter, A = pi * D * D / 4.0;
        in.section = (bw_check_section){.area = A,
                                        .modulus = pi * D * D * D / 32.0,
                                        .second_moment = pi * D * D * D * D / 64.0,
                                        .shear_factor = 4.0 / (3.0 * A),
                                        .depth = D,
                                        .width = D,
                                        .round_form = true};
        assert_close(utilisation_of(checks[k], &in), circle, 1e-13);
    }
}

/* A post without taper: its weakest section is its only one. */
static void prismatic_post_given_as_numbers_is_the_same_post(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);
    const double pi = acos(-1.0), D = inch(6.1);

    in.diameter_small = in.diameter_large = D;
    const double circle = utilisation_of(&bwi_us_compression, &in);
    in.weakest = (bw_check_section){.area = pi * D * D / 4.0,
                                    .second_moment = pi * D * D * D * D / 64.0,
                                    .round_form = true};
    in.diameter_small = in.diameter_large = (double)NAN; /* not read */
    assert_close(utilisation_of(&bwi_us_compression, &in), circle, 1e-13);
    in.weakest.round_form = false; /* c of sawn timber: never stronger */
    assert_true(utilisation_of(&bwi_us_compression, &in) > circle);
}

/* ---- by hand ---- */

static void bending_takes_the_modulus_of_the_section(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = cut_input(&reference);
    bw_ratio ratio = bwi_us_bending.ratio(&in, NULL);

    assert_close(ratio.demand, psi(4270.0 / 16.3), 1e-12);
    assert_close(ratio.capacity, psi(1350.0) * 1.15, 1e-12);
    in.section.round_form = false; /* 1.18 of round timber is taken back (ASTM D2899) */
    ratio = bwi_us_bending.ratio(&in, NULL);
    assert_close(ratio.capacity, psi(1350.0) * 1.15 / 1.18, 1e-12);
}

static void shear_takes_the_factor_of_the_section(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input in = cut_input(&reference);

    assert_close(bwi_us_shear.ratio(&in, NULL).demand, pound(433.0) * 83.7, 1e-12);
}

/* V_r' = 2/3 F_v' A_n (d_n/d)^2, NDS 3.4.3.2(b) (MEMORY), with the printed A_n. */
static void end_notch_in_tension_goes_by_its_own_rule(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();

    for (size_t k = 0; k < sizeof notches / sizeof notches[0]; k++) {
        const double left = 8.0 - notches[k].depth;
        const double V_r = 2.0 / 3.0 * 85.0 * 1.15 * notches[k].area * left * left / 64.0;
        bw_check_input in = cut_input(&reference);
        in.diameter = inch(8.0);
        in.section.area = in_unit(BW_AREA, notches[k].area, "in2");
        in.section.shear_factor = 1.0; /* far below the rule */
        in.notch_left = inch(left);
        in.notch_whole = inch(8.0);
        in.shear = pound(V_r);
        assert_close(utilisation_of(&bwi_us_shear, &in), 1.0, 1e-12);
    }
}

static void notch_never_hides_the_shear_of_the_section(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = cut_input(&reference);

    in.notch_left = in.notch_whole = inch(5.2); /* the rule gives 3 V / (2 A) */
    in.section.shear_factor = 1e3;
    assert_close(bwi_us_shear.ratio(&in, NULL).demand, pound(433.0) * 1e3, 1e-12);
}

static void weakest_section_rules_the_post(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input in = cut_input(&reference);
    const bwi_column col = bwi_column_of(&in, pound(3170.0));

    assert_close(col.depth, sqrt(12.0 * in.weakest.second_moment / in.weakest.area),
                 1e-13);
    assert_close(col.stress, psi(3170.0 / 23.7), 1e-12);
    assert_true(col.shape == 0.85);
}

static void tension_takes_the_area_of_the_section(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = cut_input(&reference);

    in.axial = -pound(3170.0);
    in.moment = 0.0;
    assert_close(utilisation_of(&bwi_us_combined, &in),
                 3170.0 / 23.7 / (0.55 * 1350.0 * 1.15), 1e-12);
}

/* ---- what holds for all of them ---- */

static void less_wood_is_worse(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = cut_input(&reference);

    assert_monotonic(&bwi_us_bending, &in, &in.section.modulus, 1e-4, 1e-3, false);
    in = cut_input(&reference);
    assert_monotonic(&bwi_us_shear, &in, &in.section.shear_factor, 20.0, 400.0, true);
    in = cut_input(&reference);
    in.notch_whole = inch(5.2);
    assert_monotonic(&bwi_us_shear, &in, &in.notch_left, inch(1.0), inch(5.2), false);
    in = cut_input(&reference);
    assert_monotonic(&bwi_us_compression, &in, &in.weakest.second_moment, 9e-6, 9e-5,
                     false);
}

static void senseless_sections_are_never_within(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = cut_input(&reference);
    static const double bad_areas[] = {-0.37, (double)NAN, (double)INFINITY};

    assert_never_within(&bwi_us_bending, &in, &in.section.modulus, BAD_SIZES);
    assert_never_within(&bwi_us_shear, &in, &in.section.shear_factor, BAD_SIZES);
    assert_never_within(&bwi_us_combined, &in, &in.section.modulus, BAD_SIZES);
    assert_never_within(&bwi_us_combined, &in, &in.weakest.second_moment, BAD_SIZES);
    assert_never_within(&bwi_us_compression, &in, &in.weakest.second_moment, BAD_SIZES);
    assert_never_within(&bwi_us_compression, &in, &in.weakest.area, bad_areas, 3);
    in.notch_left = inch(4.7);
    in.notch_whole = inch(5.2);
    assert_never_within(&bwi_us_shear, &in, &in.notch_left, BAD_SIZES);
    assert_never_within(&bwi_us_shear, &in, &in.notch_whole, BAD_SIZES);
    assert_never_within(&bwi_us_shear, &in, &in.section.area, bad_areas, 3);
    in.notch_left = inch(5.3); /* more than there was */
    assert_true(isnan(utilisation_of(&bwi_us_shear, &in)));
}

static void working_names_what_is_left(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = cut_input(&reference);
    bw_arena *arena = bw_arena_new();

    in.notch_left = inch(4.7);
    in.notch_whole = inch(5.2);
    const bw_check *const checks[] = {&bwi_us_bending, &bwi_us_shear, &bwi_us_combined};
    for (size_t k = 0; k < 3; k++) {
        bw_working working = bw_working_new(arena);
        bool named = false;
        checks[k]->ratio(&in, &working);
        for (size_t i = 0; i < working.count; i++) {
            named = named || strstr(working.items[i].meaning, "flat 1 1/8 in") != NULL;
        }
        assert_true(named);
        assert_close(recorded(&working, "h"), inch(5.2), 1e-14);
        if (checks[k] == &bwi_us_shear) {
            assert_close(recorded(&working, "d_n"), inch(4.7), 1e-14);
        }
    }
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(circle_given_as_numbers_is_a_circle),
        cmocka_unit_test(prismatic_post_given_as_numbers_is_the_same_post),
        cmocka_unit_test(bending_takes_the_modulus_of_the_section),
        cmocka_unit_test(shear_takes_the_factor_of_the_section),
        cmocka_unit_test(end_notch_in_tension_goes_by_its_own_rule),
        cmocka_unit_test(notch_never_hides_the_shear_of_the_section),
        cmocka_unit_test(weakest_section_rules_the_post),
        cmocka_unit_test(tension_takes_the_area_of_the_section),
        cmocka_unit_test(less_wood_is_worse),
        cmocka_unit_test(senseless_sections_are_never_within),
        cmocka_unit_test(working_names_what_is_left),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
