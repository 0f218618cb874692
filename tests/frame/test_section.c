/* Sections of logs with flats and hollows, against printed check values and against
 * numerical integration of the outline. */
#include "bolewright/frame.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>

#include <cmocka.h>

static const double pi = 3.14159265358979323846;

static void assert_close(double value, double expected, double relative)
{
    if (!(fabs(value - expected) <= relative * fabs(expected))) {
        fail_msg("%.15g, expected %.15g", value, expected);
    }
}

static void assert_within(double value, double expected, double slack)
{
    if (!(fabs(value - expected) <= slack)) {
        fail_msg("%.15g, expected %.15g", value, expected);
    }
}

static bw_section shaped(double diameter, double top, double bottom, double bore)
{
    bw_section s = bw_section_round(diameter);
    s.flat_top = top;
    s.flat_bottom = bottom;
    s.bore = bore;
    return s;
}

/* ---- check values of the standards' notes and of the trade ---- */

typedef struct {
    double depth, area, flat, flat_side, round_side, second;
} notched;

/* A circle of 8 in with a notch 1 in and 2 in deep, in inches (circle segments, COMPUTED
 * for NDS 3.4.3.2; rows D53 and D55 are its area at 2 in, its flat at 1 in). */
static const notched notches[] = {
    {1.0, 46.639, 5.292, 47.63, 41.63, 155.5},
    {2.0, 40.439, 6.928, 37.68, 30.53, 101.19},
};

static void notched_circle_of_8_in_has_its_printed_values(void **state)
{
    (void)state;
    for (size_t k = 0; k < sizeof notches / sizeof notches[0]; k++) {
        const notched *n = &notches[k];
        const bw_section s = shaped(8.0, n->depth, 0.0, 0.0);
        assert_within(bw_section_area(&s), n->area, 5e-4);
        /* the flat is the chord at its height: the width of what lies above half */
        const bw_section above = shaped(8.0, 0.0, 8.0 - n->depth, 0.0);
        assert_within(bw_section_width(&above), n->flat, 5e-4);
        assert_within(bw_section_second_moment(&s), n->second,
                      n->second < 150.0 ? 5e-3 : 5e-2);
    }
}

/* The moduli beside those values: the flat is the nearer edge, so its modulus is the
 * larger one. */
static void notched_circle_is_weaker_on_its_round_side(void **state)
{
    (void)state;
    for (size_t k = 0; k < sizeof notches / sizeof notches[0]; k++) {
        const bw_section s = shaped(8.0, notches[k].depth, 0.0, 0.0);
        assert_within(bw_section_modulus_top(&s), notches[k].flat_side, 5e-3);
        assert_within(bw_section_modulus_bottom(&s), notches[k].round_side, 5e-3);
        assert_true(bw_section_modulus(&s) == bw_section_modulus_bottom(&s));
    }
}

/* Depth of a flat over the diameter, and what is left of S and I (trade notes, COMPUTED
 * numerically, three digits). */
static void flats_leave_the_printed_shares_of_modulus_and_second_moment(void **state)
{
    (void)state;
    static const double rows[][3] = {
        {0.05, 0.950, 0.933}, {0.10, 0.871, 0.829}, {0.15, 0.784, 0.717},
        {0.20, 0.695, 0.607}, {0.25, 0.607, 0.503}, {1.0 / 3.0, 0.470, 0.352},
        {0.50, 0.243, 0.140},
    };
    const double d = 0.2385;
    const bw_section whole = bw_section_round(d);
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        const bw_section s = shaped(d, rows[k][0] * d, 0.0, 0.0);
        const double slack = 5.01e-4;
        assert_within(bw_section_modulus(&s) / bw_section_modulus(&whole), rows[k][1],
                      slack);
        assert_within(bw_section_second_moment(&s) / bw_section_second_moment(&whole),
                      rows[k][2], slack);
    }
}

