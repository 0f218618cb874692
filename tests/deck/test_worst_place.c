/* The rider is put by hand on random places; the frames are solved anew for each of them,
 * and no log may be used more than the findings say. The shares of the rows, the bearing
 * areas and the forces on the bents are worked out here, from the geometry. */
#include "../base/arena_fixture.h"
#include "law_deck.h"
#include "planned.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static const double same = 1e-9; /* a place may beat the finding by roundings only */

typedef struct {
    const bw_case *deck;
    bw_assessment result;
    bwi_plan plan;
    bwi_row_frame rows[BWT_ROWS];
    bw_state *dead[BWT_ROWS];
    bwi_bent_frame bents[BWT_BENTS];
    bw_arena *arena;
    bool slow; /* the rider: with 1.25 times the weight at most */
    int misses;
    double worst;
} trial;

typedef struct {
    size_t bay;
    double along, across; /* [m] from the bay's first bent; right of the centre */
} place;

/* ---- the frames, solved without influence lines ---- */

static void prepare(trial *t, const bwt_deck *d)
{
    bw_diags diags = bw_diags_new(t->arena, NULL);
    assert_int_equal(bwt_deck_plan(d, t->arena, &t->deck, &t->result, &t->plan), BW_OK);
    for (size_t r = 0; r < t->deck->n_rows; r++) {
        assert_int_equal(bwi_row_frame_make(&t->plan, (int)r, 1, &t->rows[r], &diags),
                         BW_OK);
        t->dead[r] =
            bw_frame_state(t->rows[r].frame, &(bw_part){BWI_CASE_DEAD, 1.0}, 1, t->arena);
        assert_non_null(t->dead[r]);
    }
    for (size_t b = 0; b < t->deck->n_bents; b++) {
        if (t->deck->bents[b].n_posts > 0) {
            assert_int_equal(bwi_bent_frame_make(&t->plan, b, 1, &t->bents[b], &diags),
                             BW_OK);
        }
    }
}

/* Simply supported boards: the two rows beside the place, or the two nearest the edge. */
static double share(const trial *t, size_t row, double across)
{
    const bw_row *rows = t->deck->rows; /* in order from left to right here */
    size_t left = 0;
    while (left + 2 < t->deck->n_rows && rows[left + 1].across < across) {
        left++;
    }
    const double gap = rows[left + 1].across - rows[left].across;
    const double right = (across - rows[left].across) / gap;
    return row == left ? 1.0 - right : row == left + 1 ? right : 0.0;
}

static bw_state *rider_on_row(trial *t, size_t row, const place *p)
{
    const bwi_row_frame *f = &t->rows[row];
    const int member = f->bay_member[p->bay];
    const double plan = t->deck->bents[p->bay + 1].at - t->deck->bents[p->bay].at;
    const double a = p->along / plan * bw_frame_length(f->frame, member);
    const double weight = t->deck->loads.mass * bw_gravity * share(t, row, p->across);
    const bw_member_load load = {
        .kind = BW_LOAD_POINT, .member = member, .a = a, .b = a, .y = {-weight, 0.0}};
    bw_state *s = NULL;
    assert_int_equal(bw_frame_solve_loads(f->frame, &load, 1, &s, t->arena), BW_OK);
    return s;
}

/* ---- comparing with the findings ---- */

static const bw_member_result *result_of(const trial *t, const char *role,
                                         const char *path)
{
    for (size_t k = 0; k < t->result.n_members; k++) {
        const bw_member_result *m = &t->result.members[k];
        if (strcmp(m->role, role) == 0 && strcmp(m->case_path, path) == 0) {
            return m;
        }
    }
    fail_msg("no result of %s %s", role, path);
    return NULL;
}

static void compare(trial *t, const bw_member_result *m, bw_check_kind kind,
                    const bw_check_input *in, double duration)
{
    bw_check_input full = *in;
    full.load_duration = duration;
    const double found = t->deck->basis->checks[kind]->ratio(&full, NULL).utilisation;
    const double told = m->has[kind] ? m->findings[kind].ratio.utilisation : 0.0;
    const double excess = found / told - 1.0;
    if (!(found <= told * (1.0 + same))) {
        t->misses++;
        fprintf(stderr, "%s %s %s: %.12g here, the finding says %.12g (%s)\n", m->role,
                m->name, bw_us_asd.checks[kind]->id, found, told,
                m->has[kind] && m->findings[kind].position != NULL
                    ? m->findings[kind].position
                    : "-");
    }
    t->worst = fmax(t->worst, excess);
}

