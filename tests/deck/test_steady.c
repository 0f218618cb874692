/* Is it steady: posts in two-foot holes with and without braces, against hand
 * calculations; poles that buckle although nothing is stressed. */
#include "bolewright/input.h"
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static const double inch = 0.0254, foot = 0.3048;
static const double psf =
    47.880258980336; /* 1 lbf/ft2, from the pound and 9.80665 m/s2 */

static bw_assessment assess(bw_arena *arena, const bw_case *deck)
{
    bw_assessment a;
    bw_diags d = bw_diags_new(arena, NULL);
    assert_int_equal(bw_deck_assess(arena, deck, &a, &d), BW_OK);
    return a;
}

/* IBC 1807.3.2.1 (READ), from its own form: least d with d >= A/2 (1 + sqrt(1 + 4.36
 * h/A)), A = 2.34 P/(S1 b), S1 at d/3; found by stepping, not by the program's route. */
static double depth_by_stepping(double P, double h, double b, double lateral)
{
    for (double d = 0.05; d < 3.6; d += 1e-5) {
        const double A = 2.34 * P / (lateral * d / 3.0 * b);
        if (d >= A / 2.0 * (1.0 + sqrt(1.0 + 4.36 * h / A))) {
            return d;
        }
    }
    return HUGE_VAL;
}

/* By hand, without lean: the people of half a bay on each side push with 12 psf of plan;
 * the two posts of the middle bent share it as cantilevers hinged to the cap, so at the
 * ground each has half the push, and that times the height of the cap's axis. */
static void two_foot_holes_are_not_steady(bw_arena *arena)
{
    bw_case deck;
    assert_int_equal(bwt_case_read("birch-hop-unbraced.json", arena, &deck), BW_OK);
    deck.loads.lean = 0.0;
    const bw_assessment a = assess(arena, &deck);
    const bw_finding *f = bwt_finding(&a, "post", "B left", BW_CHECK_SOIL_LATERAL);
    assert_non_null(f);

    const double area = 3.0 * foot * (5.0 * foot + 2.0 * inch);
    const double V = 12.0 * psf * area / 2.0;
    /* the two posts are not quite alike: the cap tapers */
    assert_true(fabs(bwt_term(f, "V") / V - 1.0) < 1e-2);
    /* 38 in, less boards 1 1/2 in, stringer 24/pi in (L1 and L2 meet butt and tip: the
     * thicker one counts: tip 22/pi and butt ends lie at A and C), and half the cap at 16
     * in left */
    const double stringer = 22.0 / 3.14159265358979 * inch;
    const double cap = 26.0 / 3.14159265358979 * inch; /* its butt lies left */
    const double height = 38.0 * inch - 1.5 * inch - stringer - cap / 2.0;
    assert_true(fabs(bwt_term(f, "M") / (V * height) - 1.0) < 1e-2);

    const double lateral = 2.0 * 200.0 * psf / foot; /* gravel, 1/2 in accepted */
    const double b = bwt_term(f, "b");
    const double needed = depth_by_stepping(V, height, b, lateral);
    assert_true(needed > 2.0 * foot); /* so it is not steady */
    assert_int_equal(f->verdict, BW_OVER);
    assert_true(fabs(bwt_term(f, "d_0") / needed - 1.0) < 5e-3);
    assert_non_null(strstr(f->note, "not steady"));
    assert_non_null(strstr(f->note, "a hole 2 ft"));
}

/* By hand: the braced part of the posts cannot turn, so the stiff, short buried parts are
 * shoved along without turning. In soil whose stiffness grows with depth the resultant of
 * a uniform shift lies at two thirds of the depth (centroid of a triangle), so at the
 * ground line the moment is half the push times 2 d/3, against the push: taken as working
 * with it. */
static void crossed_braces_make_it_steady(bw_arena *arena)
{
    bw_case deck;
    assert_int_equal(bwt_case_read("birch-hop-braced.json", arena, &deck), BW_OK);
    deck.loads.lean = 0.0;
    const bw_assessment a = assess(arena, &deck);
    const bw_finding *left = bwt_finding(&a, "post", "B left", BW_CHECK_SOIL_LATERAL);
    const bw_finding *right = bwt_finding(&a, "post", "B right", BW_CHECK_SOIL_LATERAL);
    assert_int_equal(left->verdict, BW_WITHIN);
    assert_int_equal(right->verdict, BW_WITHIN);
    assert_int_equal(a.verdict, BW_WITHIN);

    const double area = 3.0 * foot * (5.0 * foot + 2.0 * inch);
    const double half = 12.0 * psf * area / 2.0;
    assert_true(bwt_term(left, "V") >
                0.95 * half); /* statics: no brace takes it to the ground */
    const double arm = bwt_term(left, "M") / bwt_term(left, "V");
    assert_true(fabs(arm / (2.0 * foot * 2.0 / 3.0) - 1.0) < 0.05); /* 16 in, not 27 in */
}