/* Hollow heart: S and I keep the share 1 - (d_i/D)^4 (trade notes, COMPUTED). */
static void hollow_heart_leaves_one_less_the_fourth_power(void **state)
{
    (void)state;
    const double d = 0.2385, bore = 0.1643;
    const bw_section whole = bw_section_round(d), s = shaped(d, 0.0, 0.0, bore);
    const double left = 1.0 - pow(bore / d, 4.0);
    assert_close(bw_section_modulus(&s), left * bw_section_modulus(&whole), 1e-13);
    assert_close(bw_section_second_moment(&s), left * bw_section_second_moment(&whole),
                 1e-13);
    assert_close(bw_section_modulus_any(&s), left * bw_section_modulus(&whole), 1e-13);
}

/* Minimum sound shell at 2/3 of the strength: 0.48, 0.60, 0.72, 0.96, 1.20 in for 4, 5,
 * 6, 8, 10 in (trade notes, COMPUTED, two digits). */
static void hollow_post_of_the_printed_shell_keeps_two_thirds(void **state)
{
    (void)state;
    static const double rows[][2] = {
        {4.0, 0.48}, {5.0, 0.60}, {6.0, 0.72}, {8.0, 0.96}, {10.0, 1.20}};
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        const bw_section whole = bw_section_round(rows[k][0]);
        const bw_section s = shaped(rows[k][0], 0.0, 0.0, rows[k][0] - 2.0 * rows[k][1]);
        assert_within(bw_section_modulus(&s) / bw_section_modulus(&whole), 2.0 / 3.0,
                      6e-3);
    }
}

/* Half circle: I = r^4 (pi/8 - 8/(9 pi)), neutral axis 4 r/(3 pi) from the flat (any
 * handbook of mechanics, MEMORY). */
static void half_log_has_the_handbook_values(void **state)
{
    (void)state;
    const double r = 0.1193;
    const bw_section s = shaped(2.0 * r, r, 0.0, 0.0);
    const double below = r - 4.0 * r / (3.0 * pi);
    const double I = r * r * r * r * (pi / 8.0 - 8.0 / (9.0 * pi));
    assert_close(bw_section_area(&s), pi * r * r / 2.0, 1e-14);
    assert_close(bw_section_neutral_axis(&s), below, 1e-14);
    assert_close(bw_section_second_moment(&s), I, 1e-13);
    assert_close(bw_section_modulus(&s), I / below, 1e-13);
    assert_close(bw_section_depth(&s), r, 1e-14);
    assert_close(bw_section_width(&s), 2.0 * r, 1e-14);
}

/* ---- numerical integration of the outline ---- */

typedef struct {
    double size[4]; /* diameter, flats above and below, hollow */
    double area, second, axis, modulus_top, modulus_bottom, sideways, any, shear;
} integrated;

/* int b(y) y^k dy with b the width of wood, the outline walked for the worst stress, and
 * the largest Q/(I b) found by a fine search: mpmath quad, 20 digits (COMPUTED). */
static const integrated oracle[] = {
    {{0.2385, 0.0317, 0.0, 0.0},
     0.04115030597596,
     0.0001200174194864,
     0.1106509521203,
     0.001248243452568,
     0.001084648773342,
     0.0001540400919228,
     0.00104366285401,
     33.21386520036},
    {{0.2385, 0.0317, 0.0214, 0.0},
     0.03916762272613,
     9.999811968015e-5,
     0.09420570351835,
     0.00109653918653,
     0.001061486894588,
     0.000152155775372,
     0.0009470988414157,
     35.52904617309},
    {{0.2385, 0.0, 0.0, 0.1643},
     0.02347379181206,
     0.0001230565707897,
     0.11925,
     0.001031920929054,
     0.001031920929054,
     0.0001230565707897,
     0.001031920929054,
     83.33720635578},
    {{0.2385, 0.0317, 0.0214, 0.1393},
     0.02392737191847,
     8.118371566955e-5,
     0.09188451285073,
     0.0008681312384115,
     0.0008835407964935,
     0.0001336726944724,
     0.0007683780884384,
     76.88706279798},
    {{0.2385, 0.0, 0.0317, 0.0871},
     0.03519195349518,
     0.0001166770857515,
     0.0976049533688,
     0.001068519949862,
     0.001195401275493,
     0.00015121493537,
     0.001006822696585,
     50.06641354793},
    {{0.2385, 0.11925, 0.0, 0.0},
     0.02233760733996,
     2.219553527289e-5,
     0.06863872809678,
     0.0004385492487787,
     0.0003233675198875,
     7.941333531958e-5,
     0.0003233675198875,
     63.78604991462},
};

