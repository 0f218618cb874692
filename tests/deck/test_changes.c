/* What must happen to the answer when the deck changes. */
#include "../base/arena_fixture.h"
#include "deck.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

/* Fewer where memory is watched, which takes several times as long. */
#ifdef __SANITIZE_ADDRESS__
enum { DECKS = 5, MIRRORED = 10 };
#else
enum { DECKS = 20, MIRRORED = 40 };
#endif
static const double rounding = 1e-7; /* of the search for the worst place */

/* Largest utilisation of all, and of the stringers alone. */
typedef struct {
    double all, stringers;
} worst;

static worst worst_of(const bwt_deck *d, bw_arena *arena)
{
    bw_assessment a;
    const char *faults = NULL;
    if (bwt_deck_assess(d, arena, &a, &faults) != BW_OK) {
        fail_msg("%s", faults);
    }
    worst w = {bwt_governing(&a), 0.0};
    for (size_t k = 0; k < a.n_members; k++) {
        if (strcmp(a.members[k].role, "stringer") == 0) {
            w.stringers = fmax(w.stringers, a.members[k].worst);
        }
    }
    return w;
}

/* ---- mirrored decks ---- */

static bwt_deck mirrored_along(const bwt_deck *d)
{
    bwt_deck m = *d;
    for (int b = 0; b < d->n_bents; b++) {
        const int from = d->n_bents - 1 - b;
        m.at[b] = -d->at[from];
        m.height[b] = d->height[from];
        m.sill[b] = d->sill[from];
        memcpy(m.no_post[b], d->no_post[from], sizeof m.no_post[b]);
    }
    m.butt_last = !d->butt_last;
    return m;
}

static bwt_deck mirrored_across(const bwt_deck *d)
{
    bwt_deck m = *d;
    for (int r = 0; r < d->n_rows; r++) {
        const int from = d->n_rows - 1 - r;
        m.across[r] = -d->across[from];
        m.run[r] = d->run[from];
        for (int b = 0; b < d->n_bents; b++) {
            m.no_post[b][r] = d->no_post[b][from];
        }
    }
    return m;
}

/* Without pushes: with them the weakest post of several alike decides where the bent
 * shape is looked for. The stringers must start at the first bent whichever way they are
 * counted, and caps have their butts on the left: logs of one run, and caps without
 * taper. */
static bwt_deck symmetrical_kind(uint64_t *random)
{
    bwt_deck d = bwt_deck_random(random);
    const int run = bwt_below(random, 2) == 0 ? 1 : d.n_bents - 1;
    for (int r = 0; r < d.n_rows; r++) {
        d.run[r] = run;
    }
    d.cap.tip = d.cap.butt;
    d.push = d.sway = d.lean = 0.0;
    return d;
}

/* Findings of the same kinds have the same utilisations, member by member. */
static void compare_findings(const bw_assessment *a, const bw_assessment *b, int kind,
                             const char *role)
{
    double of_a[64], of_b[64];
    int n = 0, m = 0;
    for (size_t k = 0; k < a->n_members; k++) {
        const bw_member_result *x = &a->members[k], *y = &b->members[k];
        if (strcmp(x->role, role) == 0 && x->has[kind]) {
            of_a[n++] = x->findings[kind].ratio.utilisation;
        }
        if (strcmp(y->role, role) == 0 && y->has[kind]) {
            of_b[m++] = y->findings[kind].ratio.utilisation;
        }
    }
    assert_int_equal(n, m);
    for (int i = 0; i < n; i++) { /* the nearest that is left: order plays no part */
        int best = i;
        for (int j = i; j < n; j++) {
            best = fabs(of_b[j] - of_a[i]) < fabs(of_b[best] - of_a[i]) ? j : best;
        }
        if (!(fabs(of_b[best] - of_a[i]) <= 1e-6 * of_a[i] + 1e-9)) {
            fail_msg("%s, %s: %.12g and %.12g", role, bw_us_asd.checks[kind]->id, of_a[i],
                     of_b[best]);
        }
        of_b[best] = of_b[i];
    }
}

static void compare_decks(const bwt_deck *d, const bwt_deck *m, bw_arena *arena)
{
    bw_assessment a, b;
    assert_int_equal(bwt_deck_assess(d, arena, &a, NULL), BW_OK);
    assert_int_equal(bwt_deck_assess(m, arena, &b, NULL), BW_OK);
    assert_int_equal(a.n_members, b.n_members);
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        compare_findings(&a, &b, kind, "stringer");
        compare_findings(&a, &b, kind, "cap");
        compare_findings(&a, &b, kind, "post");
    }
}

