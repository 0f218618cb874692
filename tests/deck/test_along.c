/* Rows without posts of their own: what pushes them along the deck goes to the posts that
 * are there, by hand and against the same deck without those rows. */
#include "../base/arena_fixture.h"
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

/* One bay on two bents with caps, stout posts at the outer rows in gravel. */
static bwt_deck between_bents(int n_rows)
{
    bwt_deck d = bwt_deck_plain();
    d.n_rows = n_rows;
    d.n_bents = 2;
    for (int r = 0; r < n_rows; r++) {
        d.across[r] = -0.437 + 0.874 * r / (n_rows - 1);
    }
    for (int r = 1; r + 1 < n_rows; r++) {
        d.no_post[0][r] = d.no_post[1][r] = true;
    }
    d.soil = "gravel";
    d.hole_depth = 1.137;
    d.post.butt = d.post.tip = 0.331;
    d.stringer.tip = d.stringer.butt; /* both ends as high */
    d.rider = 0.0;
    return d;
}

static bwt_deck swaying(int n_rows)
{
    bwt_deck d = between_bents(n_rows);
    d.crowd = 2131.0;
    d.sway = 573.0;
    return d;
}

/* Within a thousandth: frames bend, and heights of rows differ. */
static void assert_near(double found, double wanted)
{
    if (!(bwt_relative(found, wanted) < 1e-3)) {
        fail_msg("%.9g instead of %.9g", found, wanted);
    }
}

static double push_along(const bwt_deck *d, bw_arena *arena)
{
    bw_assessment *a = BW_NEW(arena, bw_assessment, 1);
    assert_int_equal(bwt_deck_assess(d, arena, a, NULL), BW_OK);
    const bw_finding *f = bwt_finding(a, "post", "b0 r0", BW_CHECK_SOIL_LATERAL);
    assert_non_null(f);
    return bwt_term(f, "V");
}

/* All of the area over the posts that there are, and at a height that is the larger
 * moment along the deck: the same at either end of a bay. */
static void posts_take_the_push_of_every_row(void **state)
{
    for (int n_rows = 2; n_rows <= 5; n_rows++) {
        const bwt_deck d = swaying(n_rows);
        assert_near(push_along(&d, *state), d.sway * d.width * (d.at[1] - d.at[0]) / 4.0);
    }
}

/* Stringers at 0.35 m under caps that reach posts at 0.6 m: the posts are of rows that
 * have no stringers. */
static const char *beside_posts(const char *foot, bw_arena *arena)
{
    const char *posts = bw_arena_print(
        arena,
        "\"cap\": \"c\", \"posts\": [{\"row\": \"out left\", \"log\": \"p\", %s}, "
        "{\"row\": \"out right\", \"log\": \"p\", %s}]",
        foot, foot);
    return bw_arena_print(
        arena,
        "{\"format\": 1, \"title\": \"test\", \"units\": \"metric\", \"deck\": "
        "{\"width\": \"1.13 m\", \"board_thickness\": \"0.038 m\", \"board_weight\": "
        "\"371 Pa\"}, \"logs\": [{\"name\": \"s\", \"species\": \"lodgepole pine\", "
        "\"bark\": \"off\", \"butt_diameter\": \"0.217 m\", \"tip_diameter\": \"0.217 "
        "m\"}, {\"name\": \"c\", \"species\": \"western larch\", \"bark\": \"off\", "
        "\"butt_diameter\": \"0.221 m\", \"tip_diameter\": \"0.221 m\"}, {\"name\": "
        "\"p\", \"species\": \"western redcedar\", \"bark\": \"off\", "
        "\"butt_diameter\": \"0.331 m\", \"tip_diameter\": \"0.331 m\"}], \"rows\": "
        "[{\"name\": \"out left\", \"across\": \"-0.6 m\"}, {\"name\": \"left\", "
        "\"across\": \"-0.35 m\"}, {\"name\": \"right\", \"across\": \"0.35 m\"}, "
        "{\"name\": \"out right\", \"across\": \"0.6 m\"}], \"bents\": [{\"name\": "
        "\"b0\", \"at\": \"0 m\", \"deck_height\": \"0.93 m\", %s}, {\"name\": \"b1\", "
        "\"at\": \"2.713 m\", \"deck_height\": \"0.93 m\", %s}], \"stringers\": "
        "[{\"name\": \"l\", \"row\": \"left\", \"log\": \"s\", \"from\": \"b0\", "
        "\"to\": \"b1\", \"butt_at\": \"b0\"}, {\"name\": \"r\", \"row\": \"right\", "
        "\"log\": \"s\", \"from\": \"b0\", \"to\": \"b1\", \"butt_at\": \"b0\"}], "
        "\"ground\": {\"soil\": \"gravel\"}, \"loads\": {\"rider\": null, \"crowd\": "
        "\"2131 Pa\", \"people_sway\": \"573 Pa\", \"lean\": \"0 %%\"}}",
        posts, posts);
}

