/* Joints and seats of a deck: what reaches the fasteners, and what seats leave. */
#include "../base/arena_fixture.h"
#include "deck.h"
#include "deck/internal.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

static bw_assessment assess_with(bw_arena *arena, const bwt_deck *d,
                                 const bw_joint_place *joints, size_t n)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    bw_assessment a;
    const bw_case *deck = bwt_deck_joined(d, arena, joints, n);
    assert_non_null(deck);
    assert_int_equal(bw_deck_assess(arena, deck, &a, &diags), BW_OK);
    return a;
}

/* Without pushes, a hung end hands over exactly what it would bear with, and splits by
 * the same force; the seat is then not checked. */
static void hung_end_hands_over_its_reaction(void **state)
{
    bw_arena *arena = *state;
    bwt_deck d = bwt_deck_plain();
    d.no_cap = true;
    bw_joint_place joint = {.stringer = 0,
                            .bent = 0,
                            .brace = -1,
                            .hung = true,
                            .fasteners = bwt_lags(0.113)};
    const bw_assessment bears = assess_with(arena, &d, NULL, 0);
    const bw_assessment hangs = assess_with(arena, &d, &joint, 1);
    const bw_finding *seat = bwt_finding(&bears, "stringer", "r0-0", BW_CHECK_BEARING);
    const bw_finding *f = bwt_finding(&hangs, "stringer", "r0-0", BW_CHECK_JOINT);
    const bw_finding *split = bwt_finding(&hangs, "stringer", "r0-0", BW_CHECK_SPLIT);
    assert_non_null(f);
    assert_non_null(split);
    assert_true(bwt_term(seat, "R") <= bwt_term(split, "V") * (1.0 + 1e-9));
    assert_true(bwt_relative(bwt_term(f, "R"), bwt_term(split, "V")) < 1e-4);
    assert_non_null(f->note); /* the warning in plain words */
    assert_non_null(strstr(f->note, "commonest cause of collapses"));
    /* d_e by hand: the depth at this end, less the edge below */
    const double depth = bwt_term(split, "d");
    assert_true(bwt_relative(bwt_term(split, "d_e"), depth - 0.069) < 1e-12);
    const double R = depth / 2.0, h = 0.069;
    const double cut = R * R * acos((R - h) / R) - (R - h) * sqrt(2.0 * R * h - h * h);
    assert_true(bwt_relative(bwt_term(split, "A_e"), bwt_pi * R * R - cut) < 1e-9);
}

static int told(const bw_assessment *a, const char *words)
{
    int told = 0;
    for (size_t k = 0; k < a->n_assumptions; k++) {
        told += strstr(a->assumptions[k].text, words) != NULL;
    }
    return told;
}

static int told_to_do(const bw_assessment *a, const char *words)
{
    int told = 0;
    for (size_t k = 0; k < a->n_assumptions; k++) {
        const bw_assumption *line = &a->assumptions[k];
        told += line->to_do && strstr(line->text, words) != NULL;
    }
    return told;
}

/* No check counts what pushes it across the deck, and beside a cap its post is longer:
 * that stands below the verdict. */
static void that_an_end_hangs_is_told_below_the_verdict(void **state)
{
    bw_arena *arena = *state;
    for (int hung = 0; hung < 3; hung++) { /* not, on a post, on a cap */
        bwt_deck d = bwt_deck_plain();
        d.no_cap = hung < 2;
        bw_joint_place joint = {.stringer = 0,
                                .bent = 0,
                                .brace = -1,
                                .hung = hung > 0,
                                .into_cap = hung == 2,
                                .fasteners = bwt_lags(0.113)};
        const bw_assessment a = assess_with(arena, &d, &joint, 1);
        assert_int_equal(told_to_do(&a, "pushes hung ends across"), hung > 0);
        assert_int_equal(told_to_do(&a, "hang on caps: there posts are"), hung == 2);
    }
}

