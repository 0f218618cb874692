/* The band Cholesky on matrices whose inverse and condition are known, and its condition
 * estimate on frames that stand and frames that do not. */
#include "../base/arena_fixture.h"
#include "frame/internal.h"
#include "row.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

enum { N = 17 };

/* A chain of springs k, held at the first end; the other end free, or held too. */
static bwi_system chain(bw_arena *arena, double k, bool held_first, bool held_last)
{
    bwi_system s = {.n = N, .half_band = 1};
    s.band = BW_NEW(arena, double, 2 * N);
    s.scale = BW_NEW(arena, double, N);
    assert_non_null(s.band);
    assert_non_null(s.scale);
    for (int j = 0; j < N; j++) {
        const bool one = (j == 0 && !held_first) || (j == N - 1 && !held_last);
        s.band[2 * j] = one ? k : 2.0 * k;
        s.band[2 * j + 1] = j + 1 < N ? -k : 0.0;
    }
    return s;
}

/* Pulled at its free end with F a chain of n springs gives n F / k, evenly. */
static void a_chain_of_springs_stretches_evenly(void **state)
{
    bwi_system s = chain(*state, 317.0, true, false);
    double u[2 * N] = {0.0};
    u[N - 1] = 23.85;
    u[N + 4] = 11.3; /* a second right-hand side: pulled at the fifth link */
    assert_int_equal(bwi_band_factor(&s), BW_OK);
    bwi_band_solve(&s, u, 2);
    for (int j = 0; j < N; j++) {
        assert_true(fabs(u[j] - 23.85 / 317.0 * (j + 1)) < 1e-13);
        assert_true(fabs(u[N + j] - 11.3 / 317.0 * (j < 4 ? j + 1 : 5)) < 1e-13);
    }
}

/* D K D has the diagonal 1. For the chain held at both ends it is K / 2k, its inverse min
 * (i, j) (n + 1 - max(i, j)) 2 / (n + 1): 1-norms 2 and (n + 1)^2 / 4 for odd n. The
 * estimate is a lower bound of the condition that is exact for such matrices. */
static void the_condition_is_that_of_the_scaled_matrix(void **state)
{
    bwi_system s = chain(*state, 317.0, true, true);
    assert_int_equal(bwi_band_factor(&s), BW_OK);
    const double wanted = 1.0 / (2.0 * (N + 1) * (N + 1) / 4.0);
    assert_true(fabs(s.rcond / wanted - 1.0) < 1e-12);
}

static void the_condition_does_not_depend_on_units(void **state)
{
    bwi_system a = chain(*state, 317.0, true, true);
    bwi_system b = chain(*state, 3.17e11, true, true);
    assert_int_equal(bwi_band_factor(&a), BW_OK);
    assert_int_equal(bwi_band_factor(&b), BW_OK);
    assert_true(fabs(a.rcond / b.rcond - 1.0) < 1e-12);
}

/* Nothing holds it: either the factorisation sees it or the condition shows it. */
static void a_chain_that_nothing_holds_is_found_out(void **state)
{
    bwi_system s = chain(*state, 317.0, false, false);
    const bw_status status = bwi_band_factor(&s);
    assert_true(status == BW_E_MECHANISM || (status == BW_OK && s.rcond < 1e-15));
    bwi_system zero = chain(*state, 0.0, true, true);
    assert_int_equal(bwi_band_factor(&zero), BW_E_MECHANISM);
}

static double rcond_of_row(bw_arena *arena, int n, bwt_feet feet, bool run_on,
                           bw_status *status)
{
    const bwt_row r = bwt_row_make(arena, n, feet, run_on, NULL);
    bw_diags d = bw_diags_new(arena, NULL);
    *status = bw_frame_factor(r.frame, &d);
    return bw_frame_describe(r.frame).rcond;
}

/* Short and long rows of logs stand at rcond far above rounding; the same rows on hinged
 * feet are loose, whatever their length. */
static void the_condition_tells_loose_rows_from_standing_ones(void **state)
{
    const int lengths[] = {2, 3, 7, 25, 120};
    for (int k = 0; k < 5; k++) {
        for (int run_on = 0; run_on <= 1; run_on++) {
            bw_status status;
            const double stands =
                rcond_of_row(*state, lengths[k], BWT_FEET_FIXED, run_on == 1, &status);
            assert_int_equal(status, BW_OK);
            assert_true(stands > 1e-9);
            rcond_of_row(*state, lengths[k], BWT_FEET_HINGED, run_on == 1, &status);
            assert_int_equal(status, BW_E_MECHANISM);
        }
    }
}

