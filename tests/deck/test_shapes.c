/* Decks of logs that are not round and sound all along: flats, halves, hollows, notches,
 * girths taken on the way. */
#include "../base/arena_fixture.h"
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

enum { STRINGER, CAP, POST, LOGS };

/* A deck whose logs can be changed after reading. */
typedef struct {
    bw_case deck;
    bw_log logs[LOGS];
    bw_assessment result;
    bw_diags d;
} trial;

static trial *plain_trial(bw_arena *arena)
{
    bwt_deck plain = bwt_deck_plain();
    plain.crowd = 2900.0;
    trial *t = BW_NEW(arena, trial, 1);
    const bw_case *read = bwt_deck_read(&plain, arena);
    assert_non_null(read);
    assert_int_equal(read->n_logs, LOGS);
    t->deck = *read;
    memcpy(t->logs, read->logs, sizeof t->logs);
    t->deck.logs = t->logs;
    t->d = bw_diags_new(arena, "test");
    return t;
}

static void assess(trial *t, bw_arena *arena)
{
    const bw_status status = bw_deck_assess(arena, &t->deck, &t->result, &t->d);
    if (status != BW_OK) {
        bw_text out = bw_text_new(arena);
        bw_diags_print(&t->d, &out);
        fail_msg("%s", bw_text_string(&out));
    }
}

static const bw_finding *found(const trial *t, const char *role, const char *name,
                               bw_check_kind kind)
{
    const bw_finding *f = bwt_finding(&t->result, role, name, kind);
    assert_non_null(f);
    return f;
}

static double use(const trial *t, const char *role, const char *name, bw_check_kind kind)
{
    return found(t, role, name, kind)->ratio.utilisation;
}

static void assert_near(double got, double expected, double relative)
{
    if (!(fabs(got - expected) <= relative * fabs(expected))) {
        fail_msg("%.15g, expected %.15g", got, expected);
    }
}

/* ---- sections ---- */

/* Half circle: S = r^3 (pi/8 - 8/(9 pi)) / (1 - 4/(3 pi)), A = pi r^2/2 (handbooks of
 * mechanics, MEMORY). */
static void half_log_bends_with_the_modulus_of_a_half_circle(void **state)
{
    bw_arena *arena = *state;
    const double pi = acos(-1.0);
    trial *t = plain_trial(arena);
    t->logs[STRINGER].half = true;
    assess(t, arena);
    const bw_finding *bending = found(t, "stringer", "r0-0", BW_CHECK_BENDING);
    const double r = bwt_term(bending, "D") / 2.0;
    const double below = 1.0 - 4.0 / (3.0 * pi);
    assert_near(bwt_term(bending, "S"), r * r * r * (pi / 8.0 - 8.0 / (9.0 * pi)) / below,
                1e-12);
    assert_near(bwt_term(bending, "h"), r, 1e-12);
    assert_near(bwt_term(bending, "C_f"), 1.0 / 1.18, 1e-12);
    const bw_finding *shear = found(t, "stringer", "r0-0", BW_CHECK_SHEAR);
    const double R = bwt_term(shear, "D") / 2.0;
    const double h = t->deck.limits.seat_depth; /* at the support a seat is cut off it */
    const double seat = R * R * acos((R - h) / R) - (R - h) * sqrt(2.0 * R * h - h * h);
    assert_near(bwt_term(shear, "A"), pi * R * R / 2.0 - seat, 1e-9);
}

/* The chord at the depth of the hewn flat, not the seat of the limits. */
static void hewn_flat_is_what_a_log_bears_on(void **state)
{
    bw_arena *arena = *state;
    trial *t = plain_trial(arena);
    assess(t, arena);
    const double D = 0.221, seat = t->deck.limits.seat_depth, h = 0.0391;
    const bw_finding *before = found(t, "stringer", "r0-0", BW_CHECK_BEARING);
    const double own = bwt_term(before, "A_b") / sqrt(D * seat - seat * seat);
    trial *hewn = plain_trial(arena);
    hewn->logs[CAP].flat_top = h;
    assess(hewn, arena);
    const bw_finding *after = found(hewn, "stringer", "r0-0", BW_CHECK_BEARING);
    assert_near(bwt_term(after, "A_b") / sqrt(D * h - h * h), own, 1e-12);
    assert_true(after->ratio.utilisation < before->ratio.utilisation);
}

/* Deeper flats and thicker hollows, one after the other: no member bends or shears less
 * for it. */