/* The end that hangs bends its post by half of both logs' thickness. */
static void hung_end_bends_its_post(void **state)
{
    bw_arena *arena = *state;
    bwt_deck d = bwt_deck_plain();
    d.no_cap = true;
    bw_joint_place joint = {.stringer = 0,
                            .bent = 0,
                            .brace = -1,
                            .hung = true,
                            .fasteners = bwt_lags(0.113)};
    const bw_assessment a = assess_with(arena, &d, &joint, 1);
    const bw_assessment without = assess_with(arena, &d, NULL, 0);
    const bw_finding *post = bwt_finding(&a, "post", "b0 r0", BW_CHECK_COMBINED);
    const bw_finding *plain = bwt_finding(&without, "post", "b0 r0", BW_CHECK_COMBINED);
    const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_JOINT);
    const double arm = (bwt_term(f, "l_s") + 0.2) / 2.0; /* about */
    assert_true(bwt_term(post, "M") > 0.9 * bwt_term(f, "R") * arm);
    assert_true(post->ratio.utilisation > plain->ratio.utilisation);
}

/* Too stout to bend. */
static bwt_deck on_stout_posts(void)
{
    bwt_deck d = bwt_deck_plain();
    d.soil = "gravel";
    d.hole_depth = 1.137;
    d.post.butt = d.post.tip = 0.331;
    return d;
}

/* And turns it in its hole: M = R a at the ground, with a push at the deck on top of it.
 */
static void hung_end_turns_its_post_in_the_ground(void **state)
{
    bw_arena *arena = *state;
    bwt_deck d = on_stout_posts();
    d.no_cap = true;
    bw_joint_place joint = {.stringer = 0,
                            .bent = 0,
                            .brace = -1,
                            .hung = true,
                            .fasteners = bwt_lags(0.113)};
    const bw_assessment a = assess_with(arena, &d, &joint, 1);
    const bw_finding *hole = bwt_finding(&a, "post", "b0 r0", BW_CHECK_SOIL_LATERAL);
    const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_JOINT);
    const double M = bwt_term(f, "R") * (d.stringer.butt + d.post.tip) / 2.0;
    assert_non_null(hole);
    assert_true(bwt_relative(bwt_term(hole, "M"), M) < 1e-6);
    d.push = 0.413;
    const bw_assessment b = assess_with(arena, &d, &joint, 1);
    const bw_finding *pushed = bwt_finding(&b, "post", "b0 r0", BW_CHECK_SOIL_LATERAL);
    const double axis = d.height[0] - 0.0381 - d.stringer.butt / 2.0;
    const double more = bwt_term(pushed, "V") * axis;
    assert_true(bwt_relative(bwt_term(pushed, "M") - M, more) < 1e-3);
}

/* At the face of a cap, half its thickness from the post's middle: M = R D / 2. */
static void what_hangs_on_a_cap_turns_the_post(void **state)
{
    bw_arena *arena = *state;
    bwt_deck d = on_stout_posts();
    d.n_bents = 2;
    d.width = 0.874;
    bw_joint_place joint = {.stringer = 0,
                            .bent = 0,
                            .brace = -1,
                            .hung = true,
                            .into_cap = true,
                            .fasteners = bwt_lags(0.113)};
    const bw_assessment a = assess_with(arena, &d, &joint, 1);
    const bw_finding *hole = bwt_finding(&a, "post", "b0 r0", BW_CHECK_SOIL_LATERAL);
    const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_JOINT);
    const double M = bwt_term(f, "R") * d.cap.butt / 2.0;
    assert_true(bwt_relative(bwt_term(hole, "M"), M) < 1e-3);
}

/* Too little is known: never a silent pass. */
static void what_is_not_measured_cannot_be_said(void **state)
{
    bw_arena *arena = *state;
    bwt_deck d = bwt_deck_plain();
    d.no_cap = true;
    bw_joint_place joint = {.stringer = 0,
                            .bent = 0,
                            .brace = -1,
                            .hung = true,
                            .fasteners = bwt_lags(0.113)};
    joint.fasteners.edge = 0.0;
    joint.fasteners.length = 0.0;
    const bw_assessment a = assess_with(arena, &d, &joint, 1);
    const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_JOINT);
    const bw_finding *split = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_SPLIT);
    assert_int_equal(f->verdict, BW_CANNOT_SAY);
    assert_int_equal(split->verdict, BW_CANNOT_SAY);
    assert_non_null(strstr(f->note, "length, edge"));
    assert_true(a.verdict != BW_WITHIN);
}