/* Ten minutes of blows, or occupancy of a slow rider: NDS 2018 Table 2.3.2, READ. */
static double duration_of(const trial *t)
{
    return t->slow ? 1.0 : 1.6;
}

/* What the notches of a stringer leave of it, at their very places. */
static void stringer_notches(trial *t, size_t row, size_t bay, const bw_state *total)
{
    const bwi_row_frame *f = &t->rows[row];
    const bwi_part_of_stringer *part = bwi_plan_part(&t->plan, (int)row, bay);
    const bw_stringer *s = &t->deck->stringers[part->stringer];
    const bw_log *log = &t->deck->logs[s->log];
    for (size_t k = 0; k < log->n_notches; k++) {
        const double x =
            bwi_stringer_from_butt(&t->plan, part->stringer, log->notches[k].from_butt) -
            part->from_first;
        if (x < 0.0 || x > part->length) {
            continue;
        }
        const bw_action a = bw_state_action(total, f->bay_member[bay], x, true);
        const bw_section whole = bw_frame_section(f->frame, f->bay_member[bay], x);
        bw_check_input in = {.reference = &t->result.references[s->log],
                             .diameter = whole.diameter,
                             .moment = fabs(a.moment)};
        const bwi_notch_place cut = {&log->notches[k], whole, a.moment, false, false};
        bwi_notch_input(&t->plan, s->log, &cut, &in);
        compare(t, result_of(t, "stringer", s->case_path), BW_CHECK_BENDING, &in,
                duration_of(t));
    }
}

static void stringer_sections(trial *t, size_t row, size_t bay, const bw_state *total,
                              const bw_state *live)
{
    enum { PLACES = 24 };
    const bwi_row_frame *f = &t->rows[row];
    const int stringer = bwi_plan_part(&t->plan, (int)row, bay)->stringer;
    const bw_member_result *m =
        result_of(t, "stringer", t->deck->stringers[stringer].case_path);
    const int member = f->bay_member[bay];
    const double length = bw_frame_length(f->frame, member);
    bw_check_input in = {.reference =
                             &t->result.references[t->deck->stringers[stringer].log]};
    double most = 0.0;
    for (int k = 0; k <= PLACES; k++) {
        const double x = length * k / PLACES;
        const bw_action a = bw_state_action(total, member, x, k > 0);
        in.diameter = bw_frame_section(f->frame, member, x).diameter;
        in.moment = fabs(a.moment);
        in.shear = fabs(a.shear);
        compare(t, m, BW_CHECK_BENDING, &in, duration_of(t));
        compare(t, m, BW_CHECK_SHEAR, &in, duration_of(t));
        most = fmax(most, fabs(bw_state_sag(live, member, x)));
    }
    in.deflection = most;
    in.span = bwi_plan_part(&t->plan, (int)row, bay)->length;
    in.limit = t->deck->limits.live;
    if (!t->slow) {
        compare(t, m, BW_CHECK_DEFLECTION, &in, duration_of(t));
    }
}

/* Downward force of a member's end on its joint, from N and V there. */
static double end_force(const bwi_row_frame *f, const bw_state *s, size_t bay, bool last)
{
    double c, sn;
    const int member = f->bay_member[bay];
    bw_frame_direction(f->frame, member, &c, &sn);
    const double x = last ? bw_frame_length(f->frame, member) : 0.0;
    const bw_action a = bw_state_action(s, member, x, last);
    /* tension pulls the joint towards the member; V lifts the part before x */
    const double pull = last ? -a.axial * sn : a.axial * sn;
    const double push = last ? -a.shear * c : a.shear * c;
    return push - pull;
}

static double on_bent(const trial *t, size_t row, const bw_state *s, size_t bent)
{
    const bwi_row_frame *f = &t->rows[row];
    double sum = 0.0;
    if (bent > 0) {
        sum += end_force(f, s, bent - 1, true);
    }
    if (bent < t->plan.n_bays) {
        sum += end_force(f, s, bent, false);
    }
    return sum;
}

