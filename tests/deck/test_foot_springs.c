/* How well the buried part of a post, cut into pieces on single springs, stands for a
 * beam on springs spread along it. Four ways are compared: the program; the exact
 * solution of the differential equations as a power series; closed forms of Hetenyi,
 * Beams on Elastic Foundation (1946, MEMORY); and a boundary value solver of scipy
 * (foot_springs.py). */
#include "../base/arena_fixture.h"
#include "deck.h"
#include "deck/internal.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

/* A straight round post; the soil k + n z. */
typedef struct {
    double diameter, depth, modulus, k, n;
    bool shears; /* else it only bends */
} post;

/* Motions at the ground line: x per push, turn per push (= x per moment), turn per
 * moment. */
typedef struct {
    double xx, xr, rr;
} flexibility;

static double bending_stiffness(const post *p)
{
    return p->modulus * bwt_pi * pow(p->diameter, 4.0) / 64.0;
}

/* ---- the exact solution ----
 *
 * y' = f + s / (kappa G A), f' = m / (E I), m' = -s, s' = (k + n z) y as power series in
 * z; started from one state at the ground line, they give the state at a part of the
 * depth. m and s must vanish at the bottom. */

typedef struct {
    double y, f, m, s;
} beam_state;

static beam_state beam_at(const post *p, beam_state start, double part)
{
    const double L = part * p->depth, EI = bending_stiffness(p);
    const double area = bwt_pi * p->diameter * p->diameter / 4.0;
    const double soft =
        p->shears ? 1.0 / (0.9 * bw_shear_modulus(p->modulus) * area) : 0.0;
    beam_state term = start, sum = start;
    double y_before = 0.0;

    for (int i = 1; i < 160; i++) {
        const beam_state t = term;
        term.y = L / i * (t.f + soft * t.s);
        term.f = L / i * t.m / EI;
        term.m = -L / i * t.s;
        term.s = L / i * (p->k * t.y + p->n * L * y_before);
        y_before = t.y;
        sum =
            (beam_state){sum.y + term.y, sum.f + term.f, sum.m + term.m, sum.s + term.s};
    }
    return sum;
}

/* The state at the ground line under a push and a moment there. */
static beam_state solve(const post *p, double push, double moment)
{
    const beam_state loaded = {.m = -moment, .s = -push};
    const beam_state a = beam_at(p, (beam_state){.y = 1.0}, 1.0);
    const beam_state b = beam_at(p, (beam_state){.f = 1.0}, 1.0);
    const beam_state c = beam_at(p, loaded, 1.0);
    const double det = a.m * b.s - b.m * a.s;

    return (beam_state){(b.m * c.s - c.m * b.s) / det, (c.m * a.s - a.m * c.s) / det,
                        loaded.m, loaded.s};
}

static flexibility exact(const post *p)
{
    const beam_state push = solve(p, 1.0, 0.0), turn = solve(p, 0.0, 1.0);

    assert_true(fabs(push.f - turn.y) < 1e-8 * fabs(push.f)); /* reciprocity */
    return (flexibility){push.y, push.f, turn.f};
}

/* ---- the program ---- */

static bwi_foot foot_of_program(const post *p, bw_soil soil, bw_arena *arena)
{
    const bw_log log = {
        .name = "post", .butt_diameter = p->diameter, .tip_diameter = p->diameter};
    const bw_row row = {.name = "left"};
    const bw_post buried = {.name = "B1 left", .hole_depth = p->depth, .soil = soil};
    const bw_bent bent = {.name = "B1", .cap = -1, .posts = &buried, .n_posts = 1};
    const bw_case deck = {.logs = &log,
                          .n_logs = 1,
                          .rows = &row,
                          .n_rows = 1,
                          .bents = &bent,
                          .n_bents = 1};
    const bw_reference reference = {.value = {[BW_MODULUS] = p->modulus}};
    double cap_top = 1.37;
    bwi_plan plan = {
        .deck = &deck, .arena = arena, .references = &reference, .cap_top = &cap_top};
    bw_diags d = bw_diags_new(arena, NULL);
    bwi_foot foot;

    assert_int_equal(bwi_feet_start(&plan), BW_OK);
    assert_int_equal(bwi_foot_make(&plan, 0, &buried, &foot, &d), BW_OK);
    return foot;
}

static flexibility of_program(const post *p, bw_soil soil, bw_arena *arena)
{
    const bwi_foot foot = foot_of_program(p, soil, arena);
    const double det = foot.k_xx * foot.k_rr - foot.k_xr * foot.k_xr;

    return (flexibility){foot.k_rr / det, -foot.k_xr / det, foot.k_xx / det};
}

static double worst_of(flexibility found, flexibility wanted)
{
    return fmax(
        bwt_relative(found.xx, wanted.xx),
        fmax(bwt_relative(found.xr, wanted.xr), bwt_relative(found.rr, wanted.rr)));
}

static post in_soil(bw_soil soil, double diameter, double depth, double modulus)
{
    const bw_soil_values v = bw_soil_find(soil);

    return (post){diameter, depth, modulus, v.modulus.value, v.modulus_growth.value,
                  true};
}

