/* People on a strip of the width alone: they lift the row on the other side, by hand. */
#include "../base/arena_fixture.h"
#include "planned.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

/* Rows 0.874 m apart under boards that go on for 0.6915 m beyond either; one bay. */
static const double gap = 0.874, over = 0.6915, crowd = 3217.0;

static bwt_deck overhanging(void)
{
    bwt_deck d = bwt_deck_plain();
    d.n_bents = 2;
    d.width = gap + 2.0 * over;
    d.rider = 0.0;
    d.crowd = crowd;
    return d;
}

static void assert_near(double found, double wanted, double tolerance)
{
    if (!(bwt_relative(found, wanted) < tolerance)) {
        fail_msg("%.12g instead of %.12g", found, wanted);
    }
}

static const bw_finding *find(const bwt_deck *d, bw_arena *arena, const char *role,
                              const char *name, bw_check_kind kind)
{
    bw_assessment *a = BW_NEW(arena, bw_assessment, 1);
    assert_int_equal(bwt_deck_assess(d, arena, a, NULL), BW_OK);
    const bw_finding *f = bwt_finding(a, role, name, kind);
    assert_non_null(f);
    return f;
}

static double bay(const bwt_deck *d)
{
    return d->at[1] - d->at[0];
}

/* Moments about the near row: T d = q o L / 2 * o / 2; what stays holds with 0.6. */
static void people_on_an_overhang_draw_up_the_far_post(void **state)
{
    bwt_deck d = overhanging();
    const double T = crowd * over * over / (2.0 * gap) * bay(&d) / 2.0;
    const bw_finding *left = find(&d, *state, "post", "b0 r0", BW_CHECK_UPLIFT);
    const bw_finding *right = find(&d, *state, "post", "b0 r1", BW_CHECK_UPLIFT);
    assert_near(bwt_term(left, "T"), T, 1e-6);
    assert_near(bwt_term(right, "T"), T, 1e-6);
    assert_near(left->ratio.utilisation,
                T / (0.6 * (bwt_term(left, "D") + bwt_term(left, "W"))), 1e-6);
    assert_non_null(strstr(left->position, "people on all bays, on the right overhang"));
    assert_non_null(strstr(right->position, "people on all bays, on the left overhang"));
}

static void nobody_lifts_a_row_over_which_no_board_goes_on(void **state)
{
    bwt_deck d = overhanging();
    d.width = gap;
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
    assert_null(bwt_finding(&a, "post", "b0 r0", BW_CHECK_UPLIFT));
    assert_null(bwt_to_do(&a, "hold boards and stringers down"));
}

/* Each on its own post, without a cap: the middle one is lifted from both sides. */
static void of_three_rows_the_middle_one_is_lifted_from_both_sides(void **state)
{
    bwt_deck d = overhanging();
    d.n_rows = 3;
    d.no_cap = true;
    d.across[0] = -0.571;
    d.across[1] = 0.113;
    d.across[2] = 0.649;
    d.width = 2.713;
    const double left = d.width / 2.0 - 0.571, right = d.width / 2.0 - 0.649;
    const double lifting =
        left * left / (2.0 * (0.571 + 0.113)) + right * right / (2.0 * (0.649 - 0.113));
    const bw_finding *f = find(&d, *state, "post", "b0 r1", BW_CHECK_UPLIFT);
    assert_near(bwt_term(f, "T"), crowd * lifting * bay(&d) / 2.0, 1e-6);
    assert_non_null(strstr(f->position, "on both overhangs"));
}

/* On a sill that ends at a = L_s / 2 nobody holds up: who stands at y turns the deck over
 * the end with q (y - a), and sways with s h. All from y = a - s h / q on to the edge do:
 *
 *   T L_s = q L / 2 (w / 2 - y)^2 / 2
 *
 * Where y is one of the places that are tried, that is what comes out. */
static void who_sways_turns_a_sill_over_from_further_in(void **state)
{
    static const double places[] = {0.437, 0.2185, 0.0, -0.2185, -0.437};
    bwt_deck d = overhanging();
    d.sill[0] = d.sill[1] = true;
    d.height[0] = d.height[1] = 0.55;
    d.cap.butt = d.cap.tip = 0.2293;
    const double length = gap + 1.37, edge = d.width / 2.0;
    for (size_t k = 0; k < sizeof places / sizeof places[0]; k++) {
        d.sway = crowd * (length / 2.0 - places[k]) / d.height[0];
        const double off = edge - places[k];
        const double T = crowd * bay(&d) / 2.0 * off * off / 2.0 / length;
        const bw_finding *f = find(&d, *state, "sill", "b0", BW_CHECK_UPLIFT);
        assert_near(bwt_term(f, "T"), T, 1e-9);
    }
}

/* Held down over the middle of two equal spans: 10/8 q L, which shear and taper, and
 * posts that give, change by a little. */
static void stringers_that_run_on_are_lifted_as_they_lie(void **state)
{
    bwt_deck d = overhanging();
    d.n_bents = 3;
    d.at[2] = 2.0 * d.at[1];
    d.run[0] = d.run[1] = 2;
    d.stringer.tip = d.stringer.butt;
    d.board_pressure = 4317.0; /* nothing comes off its seat */
    const double lifting = crowd * over * over / (2.0 * gap);
    const bw_finding *f = find(&d, *state, "post", "b1 r0", BW_CHECK_UPLIFT);
    assert_near(bwt_term(f, "T"), 1.25 * lifting * bay(&d), 0.03);
}