/* Flats across each other: their widths are chords of the circles, seat_depth deep. */
static void seat(trial *t, size_t row, size_t bent, int stringer, double from_first,
                 double part, double force)
{
    const bw_bent *b = &t->deck->bents[bent];
    const double h = t->deck->limits.seat_depth;
    const double own = bwi_stringer_diameter(&t->plan, stringer, from_first);
    const double cap = bwi_cap_diameter(&t->plan, bent, t->deck->rows[row].across);
    const bw_stringer *s = &t->deck->stringers[stringer];
    if (force > 0.0) {
        const bw_check_input in = {.reference = &t->result.references[s->log],
                                   .force = force,
                                   .bearing_area = part * 2.0 * sqrt(h * (own - h)) *
                                                   2.0 * sqrt(h * (cap - h))};
        compare(t, result_of(t, "stringer", s->case_path), BW_CHECK_BEARING, &in, 1.0);
        bw_check_input under = in;
        under.reference = &t->result.references[b->cap];
        compare(t, result_of(t, b->is_sill ? "sill" : "cap", b->case_path),
                BW_CHECK_BEARING, &under, 1.0);
    }
}

static void seats(trial *t, size_t row, const bw_state *s, size_t bent)
{
    const bwi_row_frame *f = &t->rows[row];
    const bwi_part_of_stringer none = {-1, 0.0, 0.0};
    const bwi_part_of_stringer a =
        bent > 0 ? *bwi_plan_part(&t->plan, (int)row, bent - 1) : none;
    const bwi_part_of_stringer b =
        bent < t->plan.n_bays ? *bwi_plan_part(&t->plan, (int)row, bent) : none;
    const double before = bent > 0 ? end_force(f, s, bent - 1, true) : 0.0;
    const double after = bent < t->plan.n_bays ? end_force(f, s, bent, false) : 0.0;
    if (a.stringer == b.stringer) {
        seat(t, row, bent, b.stringer, b.from_first, 1.0, before + after);
        return;
    }
    const double part = a.stringer >= 0 && b.stringer >= 0 ? 0.5 : 1.0;
    if (a.stringer >= 0) {
        seat(t, row, bent, a.stringer, a.from_first + a.length, part, before);
    }
    if (b.stringer >= 0) {
        seat(t, row, bent, b.stringer, b.from_first, part, after);
    }
}

static void cap_sections(trial *t, size_t bent, const bw_state *s)
{
    enum { PLACES = 12 };
    const bw_bent *b = &t->deck->bents[bent];
    const bwi_bent_frame *f = &t->bents[bent];
    const bw_member_result *m = result_of(t, "cap", b->case_path);
    bw_check_input in = {.reference = &t->result.references[b->cap]};
    for (size_t j = 0; j + 1 < f->n_nodes; j++) {
        const double length = bw_frame_length(f->frame, f->cap_member[j]);
        for (int k = 0; k <= PLACES; k++) {
            const double x = length * k / PLACES;
            const bw_action a = bw_state_action(s, f->cap_member[j], x, k > 0);
            in.diameter = bw_frame_section(f->frame, f->cap_member[j], x).diameter;
            in.moment = fabs(a.moment);
            in.shear = fabs(a.shear);
            compare(t, m, BW_CHECK_BENDING, &in, duration_of(t));
            compare(t, m, BW_CHECK_SHEAR, &in, duration_of(t));
        }
    }
}

/* The end grain of a post under the cap's flat: circle segments. */
static void post_ends(trial *t, size_t bent, const bw_state *s)
{
    const bw_bent *b = &t->deck->bents[bent];
    const bwi_bent_frame *f = &t->bents[bent];
    for (size_t k = 0; k < b->n_posts; k++) {
        const double length = bw_frame_length(f->frame, f->posts[k].first);
        const double force = -bw_state_action(s, f->posts[k].first, length, true).axial;
        const bwi_post_place p = bwi_plan_post(&t->plan, bent, &b->posts[k]);
        const double top = bwi_post_diameter(&t->plan, &p, p.top);
        const double cap =
            bwi_cap_diameter(&t->plan, bent, t->deck->rows[b->posts[k].row].across);
        const double h = t->deck->limits.seat_depth;
        const double a = fmin(sqrt(h * (cap - h)), top / 2.0), r = top / 2.0;
        if (force <= 0.0) {
            continue;
        }
        const bw_check_input in = {
            .reference = &t->result.references[b->posts[k].log],
            .force = force,
            .bearing_area = 2.0 * (a * sqrt(r * r - a * a) + r * r * asin(a / r))};
        compare(t, result_of(t, "post", b->posts[k].case_path), BW_CHECK_END_BEARING, &in,
                duration_of(t));
    }
}

