/* The integration of a pressed member: what its rules sum exactly, and that short parts
 * in a row, which do with fewer stages, lead where one part does. */
#include "../base/arena_fixture.h"
#include "frame/column.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

/* Gauss collocation with n stages: sum A_ij c_j^(k-1) = c_i^k / k for k to n, and sum b_j
 * c_j^(k-1) = 1 / k for k to 2 n (Hairer, Norsett and Wanner, Solving ODEs I, 1993, II.7,
 * conditions C(s) and B(2s), MEMORY). */
static void check_rule(const bwi_rule *g)
{
    for (int k = 1; k <= 2 * g->n; k++) {
        double whole = 0.0;
        for (int i = 0; i < g->n; i++) {
            double sum = 0.0;
            for (int j = 0; j < g->n; j++) {
                sum += g->A[i][j] * pow(g->c[j], k - 1);
            }
            assert_true(k > g->n || fabs(sum - pow(g->c[i], k) / k) < 1e-15);
            whole += g->b[i] * pow(g->c[i], k - 1);
        }
        assert_true(fabs(whole - 1.0 / k) < 1e-15);
    }
}

static void rules_sum_powers_exactly(void **state)
{
    bwi_collocation g;
    (void)state;
    bwi_collocation_fill(&g);
    assert_int_equal(g.whole.n, BWI_STAGES);
    assert_int_equal(g.few.n, BWI_FEW_STAGES);
    check_rule(&g.whole);
    check_rule(&g.few);
}

/* A tapered, bowed log between its supports, pressed along and loaded across. */
static bw_frame *pressed_log(bw_arena *arena, double press)
{
    bw_frame *f = bw_frame_new(arena);
    bw_diags diags = bw_diags_new(arena, NULL);
    const bw_member log = {.node_i = bw_frame_add_node(f, 0.0, 0.0, "foot", NULL),
                           .node_j = bw_frame_add_node(f, 3.17, 0.0, "top", NULL),
                           .section_i = bw_section_round(0.193),
                           .section_j = bw_section_round(0.141),
                           .modulus = 9.13e9,
                           .shear_modulus = 5.7e8,
                           .kappa = 0.9,
                           .bow = 0.0231,
                           .lean = 0.0173};
    const bw_support foot = {.node = 0, .fix = {true, true, true}};
    const bw_support top = {.node = 1, .fix = {false, true, false}};
    const bw_member_load across = {
        .kind = BW_LOAD_LINE, .b = 3.17, .y = {-813.0, -2371.0}};
    assert_int_equal(bw_frame_add_member(f, &log), 0);
    assert_int_equal(bw_frame_add_support(f, &foot), BW_OK);
    assert_int_equal(bw_frame_add_support(f, &top), BW_OK);
    assert_int_equal(bw_frame_load_member(f, 0, &across), BW_OK);
    assert_int_equal(bw_frame_load_node(f, 0, 1, -press, 0.0, 0.0), BW_OK);
    assert_int_equal(bw_frame_factor(f, &diags), BW_OK);
    assert_int_equal(bw_frame_solve(f, &diags), BW_OK);
    return f;
}

/* 3e-13 of the deflection is what one panel leaves that no waves cut; else rounding. */
static void assert_alike(const bwi_beam_point *a, const bwi_beam_point *b)
{
    const double x[] = {a->v, a->turn, a->moment, a->force};
    const double y[] = {b->v, b->turn, b->moment, b->force};
    for (int i = 0; i < 4; i++) {
        assert_true(fabs(x[i] - y[i]) <= 1e-12 * fabs(y[i]));
    }
}

static void short_parts_lead_where_one_does(void **state)
{
    enum { PARTS = 57 };
    bwi_collocation gauss;
    bwi_collocation_fill(&gauss);
    for (double press = -61e3; press < 62e3; press += 30.5e3) {
        bw_frame *f = pressed_log(*state, press);
        const bw_state *s = bw_frame_state(f, &(bw_part){0, 1.0}, 1, *state);
        assert_non_null(s);
        bwi_column c = {.gauss = &gauss,
                        .m = &f->members[0],
                        .line = bw_state_line(s, 0, *state),
                        .scale = 1.0,
                        .loaded = true,
                        .to = 3.17};
        const bwi_beam_point start = {0.0137, -0.0271, 913.0, -457.0};
        const bwi_beam_point whole = bwi_column_point(&c, &start, 3.17);
        bwi_beam_point at = start;
        for (int k = 0; k < PARTS; k++) {
            c.from = 3.17 * k / PARTS;
            c.to = 3.17 * (k + 1) / PARTS;
            at = bwi_column_point(&c, &at, c.to);
        }
        assert_alike(&at, &whole);
    }
}

/* T y + p is what values at the start lead to. */
static void transfer_is_what_points_do(void **state)
{
    bwi_collocation gauss;
    bwi_collocation_fill(&gauss);
    bw_frame *f = pressed_log(*state, 23e3);
    const bw_state *s = bw_frame_state(f, &(bw_part){0, 1.0}, 1, *state);
    const bwi_column c = {.gauss = &gauss,
                          .m = &f->members[0],
                          .line = bw_state_line(s, 0, *state),
                          .scale = 1.0,
                          .loaded = true,
                          .to = 2.385};
    const bwi_transfer t = bwi_column_transfer(&c);
    const double y[] = {0.0137, -0.0271, 913.0, -457.0};
    const bwi_beam_point start = {y[0], y[1], y[2], y[3]};
    double end[4];
    for (int i = 0; i < 4; i++) {
        end[i] = t.p[i];
        for (int j = 0; j < 4; j++) {
            end[i] += t.T[i][j] * y[j];
        }
    }
    const bwi_beam_point wanted = {end[0], end[1], end[2], end[3]};
    const bwi_beam_point found = bwi_column_point(&c, &start, 2.385);
    assert_alike(&found, &wanted);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(rules_sum_powers_exactly),
        WITH_ARENA(short_parts_lead_where_one_does),
        WITH_ARENA(transfer_is_what_points_do),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