static void section_of_any_shape_agrees_with_its_integrals(void **state)
{
    (void)state;
    for (size_t k = 0; k < sizeof oracle / sizeof oracle[0]; k++) {
        const integrated *o = &oracle[k];
        const bw_section s = shaped(o->size[0], o->size[1], o->size[2], o->size[3]);
        assert_close(bw_section_area(&s), o->area, 2e-12);
        assert_close(bw_section_second_moment(&s), o->second, 2e-12);
        assert_close(bw_section_neutral_axis(&s), o->axis, 2e-12);
        assert_close(bw_section_modulus_top(&s), o->modulus_top, 2e-12);
        assert_close(bw_section_modulus_bottom(&s), o->modulus_bottom, 2e-12);
        assert_close(bw_section_modulus(&s), fmin(o->modulus_top, o->modulus_bottom),
                     2e-12);
        assert_close(bw_section_second_moment_sideways(&s), o->sideways, 2e-12);
        assert_close(bw_section_shear_factor(&s), o->shear, 2e-12);
        /* the outline was walked in 20000 steps: near a corner, but not quite on it */
        assert_close(bw_section_modulus_any(&s), o->any, 1e-7);
    }
}

/* ---- what holds for every shape ---- */

static void plain_circle_keeps_its_own_formulas(void **state)
{
    (void)state;
    const double d = 0.2385;
    const bw_section s = bw_section_round(d);
    assert_true(bw_section_is_plain(&s));
    assert_close(bw_section_area(&s), pi * d * d / 4.0, 1e-15);
    assert_close(bw_section_second_moment(&s), pi * pow(d, 4.0) / 64.0, 1e-15);
    assert_close(bw_section_modulus_top(&s), pi * pow(d, 3.0) / 32.0, 1e-14);
    assert_close(bw_section_modulus_any(&s), pi * pow(d, 3.0) / 32.0, 1e-14);
    assert_close(bw_section_shear_factor(&s), 16.0 / (3.0 * pi * d * d), 1e-14);
    assert_close(bw_section_neutral_axis(&s), d / 2.0, 1e-15);
}

/* What is not known is not nothing. */
static void a_diameter_that_is_no_number_leaves_none(void **state)
{
    (void)state;
    bw_section s = {.kind = BW_SECTION_ROUND, .diameter = (double)NAN};
    for (int k = 0; k < 4; k++) {
        s.flat_bottom = k % 2 == 0 ? 0.0 : 0.031;
        s.bore = k / 2 == 0 ? 0.0 : 0.127;
        assert_true(isnan(bw_section_area(&s)));
        assert_true(isnan(bw_section_second_moment(&s)));
        assert_true(isnan(bw_section_modulus(&s)));
        assert_true(isnan(bw_section_shear_factor(&s)));
    }
}

/* A flat or a hollow too small to see changes nothing by more than it can. */
static void vanishing_cuts_lead_back_to_the_circle(void **state)
{
    (void)state;
    const double d = 0.2385, small = 1e-9 * d;
    const bw_section whole = bw_section_round(d);
    const bw_section cuts[] = {shaped(d, small, 0.0, 0.0), shaped(d, 0.0, small, 0.0),
                               shaped(d, 0.0, 0.0, small),
                               shaped(d, small, small, small)};
    for (size_t k = 0; k < sizeof cuts / sizeof cuts[0]; k++) {
        assert_close(bw_section_area(&cuts[k]), bw_section_area(&whole), 1e-12);
        assert_close(bw_section_second_moment(&cuts[k]), bw_section_second_moment(&whole),
                     1e-12);
        assert_close(bw_section_modulus(&cuts[k]), bw_section_modulus(&whole), 5e-9);
    }
    /* at the middle a pin hole doubles nothing: Q / (I b) is that of a thin slit */
    const bw_section pin = shaped(d, 0.0, 0.0, small);
    assert_close(bw_section_shear_factor(&pin), bw_section_shear_factor(&whole), 2e-9);
}

