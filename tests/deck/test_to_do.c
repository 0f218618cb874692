/* What no check knows stands below the verdict, with numbers by hand. */
#include "../base/arena_fixture.h"
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

/* Both ends of the first knee sit in a notch of that depth. */
static bw_case *read_joined(const bwt_deck *d, double notch, bw_arena *arena)
{
    bw_joint_place *joints = BW_NEW(arena, bw_joint_place, 2);
    for (int k = 0; k < 2; k++) {
        joints[k] =
            (bw_joint_place){.stringer = -1, .brace = 0, .at_to = k == 1, .notch = notch};
        joints[k].fasteners = (bw_fasteners){.count = 1, .rows = 1, .planes = 1};
    }
    bw_case *deck = bwt_deck_joined(d, arena, joints, notch > 0.0 ? 2 : 0);
    assert_non_null(deck);
    return deck;
}

static const char *told(const bw_case *deck, const char *words, bw_arena *arena)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    bw_assessment a;
    assert_int_equal(bw_deck_assess(arena, deck, &a, &diags), BW_OK);
    return bwt_to_do(&a, words);
}

/* ---- pads ---- */

static const char pads[] = "make pads as thick as they stick out beyond their post";

/* The post of b0 r0 stands on a round pad of so much across. */
static const char *of_a_pad(double across, bw_arena *arena)
{
    const bwt_deck d = bwt_deck_plain();
    bw_case *deck = read_joined(&d, 0.0, arena);
    bw_bent *bents = BW_NEW(arena, bw_bent, deck->n_bents);
    bw_post *posts = BW_NEW(arena, bw_post, deck->bents[0].n_posts);
    memcpy(bents, deck->bents, deck->n_bents * sizeof *bents);
    memcpy(posts, bents[0].posts, bents[0].n_posts * sizeof *posts);
    posts[0].pad_area = bwt_pi * across * across / 4.0;
    bents[0].posts = posts;
    deck->bents = bents;
    return told(deck, pads, arena);
}

/* (0.531 - 0.236) / 2 = 0.1475 beyond a post of 236 mm. */
static void pads_are_as_thick_as_they_stick_out(void **state)
{
    const char *line = of_a_pad(0.531, *state);
    assert_non_null(line);
    assert_non_null(strstr(line, "at least 148 mm under post b0 r0"));
    assert_null(of_a_pad(0.236 + 0.039, *state));
    assert_non_null(of_a_pad(0.236 + 0.041, *state));
}

/* ---- ends of logs ---- */

static const char *of_a_log(double length, int first_bents, bw_arena *arena)
{
    bwt_deck d = bwt_deck_plain();
    d.n_bents = first_bents;
    d.run[0] = d.run[1] = first_bents - 1;
    d.stringer.length = length;
    return told(read_joined(&d, 0.0, arena), "lay no boards beyond the end bents", arena);
}

/* Over 2.713 m: all that is more may lie at one end. */
static void long_logs_are_no_place_to_stand(void **state)
{
    assert_null(of_a_log(0.0, 2, *state));
    assert_null(of_a_log(2.713 + 0.599, 2, *state));
    assert_null(of_a_log(5.189 + 0.599, 3, *state));
    const char *line = of_a_log(2.713 + 1.437, 2, *state);
    assert_non_null(line);
    assert_non_null(strstr(line, "by up to 1.44 m (stringer r0-0)"));
}

/* ---- notches of braces ---- */

static const char notches[] = "describe every notch that a brace sits in";

/* A knee half a metre ahead of the post of b1. */
static bw_case *with_a_knee(double notch, bw_arena *arena)
{
    bwt_deck d = bwt_deck_plain();
    d.brace = (bwt_log){"western larch", 0.097, 0.091, 0.0};
    d.knee[d.n_knees++] = (bwt_knee){.bent = 1, .row = 0, .height = 0.31, .ahead = 0.5};
    return read_joined(&d, notch, arena);
}

/* Told as notches of both logs there, as deep, it is none of what is left to do. */
static void deep_notches_of_braces_are_notches_of_logs(void **state)
{
    bw_arena *arena = *state;
    const double notch = 0.047;
    bw_case *deck = with_a_knee(notch, arena);
    const char *line = told(deck, notches, arena);
    assert_non_null(line);
    assert_non_null(strstr(line, "(up to 47 mm, brace k0)"));
    assert_null(told(with_a_knee(deck->limits.seat_depth, arena), notches, arena));

    bw_log *logs = BW_NEW(arena, bw_log, deck->n_logs);
    memcpy(logs, deck->logs, deck->n_logs * sizeof *logs);
    bw_notch on_post = {.from_butt = 0.87 + 0.31, .depth = notch};
    bw_notch on_stringer = {.from_butt = 0.5, .depth = notch, .side = BW_SIDE_BOTTOM};
    deck->logs = logs;
    logs[2].notches = &on_post;
    logs[2].n_notches = 1;
    assert_non_null(told(deck, notches, arena)); /* the stringer's is not */
    logs[0].notches = &on_stringer;
    logs[0].n_notches = 1;
    assert_null(told(deck, notches, arena));
    on_post.from_butt += 0.13; /* elsewhere */
    assert_non_null(told(deck, notches, arena));
    on_post.from_butt -= 0.13;
    on_stringer.side = BW_SIDE_TOP;
    assert_non_null(told(deck, notches, arena));
    on_stringer.side = BW_SIDE_BOTTOM;
    on_stringer.depth = 0.041; /* not all of it */
    assert_non_null(told(deck, notches, arena));
}

