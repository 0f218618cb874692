/* Flats and contact areas against the circle itself: chords and numerical integration. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "deck.h"
#include "deck/internal.h"

/* Pythagoras: half the chord, the rest of the radius, the radius. */
static void a_flat_is_the_chord_at_its_depth(void **state)
{
    (void)state;
    const double diameters[] = {0.113, 0.217, 0.3071};
    for (int k = 0; k < 3; k++) {
        const double r = diameters[k] / 2.0;
        for (double depth = 0.0031; depth < r; depth += 0.00713) {
            const double half = bwi_flat_width(diameters[k], depth) / 2.0;
            assert_true(bwt_relative(half * half + (r - depth) * (r - depth), r * r) <
                        1e-13);
        }
    }
}

static void no_flat_is_wider_than_the_log(void **state)
{
    (void)state;
    assert_true(bwt_relative(bwi_flat_width(0.217, 0.1085), 0.217) < 1e-15);
    assert_true(bwt_relative(bwi_flat_width(0.217, 0.1931), 0.217) < 1e-15);
}

/* Chords of the circle over the strip, by the midpoint rule with Richardson's step. */
static double strip_by_sum(double width, double diameter, int n)
{
    const double r = diameter / 2.0;
    double sum = 0.0;
    for (int k = 0; k < n; k++) {
        const double x = width * ((k + 0.5) / n - 0.5);
        sum += 2.0 * sqrt(r * r - x * x) * width / n;
    }
    return sum;
}

static void a_strip_on_a_circle_is_the_sum_of_its_chords(void **state)
{
    (void)state;
    const double share[] = {0.031, 0.253, 0.617, 0.897};
    const double D = 0.2237;
    for (int k = 0; k < 4; k++) {
        const double width = share[k] * D;
        const double coarse = strip_by_sum(width, D, 4000);
        const double fine = strip_by_sum(width, D, 8000);
        const double sum = fine + (fine - coarse) / 3.0;
        assert_true(bwt_relative(bwi_strip_on_circle(width, D), sum) < 1e-11);
    }
}

static void a_strip_wider_than_the_circle_covers_it(void **state)
{
    (void)state;
    const double D = 0.2237;
    assert_true(bwt_relative(bwi_strip_on_circle(D, D), bwt_pi * D * D / 4.0) < 1e-14);
    assert_true(bwt_relative(bwi_strip_on_circle(1.7 * D, D), bwt_pi * D * D / 4.0) <
                1e-14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_flat_is_the_chord_at_its_depth),
        cmocka_unit_test(no_flat_is_wider_than_the_log),
        cmocka_unit_test(a_strip_on_a_circle_is_the_sum_of_its_chords),
        cmocka_unit_test(a_strip_wider_than_the_circle_covers_it),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