/* Bearing: the fasteners only see pushes, and what lifts. */
static void bearing_ends_are_held_sideways_and_down(void **state)
{
    bw_arena *arena = *state;
    bwt_deck d = bwt_deck_plain();
    d.push = 0.57;
    d.run[0] = 2; /* a rider on one span lifts the far end of a light log */
    d.rider = 389.0;
    bw_joint_place joints[3];
    for (int k = 0; k < 3; k++) {
        joints[k] = (bw_joint_place){
            .stringer = 0, .bent = k, .brace = -1, .fasteners = bwt_lags(0.113)};
    }
    const bw_assessment a = assess_with(arena, &d, joints, 3);
    const bw_assessment without = assess_with(arena, &d, NULL, 0);
    const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_JOINT);
    const bw_finding *lift = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_LIFT);
    assert_non_null(f);
    assert_non_null(lift);
    assert_true(bwt_term(f, "R") > 0.0);
    assert_non_null(bwt_finding(&a, "stringer", "r0-0", BW_CHECK_BEARING));
    assert_null(bwt_finding(&without, "stringer", "r0-0", BW_CHECK_JOINT));
    /* T - 0.6 D, both from the frame */
    assert_true(bwt_relative(lift->ratio.demand,
                             bwt_term(lift, "T") - 0.6 * bwt_term(lift, "G")) < 1e-9 ||
                lift->ratio.demand == 0.0);
    assert_true(bwt_term(lift, "G") > 0.0 && bwt_term(lift, "T") > 0.0);
}

/* What the stringers push the bents with, along the deck, is what pushes the stringers.
 */
static void pushes_on_the_bents_add_up(void **state)
{
    bw_arena *arena = *state;
    for (int run = 1; run <= 2; run++) {
        bwt_deck d = bwt_deck_plain();
        d.run[0] = run;
        d.height[1] = 1.11;
        bw_diags diags = bw_diags_new(arena, NULL);
        const bw_assessment a = assess_with(arena, &d, NULL, 0);
        bwi_plan plan;
        bwi_row_frame row;
        assert_int_equal(bwi_plan_make(arena, a.deck, a.references, &plan, &diags),
                         BW_OK);
        assert_int_equal(bwi_row_frame_make(&plan, 0, 1, &row, &diags), BW_OK);
        const bw_part part = {BWI_CASE_PUSH_AREA, 1234.5};
        const bw_state *s = bw_frame_state(row.frame, &part, 1, arena);
        double sum = 0.0, area = 0.0;
        for (size_t bent = 0; bent < a.deck->n_bents; bent++) {
            double before, after;
            bwi_row_end_pushes(&row, bent, s, NULL, &before, &after);
            sum += before + after;
        }
        for (size_t bay = 0; bay < plan.n_bays; bay++) {
            area +=
                bwi_plan_share(&plan, 0, bay)->dead_width * (d.at[bay + 1] - d.at[bay]);
        }
        assert_true(bwt_relative(sum, 1234.5 * area) < 1e-9);
    }
}

/* All of the support under a log that runs on, half where two meet; at the end of a row
 * half, and more only as far as the log was measured to go on. */
static void seats_are_shared_and_end_with_the_log(void **state)
{
    bw_arena *arena = *state;
    bwt_deck d = bwt_deck_plain();
    d.run[0] = 2;
    for (int measured = 0; measured < 3; measured++) {
        d.stringer.length = measured == 0 ? 0.0 : measured == 1 ? 5.2 : 5.6;
        d.run[0] = measured == 0 ? 2 : 2;
        bw_diags diags = bw_diags_new(arena, NULL);
        const bw_assessment a = assess_with(arena, &d, NULL, 0);
        bwi_plan plan;
        assert_int_equal(bwi_plan_make(arena, a.deck, a.references, &plan, &diags),
                         BW_OK);
        const double on = measured == 0   ? 0.0
                          : measured == 1 ? (5.2 - 5.189) / 2.0
                                          : 0.0315; /* not more than the support */
        assert_true(bwi_seat_length(&plan, 0, 1, BWI_AFTER, 0.063) == 0.063);
        assert_true(bwi_seat_length(&plan, 1, 1, BWI_AFTER, 0.063) == 0.0315);
        assert_true(bwi_seat_length(&plan, 1, 1, BWI_BEFORE, 0.063) == 0.0315);
        assert_true(bwt_relative(bwi_seat_length(&plan, 0, 2, BWI_BEFORE, 0.063),
                                 0.0315 + on) < 1e-9);
    }
}

/* Rising by 0.31 on 2.713 m it still is as long as its support, by 1.217 m no more: h /
 * sin a, 31 mm of 51. Level it is what it was, to the last digit. */
