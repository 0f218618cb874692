/* Influence on long rows, entry by entry: the inverse of K kept near its diagonal and
 * reached by steps, against full solutions; and what a wheel is said not to reach. */
#include "../base/arena_fixture.h"
#include "frame/inverse.h"
#include "row.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

enum { BENTS = 51 /* 50 bays */, BAND_MOST = 32 };

static bwt_row standing(bw_arena *arena, int n_bents, bool run_on, bool on_soil)
{
    bw_diags d = bw_diags_new(arena, NULL);
    const bwt_feet feet = on_soil ? BWT_FEET_HINGED : BWT_FEET_FIXED;
    bwt_row r = bwt_row_make(arena, n_bents, feet, run_on, NULL);
    for (int k = 0; k < n_bents && on_soil; k++) {
        const bw_support soil = {.node = r.foot[k], .spring = {0.0, 0.0, 3.7e5}};
        assert_int_equal(bw_frame_add_support(r.frame, &soil), BW_OK);
    }
    assert_int_equal(bw_frame_factor(r.frame, &d), BW_OK);
    return r;
}

/* Column of K^-1 by the full solution. */
static void solve_column(const bwi_system *s, int source, double *x)
{
    for (int k = 0; k < s->n; k++) {
        x[k] = k == source ? 1.0 : 0.0;
    }
    bwi_band_solve(s, x, 1);
}

static double largest(const double *x, int n)
{
    double most = 0.0;
    for (int k = 0; k < n; k++) {
        most = fmax(most, fabs(x[k]));
    }
    return most;
}

static double dot(const bwi_inverse *z, const double *a, const double *b)
{
    double sum = 0.0;
    for (int j = 0; j < z->half_band; j++) {
        sum += a[j] * b[j];
    }
    return sum;
}

/* i lies at least a block before j: the state of column j, from j's block back to the one
 * after i's. */
static double entry_before(const bwi_inverse *z, int i, int j)
{
    double state[BAND_MOST], next[BAND_MOST];
    assert_true(z->half_band <= BAND_MOST);
    bwi_inverse_state(z, j / z->block, j, state);
    for (int k = j / z->block - 1; k > i / z->block; k--) {
        bwi_inverse_back(z, k, state, next);
        memcpy(state, next, sizeof state);
    }
    return dot(z, bwi_inverse_row(z, i), state);
}

/* The same entry from the other side: the row of i, from the block after i's forth to
 * j's.
 */
static double entry_behind(const bwi_inverse *z, int i, int j)
{
    double row[BAND_MOST], next[BAND_MOST], state[BAND_MOST];
    memcpy(row, bwi_inverse_row(z, i), (size_t)z->half_band * sizeof *row);
    for (int k = i / z->block + 1; k < j / z->block; k++) {
        bwi_inverse_forth(z, k, row, next);
        memcpy(row, next, sizeof row);
    }
    bwi_inverse_state(z, j / z->block, j, state);
    return dot(z, row, state);
}

static void compare_columns(const bwi_system *s, bw_arena *arena)
{
    bwi_inverse z;
    assert_int_equal(bwi_inverse_make(s, arena, &z), BW_OK);
    double *x = BW_NEW(arena, double, s->n);
    assert_non_null(x);
    for (int j = 0; j < s->n; j++) {
        solve_column(s, j, x);
        const double allowance = 1e-11 * largest(x, s->n); /* K is sound to 1e-5 */
        for (int i = 0; i < s->n; i++) {
            if (i - j <= z.width && j - i <= z.width) {
                assert_true(fabs(bwi_inverse_near(&z, i, j) - x[i]) <= allowance);
            }
            if (i / z.block < j / z.block) {
                assert_true(fabs(entry_before(&z, i, j) - x[i]) <= allowance);
                assert_true(fabs(entry_behind(&z, i, j) - x[i]) <= allowance);
            }
        }
    }
}

static void every_entry_agrees_with_the_full_solution(void **state)
{
    for (int kind = 0; kind < 4; kind++) {
        const bwt_row r = standing(*state, BENTS, kind % 2 == 1, kind / 2 == 1);
        compare_columns(&r.frame->system, *state);
    }
}

/* ---- what is left out ---- */

