/* A log cut by nodes sags like the whole log. */
#include "../base/arena_fixture.h"
#include "bolewright/frame.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

static const double length = 4.117, butt = 0.237, tip = 0.171;

/* Simple beam, cut at the places, under two loads and a line load. */
static bw_frame *make_beam(bw_arena *arena, const double *cut, int n_cuts)
{
    bw_frame *f = bw_frame_new(arena);
    bw_diags d = bw_diags_new(arena, NULL);
    double at[8] = {0.0};
    for (int k = 0; k < n_cuts; k++) {
        at[k + 1] = cut[k];
    }
    at[n_cuts + 1] = length;
    for (int k = 0; k <= n_cuts + 1; k++) {
        bw_frame_add_node(f, at[k], 0.3 * at[k], NULL, NULL);
    }
    for (int k = 0; k <= n_cuts; k++) {
        const bw_member m = {
            .node_i = k,
            .node_j = k + 1,
            .section_i = bw_section_round(butt + (tip - butt) * at[k] / length),
            .section_j = bw_section_round(butt + (tip - butt) * at[k + 1] / length),
            .modulus = 8.7e9,
            .shear_modulus = 5.3e8,
            .kappa = 0.9,
            .density = 731.0};
        assert_true(bw_frame_add_member(f, &m) >= 0);
    }
    const bw_support a = {.node = 0, .fix = {true, true, false}},
                     b = {.node = n_cuts + 1, .fix = {false, true, false}};
    assert_int_equal(bw_frame_add_support(f, &a), BW_OK);
    assert_int_equal(bw_frame_add_support(f, &b), BW_OK);
    assert_int_equal(bw_frame_load_self_weight(f, 0, 1.0), BW_OK);
    assert_int_equal(bw_frame_factor(f, &d), BW_OK);
    assert_int_equal(bw_frame_solve(f, &d), BW_OK);
    return f;
}

/* Its state under its weight and a wheel at the place. */
static const bw_state *loaded(bw_frame *f, double at, bw_arena *arena)
{
    int member = 0;
    while (at > bw_frame_length(f, member)) {
        at -= bw_frame_length(f, member++);
    }
    const bw_member_load wheel = {
        .kind = BW_LOAD_POINT, .member = member, .a = at, .y = {-2371.0, 0}};
    bw_state *s = NULL;
    assert_int_equal(bw_frame_solve_loads(f, &wheel, 1, &s, arena), BW_OK);
    return bw_state_add(s, 1.0, bw_frame_state(f, &(bw_part){0, 1.0}, 1, arena), arena);
}

static void a_cut_log_sags_like_the_whole_one(void **state)
{
    static const double cut[] = {0.613, 1.979, 3.737};
    bw_frame *whole = make_beam(*state, NULL, 0);
    const double whole_length = bw_frame_length(whole, 0);
    for (int n = 1; n <= 3; n++) {
        bw_frame *pieces = make_beam(*state, cut, n);
        for (double at = 0.31; at < whole_length; at += 0.53) {
            const bw_line one = bw_state_line(loaded(whole, at, *state), 0, *state);
            const bw_state *s = loaded(pieces, at, *state);
            bw_line lines[4];
            for (int k = 0; k <= n; k++) {
                lines[k] = bw_state_line(s, k, *state);
            }
            const size_t parts = (size_t)n + 1;
            bw_extreme high[2], low[2];
            bw_line_sag_extremes(&one, &high[0], &low[0]);
            bw_lines_sag_extremes(lines, parts, &high[1], &low[1]);
            assert_true(fabs(low[1].value / low[0].value - 1.0) < 1e-9);
            assert_true(fabs(low[1].x - low[0].x) < 1e-5);
            assert_true(fabs(high[1].value) < 1e-12);
            for (double x = 0.07; x < whole_length; x += 0.41) {
                assert_true(fabs(bw_lines_sag(lines, parts, x) / bw_line_sag(&one, x) -
                                 1.0) < 1e-9);
            }
        }
    }
}

static void one_line_is_its_own_sum(void **state)
{
    bw_frame *whole = make_beam(*state, NULL, 0);
    const bw_line one = bw_state_line(loaded(whole, 1.3, *state), 0, *state);
    assert_true(bw_lines_sag(&one, 1, 1.7) == bw_line_sag(&one, 1.7));
    assert_true(bw_line_sag(&one, 1.7) < 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_cut_log_sags_like_the_whole_one),
        WITH_ARENA(one_line_is_its_own_sum),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