/* NaN is neither a loose part nor a sound matrix, and nothing is solved with it. */
static void a_matrix_with_nan_is_refused(void **state)
{
    bwi_system s = chain(*state, 317.0, true, true);
    s.band[2 * 5 + 1] = (double)NAN;
    assert_int_equal(bwi_band_factor(&s), BW_E_INTERNAL);
    bwi_system diagonal = chain(*state, 317.0, true, true);
    diagonal.band[2 * 5] = (double)NAN;
    assert_int_equal(bwi_band_factor(&diagonal), BW_E_MECHANISM);
}

static void no_unknowns_need_no_solution(void **state)
{
    (void)state;
    const bwi_system none = {.n = 0};
    double rhs[1] = {23.85};
    bwi_band_solve(&none, rhs, 1);
    assert_true(rhs[0] == 23.85);
}

/* B of a chain held at both ends, 2 k (1 - cos(j pi / (n + 1))), and A = c: mu is c over
 * the least of them. An indefinite B has no estimate, which is no fault. */
static void the_largest_eigenvalue_or_none(void **state)
{
    const double least = 2.0 * 317.0 * (1.0 - cos(3.14159265358979324 / (N + 1)));
    for (int sound = 0; sound <= 1; sound++) {
        bwi_system B = chain(*state, 317.0, true, true);
        double A[2 * N], mu = -1.0, x[N];
        for (int k = 0; k < 2 * N; k++) {
            A[k] = k % 2 == 0 ? 23.85 : 0.0;
        }
        B.band[2 * 7] *= sound == 1 ? 1.0 : -1.0;
        assert_int_equal(bwi_largest_eigenvalue(N, 1, A, B.band, *state, &mu, x), BW_OK);
        assert_true(sound == 1 ? fabs(mu * least / 23.85 - 1.0) < 1e-12 : mu == 0.0);
    }
}

/* A log on a spring, and beside it one stiffer by the factor. */
static bw_frame *unlike_pair(bw_arena *arena, double factor)
{
    bw_frame *f = bw_frame_new(arena);
    for (int k = 0; k < 3; k++) {
        const double E = 9e9 * (k == 1 ? factor : 1.0);
        const bw_member log = {.node_i = k,
                               .node_j = k + 1,
                               .section_i = bw_section_round(0.217),
                               .section_j = bw_section_round(0.193),
                               .modulus = E};
        bw_frame_add_node(f, 1.37 * k, 0.31 * k, NULL, NULL);
        bw_frame_add_member(f, &log);
    }
    bw_frame_add_node(f, 1.37 * 3, 0.31 * 3, NULL, NULL);
    const bw_support foot = {.node = 0, .spring = {3.1e5, 2.7e5, 1.9e4}};
    bw_frame_add_support(f, &foot);
    bw_frame_load_node(f, 0, 3, 0.0, -913.0, 0.0);
    return f;
}

/* However unlike the stiffnesses, a solution that is given out balances its loads; where
 * no digits are left, that is said. */
static void unlike_stiffnesses_are_solved_or_refused(void **state)
{
    int refused = 0, solved = 0;
    for (double factor = 1.0; factor < 1e70; factor *= 1e3) {
        bw_frame *f = unlike_pair(*state, factor);
        bw_diags d = bw_diags_new(*state, NULL);
        bw_status status = bw_frame_factor(f, &d);
        status = status == BW_OK ? bw_frame_solve(f, &d) : status;
        assert_true(status == BW_OK || status == BW_E_CONDITION);
        if (status != BW_OK) {
            assert_int_equal(d.errors, 1);
            assert_string_equal(d.items[0].id, "frame.condition");
            refused++;
            continue;
        }
        const bw_state *s = bw_frame_state(f, &(bw_part){0, 1.0}, 1, *state);
        assert_true(fabs(bw_state_reaction(s, 0).y / 913.0 - 1.0) < 1e-6);
        assert_true(fabs(bw_state_reaction(s, 0).r / (913.0 * 1.37 * 3.0) - 1.0) < 1e-6);
        solved++;
    }
    assert_true(solved >= 5); /* 1e12 and more are promised */
    assert_true(refused > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_chain_of_springs_stretches_evenly),
        WITH_ARENA(the_condition_is_that_of_the_scaled_matrix),
        WITH_ARENA(the_condition_does_not_depend_on_units),
        WITH_ARENA(a_chain_that_nothing_holds_is_found_out),
        WITH_ARENA(the_condition_tells_loose_rows_from_standing_ones),
        WITH_ARENA(a_matrix_with_nan_is_refused),
        WITH_ARENA(no_unknowns_need_no_solution),
        WITH_ARENA(the_largest_eigenvalue_or_none),
        WITH_ARENA(unlike_stiffnesses_are_solved_or_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
