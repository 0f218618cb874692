/* Roots of polynomials made from their roots. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "frame/poly.h"

/* c * (t - r[0]) ... (t - r[n-1]) */
static void from_roots(const double *r, int n, double factor, double *c)
{
    c[0] = factor;
    for (int k = 0; k < n; k++) {
        c[k + 1] = 0.0;
        for (int j = k + 1; j > 0; j--) {
            c[j] = c[j - 1] - r[k] * c[j];
        }
        c[0] *= -r[k];
    }
}

static void every_root_inside_is_found_in_order(void **state)
{
    (void)state;
    const double r[] = {-0.713, 0.217, 0.493, 1.871, 2.385, 5.13};
    double c[7], found[6];
    for (int n = 1; n <= 6; n++) {
        from_roots(r, n, -3.17, c);
        const int count = bwi_poly_roots(c, n, -2.0, 7.0, found);
        assert_int_equal(count, n);
        for (int k = 0; k < n; k++) {
            assert_true(fabs(found[k] - r[k]) < 1e-11);
        }
    }
}

static void roots_outside_are_left_out(void **state)
{
    (void)state;
    const double r[] = {-0.713, 0.217, 1.871};
    double c[4], found[3];
    from_roots(r, 3, 2.9, c);
    assert_int_equal(bwi_poly_roots(c, 3, 0.0, 1.0, found), 1);
    assert_true(fabs(found[0] - 0.217) < 1e-14);
    assert_int_equal(bwi_poly_roots(c, 3, 0.3, 1.0, found), 0);
}

/* (t - r)^2 only touches: an extreme of a moment that is also a zero of it. */
static void a_root_that_only_touches_is_found(void **state)
{
    (void)state;
    const double r[] = {0.5, 0.5, 2.25};
    double c[4], found[3];
    from_roots(r, 3, 1.0, c);
    const int n = bwi_poly_roots(c, 3, 0.0, 1.0, found);
    assert_true(n >= 1);
    assert_true(fabs(found[0] - 0.5) < 1e-7);
}

static void no_real_roots_give_none(void **state)
{
    (void)state;
    const double c[] = {1.31, 0.4, 0.77}; /* 0.4^2 < 4 * 0.77 * 1.31 */
    const double zero[] = {0.0, 0.0, 0.0};
    double found[2];
    assert_int_equal(bwi_poly_roots(c, 2, -10.0, 10.0, found), 0);
    assert_int_equal(bwi_poly_roots(zero, 2, -1.0, 1.0, found), 0);
}

/* A leading coefficient that is zero: degree only in name. */
static void a_leading_zero_does_no_harm(void **state)
{
    (void)state;
    const double c[] = {-0.6, 1.5, 0.0, 0.0};
    double found[3];
    assert_int_equal(bwi_poly_roots(c, 3, 0.0, 1.0, found), 1);
    assert_true(fabs(found[0] - 0.4) < 1e-15);
}

static void a_shifted_polynomial_has_shifted_values(void **state)
{
    (void)state;
    const double c[] = {0.31, -1.7, 2.3, 0.9, -0.41};
    double s[5];
    bwi_poly_shift(c, 4, 0.713, s);
    for (double t = -1.0; t < 1.0; t += 0.173) {
        assert_true(fabs(bwi_poly_value(s, 4, t) - bwi_poly_value(c, 4, t + 0.713)) <
                    1e-14);
    }
}

static void the_derivative_is_the_slope(void **state)
{
    (void)state;
    const double c[] = {0.31, -1.7, 2.3, 0.9};
    double d[3];
    bwi_poly_derive(c, 3, d);
    assert_true(d[0] == -1.7 && d[1] == 4.6 && fabs(d[2] - 2.7) < 1e-15);
}

static double square_less(double x, const void *context)
{
    const double *what = context;
    return x * x - *what;
}

static void a_bracketed_root_has_all_its_digits(void **state)
{
    (void)state;
    const double what = 2.385;
    const double root = bwi_bracketed_root(square_less, &what, 0.0, 100.0, 0.0);
    assert_true(fabs(root - sqrt(2.385)) < 1e-15 * 4.0);
}

static void a_root_asked_for_roughly_is_as_near_as_that(void **state)
{
    (void)state;
    for (int k = 1; k <= 9; k++) {
        const double what = 2.385, close = pow(10.0, -k);
        const double root = bwi_bracketed_root(square_less, &what, 0.0, 100.0, close);
        assert_true(fabs(root - sqrt(2.385)) < close);
    }
}

/* c * (t - r)^2 as rounding leaves it: a shade below zero at its lowest place must count
 * as touching it once, not as crossing it twice. */
static void a_touch_spoilt_by_rounding_is_one_root(void **state)
{
    (void)state;
    int below = 0;
    for (double r = 0.03; r < 1.0; r += 0.0137) {
        const double roots[] = {r, r}, factor = 3.17;
        double c[3], found[2];
        from_roots(roots, 2, factor, c);
        below += bwi_poly_value(c, 2, -c[1] / (2.0 * c[2])) < 0.0 ? 1 : 0;
        assert_int_equal(bwi_poly_roots(c, 2, 0.0, 1.0, found), 1);
        assert_true(fabs(found[0] - r) < 1e-7);
    }
    assert_true(below > 0); /* or the test says nothing */
}

static void an_empty_range_has_no_roots(void **state)
{
    (void)state;
    const double c[] = {-0.6, 1.5};
    double found[1];
    assert_int_equal(bwi_poly_roots(c, 1, 0.4, 0.4, found), 0);
    assert_int_equal(bwi_poly_roots(c, 1, 1.0, 0.0, found), 0);
    assert_int_equal(bwi_poly_roots(c, 1, 0.0, (double)NAN, found), 0);
    assert_int_equal(bwi_poly_roots(c, 0, 0.0, 1.0, found), 0);
}

/* Between neighbouring doubles there is no place: a root there is at an end, which the
 * caller looks at anyway. */
static void a_root_between_neighbours_is_none(void **state)
{
    (void)state;
    const double next = nextafter(1.0, 2.0);
    const double c[] = {-nextafter(3.0, 4.0), 3.0};
    double found[1];
    assert_true(bwi_poly_value(c, 1, 1.0) < 0.0 && bwi_poly_value(c, 1, next) > 0.0);
    assert_int_equal(bwi_poly_roots(c, 1, 1.0, next, found), 0);
}

static void a_constant_has_no_slope(void **state)
{
    (void)state;
    const double c[] = {3.17};
    double slope[1] = {9.0};
    bwi_poly_derive(c, 0, slope);
    assert_true(slope[0] == 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_root_inside_is_found_in_order),
        cmocka_unit_test(roots_outside_are_left_out),
        cmocka_unit_test(a_root_that_only_touches_is_found),
        cmocka_unit_test(no_real_roots_give_none),
        cmocka_unit_test(a_leading_zero_does_no_harm),
        cmocka_unit_test(a_shifted_polynomial_has_shifted_values),
        cmocka_unit_test(the_derivative_is_the_slope),
        cmocka_unit_test(a_bracketed_root_has_all_its_digits),
        cmocka_unit_test(a_root_asked_for_roughly_is_as_near_as_that),
        cmocka_unit_test(a_touch_spoilt_by_rounding_is_one_root),
        cmocka_unit_test(an_empty_range_has_no_roots),
        cmocka_unit_test(a_root_between_neighbours_is_none),
        cmocka_unit_test(a_constant_has_no_slope),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
