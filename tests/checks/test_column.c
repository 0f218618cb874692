/* Column stability against buckling loads found by integrating E I(x) y'' + P y = 0.
 *
 * The integration is Runge-Kutta of order 4 with 800 steps and a bisection on P; against
 * the closed forms of straight columns it is exact to 1e-9 (first test). Nothing of it is
 * shared with the code under test. */
#include "sample.h"

static const double pi = 3.14159265358979323846;

typedef struct {
    double from, to; /* diameters at the start and at the end of the integration */
    double length, modulus;
    double y, slope;  /* at the start */
    bool until_level; /* the end condition: slope 0, else y 0 */
} column_model;

static double curvature(const column_model *c, double P, double x, double y)
{
    const double D = c->from + (c->to - c->from) * x / c->length;

    return -P * y / (c->modulus * pi * D * D * D * D / 64.0);
}

static double end_value(const column_model *c, double P)
{
    const int n = 800;
    const double h = c->length / n;
    double y = c->y, s = c->slope;

    for (int i = 0; i < n; i++) {
        const double x = h * i;
        const double y1 = s, s1 = curvature(c, P, x, y);
        const double y2 = s + h / 2.0 * s1;
        const double s2 = curvature(c, P, x + h / 2.0, y + h / 2.0 * y1);
        const double y3 = s + h / 2.0 * s2;
        const double s3 = curvature(c, P, x + h / 2.0, y + h / 2.0 * y2);
        const double y4 = s + h * s3, s4 = curvature(c, P, x + h, y + h * y3);
        y += h / 6.0 * (y1 + 2.0 * y2 + 2.0 * y3 + y4);
        s += h / 6.0 * (s1 + 2.0 * s2 + 2.0 * s3 + s4);
    }
    return c->until_level ? s : y;
}