static void seats_under_slopes_end_with_their_depth(void **state)
{
    bw_arena *arena = *state;
    static const double rise[] = {0.0, 0.31, 1.217};
    const double D = 0.217, h = 0.0127, flat = sqrt(0.221 * h - h * h); /* half of it */
    for (int k = 0; k < 3; k++) {
        bwt_deck d = bwt_deck_plain();
        d.seat = h;
        d.height[1] += rise[k];
        d.height[2] += rise[k] * 5.189 / 2.713;
        bw_diags diags = bw_diags_new(arena, NULL);
        const bw_assessment a = assess_with(arena, &d, NULL, 0);
        bwi_plan plan;
        assert_int_equal(bwi_plan_make(arena, a.deck, a.references, &plan, &diags),
                         BW_OK);
        const double sine = rise[k] / hypot(2.713, rise[k]);
        const double wanted = k < 2 ? flat : h / sine;
        const double l = bwi_level_seat(&plan, 0, 0, BWI_AFTER, 2.0 * flat);
        assert_true(k < 2 ? l == flat : bwt_relative(l, wanted) < 1e-9);
        /* D is at its butt, and nowhere more */
        const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_BEARING);
        const double most = wanted * bwi_flat_width(D, h);
        assert_true(bwt_term(f, "A_b") <= most * (1.0 + 1e-9));
        assert_true(bwt_term(f, "A_b") > 0.9 * most); /* the tip has 0.91 */
        assert_int_equal(told(&a, "is cut level"), k == 2);
    }
}

/* Segment geometry by hand: a circle of D with h cut off below, its shear by the notch
 * rule at the end; over a support that it runs over, bending of what is left. */
static void seats_are_taken_off_the_section(void **state)
{
    bw_arena *arena = *state;
    const bwt_deck d = bwt_deck_plain();
    bw_diags diags = bw_diags_new(arena, NULL);
    const bw_assessment a = assess_with(arena, &d, NULL, 0);
    bwi_plan plan;
    assert_int_equal(bwi_plan_make(arena, a.deck, a.references, &plan, &diags), BW_OK);
    const double D = 0.193, h = a.deck->limits.seat_depth, R = D / 2.0;
    const double cut = R * R * acos((R - h) / R) - (R - h) * sqrt(2.0 * R * h - h * h);
    bwi_seat_place place = {
        .whole = bw_section_round(D), .bottom = true, .at_end = true, .reach = 0.031};
    bwi_seat seat = bwi_seat_cut(&plan, 0, &place);
    const bw_check_input in = bwi_seat_input(&seat, 0.0, -1.0);
    assert_true(seat.is_cut && in.shear == 1.0 && in.reference == &plan.references[0]);
    assert_true(bwt_relative(in.section.area, bwt_pi * R * R - cut) < 1e-9);
    assert_true(bwt_relative(in.notch_left, D - h) < 1e-12 && in.notch_whole == D &&
                in.notch_reach == 0.031);
    place.at_end = false;
    seat = bwi_seat_cut(&plan, 0, &place);
    bw_check_input over = bwi_seat_input(&seat, -41.0, 0.0); /* the seat is pressed */
    assert_true(seat.is_cut && over.moment == 41.0 && over.notch_whole == 0.0);
    assert_true(over.section.modulus < bwt_pi * D * D * D / 32.0);
    place.holes = 0.0127;
    seat = bwi_seat_cut(&plan, 0, &place);
    const bw_check_input bored = bwi_seat_input(&seat, -41.0, 0.0);
    assert_true(bwt_relative(over.section.modulus - bored.section.modulus,
                             0.0127 * (D - h) * (D - h) / 6.0) < 1e-9);
    place = (bwi_seat_place){.whole = bw_section_round(D), .bottom = true};
    place.whole.flat_bottom = 0.02; /* hewn flat: no seat is cut */
    assert_false(bwi_seat_cut(&plan, 0, &place).is_cut);
    place.whole = bw_section_round(0.07); /* in tension, more than a sixth: no rule */
    seat = bwi_seat_cut(&plan, 0, &place);
    over = bwi_seat_input(&seat, 1.0, 0.0);
    assert_true(seat.is_cut && !isnan(bwi_seat_input(&seat, -1.0, 0.0).section.modulus));
    assert_true(isnan(over.section.modulus));
}

