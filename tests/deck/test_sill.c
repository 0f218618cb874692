/* Sills that are pressed at one end, by hand. */
#include "../base/arena_fixture.h"
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

/* One bay on two sills that end 0.685 m beyond the rows; nothing pushes. */
static bwt_deck on_sills(void)
{
    bwt_deck d = bwt_deck_plain();
    d.n_bents = 2;
    d.sill[0] = d.sill[1] = true;
    d.height[0] = d.height[1] = 0.55;
    d.width = 2.471;
    d.cap.butt = d.cap.tip = 0.2293;
    return d;
}

static const double length = 0.874 + 1.37, edge = 2.471 / 2.0;

static const bw_finding *of_sill(const bwt_deck *d, bw_check_kind kind, bw_arena *arena)
{
    bw_assessment *a = BW_NEW(arena, bw_assessment, 1);
    assert_int_equal(bwt_deck_assess(d, arena, a, NULL), BW_OK);
    return bwt_finding(a, "sill", "b0", kind);
}

static void assert_near(double found, double wanted)
{
    if (!(bwt_relative(found, wanted) < 1e-9)) {
        fail_msg("%.12g instead of %.12g", found, wanted);
    }
}

/* What lies on it does so evenly, the wheel at the edge: e = P y / N, and (Meyerhof,
 * 1953, MEMORY) only L - 2 e of it presses. */
static void a_wheel_at_the_edge_presses_one_end(void **state)
{
    const bwt_deck d = on_sills();
    const double P = d.factor * d.rider * bw_gravity;
    const bw_finding *f = of_sill(&d, BW_CHECK_SOIL_BEARING, *state);
    assert_non_null(f);
    const double N = bwt_term(f, "N"), e = P * edge / N;
    assert_true(N > P);
    assert_near(bwt_term(f, "L"), length);
    assert_near(bwt_term(f, "A_0"), length * 0.2293 / 2.0);
    assert_near(bwt_term(f, "e"), e);
    assert_near(bwt_term(f, "q"), N / ((length - 2.0 * e) * 0.2293 / 2.0));
}

/* Beyond its end the wheel turns the deck over it, and half of what stays holds. */
static void a_wheel_beyond_the_end_draws_the_other_one_up(void **state)
{
    bwt_deck d = on_sills();
    const double P = d.factor * d.rider * bw_gravity;
    const bw_finding *press = of_sill(&d, BW_CHECK_SOIL_BEARING, *state);
    const bw_finding *up = of_sill(&d, BW_CHECK_UPLIFT, *state);
    assert_non_null(up);
    const double dead = bwt_term(press, "N") - P;
    assert_near(bwt_term(up, "T"), P * (edge - length / 2.0) / length);
    assert_near(bwt_term(up, "D"), dead / 2.0);
    assert_near(up->ratio.utilisation, bwt_term(up, "T") / (0.6 * dead / 2.0));
    d.width = 2.243; /* over the end */
    assert_null(of_sill(&d, BW_CHECK_UPLIFT, *state));
}

/* A push at the height of the deck does too, and the more the less weight goes with it.
 */
static void braking_turns_it_over_with_the_weight_of_the_rider_alone(void **state)
{
    bwt_deck d = on_sills();
    d.width = 1.103;
    d.push = 0.731;
    assert_null(of_sill(&d, BW_CHECK_UPLIFT, *state));
    d.push = 1.537;
    const double W = d.rider * bw_gravity, inside = length / 2.0 - d.width / 2.0;
    const double T = W * (d.push * d.height[0] - inside) / length;
    assert_true(T > 0.0);
    assert_near(bwt_term(of_sill(&d, BW_CHECK_UPLIFT, *state), "T"), T);
}

/* What moves leans with the posts as what stays does: n m g lean h more, and its share of
 * the rows. */
static void what_moves_leans_too(void **state)
{
    bwt_deck d = on_sills();
    const double P = d.factor * d.rider * bw_gravity;
    const bw_finding *f = of_sill(&d, BW_CHECK_SOIL_BEARING, *state);
    const double N = bwt_term(f, "N"), turn = N * bwt_term(f, "e");
    d.lean = 0.031;
    const bw_finding *leans = of_sill(&d, BW_CHECK_SOIL_BEARING, *state);
    const double more = N * bwt_term(leans, "e") - turn;
    assert_true(more > d.lean * P * d.height[0]);
    assert_true(more < d.lean * N * d.height[0]);
}

/* Three thicknesses beyond its rows, and on either side of a row: a thin one bends. */
static void a_thin_sill_presses_no_further_than_it_is_stiff(void **state)
{
    bwt_deck d = on_sills();
    d.width = 0.893;
    d.cap.butt = d.cap.tip = 0.131;
    const bw_finding *f = of_sill(&d, BW_CHECK_SOIL_BEARING, *state);
    assert_near(bwt_term(f, "L"), 0.874 + 6.0 * 0.131);
    assert_near(bwt_term(f, "A_0"), 12.0 * 0.131 * 0.131 / 2.0);
}

/* Over two even spans a force P at a from the middle lifts the far end by
 *
 *   P a (L - a) (2 L - a) / (4 L^3), 0.0962 P at most
 *
 * (handbook formula of the beam on three supports, MEMORY; shear takes a little off). */
