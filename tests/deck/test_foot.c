/* The buried part of a post against beams on springs that have closed forms. */
#include "../base/arena_fixture.h"
#include "planned.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

typedef struct {
    const bw_case *deck;
    bw_assessment result;
    bwi_plan plan;
    bwi_foot foot;
    double flex_xx, flex_xr, flex_rr; /* motion at the ground per force, per moment */
} buried;

static void bury(const bwt_deck *d, bw_arena *arena, buried *out)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    assert_int_equal(bwt_deck_plan(d, arena, &out->deck, &out->result, &out->plan),
                     BW_OK);
    assert_int_equal(
        bwi_foot_make(&out->plan, 1, &out->deck->bents[1].posts[0], &out->foot, &diags),
        BW_OK);
    const bwi_foot *f = &out->foot;
    const double det = f->k_xx * f->k_rr - f->k_xr * f->k_xr;
    out->flex_xx = f->k_rr / det;
    out->flex_xr = -f->k_xr / det;
    out->flex_rr = f->k_xx / det;
}

static double apart(double found, double wanted)
{
    return fabs(fabs(found) / wanted - 1.0);
}

/* A post as stiff as a stone, 0.6 m deep and 0.6 m thick: in clay (k even, statics of a
 * rigid bar on springs, COMPUTED) 4/kL, 6/kL^2, 12/kL^3; in sand (k = n z) 18/nL^2,
 * 24/nL^3, 36/nL^4. What is left is bending of the post and the 24 pieces. */
static void a_stocky_post_turns_as_a_rigid_bar(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.hole_depth = 0.6;
    d.post.butt = d.post.tip = 0.6;
    d.soil = "clay";
    buried b;
    bury(&d, *state, &b);
    const double L = 0.6, k = bw_soil_find(BW_SOIL_CLAY).modulus.value;
    const double n = bw_soil_find(BW_SOIL_SAND).modulus_growth.value;
    assert_true(apart(b.flex_xx, 4.0 / (k * L)) < 0.01);
    assert_true(apart(b.flex_xr, 6.0 / (k * L * L)) < 0.01);
    assert_true(apart(b.flex_rr, 12.0 / (k * L * L * L)) < 0.01);
    d.soil = "sand";
    bury(&d, *state, &b);
    assert_true(apart(b.flex_xx, 18.0 / (n * L * L)) < 0.01);
    assert_true(apart(b.flex_xr, 24.0 / (n * L * L * L)) < 0.01);
    assert_true(apart(b.flex_rr, 36.0 / (n * L * L * L * L)) < 0.01);
}

/* A thin post deep in clay: the half-endless beam on springs (Hetenyi, Beams on Elastic
 * Foundation, 1946, MEMORY): 2 b/k, 2 b^2/k, 4 b^3/k with b^4 = k / 4EI, and the moment
 * below a push M(z) = (V / b) e^(-bz) sin bz. Springs gathered at
 * the ends of pieces h long put the reaction off by up to h/4 of the top piece, which is
 * (b h)^2 of the answer; that is the allowance. */
typedef struct {
    buried b;
    double k, beta, depth, allowance;
} slender;

static void bury_slender(bw_arena *arena, slender *out)
{
    bwt_deck d = bwt_deck_plain();
    out->depth = d.hole_depth = 2.3;
    d.post.butt = d.post.tip = 0.09;
    d.soil = "clay";
    bury(&d, arena, &out->b);
    const double E = out->b.result.references[2].value[BW_MODULUS];
    const double I = 3.14159265358979 * pow(0.09, 4.0) / 64.0;
    out->k = bw_soil_find(BW_SOIL_CLAY).modulus.value;
    out->beta = pow(out->k / (4.0 * E * I), 0.25);
    out->allowance = pow(out->beta * out->depth / BWI_FOOT_PIECES, 2.0);
    assert_true(out->allowance < 0.05 &&
                out->beta * out->depth > 4.0); /* far enough from the other end */
}

static void a_slender_post_bends_as_an_endless_beam(void **state)
{
    slender s;
    bury_slender(*state, &s);
    assert_true(apart(s.b.flex_xx, 2.0 * s.beta / s.k) < s.allowance);
    assert_true(apart(s.b.flex_xr, 2.0 * s.beta * s.beta / s.k) < s.allowance);
    assert_true(apart(s.b.flex_rr, 4.0 * s.beta * s.beta * s.beta / s.k) < s.allowance);
}

static void the_moment_below_ground_is_that_of_the_endless_beam(void **state)
{
    slender s;
    bury_slender(*state, &s);
    const double push = 217.0;
    for (int k = 0; k <= BWI_FOOT_PIECES; k++) {
        const double z = s.beta * s.depth * k / BWI_FOOT_PIECES;
        const double wanted = push / s.beta * exp(-z) * sin(z);
        const double found = bwi_foot_moment(&s.b.foot, push, 0.0, k);
        assert_true(fabs(fabs(found) - fabs(wanted)) < s.allowance * push / s.beta);
    }
}

/* At the ground line it is the moment of the post above, at the bottom there is none. */
static void the_moment_starts_as_that_above_and_ends_at_nothing(void **state)
{
    const bwt_deck d = bwt_deck_plain();
    buried b;
    bury(&d, *state, &b);
    assert_true(fabs(bwi_foot_moment(&b.foot, 0.0, 331.7, 0) - 331.7) < 1e-9 * 331.7);
    assert_true(fabs(bwi_foot_moment(&b.foot, 127.3, 331.7, BWI_FOOT_PIECES)) <
                1e-9 * 331.7);
}

/* Pushed away along +x by the shear that leans on it: the moment grows below ground when
 * push and moment have the sense that a leaning post gives them. */
static void a_push_and_its_moment_add_below_ground(void **state)
{
    const bwt_deck d = bwt_deck_plain();
    buried b;
    bury(&d, *state, &b);
    /* a force 500 N at 0.8 m: M at the ground 400 N*m, V of the same sense */
    const int deep = BWI_FOOT_PIECES / 5;
    const double both = bwi_foot_moment(&b.foot, 500.0, 400.0, deep);
    const double against = bwi_foot_moment(&b.foot, -500.0, 400.0, deep);
    assert_true(fmax(fabs(both), fabs(against)) > 400.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_stocky_post_turns_as_a_rigid_bar),
        WITH_ARENA(a_slender_post_bends_as_an_endless_beam),
        WITH_ARENA(the_moment_below_ground_is_that_of_the_endless_beam),
        WITH_ARENA(the_moment_starts_as_that_above_and_ends_at_nothing),
        WITH_ARENA(a_push_and_its_moment_add_below_ground),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