static void less_wood_never_helps(void **state)
{
    bw_arena *arena = *state;
    double stringer = 0.0, shear = 0.0, cap = 0.0, post = 0.0, end = 0.0;
    for (int k = 0; k <= 6; k++) {
        const bw_arena_mark mark = bw_arena_now(arena);
        trial *t = plain_trial(arena);
        t->logs[STRINGER].flat_top = 0.0113 * k;
        /* a hewn flat takes the place of the seat: no shallower than that */
        t->logs[CAP].flat_top = 0.0127 + 0.0091 * k;
        t->logs[POST].shell = k == 0 ? 0.0 : 0.0937 - 0.0113 * k;
        assess(t, arena);
        const double now[] = {use(t, "stringer", "r0-0", BW_CHECK_BENDING),
                              use(t, "stringer", "r0-0", BW_CHECK_SHEAR),
                              use(t, "cap", "b1", BW_CHECK_SHEAR),
                              use(t, "post", "b1 r0", BW_CHECK_COMPRESSION),
                              use(t, "post", "b1 r0", BW_CHECK_END_BEARING)};
        assert_true(now[0] > stringer && now[1] > shear && now[2] > cap);
        assert_true(now[3] > post && now[4] >= end);
        stringer = now[0];
        shear = now[1];
        cap = now[2];
        post = now[3];
        end = now[4];
        bw_arena_back(arena, mark);
    }
}

static void hollow_post_counts_as_its_weakest_ring(void **state)
{
    bw_arena *arena = *state;
    const double pi = acos(-1.0), shell = 0.0413;
    trial *t = plain_trial(arena);
    t->logs[POST].shell = shell;
    assess(t, arena);
    const bw_finding *f = found(t, "post", "b1 r0", BW_CHECK_COMPRESSION);
    /* the ring is thinnest at the upper end, where the tip is */
    const double A = bwt_term(f, "A"), D = A / (pi * shell) + shell;
    assert_true(D > 0.205 && D < 0.215); /* the joint lies a little above the end */
    const double d = D - 2.0 * shell;
    assert_near(bwt_term(f, "I"), pi / 64.0 * (pow(D, 4.0) - pow(d, 4.0)), 1e-9);
}

/* ---- stations ---- */

static void stations_on_the_line_change_nothing(void **state)
{
    bw_arena *arena = *state;
    trial *t = plain_trial(arena), *same = plain_trial(arena);
    const double butt = t->logs[STRINGER].butt_diameter;
    const double tip = t->logs[STRINGER].tip_diameter, length = 2.9;
    const bw_station line[] = {{0.0, butt},
                               {0.37 * length, butt + 0.37 * (tip - butt)},
                               {0.71 * length, butt + 0.71 * (tip - butt)},
                               {length, tip}};
    t->logs[STRINGER].length = length;
    same->logs[STRINGER].length = length;
    same->logs[STRINGER].stations = line;
    same->logs[STRINGER].n_stations = 4;
    assess(t, arena);
    assess(same, arena);
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const bw_check_kind which = (bw_check_kind)kind;
        const bw_finding *a = bwt_finding(&t->result, "stringer", "r0-0", which);
        const bw_finding *b = bwt_finding(&same->result, "stringer", "r0-0", which);
        assert_true((a == NULL) == (b == NULL));
        if (a != NULL) {
            assert_near(b->ratio.utilisation, a->ratio.utilisation, 1e-9);
        }
    }
}

/* A waist in the middle of the span is seen, though both ends are as before. */
static void waist_in_the_span_is_not_overlooked(void **state)
{
    bw_arena *arena = *state;
    trial *t = plain_trial(arena), *thin = plain_trial(arena);
    const double length = 2.9;
    const bw_station waist[] = {{0.0, 0.217}, {1.31, 0.151}, {length, 0.181}};
    t->logs[STRINGER].length = length;
    thin->logs[STRINGER].length = length;
    thin->logs[STRINGER].stations = waist;
    thin->logs[STRINGER].n_stations = 3;
    assess(t, arena);
    assess(thin, arena);
    const bw_finding *f = found(thin, "stringer", "r0-0", BW_CHECK_BENDING);
    assert_true(bwt_term(f, "D") <= 0.217);
    /* at least as if the log had the waist's modulus for a moment near mid-span */
    assert_true(f->ratio.utilisation >
                use(t, "stringer", "r0-0", BW_CHECK_BENDING) * pow(0.19 / 0.152, 3.0));
}

/* ---- notches ---- */

static trial *notched(bw_arena *arena, const bw_notch *notch)
{
    trial *t = plain_trial(arena);
    t->logs[STRINGER].notches = notch;
    t->logs[STRINGER].n_notches = 1;
    assess(t, arena);
    return t;
}

static size_t warnings_of(const trial *t, const char *id)
{
    size_t n = 0;
    for (size_t k = 0; k < t->d.count; k++) {
        n += strcmp(t->d.items[k].id, id) == 0 ? 1 : 0;
    }
    return n;
}

/* NDS 3.4.3.2: 2/3 F_v' A_n (d_n/d)^2 (MEMORY). */
static void notch_over_a_seat_goes_by_the_rule_of_end_notches(void **state)
{
    bw_arena *arena = *state;
    const bw_notch notch = {0.03, 0.0417, BW_SIDE_BOTTOM, "/logs/0/notches/0"};
    trial *t = notched(arena, &notch);
    const bw_finding *f = found(t, "stringer", "r0-0", BW_CHECK_SHEAR);
    const double left = bwt_term(f, "d_n") / bwt_term(f, "d");
    assert_near(bwt_term(f, "d") - bwt_term(f, "d_n"), 0.0417, 1e-12);
    assert_near(bwt_term(f, "f_v,n"),
                bwt_term(f, "V") / (2.0 / 3.0 * bwt_term(f, "A") * left * left), 1e-12);
    assert_near(f->ratio.demand, bwt_term(f, "f_v,n"), 1e-12);
    assert_int_equal(warnings_of(t, "deck.notch_middle"), 0);
}