/* A deeper seat never helps shear at the support. */
static void deeper_seats_cost_shear(void **state)
{
    bw_arena *arena = *state;
    const bwt_deck d = bwt_deck_plain();
    double before = 0.0;
    for (int k = 1; k < 6; k++) {
        bw_case *deck = BW_NEW(arena, bw_case, 1);
        bw_diags diags = bw_diags_new(arena, NULL);
        bw_assessment a;
        *deck = *bwt_deck_read(&d, arena);
        deck->limits.seat_depth = 0.005 * k;
        assert_int_equal(bw_deck_assess(arena, deck, &a, &diags), BW_OK);
        const double now =
            bwt_finding(&a, "stringer", "r0-0", BW_CHECK_SHEAR)->ratio.utilisation;
        assert_true(now > before);
        before = now;
    }
}

/* ---- braces ---- */

static bw_assessment assess_braced(bw_arena *arena, bool pulls, double notch,
                                   const bw_fasteners *f)
{
    const bwt_deck d = bwt_deck_plain();
    bw_diags diags = bw_diags_new(arena, NULL);
    bw_assessment a;
    bw_case *deck = BW_NEW(arena, bw_case, 1);
    bw_brace *brace = BW_NEW(arena, bw_brace, 1);
    bw_joint_place *joints = BW_NEW(arena, bw_joint_place, 2);
    *deck = *bwt_deck_read(&d, arena);
    *brace = (bw_brace){.name = "X",
                        .log = 2,
                        .from = {.bent = 1, .row = 0, .height = 0.11},
                        .to = {.bent = 1, .row = 1, .height = 0.45},
                        .pulls = pulls};
    for (int k = 0; k < 2; k++) {
        joints[k] =
            (bw_joint_place){.stringer = -1, .brace = 0, .at_to = k == 1, .notch = notch};
        if (f != NULL) {
            joints[k].fasteners = *f;
        } else {
            joints[k].fasteners = (bw_fasteners){.count = 1, .rows = 1, .planes = 1};
        }
    }
    deck->braces = brace;
    deck->n_braces = 1;
    deck->joints = joints;
    deck->n_joints = 2;
    assert_int_equal(bw_deck_assess(arena, deck, &a, &diags), BW_OK);
    return a;
}

/* Pressed: the face of the notch, the segment that it cuts off the post over the cosine
 * of the angle; Hankinson on the post, end grain on the brace. */
static void notched_brace_bears_at_its_angle(void **state)
{
    bw_arena *arena = *state;
    const bw_assessment a = assess_braced(arena, false, 0.029, NULL);
    const bw_finding *f = bwt_finding(&a, "brace", "X", BW_CHECK_ANGLE);
    const bw_finding *end = bwt_finding(&a, "brace", "X", BW_CHECK_END_BEARING);
    assert_non_null(f);
    assert_non_null(end);
    const double run = 2.0 * 0.437, rise = 0.34, th = atan2(run, rise);
    assert_true(bwt_relative(bwt_term(f, "th"), th) < 1e-9);
    const double P = bwt_term(f, "F_c*"), Q = bwt_term(f, "F_cperp");
    const double allowed = P * Q / (P * sin(th) * sin(th) + Q * cos(th) * cos(th));
    assert_true(bwt_relative(f->ratio.capacity, allowed) < 1e-9);
    /* the post tapers from 0.236 at its butt: between 0.214 and 0.236 up there */
    double area[2];
    for (int k = 0; k < 2; k++) {
        const double R = (k == 0 ? 0.214 : 0.236) / 2.0, h = 0.029;
        area[k] =
            (R * R * acos((R - h) / R) - (R - h) * sqrt(2.0 * R * h - h * h)) / cos(th);
    }
    assert_true(bwt_term(f, "A") > area[0] && bwt_term(f, "A") < area[1]);
    /* nothing pulls: nothing is asked of fasteners that are not there */
    assert_null(bwt_finding(&a, "brace", "X", BW_CHECK_LIFT));
}

static void brace_pulls_only_on_fasteners(void **state)
{
    bw_arena *arena = *state;
    const bw_fasteners f = bwt_lags(0.113);
    const bw_assessment without = assess_braced(arena, true, 0.029, NULL);
    const bw_assessment with = assess_braced(arena, true, 0.029, &f);
    const bw_finding *nothing = bwt_finding(&without, "brace", "X", BW_CHECK_JOINT);
    const bw_finding *held = bwt_finding(&with, "brace", "X", BW_CHECK_JOINT);
    assert_non_null(nothing);
    assert_int_equal(nothing->verdict, BW_CANNOT_SAY);
    assert_non_null(strstr(nothing->note, "no fasteners"));
    assert_true(without.verdict != BW_WITHIN);
    assert_non_null(held);
    assert_true(isfinite(held->ratio.utilisation) && held->ratio.demand > 0.0);
}