static void try_place(trial *t, const place *p)
{
    double force[BWT_BENTS][BWT_ROWS] = {{0}};
    const double told = t->deck->loads.factor, factor = t->slow ? fmin(told, 1.25) : told;
    for (size_t r = 0; r < t->deck->n_rows; r++) {
        const bw_state *live = rider_on_row(t, r, p);
        const bw_state *total = bw_state_add(t->dead[r], factor, live, t->arena);
        assert_non_null(total);
        for (size_t bay = 0; bay < t->plan.n_bays; bay++) {
            stringer_sections(t, r, bay, total, live);
            stringer_notches(t, r, bay, total);
        }
        for (size_t b = 0; b < t->deck->n_bents; b++) {
            force[b][r] = on_bent(t, r, total, b);
            seats(t, r, total, b);
        }
    }
    for (size_t b = 0; b < t->deck->n_bents; b++) {
        if (t->deck->bents[b].n_posts == 0) {
            continue;
        }
        bw_part parts[BWT_ROWS + 1] = {{0, 1.0}};
        for (size_t r = 0; r < t->deck->n_rows; r++) {
            parts[r + 1] = (bw_part){1 + (int)r, force[b][r]};
        }
        const bw_state *s =
            bw_frame_state(t->bents[b].frame, parts, t->deck->n_rows + 1, t->arena);
        assert_non_null(s);
        cap_sections(t, b, s);
        post_ends(t, b, s);
    }
}

static void try_deck(const bwt_deck *d, bw_arena *arena, int places, uint64_t seed)
{
    trial t = {.arena = arena, .worst = -1.0};
    uint64_t random = seed;
    prepare(&t, d);
    for (int k = 0; k < places; k++) {
        const bw_arena_mark mark = bw_arena_now(arena);
        place p = {.bay = (size_t)bwt_below(&random, d->n_bents - 1)};
        p.along = (d->at[p.bay + 1] - d->at[p.bay]) * bwt_uniform(&random, 0.0, 1.0);
        p.across = d->width / 2.0 * bwt_uniform(&random, -1.0, 1.0);
        if (k % 3 == 0) { /* the edges are where it is worst */
            p.across = k % 2 == 0 ? d->width / 2.0 : -d->width / 2.0;
        }
        t.slow = k % 4 == 3;
        try_place(&t, &p);
        bw_arena_back(arena, mark);
    }
    print_message("    nearest to a finding: %.2g of it\n", 1.0 + t.worst);
    assert_int_equal(t.misses, 0);
}

static void butted_rows_hold_at_a_thousand_places(void **state)
{
    const bwt_deck d = bwt_deck_plain();
    try_deck(&d, *state, 1000, 2713);
}

static void sloping_rows_hold_at_a_thousand_places(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.sill[0] = true;
    d.height[0] = 0.55;
    d.height[2] = 1.31;
    try_deck(&d, *state, 1000, 3119);
}

static void three_rows_running_on_hold_at_a_thousand_places(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.n_rows = 3;
    d.n_bents = 5;
    const double across[] = {-0.611, 0.037, 0.583};
    const double at[] = {-2.2, 0.0, 2.713, 4.9, 8.03};
    for (int k = 0; k < 5; k++) {
        d.at[k] = at[k];
        d.height[k] = 1.07;
    }
    for (int k = 0; k < 3; k++) {
        d.across[k] = across[k];
        d.run[k] = k == 1 ? 2 : 4;
    }
    d.width = 1.61;
    try_deck(&d, *state, 1000, 4057);
}