static void turning_a_log_over_swaps_top_and_bottom(void **state)
{
    (void)state;
    const bw_section up = shaped(0.2385, 0.0317, 0.0114, 0.0871);
    const bw_section down = shaped(0.2385, 0.0114, 0.0317, 0.0871);
    assert_close(bw_section_second_moment(&up), bw_section_second_moment(&down), 1e-13);
    assert_close(bw_section_modulus_top(&up), bw_section_modulus_bottom(&down), 1e-13);
    assert_close(bw_section_shear_factor(&up), bw_section_shear_factor(&down), 1e-12);
    assert_close(bw_section_modulus_any(&up), bw_section_modulus_any(&down), 1e-13);
    assert_close(bw_section_neutral_axis(&up) + bw_section_neutral_axis(&down),
                 bw_section_depth(&up), 1e-13);
}

/* Every further cut takes area, stiffness and strength, and adds shear stress. */
static void deeper_cuts_never_help(void **state)
{
    (void)state;
    const double d = 0.2385;
    for (int k = 0; k < 40; k++) {
        const double more = 0.011 * (k + 1) * d, less = 0.011 * k * d;
        const bw_section pairs[][2] = {
            {shaped(d, less, 0.0, 0.0), shaped(d, more, 0.0, 0.0)},
            {shaped(d, less, 0.037 * d, 0.0), shaped(d, more, 0.037 * d, 0.0)},
            {shaped(d, 0.0, 0.0, less), shaped(d, 0.0, 0.0, more)},
            {shaped(d, 0.083 * d, 0.0, less), shaped(d, 0.083 * d, 0.0, more)},
        };
        for (size_t p = 0; p < sizeof pairs / sizeof pairs[0]; p++) {
            const bw_section *a = &pairs[p][0], *b = &pairs[p][1];
            assert_true(bw_section_area(b) < bw_section_area(a));
            assert_true(bw_section_second_moment(b) < bw_section_second_moment(a));
            assert_true(bw_section_shear_factor(b) > bw_section_shear_factor(a));
            assert_true(bw_section_modulus_any(b) <=
                        bw_section_modulus(b) * (1.0 + 1e-12));
            assert_true(bw_section_second_moment_sideways(b) >=
                        bw_section_second_moment(b) * (1.0 - 1e-12));
        }
    }
}

/* The slope of the area over the depth of a flat is the chord there. */
static void area_falls_with_the_chord_of_the_flat(void **state)
{
    (void)state;
    const double d = 0.2385, step = 1e-5 * d;
    for (int k = 1; k < 20; k++) {
        const double h = 0.023 * k * d;
        const bw_section a = shaped(d, h - step, 0.0, 0.0);
        const bw_section b = shaped(d, h + step, 0.0, 0.0);
        const double slope = (bw_section_area(&a) - bw_section_area(&b)) / (2.0 * step);
        assert_close(slope, 2.0 * sqrt(d * h - h * h), 1e-7);
    }
}

static void sizes_run_straight_between_two_sections(void **state)
{
    (void)state;
    const bw_section a = shaped(0.2385, 0.0317, 0.0114, 0.0871);
    const bw_section b = shaped(0.1763, 0.0131, 0.0, 0.0419);
    const bw_section s = bw_section_between(&a, &b, 0.31);
    assert_close(s.diameter, 0.69 * 0.2385 + 0.31 * 0.1763, 1e-14);
    assert_close(s.flat_top, 0.69 * 0.0317 + 0.31 * 0.0131, 1e-14);
    assert_close(s.flat_bottom, 0.69 * 0.0114, 1e-14);
    assert_close(s.bore, 0.69 * 0.0871 + 0.31 * 0.0419, 1e-14);
}

