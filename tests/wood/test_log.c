/* Logs as measured, against closed forms worked by hand. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "bolewright/wood.h"

static const bw_species wood = {
    .green_density = {843.7, BW_MARK_COMPUTED, "of this test"}};
static const bw_log pole = {
    .species = &wood, .butt_diameter = 0.2385, .tip_diameter = 0.1763};

static void assert_near(double got, double expected, double tolerance)
{
    if (!(fabs(got - expected) <= tolerance)) {
        fail_msg("got %.15g, expected %.15g", got, expected);
    }
}

/* Girth 46.5 in is a diameter of 14.8 in: forestry example, marked READ. */
static void girth_of_46_5_in_is_a_diameter_of_14_8_in(void **state)
{
    (void)state;
    const double inch = bw_unit_size(BW_LENGTH, "in");
    assert_near(bw_diameter_from_girth(46.5 * inch) / inch, 14.8, 0.05);
}

static void girth_and_diameter_agree_with_acos(void **state)
{
    (void)state;
    assert_near(bw_diameter_from_girth(0.7391), 0.7391 / acos(-1.0), 1e-16);
}

static void diameter_follows_the_straight_line_through_both_ends(void **state)
{
    (void)state;
    const double length = 4.317;
    assert_near(bw_log_diameter(&pole, length, 0.0), 0.2385, 1e-15);
    assert_near(bw_log_diameter(&pole, length, length), 0.1763, 1e-15);
    assert_near(bw_log_diameter(&pole, length, length / 4.0), 0.22295, 1e-15);
}

static void diameter_without_a_length_is_that_of_the_thin_end(void **state)
{
    (void)state;
    assert_near(bw_log_diameter(&pole, 0.0, 1.0), 0.1763, 0.0);
    const bw_log widening = {
        .species = &wood, .butt_diameter = 0.1763, .tip_diameter = 0.2385};
    assert_near(bw_log_diameter(&widening, 0.0, 1.0), 0.1763, 0.0);
}

/* Cone with its apex at the tip: a third of the cylinder on its base (Euclid XII.10). */
static void log_that_runs_to_a_point_has_a_third_of_the_cylinder(void **state)
{
    (void)state;
    const bw_log cone = {.species = &wood, .butt_diameter = 0.2385, .tip_diameter = 0.0};
    const double base = acos(-1.0) / 4.0 * 0.2385 * 0.2385;
    assert_near(bw_log_mass(&cone, 3.91, 0.0, 3.91), 843.7 * base * 3.91 / 3.0, 1e-12);
}

/* Volume by integrating pi d^2 / 4 in thin slices (midpoint rule), another route than the
 * frustum formula. */
static void mass_of_a_piece_is_the_integral_of_its_slices(void **state)
{
    (void)state;
    const double length = 4.317, from = 0.871, to = 3.029;
    const int n_slices = 20000;
    const double slice = (to - from) / n_slices;
    double volume = 0.0;
    for (int i = 0; i < n_slices; i++) {
        const double x = from + (i + 0.5) * slice;
        const double d = 0.2385 + (0.1763 - 0.2385) * x / length;
        volume += acos(-1.0) / 4.0 * d * d * slice;
    }
    assert_near(bw_log_mass(&pole, length, from, to), 843.7 * volume, 1e-7);
}

/* 8 in by 10 ft at 52 lb/ft3 weighs 182 lb: table of log weights, marked COMPUTED. */
static void log_of_8_in_by_10_ft_weighs_182_lb(void **state)
{
    (void)state;
    const double lb = bw_unit_size(BW_MASS, "lb");
    const bw_species wet = {
        .green_density = {52.0 * bw_unit_size(BW_DENSITY, "lb/ft3"), BW_MARK_NONE, NULL}};
    const double d = 8.0 * bw_unit_size(BW_LENGTH, "in");
    const double length = 10.0 * bw_unit_size(BW_LENGTH, "ft");
    const bw_log log = {.species = &wet, .butt_diameter = d, .tip_diameter = d};
    assert_near(bw_log_mass(&log, length, 0.0, length) / lb, 182.0, 0.5);
}

static void mass_of_two_pieces_is_the_mass_of_the_whole(void **state)
{
    (void)state;
    const double whole = bw_log_mass(&pole, 4.317, 0.0, 4.317);
    const double parts =
        bw_log_mass(&pole, 4.317, 0.0, 1.613) + bw_log_mass(&pole, 4.317, 1.613, 4.317);
    assert_near(parts, whole, 1e-12);
}

/* EN 338:2016, class C24: E 11.0, G 0.69 kN/mm2, printed to 0.01. Marked READ. */
static void shear_modulus_is_that_of_class_c24(void **state)
{
    (void)state;
    assert_near(bw_shear_modulus(11.0e9), 0.69e9, 0.005e9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(girth_of_46_5_in_is_a_diameter_of_14_8_in),
        cmocka_unit_test(girth_and_diameter_agree_with_acos),
        cmocka_unit_test(diameter_follows_the_straight_line_through_both_ends),
        cmocka_unit_test(diameter_without_a_length_is_that_of_the_thin_end),
        cmocka_unit_test(log_that_runs_to_a_point_has_a_third_of_the_cylinder),
        cmocka_unit_test(mass_of_a_piece_is_the_integral_of_its_slices),
        cmocka_unit_test(log_of_8_in_by_10_ft_weighs_182_lb),
        cmocka_unit_test(mass_of_two_pieces_is_the_mass_of_the_whole),
        cmocka_unit_test(shear_modulus_is_that_of_class_c24),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