static void a_cap_between_posts_holds_at_a_thousand_places(void **state)
{
    bwt_deck d = bwt_deck_plain();
    d.n_rows = 4;
    const double across[] = {-0.71, -0.29, 0.33, 0.68};
    for (int k = 0; k < 4; k++) {
        d.across[k] = across[k];
    }
    for (int b = 0; b < 3; b++) { /* the cap spans between, and overhangs */
        d.no_post[b][1] = d.no_post[b][3] = true;
    }
    d.run[0] = d.run[1] = d.run[2] = d.run[3] = 2;
    d.width = 1.87;
    try_deck(&d, *state, 1000, 5197);
}

/* With the wheel over a notch that is used a tenth more than with the wheel elsewhere,
 * where the plain log is used most: between two places of the grid it was once not looked
 * for under a slow rider. */
static void notched_stringers_hold_wherever_the_notch_is(void **state)
{
    enum { NOTCHES = 12, PLACES = 300 };
    for (int k = 0; k < NOTCHES; k++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        bwt_deck d = bwt_deck_plain();
        d.factor = 1.17; /* as hard when slow, and for longer */
        d.stringer.tip = 0.78 * d.stringer.butt;
        d.stringer_flaws =
            (bwt_flaws){.notch_at = 0.831 + 0.0637 * k, .notch_depth = 0.031};
        try_deck(&d, *state, PLACES, 6173u + (uint64_t)k);
        bw_arena_back(*state, mark);
    }
}

static void random_decks_hold_at_random_places(void **state)
{
    enum { DECKS = 80, PLACES = 60 };
    uint64_t random = 6211;
    for (int k = 0; k < DECKS; k++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        bwt_deck d = bwt_deck_random(&random);
        d.crowd = d.push = d.sway = d.lean = 0.0; /* the pushes have tests of their own */
        print_message("  deck %d\n", k);
        try_deck(&d, *state, PLACES, 7001u + (uint64_t)k);
        bw_arena_back(*state, mark);
    }
}

/* People on the far bays lift the first bent here, and some rows of it more than others:
 * those who push it were counted several times over once, and a post had 6.4 kN. All that
 * can push it is what sways on its half of the bay and its part of all that weighs. */
static void nobody_pushes_twice(void **state)
{
    const bwt_deck d = bwt_law_deck(2000366);
    bw_assessment a;
    assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
    const double area = d.width * (d.at[1] - d.at[0]) / 2.0;
    const double logs = 3e3; /* [N] more than what of them stands on the bent */
    const double most =
        d.sway * area + d.lean * ((d.crowd + d.board_pressure) * area + logs);
    const bw_finding *post = bwt_finding(&a, "post", "b0 r0", BW_CHECK_SHEAR);
    assert_non_null(post);
    assert_true(bwt_term(post, "V") > 0.2 * most && bwt_term(post, "V") < most);
}

/* A rider on the far bays lifts the last bent, and may push it the way it does not lean:
 * both with the same sign took one off the other, up to 8 % of the uplift. */
static void leaning_takes_nothing_off_uplift(void **state)
{
    double before = 0.0;
    for (double lean = 0.0; lean < 0.06; lean += 0.017) {
        bwt_deck d = bwt_law_deck(2100156);
        bw_assessment a;
        d.lean = lean;
        assert_int_equal(bwt_deck_assess(&d, *state, &a, NULL), BW_OK);
        const bw_finding *up = bwt_finding(&a, "post", "b3 r2", BW_CHECK_UPLIFT);
        assert_non_null(up);
        assert_true(up->ratio.utilisation > 0.8 && up->ratio.utilisation >= before);
        before = up->ratio.utilisation;
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(butted_rows_hold_at_a_thousand_places),
        WITH_ARENA(sloping_rows_hold_at_a_thousand_places),
        WITH_ARENA(three_rows_running_on_hold_at_a_thousand_places),
        WITH_ARENA(a_cap_between_posts_holds_at_a_thousand_places),
        WITH_ARENA(nobody_pushes_twice),
        WITH_ARENA(leaning_takes_nothing_off_uplift),
        WITH_ARENA(notched_stringers_hold_wherever_the_notch_is),
        WITH_ARENA(random_decks_hold_at_random_places),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
