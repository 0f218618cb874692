/* Where everything lies, and what the boards put on the rows: against statics of boards
 * cut over every row, and against sums over thin strips. */
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
} planned;

static void make_plan(const bwt_deck *d, bw_arena *arena, planned *out)
{
    assert_int_equal(bwt_deck_plan(d, arena, &out->deck, &out->result, &out->plan),
                     BW_OK);
}

static bwt_deck three_rows(void)
{
    bwt_deck d = bwt_deck_plain();
    d.n_rows = 3;
    d.across[0] = -0.571;
    d.across[1] = 0.113;
    d.across[2] = 0.649;
    d.width = 1.713;
    return d;
}

/* Forces and moments about the centre line: what the boards give the rows weighs as much
 * as the wheel, and at the same place. */
static void shares_balance_the_wheel_anywhere(void **state)
{
    const bwt_deck d = three_rows();
    planned p;
    make_plan(&d, *state, &p);
    uint64_t random = 401;
    for (int k = 0; k < 500; k++) {
        const double across = d.width / 2.0 * bwt_uniform(&random, -1.0, 1.0);
        double force = 0.0, moment = 0.0;
        for (int r = 0; r < 3; r++) {
            const double share = bwi_plan_wheel_share(&p.plan, r, 1, across);
            force += share;
            moment += share * d.across[r];
        }
        assert_true(fabs(force - 1.0) < 1e-14);
        assert_true(fabs(moment - across) < 1e-14);
    }
}

static void a_wheel_between_two_rows_leaves_the_third_alone(void **state)
{
    const bwt_deck d = three_rows();
    planned p;
    make_plan(&d, *state, &p);
    assert_true(bwi_plan_wheel_share(&p.plan, 2, 0, -0.137) == 0.0);
    assert_true(bwi_plan_wheel_share(&p.plan, 0, 0, 0.317) == 0.0);
    /* halfway between the first two rows */
    assert_true(fabs(bwi_plan_wheel_share(&p.plan, 0, 0, -0.229) - 0.5) < 1e-14);
}

/* At the edge the outer row carries 1 + overhang / gap. */
static void an_overhanging_wheel_levers_onto_the_outer_row(void **state)
{
    const bwt_deck d = three_rows();
    planned p;
    make_plan(&d, *state, &p);
    const double left = 1.0 + (0.8565 - 0.571) / (0.571 + 0.113);
    const double right = 1.0 + (0.8565 - 0.649) / (0.649 - 0.113);
    assert_true(bwt_relative(bwi_plan_share(&p.plan, 0, 0)->rider_share, left) < 1e-12);
    assert_true(bwt_relative(bwi_plan_share(&p.plan, 2, 1)->rider_share, right) < 1e-12);
    assert_true(bwt_relative(bwi_plan_share(&p.plan, 1, 1)->rider_share, 1.0) < 1e-12);
}

/* Thin strips of board, each put on the rows by statics; for people only those that press
 * on the row. */
static void widths_are_sums_over_thin_strips(void **state)
{
    enum { STRIPS = 200000 };
    const bwt_deck d = three_rows();
    planned p;
    make_plan(&d, *state, &p);
    for (int r = 0; r < 3; r++) {
        double dead = 0.0, crowd = 0.0;
        for (int k = 0; k < STRIPS; k++) {
            const double across = d.width * ((k + 0.5) / STRIPS - 0.5);
            const bool right = across > d.across[1];
            const int i = right ? 1 : 0;
            const double t = (across - d.across[i]) / (d.across[i + 1] - d.across[i]);
            const double share = r == i ? 1.0 - t : r == i + 1 ? t : 0.0;
            dead += share * d.width / STRIPS;
            crowd += fmax(share, 0.0) * d.width / STRIPS;
        }
        const bwi_share *s = bwi_plan_share(&p.plan, r, 0);
        assert_true(bwt_relative(s->dead_width, dead) < 1e-8);
        assert_true(bwt_relative(s->crowd_width, crowd) < 1e-8);
    }
}