/* ---- hollow logs ---- */

/* What is behind a shell holds no fastener: of either log, bearing or hung. */
static void fasteners_in_a_hollow_log_cannot_be_said(void **state)
{
    const bwt_flaws hollow = {.shell = 0.0631};
    for (int k = 0; k < 8; k++) {
        bwt_deck d = bwt_deck_plain();
        d.push = 0.31;
        d.no_cap = k % 2 == 1;
        d.basis = k / 4 == 1 ? "eurocode" : NULL;
        bwt_flaws *const other = d.no_cap ? &d.post_flaws : &d.cap_flaws;
        *(k / 2 % 2 == 0 ? &d.stringer_flaws : other) = hollow;
        bw_joint_place joint = {.stringer = 0,
                                .bent = 0,
                                .brace = -1,
                                .hung = d.no_cap,
                                .fasteners = bwt_lags(0.113)};
        joint.fasteners.spacing = 0.0713;
        const bw_assessment a = assess_with(*state, &d, &joint, 1);
        const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_JOINT);
        assert_non_null(f);
        assert_int_equal(f->verdict, BW_CANNOT_SAY);
        assert_non_null(strstr(f->note, "shell of a hollow log"));
        assert_true(a.verdict != BW_WITHIN);
    }
}

/* A seat 31 mm deep in a shell of 30.9 mm: of a stringer, and of the cap under it; one
 * of 31.1 mm bears as ever. What lies on it or under it keeps its numbers. */
static void a_seat_through_a_shell_cannot_be_said(void **state)
{
    for (int k = 0; k < 4; k++) {
        bwt_deck d = bwt_deck_plain();
        d.seat = 0.031;
        const bool through = k % 2 == 0;
        const double shell = through ? 0.0309 : 0.0311;
        *(k / 2 == 0 ? &d.stringer_flaws : &d.cap_flaws) = (bwt_flaws){.shell = shell};
        const bw_assessment a = assess_with(*state, &d, NULL, 0);
        const bw_finding *f[] = {
            bwt_finding(&a, "stringer", "r0-0", BW_CHECK_BEARING),
            bwt_finding(&a, "cap", "b0", BW_CHECK_BEARING),
            k / 2 == 0 ? bwt_finding(&a, "stringer", "r0-0", BW_CHECK_SHEAR)
                       : bwt_finding(&a, "post", "b0 r0", BW_CHECK_END_BEARING)};
        for (int i = 0; i < 3; i++) {
            assert_non_null(f[i]);
            assert_int_equal(f[i]->verdict == BW_CANNOT_SAY, through);
            assert_true(!through || strstr(f[i]->note, "goes through it") != NULL);
        }
        const bw_finding *post = bwt_finding(&a, "post", "b0 r0", BW_CHECK_COMBINED);
        assert_true(isfinite(post->ratio.utilisation));
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(hung_end_hands_over_its_reaction),
        WITH_ARENA(that_an_end_hangs_is_told_below_the_verdict),
        WITH_ARENA(hung_end_bends_its_post),
        WITH_ARENA(hung_end_turns_its_post_in_the_ground),
        WITH_ARENA(what_hangs_on_a_cap_turns_the_post),
        WITH_ARENA(what_is_not_measured_cannot_be_said),
        WITH_ARENA(bearing_ends_are_held_sideways_and_down),
        WITH_ARENA(pushes_on_the_bents_add_up),
        WITH_ARENA(seats_are_shared_and_end_with_the_log),
        WITH_ARENA(seats_under_slopes_end_with_their_depth),
        WITH_ARENA(seats_are_taken_off_the_section),
        WITH_ARENA(deeper_seats_cost_shear),
        WITH_ARENA(notched_brace_bears_at_its_angle),
        WITH_ARENA(brace_pulls_only_on_fasteners),
        WITH_ARENA(fasteners_in_a_hollow_log_cannot_be_said),
        WITH_ARENA(a_seat_through_a_shell_cannot_be_said),
    };
    return cmocka_run_group_tests_name("joints", tests, NULL, NULL);
}
