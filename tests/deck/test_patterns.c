/* Which bays carry people: against every arrangement there is. */
#include "../base/arena_fixture.h"
#include "planned.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

typedef struct {
    const bw_case *deck;
    bw_assessment result;
    bwi_plan plan;
    bwi_row_frame row;
    bwi_transfer transfer;
    bool **flags;
} patterned;

static void prepare(const bwt_deck *d, bw_arena *arena, patterned *out)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    *out = (patterned){.deck = NULL};
    assert_int_equal(bwt_deck_plan(d, arena, &out->deck, &out->result, &out->plan),
                     BW_OK);
    assert_int_equal(bwi_row_frame_make(&out->plan, 0, 1, &out->row, &diags), BW_OK);
    assert_int_equal(bwi_patterns(&out->plan, &out->flags, &out->transfer), BW_OK);
}

static bw_state *crowd_on(patterned *p, const bool *on, bw_arena *arena)
{
    bw_part parts[BWT_BENTS];
    size_t n = 0;
    for (size_t bay = 0; bay < p->plan.n_bays; bay++) {
        parts[n++] = (bw_part){BWI_CASE_FIRST_BAY + (int)bay, on[bay] ? 1.0 : 0.0};
    }
    bw_state *s = bw_frame_state(p->row.frame, parts, n, arena);
    assert_non_null(s);
    return s;
}

/* What a check of the row works with: per bay the largest and smallest moment and shear,
 * per bent the force on it. */
enum { EFFECTS = 5 * BWT_BENTS };

static void effects(patterned *p, const bool *on, bw_arena *arena, double out[EFFECTS])
{
    const bw_state *s = crowd_on(p, on, arena);
    for (int k = 0; k < EFFECTS; k++) {
        out[k] = 0.0;
    }
    for (size_t bay = 0; bay < p->plan.n_bays; bay++) {
        const bw_extremes e = bw_state_extremes(s, p->row.bay_member[bay]);
        out[5 * bay] = e.moment_max.value;
        out[5 * bay + 1] = -e.moment_min.value;
        out[5 * bay + 2] = e.shear_max.value;
        out[5 * bay + 3] = -e.shear_min.value;
    }
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        out[5 * bent + 4] = bwi_row_reaction(&p->row, s, bent);
    }
}

static void keep_larger(double most[EFFECTS], const double these[EFFECTS])
{
    for (int k = 0; k < EFFECTS; k++) {
        most[k] = fmax(most[k], these[k]);
    }
}

/* All 2^n arrangements against the few that are tried. The rule for the few is that of
 * supports that do not give; here the posts shorten, which is worth a few thousandths. */
static void compare_with_all(const bwt_deck *d, bw_arena *arena)
{
    patterned p;
    prepare(d, arena, &p);
    double all[EFFECTS] = {0.0}, tried[EFFECTS] = {0.0}, these[EFFECTS];
    for (unsigned set = 0; set < 1u << p.plan.n_bays; set++) {
        bool on[BWT_BENTS] = {false};
        for (size_t bay = 0; bay < p.plan.n_bays; bay++) {
            on[bay] = (set >> bay & 1u) != 0;
        }
        effects(&p, on, arena, these);
        keep_larger(all, these);
    }
    for (size_t k = 0; k < p.transfer.n_patterns; k++) {
        effects(&p, p.flags[k], arena, these);
        keep_larger(tried, these);
    }
    for (int k = 0; k < EFFECTS; k++) {
        if (tried[k] < all[k] * (1.0 - 3e-3)) {
            fail_msg("effect %d: %g is not found, only %g", k, all[k], tried[k]);
        }
    }
}

static bwt_deck long_level_deck(int run)
{
    bwt_deck d = bwt_deck_plain();
    const double at[] = {0.0, 2.3, 4.4, 6.9, 9.1, 11.6, 13.7};
    d.n_bents = 7;
    for (int k = 0; k < 7; k++) {
        d.at[k] = at[k];
        d.height[k] = 0.93;
    }
    d.stringer.tip = 0.211;
    d.run[0] = d.run[1] = run;
    d.crowd = 2871.0;
    return d;
}

static void butted_logs_have_their_worst_with_people_everywhere(void **state)
{
    const bwt_deck d = long_level_deck(1);
    patterned p;
    prepare(&d, *state, &p);
    assert_int_equal(p.transfer.n_patterns, 1);
    compare_with_all(&d, *state);
}

static void no_arrangement_is_worse_than_those_tried_over_two_bays(void **state)
{
    const bwt_deck d = long_level_deck(2);
    compare_with_all(&d, *state);
}

static void no_arrangement_is_worse_than_those_tried_over_three_bays(void **state)
{
    const bwt_deck d = long_level_deck(3);
    compare_with_all(&d, *state);
}

static void no_arrangement_is_worse_than_those_tried_over_six_bays(void **state)
{
    const bwt_deck d = long_level_deck(6);
    compare_with_all(&d, *state);
}

/* The words of a pattern that is not "all bays" are in the finding that it governs. */
static void a_finding_names_its_pattern(void **state)
{
    bwt_deck d = long_level_deck(6);
    d.rider = 0.0;
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
    const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_BENDING);
    assert_non_null(f);
    assert_non_null(f->position);
    assert_true(strstr(f->position, "people on both sides of bent b") == f->position ||
                strcmp(f->position, "people on every other bay") == 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(butted_logs_have_their_worst_with_people_everywhere),
        WITH_ARENA(no_arrangement_is_worse_than_those_tried_over_two_bays),
        WITH_ARENA(no_arrangement_is_worse_than_those_tried_over_three_bays),
        WITH_ARENA(no_arrangement_is_worse_than_those_tried_over_six_bays),
        WITH_ARENA(a_finding_names_its_pattern),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