static void posts_beside_the_stringers_take_it_too(void **state)
{
    bw_arena *arena = *state;
    bw_assessment a;
    const char *text =
        beside_posts("\"foot\": \"hole\", \"hole_depth\": \"1.137 m\"", arena);
    assert_int_equal(bwt_text_assess(text, arena, &a, NULL), BW_OK);
    const bw_finding *f = bwt_finding(&a, "post", "b0 out left", BW_CHECK_SOIL_LATERAL);
    assert_non_null(f);
    assert_near(bwt_term(f, "V"), 573.0 * 1.13 * 2.713 / 4.0);
}

static void on_pads_they_fall_over(void **state)
{
    bw_assessment a;
    const char *faults = NULL;
    const char *text = beside_posts("\"foot\": \"pad\"", *state);
    assert_int_not_equal(bwt_text_assess(text, *state, &a, &faults), BW_OK);
    assert_non_null(faults);
    assert_non_null(strstr(faults, "can move along the deck"));
}

/* A row that no post holds presses those that stand, and leans with them. */
static void posts_carry_what_leans_on_them(void **state)
{
    double factor[2];
    for (int k = 0; k < 2; k++) {
        bwt_deck d = swaying(2 + 3 * k);
        d.post.butt = d.post.tip = 0.087;
        d.height[0] = d.height[1] = 2.371;
        d.stringer.butt = d.stringer.tip = 0.0931;
        bw_assessment a;
        assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
        assert_true(a.buckled_rows[0].has);
        factor[k] = a.buckled_rows[0].factor;
    }
    /* five rows weigh more than two by three thin stringers */
    assert_true(factor[1] < factor[0]);
    assert_true(factor[1] > 0.9 * factor[0]);
}

/* Both tracks push all that there is: the outer rows take what they would alone. */
static void a_machine_pushes_posts_as_hard_on_more_rows(void **state)
{
    double V[2];
    for (int k = 0; k < 2; k++) {
        bwt_deck d = between_bents(2 + k);
        d.loads = "\"machine\": {\"name\": \"quad\", \"mass\": \"417.3 kg\", "
                  "\"wheelbase\": \"1.217 m\", \"track\": \"0.871 m\", "
                  "\"heavy_axle_share\": 0.57, \"factor\": 1.37, \"push\": 0.97}";
        V[k] = push_along(&d, *state);
    }
    assert_near(V[1], V[0]);
}

static double moment_at_ground(const bwt_deck *d, bw_arena *arena)
{
    bw_assessment *a = BW_NEW(arena, bw_assessment, 1);
    assert_int_equal(bwt_deck_assess(d, arena, a, NULL), BW_OK);
    const bw_finding *f = bwt_finding(a, "post", "b0 r0", BW_CHECK_SOIL_LATERAL);
    return f != NULL ? bwt_term(f, "M") : 0.0;
}

/* An end on half of its post presses that D / 4 beside its middle; one that goes on past
 * the post presses all of it. */
static void an_end_on_half_a_seat_turns_its_post(void **state)
{
    bwt_deck d = between_bents(2);
    d.no_cap = true;
    d.width = 0.874; /* no overhang: one row has all of a rider at most */
    d.rider = 117.3;
    const double beside = d.post.tip / 4.0;
    const double first = moment_at_ground(&d, *state);
    d.rider *= 2.0;
    const double second = moment_at_ground(&d, *state);
    assert_near(second - first, d.factor * 117.3 * bw_gravity * beside);
    const double more = 217.0;
    d.board_pressure += more;
    const double weight = more * d.width / 2.0 * (d.at[1] - d.at[0]) / 2.0;
    assert_near(moment_at_ground(&d, *state) - second, weight * beside);
    d.stringer.length = d.at[1] - d.at[0] + 1.1 * d.post.tip;
    assert_true(moment_at_ground(&d, *state) < 1e-6 * first);
}