/* ---- hollow logs ---- */

static void hollow_logs_are_to_be_tapped(void **state)
{
    static const char words[] = "tap hollow logs";
    bwt_deck d = bwt_deck_plain();
    assert_null(told(read_joined(&d, 0.0, *state), words, *state));
    d.stringer_flaws.shell = 0.0631;
    const char *line = told(read_joined(&d, 0.0, *state), words, *state);
    assert_non_null(line);
    assert_non_null(strstr(line, "(stringer)"));
    d.post_flaws.shell = 0.0713;
    line = told(read_joined(&d, 0.0, *state), words, *state);
    assert_non_null(strstr(line, "(stringer, post)"));
}

/* ---- what lies on the deck for good ---- */

static void what_holds_the_deck_down_must_lie_there(void **state)
{
    static const char words[] = "what lies on the deck for good";
    bwt_deck d = bwt_deck_plain();
    assert_null(told(read_joined(&d, 0.0, *state), words, *state));
    d.extra = 2870.0;
    const char *line = told(read_joined(&d, 0.0, *state), words, *state);
    assert_non_null(line);
    assert_non_null(strstr(line, "(2.87 kPa)"));
}

/* ---- what holds stringers on their caps ---- */

static const char on_caps[] = "fasten every stringer that lies on a cap to it";

static double told_force(const bwt_deck *d, bw_arena *arena)
{
    const char *line = told(read_joined(d, 0.0, arena), on_caps, arena);
    assert_non_null(line);
    return strtod(strstr(line, "at least ") + strlen("at least "), NULL);
}

/* Who corners at a bent pushes each of its two rows with 0.57 W / 2: 0.57 113.7 9.80665 /
 * 2 = 317.8 N. Along, three posts alike share what a row has at the edge, (0.437 + 0.565)
 * / 0.874 = 1.146 of the rider: 243 N each. */
static void what_pushes_stringers_off_caps_is_told(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.push = 0.57;
    d.run[0] = d.run[1] = 2;
    const double least = told_force(&d, *state);
    assert_true(least > 317.6 && least < 317.9);
    d.push = 0.0;
    assert_null(told(read_joined(&d, 0.0, *state), on_caps, *state));
}

/* One bay on posts alike: each end has half of what the row has at the edge, which is
 * (0.437 + 0.9585) / 0.874 of the rider: 0.57 1.5967 113.7 9.80665 / 2 = 507.4 N. */
static void what_pushes_them_along_the_deck_is_told_where_it_is_more(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.n_bents = 2;
    d.push = 0.57;
    d.width = 1.917;
    d.stringer.butt = d.stringer.tip = 0.199; /* posts as long */
    const double least = told_force(&d, *state);
    assert_true(least > 507.2 && least < 507.6);
}

/* By Eurocode 1.5 of it (EN 1990, (6.10), READ in a summary), and so it is called: of
 * what lies on posts and on sills too. */
static void design_pushes_are_called_so(void **state)
{
    bw_arena *arena = *state;
    for (int k = 0; k < 2; k++) {
        bwt_deck d = bwt_deck_plain();
        d.push = 0.57;
        d.run[0] = d.run[1] = 2;
        d.width = 1.713;
        d.sill[2] = true;
        d.basis = k == 1 ? "eurocode" : NULL;
        const double least = told_force(&d, arena), factor = k == 1 ? 1.5 : 1.0;
        const bw_case *deck = read_joined(&d, 0.0, arena);
        const char *const lines[] = {
            told(deck, on_caps, arena),
            told(deck, "fasten what lies on the posts", arena),
            told(deck, "fasten every stringer that lies on a sill", arena),
            told(deck, "fasten every end of a stringer for a lift", arena)};
        for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
            assert_non_null(lines[i]);
            assert_int_equal(strstr(lines[i], "N (design)") != NULL, k == 1);
        }
        assert_true(least > factor * 317.6);
    }
}

