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

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_chain_of_springs_stretches_evenly),
        WITH_ARENA(the_condition_is_that_of_the_scaled_matrix),
        WITH_ARENA(the_condition_does_not_depend_on_units),
        WITH_ARENA(a_chain_that_nothing_holds_is_found_out),
        WITH_ARENA(the_condition_tells_loose_rows_from_standing_ones),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