/* From the top down: boards, the thickest stringer, the cap, the post's end. */
static void heights_add_up_from_the_boards_down(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.stringer.tip = d.stringer.butt = 0.1937;
    planned p;
    make_plan(&d, *state, &p);
    const double under_boards = 0.93 - 0.0381;
    assert_true(bwt_relative(bwi_row_height(&p.plan, 1, 1), under_boards - 0.1937 / 2.0) <
                1e-14);
    assert_true(bwt_relative(p.plan.cap_top[1], under_boards - 0.1937) < 1e-14);
    const bwi_post_place post = bwi_plan_post(&p.plan, 1, &p.deck->bents[1].posts[0]);
    assert_true(bwt_relative(post.top, under_boards - 0.1937 - 0.221) < 1e-13);
    assert_true(post.foot_depth == d.hole_depth);
}

/* Two tips or two butts meet, or one of each: the thicker log sets the height. */
static void the_thicker_log_at_a_bent_sets_the_height(void **state)
{
    const bwt_deck d = bwt_deck_plain(); /* butts at the near bents */
    planned p;
    make_plan(&d, *state, &p);
    assert_true(bwt_relative(bwi_row_height(&p.plan, 0, 1), 0.93 - 0.0381 - 0.217 / 2.0) <
                1e-14);
    assert_true(bwt_relative(bwi_row_height(&p.plan, 0, 2), 0.93 - 0.0381 - 0.181 / 2.0) <
                1e-14);
}

static void diameters_run_straight_from_butt_to_tip(void **state)
{
    bwt_deck d = bwt_deck_plain();
    planned p;
    make_plan(&d, *state, &p);
    /* stringer 0: from bent 0, 2.713 m, butt first */
    assert_true(bwt_relative(bwi_stringer_diameter(&p.plan, 0, 0.683),
                             0.217 - 0.036 * 0.683 / 2.713) < 1e-14);
    d.butt_last = true;
    d.stringer.length = 3.1; /* the log sticks out: its taper is the log's own */
    make_plan(&d, *state, &p);
    assert_true(bwt_relative(bwi_stringer_diameter(&p.plan, 0, 0.683),
                             0.217 - 0.036 * (2.713 - 0.683) / 3.1) < 1e-14);
}

static void a_post_tapers_from_the_bottom_of_its_hole(void **state)
{
    const bwt_deck d = bwt_deck_plain();
    planned p;
    make_plan(&d, *state, &p);
    const bwi_post_place post = bwi_plan_post(&p.plan, 0, &p.deck->bents[0].posts[1]);
    const double long_one = post.top + d.hole_depth;
    assert_true(bwt_relative(bwi_post_diameter(&p.plan, &post, -d.hole_depth), 0.236) <
                1e-14);
    assert_true(bwt_relative(bwi_post_diameter(&p.plan, &post, post.top), 0.214) < 1e-14);
    assert_true(bwt_relative(bwi_post_diameter(&p.plan, &post, 0.0),
                             0.236 - 0.022 * d.hole_depth / long_one) < 1e-14);
}

static void parts_of_a_stringer_follow_each_other(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.height[1] = 1.21;
    d.run[0] = 2;
    planned p;
    make_plan(&d, *state, &p);
    const bwi_part_of_stringer *a = bwi_plan_part(&p.plan, 0, 0);
    const bwi_part_of_stringer *b = bwi_plan_part(&p.plan, 0, 1);
    assert_int_equal(a->stringer, b->stringer);
    assert_true(bwt_relative(a->length, hypot(2.713, 1.21 - 0.93)) < 1e-14);
    assert_true(a->from_first == 0.0 && b->from_first == a->length);
    assert_true(bwt_relative(p.plan.stringer_length[a->stringer], a->length + b->length) <
                1e-15);
    assert_true(bwi_plan_part(&p.plan, 1, 0)->stringer !=
                bwi_plan_part(&p.plan, 1, 1)->stringer);
}

