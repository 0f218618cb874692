/* A deck on one row: what stands beside it turns posts and sills, by hand. */
#include "../base/arena_fixture.h"
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

/* One bay on two posts in holes, in the middle, too stout to bend; nothing pushes. */
static bwt_deck on_a_row(void)
{
    bwt_deck d = bwt_deck_plain();
    d.n_rows = 1;
    d.n_bents = 2;
    d.across[0] = 0.0;
    d.width = 0.937;
    d.no_cap = true;
    d.stringer.length = 2.713 + 0.4; /* over all of its seats */
    d.post.butt = d.post.tip = 0.331;
    d.soil = "gravel";
    d.hole_depth = 1.137;
    return d;
}

/* Bending of a stout post on soft ground is a small difference of large numbers. */
static void assert_near(double found, double wanted)
{
    if (!(bwt_relative(found, wanted) < 1e-7)) {
        fail_msg("%.12g instead of %.12g", found, wanted);
    }
}

static double term(const bwt_deck *d, bw_arena *arena, const char *role, const char *name,
                   bw_check_kind kind, const char *symbol)
{
    bw_assessment *a = BW_NEW(arena, bw_assessment, 1);
    assert_int_equal(bwt_deck_assess(d, arena, a, NULL), BW_OK);
    const bw_finding *f = bwt_finding(a, role, name, kind);
    assert_non_null(f);
    return bwt_term(f, symbol);
}

static double moment_at_ground(const bwt_deck *d, bw_arena *arena)
{
    return term(d, arena, "post", "b0 r0", BW_CHECK_SOIL_LATERAL, "M");
}

static void a_rider_at_the_edge_turns_the_post(void **state)
{
    const bwt_deck d = on_a_row();
    const double P = d.factor * d.rider * bw_gravity;
    assert_near(moment_at_ground(&d, *state), P * d.width / 2.0);
}

/* M = V h + P y: who brakes towards the edge does so with the weight. */
static void a_push_turns_it_the_same_way(void **state)
{
    bwt_deck d = on_a_row();
    d.push = 0.371;
    const double W = d.rider * bw_gravity, V = d.push * W;
    assert_near(term(&d, *state, "post", "b0 r0", BW_CHECK_SOIL_LATERAL, "V"), V);
    assert_near(moment_at_ground(&d, *state),
                V * d.height[0] + d.factor * W * d.width / 2.0);
}

/* q a^2 / 2 of half a bay, with a from the row to the edge: the side that is empty does
 * not hold the other one. */
static void people_on_one_side_turn_it(void **state)
{
    bwt_deck d = on_a_row();
    d.rider = 0.0;
    d.crowd = 1931.0;
    const double length = (d.at[1] - d.at[0]) / 2.0;
    assert_near(moment_at_ground(&d, *state), d.crowd * length * d.width * d.width / 8.0);
    d.board_pressure = 20.0; /* little but the people, and a thin log */
    d.stringer.butt = d.stringer.tip = 0.151;
    d.across[0] = 0.123; /* boards reach further on the left */
    const double a = d.width / 2.0 + 0.123, M = d.crowd * length * a * a / 2.0;
    const double found = moment_at_ground(&d, *state);
    assert_true(found > M && found < 1.1 * M); /* the log is counted beside it too */
}

/* D y, and the rider at the further edge: 0.043 m more. */
static void what_stays_turns_it_beside_the_middle(void **state)
{
    bwt_deck d = on_a_row();
    const double middle = moment_at_ground(&d, *state);
    d.across[0] = 0.043;
    const double beside = moment_at_ground(&d, *state);
    const double P = d.factor * d.rider * bw_gravity;
    assert_true(beside > middle + P * 0.043);
    const double more = 217.0;
    d.board_pressure += more;
    const double weight = more * d.width * (d.at[1] - d.at[0]) / 2.0;
    assert_near(moment_at_ground(&d, *state) - beside, weight * 0.043);
    d.across[0] = -0.043; /* the other way round */
    assert_near(moment_at_ground(&d, *state) - beside, weight * 0.043);
}

/* Over the middle one of three bents with what it puts on it: nearly all. */
static void stringers_that_run_on_turn_it_too(void **state)
{
    bwt_deck d = on_a_row();
    d.n_bents = 3;
    d.run[0] = 2;
    d.stringer.length = 0.0;
    const double P = d.factor * d.rider * bw_gravity;
    const double M = term(&d, *state, "post", "b1 r0", BW_CHECK_SOIL_LATERAL, "M");
    assert_true(fabs(M / (P * d.width / 2.0) - 1.0) < 0.01);
}

/* e = (P w / 2) / N on a sill, as of a rider; and of people on half of it. */
static void a_sill_is_pressed_beside_its_middle(void **state)
{
    bwt_deck d = on_a_row();
    d.no_cap = false;
    d.sill[0] = d.sill[1] = true;
    const double P = d.factor * d.rider * bw_gravity;
    double N = term(&d, *state, "sill", "b0", BW_CHECK_SOIL_BEARING, "N");
    assert_near(term(&d, *state, "sill", "b0", BW_CHECK_SOIL_BEARING, "e"),
                P * d.width / 2.0 / N);
    d.rider = 0.0;
    d.crowd = 1931.0;
    d.width = 2.171; /* a half of it presses more than all */
    const double half = d.crowd * d.width / 2.0 * (d.at[1] - d.at[0]) / 2.0;
    N = term(&d, *state, "sill", "b0", BW_CHECK_SOIL_BEARING, "N");
    assert_near(term(&d, *state, "sill", "b0", BW_CHECK_SOIL_BEARING, "e"),
                half * d.width / 4.0 / N);
}

/* What has to hold it, in words: posts count as if it were held. */
static void the_moment_is_told(void **state)
{
    const bwt_deck d = on_a_row();
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
    const char *said = bwt_to_do(&a, "hold boards on the stringer");
    assert_non_null(said);
    assert_non_null(strstr(said, "1.515 kN")); /* 2.9 * 113.7 * 9.80665 * 0.4685 */
}

/* There is nothing to brace it against across the deck. */
static void what_helps_is_another_row(void **state)
{
    bwt_deck d = on_a_row();
    d.hole_depth = 0.41;
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
    const bw_finding *f = bwt_finding(&a, "post", "b0 r0", BW_CHECK_SOIL_LATERAL);
    assert_int_equal(f->verdict, BW_OVER);
    assert_non_null(strstr(f->note, "a second row of posts"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_rider_at_the_edge_turns_the_post),
        WITH_ARENA(a_push_turns_it_the_same_way),
        WITH_ARENA(people_on_one_side_turn_it),
        WITH_ARENA(what_stays_turns_it_beside_the_middle),
        WITH_ARENA(stringers_that_run_on_turn_it_too),
        WITH_ARENA(a_sill_is_pressed_beside_its_middle),
        WITH_ARENA(the_moment_is_told),
        WITH_ARENA(what_helps_is_another_row),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
