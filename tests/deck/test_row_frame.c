/* A row along the deck: what it puts on the bents is what lies on it. */
#include "../base/arena_fixture.h"
#include "planned.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

typedef struct {
    const bw_case *deck;
    bw_assessment result;
    bwi_plan plan;
    bwi_row_frame row;
} framed;

static void make_row(const bwt_deck *d, int row, bw_arena *arena, framed *out)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    assert_int_equal(bwt_deck_plan(d, arena, &out->deck, &out->result, &out->plan),
                     BW_OK);
    assert_int_equal(bwi_row_frame_make(&out->plan, row, 1, &out->row, &diags), BW_OK);
}

static double sum_on_bents(const framed *f, const bw_state *s)
{
    double sum = 0.0;
    for (size_t b = 0; b < f->deck->n_bents; b++) {
        sum += bwi_row_reaction(&f->row, s, b);
    }
    return sum;
}

static bwt_deck hilly(int run)
{
    bwt_deck d = bwt_deck_plain();
    d.n_bents = 4;
    d.at[3] = 8.117;
    d.height[1] = 1.37;
    d.height[3] = 0.97;
    d.run[0] = d.run[1] = run;
    return d;
}

/* Volume of a cone frustum times green density times g, and the boards over the plan
 * length: sums of the logs and of areas, without any frame. */
static void dead_forces_add_up_to_the_weight(void **state)
{
    for (int run = 1; run <= 3; run++) {
        const bwt_deck d = hilly(run);
        framed f;
        make_row(&d, 0, *state, &f);
        const double density = f.deck->logs[0].species->green_density.value;
        double volume = 0.0;
        for (size_t k = 0; k < f.deck->n_stringers; k++) {
            /* length of the axes in the frame; the taper of the log is the same */
            const double D = 0.217, t = 0.181;
            double length = 0.0;
            for (size_t bay = 0; bay < f.plan.n_bays; bay++) {
                if (bwi_plan_part(&f.plan, 0, bay)->stringer == (int)k) {
                    length += bw_frame_length(f.row.frame, f.row.bay_member[bay]);
                }
            }
            volume += 3.14159265358979324 / 12.0 * length * (D * D + D * t + t * t);
        }
        const double boards = 371.0 * (d.at[3] - d.at[0]) * d.width / 2.0;
        const double weight = density * volume * 9.80665 + boards;
        const bw_state *dead =
            bw_frame_state(f.row.frame, &(bw_part){BWI_CASE_DEAD, 1.0}, 1, *state);
        /* run 1: parts follow the taper exactly; over bents the lengths along the axis
         * and along the deck differ by 1e-4 of the slope */
        assert_true(bwt_relative(sum_on_bents(&f, dead), weight) <
                    (run == 1 ? 1e-12 : 1e-4));
    }
}

static void crowd_forces_add_up_to_pressure_times_area(void **state)
{
    bwt_deck d = hilly(2);
    d.crowd = 2871.0;
    framed f;
    make_row(&d, 1, *state, &f);
    for (size_t bay = 0; bay < 3; bay++) {
        const bw_part part = {BWI_CASE_FIRST_BAY + (int)bay, 1.0};
        const bw_state *s = bw_frame_state(f.row.frame, &part, 1, *state);
        /* people press on the half of their own side and on the overhang, by the lever
         * from the other row: int of (x - x0) / gap from x0 to the edge */
        const double reach = 0.437 + 1.13 / 2.0;
        const double width = reach * reach / 2.0 / (2.0 * 0.437);
        const double wanted = 2871.0 * width * (d.at[bay + 1] - d.at[bay]);
        assert_true(bwt_relative(sum_on_bents(&f, s), wanted) < 1e-11);
    }
}

static void a_wheel_anywhere_is_carried_whole(void **state)
{
    uint64_t random = 911;
    for (int run = 1; run <= 3; run++) {
        const bwt_deck d = hilly(run);
        framed f;
        make_row(&d, 0, *state, &f);
        for (int k = 0; k < 200; k++) {
            bw_wheel w = {.at = (size_t)bwt_below(&random, 3), .fy = -1371.3};
            w.a = bwt_uniform(&random, 0.0, 1.0) *
                  bw_frame_length(f.row.frame, f.row.path[w.at]);
            double sum = 0.0;
            for (size_t b = 0; b < 4; b++) {
                sum += bwi_row_wheel_reaction(&f.row, &(bwi_wheels){.n = 1, .wheel = {w}},
                                              b);
            }
            assert_true(bwt_relative(sum, 1371.3) < 1e-10);
        }
    }
}