static void a_rider_moved_over_a_bent_is_in_the_next_bay(void **state)
{
    const bwt_deck d = bwt_deck_plain();
    planned p;
    make_plan(&d, *state, &p);
    const bwi_rider_place from = {true, 0, 2.613, -1, 0.211, false, false};
    const bwi_rider_place over = bwi_rider_moved(&p.plan, from, 0.317);
    assert_int_equal(over.bay, 1);
    assert_true(fabs(over.along - 0.217) < 1e-14);
    const bwi_rider_place back = bwi_rider_moved(&p.plan, over, -0.317);
    assert_int_equal(back.bay, 0);
    assert_true(fabs(back.along - 2.613) < 1e-14 && back.across == 0.211);
    const bwi_rider_place ends = bwi_rider_moved(&p.plan, from, -3.0);
    assert_true(ends.bay == 0 && ends.along == 0.0);
}

/* ---- what does not fit together ---- */

static void expect_fault(const bwt_deck *d, bw_arena *arena, const char *words)
{
    const char *faults = NULL;
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(d, arena, &a, &faults), BW_E_INPUT);
    if (strstr(faults, words) == NULL) {
        fail_msg("\"%s\" lacks \"%s\"", faults, words);
    }
}

static void a_deck_lower_than_its_logs_is_refused(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.height[1] = 0.0381 + 0.217 + 0.221 + 0.02;
    expect_fault(&d, *state, "bent b1 are thicker than the deck is high");
}

static void a_log_shorter_than_its_place_is_refused(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.post.length = 0.3;
    expect_fault(&d, *state, "the log of post b0 r0 is 0.3 m long");
}

/* ---- joints and braces that end in the air ---- */

static const char *faults_with(const bwt_deck *d, bw_arena *arena,
                               const bw_joint_place *joints, size_t n,
                               const bw_brace *brace)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    bw_assessment a;
    bw_case *deck = bwt_deck_joined(d, arena, joints, n);
    assert_non_null(deck);
    deck->braces = brace;
    deck->n_braces = brace != NULL ? 1 : 0;
    const bw_status status = bw_deck_assess(arena, deck, &a, &diags);
    assert_int_equal(status, diags.errors > 0 ? BW_E_INPUT : BW_OK);
    bw_text text = bw_text_new(arena);
    bw_diags_print(&diags, &text);
    const char *faults = bw_text_string(&text);
    assert_non_null(faults);
    return faults;
}

static void expect_words(const char *faults, const char *words)
{
    if (strstr(faults, words) == NULL) {
        fail_msg("\"%s\" lacks \"%s\"", faults, words);
    }
}

/* Of the row's two stringers, one before bent b1 and one after it. */
static bw_joint_place hung_at_1(int stringer, double end)
{
    return (bw_joint_place){.stringer = stringer,
                            .bent = 1,
                            .brace = -1,
                            .hung = true,
                            .fasteners = bwt_lags(end)};
}

/* The post ends 0.454 m up under a cap 0.221 m thick, and the stringer lies over that:
 * only without a cap, and with nothing on the post, does it stand beside the stringer. */
static void a_stringer_hangs_only_where_its_post_stands(void **state)
{
    bwt_deck d = bwt_deck_plain();
    const bw_joint_place both[2] = {hung_at_1(0, 0.089), hung_at_1(1, 0.089)};
    const char *capped = faults_with(&d, *state, both, 2, NULL);
    expect_words(capped, "stringer r0-0 cannot hang on post b1 r0");
    expect_words(capped, "783 mm above the ground at bent b1");
    expect_words(capped, "ends 454 mm up, under the cap");
    bw_joint_place into_cap = both[0];
    into_cap.into_cap = true;
    assert_string_equal(faults_with(&d, *state, &into_cap, 1, NULL), "");
    d.no_cap = true;
    assert_string_equal(faults_with(&d, *state, both, 2, NULL), "");
    expect_words(faults_with(&d, *state, both, 1, NULL),
                 "under stringer r0-1 that bears on it");
    /* long enough to bear on, not to be hung on */
    d.post.length = 0.93 - 0.0381 - 0.217 + d.hole_depth + 0.05;
    expect_words(faults_with(&d, *state, both, 2, NULL), "to hang on its side it needs");
}