static void a_wheel_in_the_next_bay_lifts_a_sill(void **state)
{
    bwt_deck d = on_sills();
    d.n_bents = 3;
    d.sill[2] = true;
    d.height[2] = d.height[0];
    d.at[2] = 2.0 * d.at[1];
    d.run[0] = d.run[1] = 2;
    d.stringer.butt = d.stringer.tip = 0.1371;
    d.width = 2.171; /* no wheel beyond the end */
    const double P = d.factor * d.rider * bw_gravity, most = 0.0962;
    const bw_finding *up = of_sill(&d, BW_CHECK_UPLIFT, *state);
    assert_non_null(up);
    const double T = most * P * (d.width / 2.0 + length / 2.0) / length;
    assert_true(bwt_relative(bwt_term(up, "T"), T) < 0.02);
    d.run[0] = d.run[1] = 1;
    assert_null(of_sill(&d, BW_CHECK_UPLIFT, *state));
}

static void of_unknown_ground_nothing_can_be_said(void **state)
{
    bwt_deck d = on_sills();
    d.width = 1.103;
    d.soil = NULL;
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
    const bw_finding *f = bwt_finding(&a, "sill", "b0", BW_CHECK_SOIL_BEARING);
    assert_non_null(f);
    assert_true(isnan(f->ratio.utilisation));
    assert_int_equal(a.verdict, BW_CANNOT_SAY);
}

/* Lags through every stringer into the sill under b0; the other bents stand on posts. */
static bw_assessment fastened_on_a_sill(const bwt_deck *d, bw_arena *arena)
{
    bw_assessment a;
    bw_joint_place joints[2];
    for (int k = 0; k < 2; k++) {
        joints[k] = (bw_joint_place){.stringer = k * (d->n_bents - 1),
                                     .bent = 0,
                                     .brace = -1,
                                     .fasteners = bwt_lags(0.113)};
        joints[k].fasteners.spacing = 0.0713; /* 5 d by Eurocode */
    }
    bw_diags diags = bw_diags_new(arena, NULL);
    const bw_case *deck = bwt_deck_joined(d, arena, joints, 2);
    assert_non_null(deck);
    assert_int_equal(bw_deck_assess(arena, deck, &a, &diags), BW_OK);
    return a;
}

/* Who corners over it pushes what lies on it aside with 0.57 W, half on each row. */
static void what_fastens_stringers_to_a_sill_holds_pushes(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.sill[0] = true;
    d.push = 0.57;
    const bw_assessment a = fastened_on_a_sill(&d, *state);
    const bw_finding *f = bwt_finding(&a, "stringer", "r1-0", BW_CHECK_JOINT);
    assert_non_null(f);
    assert_near(bwt_term(f, "R"), 0.57 * d.rider * bw_gravity / 2.0);
}

/* By Eurocode they hold 1.5 of it (EN 1990, (6.10), READ in a summary); the ground, whose
 * allowable pressures hold their own safety, bears what it bears without factors. */
static void fasteners_see_factored_pushes_and_the_ground_does_not(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.sill[0] = true;
    d.push = 0.57;
    const bw_finding *us = of_sill(&d, BW_CHECK_SOIL_BEARING, *state);
    d.basis = "eurocode";
    const bw_assessment a = fastened_on_a_sill(&d, *state);
    const bw_finding *f = bwt_finding(&a, "stringer", "r1-0", BW_CHECK_JOINT);
    const bw_finding *soil = bwt_finding(&a, "sill", "b0", BW_CHECK_SOIL_BEARING);
    assert_near(bwt_term(f, "F_v,Ed"), 1.5 * 0.57 * d.rider * bw_gravity / 2.0);
    assert_near(bwt_term(soil, "N"), bwt_term(us, "N"));
}

/* Where nothing is described to hold it, what to hold is told: half of 0.57 W for each
 * row: 0.57 113.7 9.80665 / 2 = 317.8 N. */
static void a_stringer_that_nothing_holds_on_its_sill_is_told(void **state)
{
    static const char words[] = "fasten every stringer that lies on a sill to it";
    bwt_deck d = bwt_deck_plain();
    bw_assessment a;
    d.sill[0] = true;
    d.push = 0.57;
    assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
    const char *told = bwt_to_do(&a, words);
    assert_non_null(told);
    assert_non_null(strstr(told, "of at least 317.8 N to any side"));
    a = fastened_on_a_sill(&d, *state);
    assert_null(bwt_to_do(&a, words));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_wheel_at_the_edge_presses_one_end),
        WITH_ARENA(a_wheel_beyond_the_end_draws_the_other_one_up),
        WITH_ARENA(braking_turns_it_over_with_the_weight_of_the_rider_alone),
        WITH_ARENA(what_moves_leans_too),
        WITH_ARENA(a_thin_sill_presses_no_further_than_it_is_stiff),
        WITH_ARENA(a_wheel_in_the_next_bay_lifts_a_sill),
        WITH_ARENA(of_unknown_ground_nothing_can_be_said),
        WITH_ARENA(what_fastens_stringers_to_a_sill_holds_pushes),
        WITH_ARENA(a_stringer_that_nothing_holds_on_its_sill_is_told),
        WITH_ARENA(fasteners_see_factored_pushes_and_the_ground_does_not),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