/* Euler by hand for a pole held in the ground and free to sway, with the stiffness for
 * stability: pi^2 E_min I / (2 L)^2 is less than what it carries, while the stresses are
 * small. */
static void thin_poles_buckle_at_low_stress(bw_arena *arena)
{
    bw_case deck;
    assert_int_equal(bwt_case_read("osier-stilts.json", arena, &deck), BW_OK);
    const bw_assessment a = assess(arena, &deck);
    const bw_finding *buckling = bwt_finding(&a, "post", "1 south", BW_CHECK_BUCKLING);
    const bw_finding *shear = bwt_finding(&a, "post", "1 south", BW_CHECK_SHEAR);
    const bw_finding *combined = bwt_finding(&a, "post", "1 south", BW_CHECK_COMBINED);
    assert_int_equal(buckling->verdict, BW_OVER);
    assert_true(shear->ratio.utilisation < 0.05);
    assert_true(bwt_term(combined, "f_b") < 0.25 * bwt_term(combined, "F_b'"));
    assert_true(bwt_term(combined, "f_c") < 0.25 * bwt_term(combined, "F_c*"));

    const double pi = 3.14159265358979, E_min = bwt_term(combined, "E_min");
    const double L = 3.6, thick = 0.092, thin = 0.080; /* [m] cap's axis; butt, tip */
    const double N = bwt_term(combined, "N");
    const double least = pi * pi * E_min * pi * pow(thin, 4.0) / 64.0 / (4.0 * L * L) / N;
    const double most = pi * pi * E_min * pi * pow(thick, 4.0) / 64.0 / (4.0 * L * L) / N;
    const double factor = 1.0 / buckling->ratio.utilisation;
    assert_true(factor > 0.95 * least && factor < 1.15 * most);
    assert_true(factor < 1.0);
}

/* A crossed pair that can only push works one way at a time, and costs nothing the other
 * way. */
static void braces_that_only_push_still_work(bw_arena *arena)
{
    bw_case deck;
    assert_int_equal(bwt_case_read("birch-hop-braced.json", arena, &deck), BW_OK);
    bw_brace *braces = BW_NEW(arena, bw_brace, deck.n_braces);
    for (size_t k = 0; k < deck.n_braces; k++) {
        braces[k] = deck.braces[k];
        braces[k].pulls = false;
    }
    const bw_assessment both = assess(arena, &deck);
    deck.braces = braces;
    const bw_assessment a = assess(arena, &deck);
    const bw_finding *pushed =
        bwt_finding(&a, "brace", "across B 1", BW_CHECK_COMPRESSION);
    const bw_finding *shared =
        bwt_finding(&both, "brace", "across B 1", BW_CHECK_COMPRESSION);
    assert_true(pushed->ratio.demand > 1.5 * shared->ratio.demand);
}

/* A bolt just below the top of its post has next to no wood beyond it, whatever end
 * distance the case tells. */
static void bolt_near_the_top_of_a_post(bw_arena *arena)
{
    bw_case deck;
    assert_int_equal(bwt_case_read("birch-hop-braced.json", arena, &deck), BW_OK);
    bw_brace *braces = BW_NEW(arena, bw_brace, deck.n_braces);
    for (size_t k = 0; k < deck.n_braces; k++) {
        braces[k] = deck.braces[k];
        bw_brace_end *high =
            braces[k].from.height > braces[k].to.height ? &braces[k].from : &braces[k].to;
        high->height = 20.0 * inch;
    }
    const bw_assessment told = assess(arena, &deck);
    deck.braces = braces;
    const bw_assessment near_top = assess(arena, &deck);
    const bw_finding *whole = bwt_finding(&told, "brace", "across B 2", BW_CHECK_JOINT);
    const bw_finding *cut = bwt_finding(&near_top, "brace", "across B 2", BW_CHECK_JOINT);
    assert_int_equal(whole->verdict, BW_WITHIN);
    assert_int_equal(cut->verdict, BW_OVER);
}

#define WITH_ARENA(name)                                                                 \
    static void name##_test(void **state)                                                \
    {                                                                                    \
        (void)state;                                                                     \
        bw_arena *arena = bw_arena_new();                                                \
        name(arena);                                                                     \
        bw_arena_free(arena);                                                            \
    }
WITH_ARENA(two_foot_holes_are_not_steady)
WITH_ARENA(crossed_braces_make_it_steady)
WITH_ARENA(bolt_near_the_top_of_a_post)
WITH_ARENA(thin_poles_buckle_at_low_stress)
WITH_ARENA(braces_that_only_push_still_work)

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_foot_holes_are_not_steady_test),
        cmocka_unit_test(crossed_braces_make_it_steady_test),
        cmocka_unit_test(bolt_near_the_top_of_a_post_test),
        cmocka_unit_test(thin_poles_buckle_at_low_stress_test),
        cmocka_unit_test(braces_that_only_push_still_work_test),
    };
    return cmocka_run_group_tests_name("steady", tests, NULL, NULL);
}