static void a_deck_seen_from_the_other_end_gives_the_same(void **state)
{
    uint64_t random = 9091;
    for (int k = 0; k < MIRRORED; k++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        const bwt_deck d = symmetrical_kind(&random), m = mirrored_along(&d);
        compare_decks(&d, &m, *state);
        bw_arena_back(*state, mark);
    }
}

static void a_deck_seen_in_a_mirror_gives_the_same(void **state)
{
    uint64_t random = 9137;
    for (int k = 0; k < MIRRORED; k++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        const bwt_deck d = symmetrical_kind(&random), m = mirrored_across(&d);
        compare_decks(&d, &m, *state);
        bw_arena_back(*state, mark);
    }
}

/* ---- what makes it worse ---- */

static void heavier_rider(bwt_deck *d, uint64_t *random)
{
    d->rider *= bwt_uniform(random, 1.0, 1.6);
}

static void harder_landing(bwt_deck *d, uint64_t *random)
{
    /* below 2 the load counts as standing: another duration, so stay on one side */
    d->factor = d->factor < 2.0 ? bwt_uniform(random, d->factor, 1.999)
                                : d->factor * bwt_uniform(random, 1.0, 1.4);
}

static void thinner_logs(bwt_deck *d, uint64_t *random)
{
    const double less = bwt_uniform(random, 0.8, 1.0);
    bwt_log *logs[] = {&d->stringer, &d->cap, &d->post};
    for (int k = 0; k < 3; k++) {
        logs[k]->butt *= less;
        logs[k]->tip *= less;
    }
}

static void thinner_tips(bwt_deck *d, uint64_t *random)
{
    d->stringer.tip *= bwt_uniform(random, 0.85, 1.0);
}

static void longer_spans(bwt_deck *d, uint64_t *random)
{
    const double more = bwt_uniform(random, 1.0, 1.35);
    for (int b = 0; b < d->n_bents; b++) {
        d->at[b] *= more;
    }
}

static void more_people(bwt_deck *d, uint64_t *random)
{
    d->crowd += bwt_uniform(random, 0.0, 1500.0);
}

static void heavier_boards(bwt_deck *d, uint64_t *random)
{
    d->board_pressure += bwt_uniform(random, 0.0, 400.0);
}

static void snow_as_well(bwt_deck *d, uint64_t *random)
{
    d->snow += bwt_uniform(random, 0.0, 2500.0);
}

/* What lightens the deck, or weighs it down, may help a post to stand against a push, or
 * the ground under it: then it is the stringers that count. */
typedef struct {
    const char *words;
    void (*make)(bwt_deck *, uint64_t *);
    bool stringers_only;
} change;

static const change changes[] = {
    {"a heavier rider", heavier_rider, false},
    {"a harder landing", harder_landing, false},
    {"longer spans", longer_spans, true},
    {"snow as well", snow_as_well, false},
    {"thinner logs", thinner_logs, true},
    {"thinner tips", thinner_tips, true},
    {"more people", more_people, true},
    {"heavier boards", heavier_boards, true},
};

static void nothing_that_makes_it_worse_helps(void **state)
{
    uint64_t random = 10007;
    for (int k = 0; k < DECKS; k++) {
        const bwt_deck d = bwt_deck_random(&random);
        const worst before = worst_of(&d, *state);
        for (size_t j = 0; j < sizeof changes / sizeof changes[0]; j++) {
            const bw_arena_mark mark = bw_arena_now(*state);
            const bool part = changes[j].stringers_only;
            bwt_deck changed = d;
            changes[j].make(&changed, &random);
            const worst after = worst_of(&changed, *state);
            const double from = part ? before.stringers : before.all;
            const double to = part ? after.stringers : after.all;
            if (!(to >= from * (1.0 - rounding))) {
                fail_msg("deck %d, %s: %.12g became %.12g", k, changes[j].words, from,
                         to);
            }
            bw_arena_back(*state, mark);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_deck_seen_from_the_other_end_gives_the_same),
        WITH_ARENA(a_deck_seen_in_a_mirror_gives_the_same),
        WITH_ARENA(nothing_that_makes_it_worse_helps),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