/* ---- the exact solution is one ---- */

/* Short, middling and long: beta L from 0.6 to 5. */
static void series_is_the_closed_form_of_a_beam_that_only_bends(void **state)
{
    (void)state;
    for (double depth = 0.3; depth < 2.6; depth += 0.31) {
        const post p = {0.094, depth, 7.13e9, 1.6e6, 0.0, false};
        const double k = p.k, b = pow(k / (4.0 * bending_stiffness(&p)), 0.25);
        const double z = b * depth, S = sinh(z), C = cosh(z), s = sin(z), c = cos(z);
        const double D = S * S - s * s;
        const flexibility closed = {2.0 * b / k * (S * C - s * c) / D,
                                    -2.0 * b * b / k * (S * S + s * s) / D,
                                    4.0 * b * b * b / k * (S * C + s * c) / D};
        assert_true(worst_of(exact(&p), closed) < 1e-7);
    }
}

static void series_is_what_scipy_finds(void **state)
{
    (void)state;
    /* diameter, depth, E, k, n, then x per push, turn per push, turn per moment as
     * printed by foot_springs.py (COMPUTED, scipy 1.10.1) */
    static const double scipy_rows[][8] = {
        {0.213, 0.61, 7.45e+09, 0, 6.6e+06, 7.35248995e-06, -1.60939378e-05,
         3.99388683e-05},
        {0.187, 0.914, 9.13e+09, 0, 2.2e+06, 9.85806207e-06, -1.44708091e-05,
         2.43631917e-05},
        {0.131, 1.524, 6.02e+09, 0, 6.6e+06, 2.19963748e-06, -3.35300073e-06,
         8.67008870e-06},
        {0.094, 2.37, 5.17e+09, 0, 6.6e+06, 3.88677104e-06, -8.06909820e-06,
         2.81726926e-05},
        {0.151, 1.22, 8.31e+09, 1.6e+06, 0, 2.14710697e-06, -2.88886018e-06,
         6.35022466e-06},
    };
    for (size_t i = 0; i < sizeof scipy_rows / sizeof scipy_rows[0]; i++) {
        const double *r = scipy_rows[i];
        const post p = {r[0], r[1], r[2], r[3], r[4], true};
        const flexibility found = {r[5], r[6], r[7]};
        assert_true(worst_of(found, exact(&p)) < 1e-6);
    }
}

/* ---- the program against it ---- */

/* Single springs make an error that falls with the square of the pieces. For the posts of
 * decks it stays below half a percent; for one as thin as an arm in a hole deeper than a
 * man it comes to 2.6 %. */
static void pieces_stand_for_the_spread_springs(void **state)
{
    for (bw_soil soil = BW_SOIL_GRAVEL; soil < BW_SOIL_COUNT; soil++) {
        for (double depth = 0.3; depth < 2.5; depth += 0.3) {
            for (double diameter = 0.08; diameter < 0.4; diameter += 0.06) {
                const post p = in_soil(soil, diameter, depth, 7.45e9);
                const bool usual = depth < 1.6 && diameter > 0.12;
                const double worst = worst_of(of_program(&p, soil, *state), exact(&p));
                if (!(worst < (usual ? 0.005 : 0.027))) {
                    fail_msg("%s, %.2f m deep, %.2f m thick: %.2g apart",
                             bw_soil_name(soil), depth, diameter, worst);
                }
            }
        }
    }
}

static void assert_moments(const post *p, bw_soil soil, bw_arena *arena, double push,
                           double turn)
{
    const bwi_foot foot = foot_of_program(p, soil, arena);
    const beam_state start = solve(p, push, turn);
    double largest = 0.0, worst = 0.0;

    for (int k = 0; k <= BWI_FOOT_PIECES; k++) {
        const double wanted = -beam_at(p, start, (double)k / BWI_FOOT_PIECES).m;
        const double found = bwi_foot_moment(&foot, push, turn, k);
        largest = fmax(largest, fabs(wanted));
        worst = fmax(worst, fabs(found - wanted));
    }
    if (!(worst < 0.01 * largest)) {
        fail_msg("%s, %.2f m deep, %.2f m thick: %.2g of %.2g", bw_soil_name(soil),
                 p->depth, p->diameter, worst, largest);
    }
}

static void moments_below_ground_are_those_of_the_spread_springs(void **state)
{
    for (bw_soil soil = BW_SOIL_GRAVEL; soil < BW_SOIL_COUNT; soil++) {
        for (double depth = 0.3; depth < 1.6; depth += 0.3) {
            const post p = in_soil(soil, 0.173, depth, 7.45e9);
            assert_moments(&p, soil, *state, 137.0, 0.0);
            assert_moments(&p, soil, *state, 0.0, 211.0);
            assert_moments(&p, soil, *state, 137.0, 211.0);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(series_is_the_closed_form_of_a_beam_that_only_bends),
        cmocka_unit_test(series_is_what_scipy_finds),
        WITH_ARENA(pieces_stand_for_the_spread_springs),
        WITH_ARENA(moments_below_ground_are_those_of_the_spread_springs),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