/* Fasteners that are described are checked: nothing is left to do. */
static void what_described_fasteners_hold_is_not(void **state)
{
    bw_arena *arena = *state;
    bwt_deck d = bwt_deck_plain();
    d.n_bents = 2;
    d.push = 0.57;
    bw_joint_place joints[4];
    for (int k = 0; k < 4; k++) {
        joints[k] = (bw_joint_place){
            .stringer = k / 2, .bent = k % 2, .brace = -1, .fasteners = bwt_lags(0.113)};
    }
    assert_null(told(bwt_deck_joined(&d, arena, joints, 4), on_caps, arena));
    assert_non_null(told(bwt_deck_joined(&d, arena, joints, 3), on_caps, arena));
}

/* ---- what is never there at once ---- */

static bool is_said(const bwt_deck *d, const char *words, bw_arena *arena)
{
    bw_assessment a;
    bool said = false;
    assert_int_equal(bwt_deck_assess(d, arena, &a, NULL), BW_OK);
    for (size_t k = 0; k < a.n_assumptions; k++) {
        said = said || strstr(a.assumptions[k].text, words) != NULL;
    }
    return said;
}

static void what_is_never_combined_is_said(void **state)
{
    static const char both[] = "riders and people are never on it together";
    static const char all[] = "riders, people and the machine are never on it together";
    bwt_deck d = bwt_deck_plain();
    assert_false(is_said(&d, "never on it together", *state));
    d.crowd = 1437.0;
    assert_true(is_said(&d, both, *state));
    d.loads = "\"machine\": {\"name\": \"quad bike\", \"mass\": \"431 kg\", "
              "\"wheelbase\": \"1.3 m\", \"track\": \"0.9 m\"}";
    assert_true(is_said(&d, all, *state));
}

/* And it is so: of both bases. */
static void no_combination_has_two_of_them(void **state)
{
    (void)state;
    const bw_basis *const basis[] = {&bw_us_asd, &bw_eurocode};
    const bw_actions_present all = {
        .rider = true, .crowd = true, .snow = true, .machine = true};
    for (int b = 0; b < 2; b++) {
        bw_combination list[BW_COMBINATIONS_MAX];
        const size_t n = basis[b]->combinations(&all, list);
        assert_true(n > 0);
        for (size_t k = 0; k < n; k++) {
            const bw_combination *c = &list[k];
            assert_true((c->rider != 0.0) + (c->crowd != 0.0) + (c->machine != 0.0) <= 1);
        }
    }
}

/* What braces put into a foot that only stands on its pad is told, and only there. */
static void feet_on_pads_are_told_what_pushes_them(void **state)
{
    bw_arena *arena = *state;
    bw_case deck;
    bw_assessment a;
    bw_diags faults = bw_diags_new(arena, NULL);
    assert_int_equal(bwt_case_read("birch-hop-braced.json", arena, &deck), BW_OK);
    assert_int_equal(bw_deck_assess(arena, &deck, &a, &faults), BW_OK);
    const bool stands = bw_deck_feet(&deck, BW_FOOT_PAD) > 0;
    assert_int_equal(bwt_to_do(&a, "hold the feet of posts on their pads") != NULL,
                     stands);
    bw_case on_pads = deck;
    bw_bent *bents = BW_NEW(arena, bw_bent, deck.n_bents);
    assert_non_null(bents);
    for (size_t k = 0; k < deck.n_bents; k++) {
        bw_post *posts = BW_NEW(arena, bw_post, deck.bents[k].n_posts + 1);
        assert_non_null(posts);
        bents[k] = deck.bents[k];
        for (size_t j = 0; j < bents[k].n_posts; j++) {
            posts[j] = deck.bents[k].posts[j];
            posts[j].foot = BW_FOOT_PAD;
        }
        bents[k].posts = posts;
    }
    on_pads.bents = bents;
    assert_int_equal(bw_deck_assess(arena, &on_pads, &a, &faults), BW_OK);
    assert_non_null(bwt_to_do(&a, "hold the feet of posts on their pads"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(pads_are_as_thick_as_they_stick_out),
        WITH_ARENA(long_logs_are_no_place_to_stand),
        WITH_ARENA(deep_notches_of_braces_are_notches_of_logs),
        WITH_ARENA(hollow_logs_are_to_be_tapped),
        WITH_ARENA(what_holds_the_deck_down_must_lie_there),
        WITH_ARENA(what_pushes_stringers_off_caps_is_told),
        WITH_ARENA(what_pushes_them_along_the_deck_is_told_where_it_is_more),
        WITH_ARENA(design_pushes_are_called_so),
        WITH_ARENA(what_described_fasteners_hold_is_not),
        WITH_ARENA(what_is_never_combined_is_said),
        WITH_ARENA(feet_on_pads_are_told_what_pushes_them),
        cmocka_unit_test(no_combination_has_two_of_them),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