/* Up to the post's end, and no further; where all hangs on it, up to the stringers. */
static void a_brace_ends_on_wood(void **state)
{
    bwt_deck d = bwt_deck_plain();
    bw_brace brace = {.name = "X",
                      .log = 2,
                      .from = {.bent = 1, .row = 0, .height = 0.11},
                      .to = {.bent = 1, .row = 1, .height = 0.453}};
    assert_string_equal(faults_with(&d, *state, NULL, 0, &brace), "");
    brace.to.height = 0.455;
    expect_words(faults_with(&d, *state, NULL, 0, &brace),
                 "brace X would end 455 mm above the ground on post b1 r1 of bent b1, "
                 "which reaches up to 454 mm only");
    d.no_cap = true;
    brace.to.height = 0.69; /* the stringers' underside: 0.6749 */
    brace.to.row = 0;
    brace.from.row = 1;
    expect_words(faults_with(&d, *state, NULL, 0, &brace), "up to 675 mm only");
    const bw_joint_place both[2] = {hung_at_1(0, 0.089), hung_at_1(1, 0.089)};
    assert_string_equal(faults_with(&d, *state, both, 2, &brace), "");
}

/* Half of the post, and what a measured log is longer than its place at this end. Beyond
 * that a distance counts as not known: the joint cannot be judged. */
static void an_end_distance_lies_over_the_post(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.no_cap = true;
    for (int k = 0; k < 4; k++) {
        const bool measured = k >= 2, far = k % 2 == 1;
        const double half = 0.214 / 2.0; /* the post's end */
        d.stringer.length = measured ? 2.713 + 0.06 : 0.0;
        const double end = half + (measured ? 0.03 : 0.0) + (far ? 0.002 : -0.002);
        const bw_joint_place both[2] = {hung_at_1(0, end), hung_at_1(1, 0.089)};
        const bw_case *deck = bwt_deck_joined(&d, *state, both, 2);
        bw_diags diags = bw_diags_new(*state, NULL);
        bw_assessment a;
        assert_non_null(deck);
        assert_int_equal(bw_deck_assess(*state, deck, &a, &diags), BW_OK);
        assert_int_equal(diags.count, far ? 1 : 0);
        const bw_finding *f = bwt_finding(&a, "stringer", "r0-0", BW_CHECK_JOINT);
        assert_non_null(f);
        assert_true((f->verdict == BW_CANNOT_SAY) == far);
        if (far) {
            assert_string_equal(diags.items[0].id, "deck.end_distance");
            assert_non_null(strstr(f->note, "end"));
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(shares_balance_the_wheel_anywhere),
        WITH_ARENA(a_wheel_between_two_rows_leaves_the_third_alone),
        WITH_ARENA(an_overhanging_wheel_levers_onto_the_outer_row),
        WITH_ARENA(widths_are_sums_over_thin_strips),
        WITH_ARENA(heights_add_up_from_the_boards_down),
        WITH_ARENA(the_thicker_log_at_a_bent_sets_the_height),
        WITH_ARENA(diameters_run_straight_from_butt_to_tip),
        WITH_ARENA(a_post_tapers_from_the_bottom_of_its_hole),
        WITH_ARENA(parts_of_a_stringer_follow_each_other),
        WITH_ARENA(a_rider_moved_over_a_bent_is_in_the_next_bay),
        WITH_ARENA(a_deck_lower_than_its_logs_is_refused),
        WITH_ARENA(a_log_shorter_than_its_place_is_refused),
        WITH_ARENA(a_stringer_hangs_only_where_its_post_stands),
        WITH_ARENA(a_brace_ends_on_wood),
        WITH_ARENA(an_end_distance_lies_over_the_post),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