static void notch_below_in_the_span_has_no_verdict(void **state)
{
    bw_arena *arena = *state;
    const bw_notch notch = {1.3, 0.0217, BW_SIDE_BOTTOM, "/logs/0/notches/0"};
    trial *t = notched(arena, &notch);
    const bw_finding *f = found(t, "stringer", "r0-0", BW_CHECK_BENDING);
    assert_int_equal(f->verdict, BW_CANNOT_SAY);
    assert_true(t->result.verdict != BW_WITHIN);
    /* one warning for each stringer of that log: two bays and two rows */
    assert_int_equal(warnings_of(t, "deck.notch_middle"), 4);
}

static void notch_on_top_in_the_span_leaves_a_smaller_section(void **state)
{
    bw_arena *arena = *state;
    const bw_notch notch = {1.3, 0.0217, BW_SIDE_TOP, "/logs/0/notches/0"};
    trial *whole = plain_trial(arena);
    assess(whole, arena);
    trial *t = notched(arena, &notch);
    const bw_finding *f = found(t, "stringer", "r0-0", BW_CHECK_BENDING);
    assert_true(isfinite(f->ratio.utilisation));
    assert_true(f->ratio.utilisation > use(whole, "stringer", "r0-0", BW_CHECK_BENDING));
    assert_near(bwt_term(f, "h"), bwt_term(f, "D") - 0.0217, 1e-12);
    assert_int_equal(warnings_of(t, "deck.notch_middle"), 4);
}

static void notch_in_a_post_weakens_it(void **state)
{
    bw_arena *arena = *state;
    const bw_notch notch = {1.0, 0.0417, BW_SIDE_TOP, "/logs/2/notches/0"};
    trial *whole = plain_trial(arena), *t = plain_trial(arena);
    t->logs[POST].notches = &notch;
    t->logs[POST].n_notches = 1;
    assess(whole, arena);
    assess(t, arena);
    /* the earth's shear below ground is larger than what the notch sees */
    assert_true(use(t, "post", "b1 r0", BW_CHECK_SHEAR) >=
                use(whole, "post", "b1 r0", BW_CHECK_SHEAR));
    assert_true(use(t, "post", "b1 r0", BW_CHECK_COMBINED) >
                use(whole, "post", "b1 r0", BW_CHECK_COMBINED));
    assert_near(found(t, "post", "b1 r0", BW_CHECK_COMBINED)->station, 1.0 - 0.87, 1e-9);
}

/* ---- what is said about it ---- */

static bool assumes(const trial *t, const char *words)
{
    for (size_t k = 0; k < t->result.n_assumptions; k++) {
        if (strstr(t->result.assumptions[k].text, words) != NULL) {
            return true;
        }
    }
    return false;
}

static void shapes_are_named_among_the_assumptions(void **state)
{
    bw_arena *arena = *state;
    const bw_station waist[] = {{0.0, 0.217}, {1.31, 0.191}, {2.9, 0.181}};
    trial *plain = plain_trial(arena), *t = plain_trial(arena);
    t->logs[STRINGER].length = 2.9;
    t->logs[STRINGER].stations = waist;
    t->logs[STRINGER].n_stations = 3;
    t->logs[POST].shell = 0.05;
    assess(plain, arena);
    assess(t, arena);
    assert_true(assumes(t, "nowhere thicker than measured"));
    assert_true(assumes(t, "full of wet wood"));
    assert_true(assumes(t, "weakest section"));
    assert_false(assumes(plain, "nowhere thicker than measured"));
    assert_false(assumes(plain, "weakest section"));
    const bw_finding *f = found(t, "post", "b1 r0", BW_CHECK_SHEAR);
    bool named = false;
    for (size_t k = 0; k < f->working.count; k++) {
        named = named || strstr(f->working.items[k].meaning, "a sound shell of") != NULL;
    }
    assert_true(named);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(half_log_bends_with_the_modulus_of_a_half_circle),
        WITH_ARENA(hewn_flat_is_what_a_log_bears_on),
        WITH_ARENA(less_wood_never_helps),
        WITH_ARENA(hollow_post_counts_as_its_weakest_ring),
        WITH_ARENA(stations_on_the_line_change_nothing),
        WITH_ARENA(waist_in_the_span_is_not_overlooked),
        WITH_ARENA(notch_over_a_seat_goes_by_the_rule_of_end_notches),
        WITH_ARENA(notch_below_in_the_span_has_no_verdict),
        WITH_ARENA(notch_on_top_in_the_span_leaves_a_smaller_section),
        WITH_ARENA(notch_in_a_post_weakens_it),
        WITH_ARENA(shapes_are_named_among_the_assumptions),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