/* Butted logs are beams on two supports: P (L - a) / L and P a / L, on level ground. */
static void butted_logs_share_a_wheel_by_the_lever(void **state)
{
    const bwt_deck d = bwt_deck_plain();
    framed f;
    make_row(&d, 1, *state, &f);
    const double L = bw_frame_length(f.row.frame, f.row.path[1]);
    const bw_wheel w = {.at = 1, .a = 0.713, .fy = -1371.3};
    double before, after;
    bwi_row_end_forces(&f.row, 1, NULL, &(bwi_wheels){.n = 1, .wheel = {w}}, &before,
                       &after);
    assert_true(fabs(before) < 1e-9);
    assert_true(bwt_relative(after, 1371.3 * (L - 0.713) / L) <
                1e-4); /* heights: 18 mm */
    assert_true(bwt_relative(bwi_row_wheel_reaction(
                                 &f.row, &(bwi_wheels){.n = 1, .wheel = {w}}, 2),
                             1371.3 * 0.713 / L) < 1e-3);
}

static void a_stringer_that_ends_carries_no_moment_over(void **state)
{
    const bwt_deck d = hilly(1);
    framed f;
    make_row(&d, 0, *state, &f);
    const bw_state *dead =
        bw_frame_state(f.row.frame, &(bw_part){BWI_CASE_DEAD, 1.0}, 1, *state);
    for (size_t bay = 0; bay < 3; bay++) {
        double end[6];
        bw_state_ends(dead, f.row.bay_member[bay], end);
        assert_true(fabs(end[2]) < 1e-9 && fabs(end[5]) < 1e-9);
    }
}

static void a_stringer_running_on_hogs_over_the_bent(void **state)
{
    const bwt_deck d = hilly(3);
    framed f;
    make_row(&d, 0, *state, &f);
    const bw_state *dead =
        bw_frame_state(f.row.frame, &(bw_part){BWI_CASE_DEAD, 1.0}, 1, *state);
    double left[6], right[6];
    bw_state_ends(dead, f.row.bay_member[0], left);
    bw_state_ends(dead, f.row.bay_member[1], right);
    assert_true(left[5] < -10.0);
    assert_true(bwt_relative(left[5], right[2]) < 1e-9); /* the post is hinged to it */
}

/* ---- loose rows ---- */

static void expect_loose(const bwt_deck *d, bw_arena *arena, const char *const *words)
{
    const char *faults = NULL;
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(d, arena, &a, &faults), BW_E_MECHANISM);
    for (; *words != NULL; words++) {
        if (strstr(faults, *words) == NULL) {
            fail_msg("\"%s\" lacks \"%s\"", faults, *words);
        }
    }
}

static void rows_on_pads_are_loose_along_the_deck(void **state)
{
    static const char *const words[] = {
        "row r0 at bent b",
        "row r1 at bent b",
        "along the deck",
        "post b0 r0",
        "stringer r1-0",
        "a brace, a foot that cannot turn, or a support in that direction would hold it",
        NULL};
    bwt_deck d = bwt_deck_plain();
    d.foot = "pad";
    expect_loose(&d, *state, words);
}

static void bents_on_pads_are_loose_sideways(void **state)
{
    static const char *const words[] = {
        "the cap of bent b0 can move sideways", "the cap of bent b1 can move sideways",
        "the cap of bent b2 can move sideways", "post b1 r1", NULL};
    bwt_deck d = bwt_deck_plain();
    d.foot = "pad";
    expect_loose(&d, *state, words);
}

static void posts_whose_feet_cannot_turn_stand(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.foot = "fixed";
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(dead_forces_add_up_to_the_weight),
        WITH_ARENA(crowd_forces_add_up_to_pressure_times_area),
        WITH_ARENA(a_wheel_anywhere_is_carried_whole),
        WITH_ARENA(butted_logs_share_a_wheel_by_the_lever),
        WITH_ARENA(a_stringer_that_ends_carries_no_moment_over),
        WITH_ARENA(a_stringer_running_on_hogs_over_the_bent),
        WITH_ARENA(rows_on_pads_are_loose_along_the_deck),
        WITH_ARENA(bents_on_pads_are_loose_sideways),
        WITH_ARENA(posts_whose_feet_cannot_turn_stand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