static void actions_of(const bw_state *s, int n_members, double (*end)[6], double *most)
{
    *most = 0.0;
    for (int k = 0; k < n_members; k++) {
        bw_state_ends(s, k, end[k]);
        for (int j = 0; j < 6; j++) {
            *most = fmax(*most, fabs(end[k][j]));
        }
    }
}

/* The full solution of the wheel has no more than 1e-12 of its largest action (for each
 * of the forces on six unknowns) in a member that the wheel is said not to reach, and the
 * influence lines agree with it everywhere. */
static void compare_wheel(const bwt_row *r, const bw_influence *v, const bw_wheel *w,
                          bw_arena *arena)
{
    const int n_members = 2 * r->n_bents - 1;
    const bw_member_load l = {.kind = BW_LOAD_POINT,
                              .member = r->stringer[w->at],
                              .a = w->a,
                              .b = w->a,
                              .x = {w->fx, 0.0},
                              .y = {w->fy, 0.0}};
    bw_state *full = NULL;
    double(*end)[6] = bw_arena_alloc_array(arena, (size_t)n_members, sizeof *end), most;
    bool *is_reached = BW_NEW(arena, bool, n_members);
    assert_true(end != NULL && is_reached != NULL);
    assert_int_equal(bw_frame_solve_loads(r->frame, &l, 1, &full, arena), BW_OK);
    actions_of(full, n_members, end, &most);
    const int *members = NULL;
    const size_t n = bw_influence_reached(v, w, &members);
    for (size_t k = 0; k < n; k++) {
        is_reached[members[k]] = true;
    }
    for (int k = 0; k < n_members; k++) {
        double found[6];
        bw_influence_ends(v, k, w, 1, found);
        for (int j = 0; j < 6; j++) {
            assert_true(is_reached[k] || fabs(end[k][j]) <= 6e-12 * most);
            assert_true(fabs(found[j] - end[k][j]) <= 1e-11 * most);
        }
    }
}

static void what_is_left_out_is_below_its_bound(void **state)
{
    uint64_t random = 4441;
    for (int kind = 0; kind < 4; kind++) {
        const bwt_row r = standing(*state, BENTS, kind % 2 == 1, kind / 2 == 1);
        bw_influence *v = NULL;
        assert_int_equal(bw_influence_new(r.frame, r.stringer, BENTS - 1, *state, &v),
                         BW_OK);
        for (int k = 0; k < 50; k++) {
            const bw_arena_mark mark = bw_arena_now(*state);
            bw_wheel w = {.at = (size_t)(bwt_chance(&random) * (BENTS - 1)),
                          .a = 2.385 * bwt_chance(&random),
                          .fy = -1131.0};
            w.fx = k % 3 == 0 ? 397.0 : 0.0;
            compare_wheel(&r, v, &w, *state);
            bw_arena_back(*state, mark);
        }
    }
}

static size_t reached_from_the_middle(bw_arena *arena, int n_bents, bool run_on)
{
    const bwt_row r = standing(arena, n_bents, run_on, false);
    bw_influence *v = NULL;
    const int *members = NULL;
    assert_int_equal(
        bw_influence_new(r.frame, r.stringer, (size_t)n_bents - 1, arena, &v), BW_OK);
    const bw_wheel w = {.at = (size_t)n_bents / 2, .a = 0.613, .fy = -1131.0};
    return bw_influence_reached(v, &w, &members);
}

/* A rider on a level row reaches a few bays, however long the row: his own where
 * stringers end at every bent, and where they run on as many as it takes for 0.27 to the
 * power of the bays (the moments' carry-over) to fall below 1e-12, which is 21 to either
 * side. */
static void reach_does_not_grow_with_the_row(void **state)
{
    const int lengths[] = {51, 151, 401};
    for (int k = 0; k < 3; k++) {
        const size_t butted = reached_from_the_middle(*state, lengths[k], false);
        const size_t run_on = reached_from_the_middle(*state, lengths[k], true);
        assert_true(butted >= 3 && butted <= 2 * 12);
        assert_true(run_on >= 2 * 21 && run_on <= 2 * (2 * 21 + 12));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(every_entry_agrees_with_the_full_solution),
        WITH_ARENA(what_is_left_out_is_below_its_bound),
        WITH_ARENA(reach_does_not_grow_with_the_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