/* Flats alike above and below: the largest shear is at the middle,
 * Q = 2/3 (r^3 - (r^2 - t^2)^(3/2)), over I and the whole diameter (COMPUTED). */
static void flats_alike_shear_most_at_the_middle(void **state)
{
    (void)state;
    for (double cut = 0.01; cut < 0.11; cut += 0.0137) {
        const bw_section s = shaped(0.2385, cut, cut, 0.0);
        const double r = 0.2385 / 2.0, t = r - cut;
        const double Q = 2.0 / 3.0 * (r * r * r - pow(r * r - t * t, 1.5));
        assert_close(bw_section_shear_factor(&s),
                     Q / bw_section_second_moment(&s) / 0.2385, 1e-10);
    }
}

/* Of a given section only what was given is known; flats mean nothing to it. */
static void a_given_section_knows_what_it_was_given(void **state)
{
    (void)state;
    bw_section s = bw_section_given(0.0213, 3.71e-5, 3.1e-4);
    s.flat_top = 0.05;
    assert_true(bw_section_area(&s) == 0.0213 && bw_section_second_moment(&s) == 3.71e-5);
    assert_true(bw_section_modulus(&s) == 3.1e-4 && bw_section_modulus_any(&s) == 3.1e-4);
    assert_true(bw_section_depth(&s) == 0.0 && bw_section_width(&s) == 0.0);
    assert_true(bw_section_neutral_axis(&s) == 0.0);
    assert_true(bw_section_modulus_top(&s) == 0.0 &&
                bw_section_modulus_bottom(&s) == 0.0);
    assert_true(bw_section_second_moment_sideways(&s) == 0.0);
    assert_true(bw_section_shear_factor(&s) == 0.0);
    assert_false(bw_section_is_plain(&s));
}

static void a_circle_is_alike_all_round(void **state)
{
    (void)state;
    const bw_section s = bw_section_round(0.2385);
    assert_close(bw_section_second_moment_sideways(&s), pi * pow(0.2385, 4.0) / 64.0,
                 1e-14);
    assert_close(bw_section_modulus_any(&s), pi * pow(0.2385, 3.0) / 32.0, 1e-14);
    assert_close(bw_section_modulus_top(&s), pi * pow(0.2385, 3.0) / 32.0, 1e-14);
    assert_close(bw_section_width(&s), 0.2385, 1e-14);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(notched_circle_of_8_in_has_its_printed_values),
        cmocka_unit_test(notched_circle_is_weaker_on_its_round_side),
        cmocka_unit_test(flats_leave_the_printed_shares_of_modulus_and_second_moment),
        cmocka_unit_test(hollow_heart_leaves_one_less_the_fourth_power),
        cmocka_unit_test(a_diameter_that_is_no_number_leaves_none),
        cmocka_unit_test(hollow_post_of_the_printed_shell_keeps_two_thirds),
        cmocka_unit_test(half_log_has_the_handbook_values),
        cmocka_unit_test(section_of_any_shape_agrees_with_its_integrals),
        cmocka_unit_test(plain_circle_keeps_its_own_formulas),
        cmocka_unit_test(vanishing_cuts_lead_back_to_the_circle),
        cmocka_unit_test(turning_a_log_over_swaps_top_and_bottom),
        cmocka_unit_test(deeper_cuts_never_help),
        cmocka_unit_test(area_falls_with_the_chord_of_the_flat),
        cmocka_unit_test(sizes_run_straight_between_two_sections),
        cmocka_unit_test(flats_alike_shear_most_at_the_middle),
        cmocka_unit_test(a_given_section_knows_what_it_was_given),
        cmocka_unit_test(a_circle_is_alike_all_round),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