/* What the ends of a stringer have to be held down with: the same, less their weight. */
static void fasteners_hold_what_people_and_riders_lift(void **state)
{
    bwt_deck d = overhanging();
    bw_joint_place joint = {
        .stringer = 0, .bent = 0, .brace = -1, .fasteners = bwt_lags(0.113)};
    for (int k = 0; k < 2; k++) {
        const double person = crowd * over * over / (2.0 * gap) * bay(&d) / 2.0;
        const double rider = 2.9 * 213.7 * bw_gravity * over / gap;
        d.crowd = k == 0 ? crowd : 0.0;
        d.rider = k == 0 ? 0.0 : 213.7;
        bw_case *deck = bwt_deck_joined(&d, *state, &joint, 1);
        bw_diags diags = bw_diags_new(*state, NULL);
        bw_assessment a;
        assert_non_null(deck);
        assert_int_equal(bw_deck_assess(*state, deck, &a, &diags), BW_OK);
        const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_LIFT);
        assert_non_null(f);
        assert_near(bwt_term(f, "T"), k == 0 ? person : rider, 1e-6);
    }
}

/* 3217 * 0.6915^2 / (2 * 0.874) * 2.713 / 2 N a bent; a share of 0.6915 / 0.874. */
static void the_far_row_is_told_what_people_lift_it_with(void **state)
{
    bwt_deck d = overhanging();
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
    const char *said = bwt_to_do(&a, "hold boards and stringers down on the far row");
    assert_non_null(said);
    assert_non_null(strstr(said, "lifts it with 79 %"));
    assert_non_null(strstr(said, "1.194 kN a bent under people"));
    assert_null(strstr(said, "under the rider"));
    assert_non_null(bwt_to_do(&a, "fasten every end of a stringer for a lift of"));
}

/* ---- strips ---- */

typedef struct {
    const bw_case *deck;
    bw_assessment result;
    bwi_plan plan;
    bwi_transfer transfer;
} striped;

static void prepare(const bwt_deck *d, bw_arena *arena, striped *out)
{
    bool **flags;
    *out = (striped){.deck = NULL};
    assert_int_equal(bwt_deck_plan(d, arena, &out->deck, &out->result, &out->plan),
                     BW_OK);
    assert_int_equal(bwi_patterns(&out->plan, &flags, &out->transfer), BW_OK);
}

/* What people on it put on the rows weighs as much as they do, and at the same place. */
static void strips_balance_who_stands_on_them(void **state)
{
    bwt_deck d = overhanging();
    d.n_rows = 4;
    d.across[0] = -0.811;
    d.across[1] = -0.357;
    d.across[2] = 0.219;
    d.across[3] = 0.653;
    d.width = 2.713;
    striped s;
    prepare(&d, *state, &s);
    assert_int_equal(s.transfer.n_strips, BWI_STRIPS); /* no two alike */
    const double edge = d.width / 2.0;
    const double left[BWI_STRIPS] = {edge, -0.811, -edge, -0.811, -0.4055, -edge,
                                     0.0,  -edge,  -edge, 0.3265, -edge,   0.653};
    const double right[BWI_STRIPS] = {edge, edge, 0.653,   0.653, edge,   0.3265,
                                      edge, 0.0,  -0.4055, edge,  -0.811, edge};
    for (int k = 0; k < BWI_STRIPS; k++) {
        double force = 0.0, moment = 0.0;
        for (int r = 0; r < 4; r++) {
            const double width = bwi_strip_on_row(&s.plan, (bwi_strip)k, r, 0);
            force += width;
            moment += width * d.across[r];
        }
        const double width = left[k] + edge + edge - right[k];
        const double turn =
            (left[k] * left[k] - right[k] * right[k]) / 2.0; /* of edge^2 both ways */
        assert_true(fabs(force - width) < 1e-14);
        assert_true(fabs(moment - turn) < 1e-14);
        assert_true(fabs(bwi_strip_part(&s.plan, (bwi_strip)k, 1) - width / d.width) <
                    1e-14);
    }
}

static void strips_that_are_the_same_are_tried_once(void **state)
{
    bwt_deck d = overhanging();
    striped s;
    prepare(&d, *state, &s);
    assert_int_equal(s.transfer.n_strips, BWI_STRIPS - 1); /* not both overhangs */
    d.width = gap;
    prepare(&d, *state, &s);
    assert_int_equal(s.transfer.n_strips, 1 + 6); /* no overhangs, and not without */
    d.crowd = 0.0;
    d.rider = 113.7;
    prepare(&d, *state, &s);
    assert_int_equal(s.transfer.n_strips, 1);
    d = overhanging();
    d.n_rows = 1;
    d.across[0] = 0.0;
    prepare(&d, *state, &s);
    assert_int_equal(s.transfer.n_strips, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(people_on_an_overhang_draw_up_the_far_post),
        WITH_ARENA(nobody_lifts_a_row_over_which_no_board_goes_on),
        WITH_ARENA(of_three_rows_the_middle_one_is_lifted_from_both_sides),
        WITH_ARENA(who_sways_turns_a_sill_over_from_further_in),
        WITH_ARENA(stringers_that_run_on_are_lifted_as_they_lie),
        WITH_ARENA(fasteners_hold_what_people_and_riders_lift),
        WITH_ARENA(the_far_row_is_told_what_people_lift_it_with),
        WITH_ARENA(strips_balance_who_stands_on_them),
        WITH_ARENA(strips_that_are_the_same_are_tried_once),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