/* The smallest P at which the end condition holds. */
static double buckling_load(const column_model *c)
{
    const double thin = fmin(c->from, c->to);
    const double step = c->modulus * pow(thin, 4.0) * pi * pi * pi / 64.0 /
                        (c->length * c->length) / 40.0;
    double low = 1e-6 * step, high = step;
    const bool start = end_value(c, low) > 0.0;

    while ((end_value(c, high) > 0.0) == start) {
        low = high;
        high += step;
    }
    for (int i = 0; i < 60; i++) {
        const double middle = (low + high) / 2.0;
        if ((end_value(c, middle) > 0.0) == start) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

/* What the code grants, as a force: F_cE on the area of the diameter that stands for it.
 */
static double granted_load(double small, double large, double K, double length, double E)
{
    const bw_reference reference = {
        .value = {[BW_COMPRESSION] = 4.1e6, [BW_MODULUS_MIN] = E}};
    const bw_check_input in = {.reference = &reference,
                               .load_duration = 1.0,
                               .diameter_small = small,
                               .diameter_large = large,
                               .length = length,
                               .effective_factor = K};
    const bwi_column col = bwi_column_of(&in, 0.0);

    return col.euler * pi * col.diameter * col.diameter / 4.0;
}

static void integration_reproduces_the_straight_column(void **state)
{
    (void)state;
    const column_model pinned = {0.15, 0.15, 2.385, 3.1e9, 0.0, 1.0, false};
    const double EI = 3.1e9 * pi * pow(0.15, 4.0) / 64.0;

    assert_close(buckling_load(&pinned), pi * pi * EI / (2.385 * 2.385), 1e-9);
}

/* 0.822 is pi^2 / 12 = 0.8225 rounded down, and nothing else lies between. */
static void straight_post_is_granted_its_euler_load(void **state)
{
    (void)state;
    const column_model pinned = {0.15, 0.15, 2.385, 3.1e9, 0.0, 1.0, false};

    assert_close(granted_load(0.15, 0.15, 1.0, 2.385, 3.1e9),
                 0.822 * 12.0 / (pi * pi) * buckling_load(&pinned), 1e-8);
}

/* Both ends free to turn: sqrt(D_small D_large) is exact at every taper. */
static void tapered_post_held_at_both_ends_is_granted_its_euler_load(void **state)
{
    (void)state;
    for (int i = 0; i < 7; i++) {
        const double small = 0.2 * (0.35 + 0.1 * i);
        const column_model pinned = {small, 0.2, 2.385, 3.1e9, 0.0, 1.0, false};
        assert_close(granted_load(small, 0.2, 1.0, 2.385, 3.1e9),
                     0.822 * 12.0 / (pi * pi) * buckling_load(&pinned), 1e-7);
    }
}

/* A foot that cannot turn and a free head, the foot being butt or tip: never above exact.
 */
static void swaying_post_is_never_granted_more_than_its_euler_load(void **state)
{
    (void)state;
    for (int i = 0; i <= 16; i++) {
        const double small = 0.2 * (0.2 + 0.05 * i);
        const column_model foot_small = {0.2, small, 1.385, 3.1e9, 0.0, 1.0, true};
        const column_model foot_large = {small, 0.2, 1.385, 3.1e9, 0.0, 1.0, true};
        const double granted = granted_load(small, 0.2, 2.0, 1.385, 3.1e9);
        assert_true(granted <= buckling_load(&foot_small));
        assert_true(granted <= buckling_load(&foot_large));
        if (small > 0.74 * 0.2) { /* within the counted taper it is close, too */
            assert_true(granted >= 0.998 * buckling_load(&foot_small));
        }
    }
}

/* Neither end turns, one slides: K = 1.2 as recommended, and even with the theoretical K
 * = 1. */
static void guided_post_is_never_granted_more_than_its_euler_load(void **state)
{
    (void)state;
    for (int i = 0; i <= 8; i++) {
        const double small = 0.2 * (0.2 + 0.1 * i);
        const column_model guided = {0.2, small, 1.385, 3.1e9, 1.0, 0.0, true};
        assert_true(granted_load(small, 0.2, 1.2, 1.385, 3.1e9) <=
                    buckling_load(&guided));
        assert_true(granted_load(small, 0.2, 1.0, 1.385, 3.1e9) <=
                    buckling_load(&guided));
    }
}

/* The root of c x^2 - (1 + r) x + r = 0, put back into it. */
static void stability_factor_solves_its_equation(void **state)
{
    (void)state;
    for (double r = 1e-4; r < 1e9; r *= 3.7) {
        const double x = bwi_column_factor(r * psi(700.0), psi(700.0));
        assert_true(x > 0.0 && x < 1.0 && x < r);
        assert_true(fabs(0.85 * x * x - (1.0 + r) * x + r) <= 1e-14 * (1.0 + r));
    }
}

/* Equation 3.7-1 as printed, in the range where the printed form keeps its digits. */
static void stability_factor_agrees_with_the_printed_form(void **state)
{
    (void)state;
    for (double r = 0.05; r < 20.0; r *= 1.7) {
        const double b = (1.0 + r) / 1.7;
        assert_close(bwi_column_factor(r * 2.9e6, 2.9e6), b - sqrt(b * b - r / 0.85),
                     1e-13);
    }
}

static void order_of_the_ends_does_not_matter(void **state)
{
    (void)state;
    assert_true(bwi_column_diameter(0.13, 0.17, 2.1) ==
                bwi_column_diameter(0.17, 0.13, 2.1));
    assert_true(bwi_column_diameter(0.13, 0.17, 0.8) ==
                bwi_column_diameter(0.17, 0.13, 0.8));
}

static void sway_counts_less_of_the_taper(void **state)
{
    (void)state;
    const double held = bwi_column_diameter(0.13, 0.17, 1.0);
    const double sways = bwi_column_diameter(0.13, 0.17, 1.01);

    assert_true(0.13 < sways && sways < held && held < 0.17);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(integration_reproduces_the_straight_column),
        cmocka_unit_test(straight_post_is_granted_its_euler_load),
        cmocka_unit_test(tapered_post_held_at_both_ends_is_granted_its_euler_load),
        cmocka_unit_test(swaying_post_is_never_granted_more_than_its_euler_load),
        cmocka_unit_test(guided_post_is_never_granted_more_than_its_euler_load),
        cmocka_unit_test(stability_factor_solves_its_equation),
        cmocka_unit_test(stability_factor_agrees_with_the_printed_form),
        cmocka_unit_test(order_of_the_ends_does_not_matter),
        cmocka_unit_test(sway_counts_less_of_the_taper),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