/* What people on all rows add at the ends of caps, each end a quarter of the flat beside
 * the middle: q w / 2 L / 2 f / 4 a post, with f = 2 sqrt(D h - h^2). */
static void ends_of_rows_handed_over_turn_posts_too(void **state)
{
    const double h = 0.0127, f = 2.0 * sqrt(0.221 * h - h * h);
    for (int n_rows = 2; n_rows <= 5; n_rows++) {
        bwt_deck d = between_bents(n_rows);
        d.crowd = 1137.0;
        d.width = 0.874; /* nothing overhangs */
        const double first = moment_at_ground(&d, *state);
        d.crowd += 917.0;
        const double more = 917.0 * d.width / 2.0 * (d.at[1] - d.at[0]) / 2.0;
        assert_near(moment_at_ground(&d, *state) - first, more * f / 4.0);
    }
}

/* A row that begins at the bent of a ramp takes as much of its thrust as in a mirror,
 * where it ends there: it took nothing. */
static void a_row_that_begins_at_a_ramp_is_thrust_too(void **state)
{
    double V[2];
    for (int k = 0; k < 2; k++) {
        bwt_deck d = between_bents(3);
        d.n_bents = 3;
        d.at[1] = (d.at[0] + d.at[2]) / 2.0;
        d.rider = 97.1;
        memset(d.no_post, 0, sizeof d.no_post);
        d.loads = "\"take_off\": {\"bent\": \"b1\", \"thrust\": \"3.385 kN\"}";
        bw_case deck = *bwt_deck_read(&d, *state);
        bw_stringer *kept = BW_NEW(*state, bw_stringer, deck.n_stringers);
        size_t n = 0;
        for (size_t j = 0; j < deck.n_stringers; j++) {
            const bw_stringer *s = &deck.stringers[j];
            const bool outer_bay = k == 0 ? s->to == 1 : s->from == 1;
            if (!(s->row == 2 && outer_bay)) {
                kept[n++] = *s;
            }
        }
        deck.stringers = kept;
        deck.n_stringers = n;
        bw_assessment a;
        bw_diags faults = bw_diags_new(*state, NULL);
        assert_int_equal(bw_deck_assess(*state, &deck, &a, &faults), BW_OK);
        const bw_finding *f = bwt_finding(&a, "post", "b1 r2", BW_CHECK_SOIL_LATERAL);
        V[k] = bwt_term(f, "V");
    }
    assert_true(V[0] > 3385.0 / 2.0 * 0.9); /* two posts have it between them */
    assert_near(V[0], V[1]);
}

/* Two bays, one of them on a row of its own: what tips there is not counted. */
static void a_lone_bay_beside_others_cannot_be_said(void **state)
{
    bwt_deck d = between_bents(2);
    d.n_bents = 3;
    d.crowd = 1137.0;
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
    const bw_finding *hole = bwt_finding(&a, "post", "b1 r0", BW_CHECK_SOIL_LATERAL);
    assert_int_not_equal(hole->verdict, BW_CANNOT_SAY);
    bw_case deck = *bwt_deck_read(&d, *state);
    deck.n_stringers--; /* the last bay of the right row */
    bw_diags faults = bw_diags_new(*state, NULL);
    assert_int_equal(bw_deck_assess(*state, &deck, &a, &faults), BW_OK);
    assert_int_equal(a.verdict, BW_CANNOT_SAY);
    const bw_finding *f = bwt_finding(&a, "post", "b1 r0", BW_CHECK_SOIL_LATERAL);
    assert_non_null(strstr(f->note, "a bay on one row tips"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(posts_take_the_push_of_every_row),
        WITH_ARENA(posts_beside_the_stringers_take_it_too),
        WITH_ARENA(on_pads_they_fall_over),
        WITH_ARENA(posts_carry_what_leans_on_them),
        WITH_ARENA(a_machine_pushes_posts_as_hard_on_more_rows),
        WITH_ARENA(an_end_on_half_a_seat_turns_its_post),
        WITH_ARENA(ends_of_rows_handed_over_turn_posts_too),
        WITH_ARENA(a_lone_bay_beside_others_cannot_be_said),
        WITH_ARENA(a_row_that_begins_at_a_ramp_is_thrust_too),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
