/* Integrals along a taper against closed forms. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

#include "frame/quadrature.h"

enum { ROOM = BWI_GAUSS_POINTS * BWI_PANELS_MAX };

static double relative(double found, double wanted)
{
    return fabs(found / wanted - 1.0);
}

static double integral(double D, double d, double L, int power_of_s, int power_of_d)
{
    bwi_point points[ROOM];
    const int n = bwi_gauss(0.0, L, D, d, points);
    double sum = 0.0;
    for (int k = 0; k < n; k++) {
        const double x = points[k].x, at = D + (d - D) * x / L;
        sum += points[k].weight * pow(L - x, power_of_s) / pow(at, power_of_d);
    }
    return sum;
}

/* int dx/d^4 = L (D^2 + D d + d^2) / (3 D^3 d^3), int s dx/d^4 = L^2 (D + 2 d) /
 * (6 d^2 D^3), int s^2 dx/d^4 = L^3 / (3 d D^3), int dx/d^2 = L / (D d): s from the end
 * d (COMPUTED, closed forms of a frustum). */
static void a_frustum_has_its_closed_forms(void **state)
{
    (void)state;
    const double L = 3.117, D = 0.253;
    const double tips[] = {0.2529999, 0.237, 0.151, 0.0713, 0.0091, 0.00017, 0.611};
    for (int k = 0; k < 7; k++) {
        const double d = tips[k];
        /* near the tip the diameter itself is a difference with roundings of D */
        const double allowed = 1e-13 + 4.0 * 2.3e-16 * D / d;
        assert_true(relative(integral(D, d, L, 0, 4),
                             L * (D * D + D * d + d * d) / (3.0 * pow(D * d, 3.0))) <
                    allowed);
        assert_true(relative(integral(D, d, L, 1, 4),
                             L * L * (D + 2.0 * d) / (6.0 * d * d * pow(D, 3.0))) <
                    allowed);
        assert_true(relative(integral(D, d, L, 2, 4),
                             L * L * L / (3.0 * d * pow(D, 3.0))) < allowed);
        assert_true(relative(integral(D, d, L, 0, 2), L / (D * d)) < allowed);
    }
}

/* Twelve points are exact up to degree 23. */
static void polynomials_up_to_degree_23_are_exact(void **state)
{
    (void)state;
    bwi_point points[ROOM];
    const int n = bwi_gauss(0.31, 2.385, 0.2, 0.2, points);
    assert_int_equal(n, BWI_GAUSS_POINTS);
    for (int degree = 0; degree <= 23; degree++) {
        double sum = 0.0;
        for (int k = 0; k < n; k++) {
            sum += points[k].weight * pow(points[k].x, degree);
        }
        const double wanted =
            (pow(2.385, degree + 1) - pow(0.31, degree + 1)) / (degree + 1);
        assert_true(relative(sum, wanted) < 1e-13);
    }
}

static void points_lie_inside_and_weights_add_up(void **state)
{
    (void)state;
    bwi_point points[ROOM];
    const int n = bwi_gauss(0.31, 2.385, 0.3, 0.011, points);
    double sum = 0.0;
    for (int k = 0; k < n; k++) {
        assert_true(points[k].x > 0.31 && points[k].x < 2.385);
        assert_true(points[k].weight > 0.0);
        sum += points[k].weight;
    }
    assert_true(relative(sum, 2.385 - 0.31) < 1e-14);
}

/* sqrt(x) at 0, where it is not smooth: 2/3 b^(3/2). */
static void panels_crowd_where_a_size_runs_out(void **state)
{
    (void)state;
    bwi_point points[ROOM];
    const bwi_size size = {0.0, 0.17, 1.6};
    const int n = bwi_gauss_sizes(0.0, 1.9, &size, 1, points);
    double sum = 0.0;
    for (int k = 0; k < n; k++) {
        sum += points[k].weight * sqrt(points[k].x);
    }
    assert_true(relative(sum, 2.0 / 3.0 * pow(1.9, 1.5)) < 1e-7);
    assert_true(n <= ROOM);
}

/* However steep the taper, the points fit in their room and the weights add up. */
static void no_taper_needs_more_than_the_most(void **state)
{
    (void)state;
    bwi_point points[ROOM];
    const bwi_size sizes[] = {{0.0, 0.17, 1.0001}, {0.31, 0.0, 1.001}, {1.0, 1e-12, 1.0}};
    for (int k = 0; k < 4; k++) {
        const int n = k == 0 ? bwi_gauss(0.31, 2.385, 1e-9, 1.0, points)
                             : bwi_gauss_sizes(0.31, 2.385, &sizes[k - 1], 1, points);
        double sum = 0.0;
        assert_true(n <= BWI_GAUSS_POINTS * BWI_PANELS_MAX);
        for (int j = 0; j < n; j++) {
            assert_true(points[j].x > 0.31 && points[j].x < 2.385);
            sum += points[j].weight;
        }
        assert_true(relative(sum, 2.385 - 0.31) < 1e-14);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_frustum_has_its_closed_forms),
        cmocka_unit_test(polynomials_up_to_degree_23_are_exact),
        cmocka_unit_test(points_lie_inside_and_weights_add_up),
        cmocka_unit_test(panels_crowd_where_a_size_runs_out),
        cmocka_unit_test(no_taper_needs_more_than_the_most),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
