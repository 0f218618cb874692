/* Moves the loads over a bent and has its cap, the seats on its posts, and the posts
 * checked. The rows stand on it with the forces found in the row frames. */
#include "bent.h"

#include <math.h>
#include <string.h>

/* The places along one line of the deck that are worth a look. */
typedef struct {
    bwi_rider_place rider; /* its bay and its place across */
    size_t n;
    double *along, *live; /* live: per place, of every row [N] */
} line_places;

typedef struct bwi_known_lines {
    line_places *items;
    size_t n, capacity;
} known_lines;

/* ---- arrangements ---- */

/* State of factor * own weight, a force down at every row, a push at deck level, and what
 * tips a lone row to the right. */
static bw_state *state_of(const bwi_arrangement *a, double own, const double *force,
                          double push, double turn)
{
    const bwi_plan *p = a->t->plan;
    const size_t n = p->deck->n_rows + 2, more = p->lone_row >= 0 ? 1 : 0;
    bw_part *parts = BW_NEW(p->arena, bw_part, n + more);
    if (parts == NULL) {
        return NULL;
    }
    parts[0] = (bw_part){0, own};
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        parts[r + 1] = (bw_part){1 + (int)r, force[r]};
    }
    parts[n - 1] = (bw_part){(int)n - 1, push};
    if (more > 0) {
        parts[n] = (bw_part){(int)n, turn};
    }
    return bw_frame_state(a->f.frame, parts, n + more, p->arena);
}

/* As for a row: without a push, the braces that the frame holds press. */
static bool is_of_other_frame(const bwi_arrangement *a, const bw_state *s)
{
    const bwi_plan *p = a->t->plan;
    bool pulled = false;
    for (size_t k = 0; a->push == 0 && !pulled && k < p->deck->n_braces; k++) {
        const int member = a->f.brace_member[k];
        if (member >= 0) {
            const bw_line line = bw_state_line(s, member, p->arena);
            pulled = bwi_brace_would_pull(&p->deck->braces[k], &line,
                                          bw_frame_length(a->f.frame, member));
        }
    }
    return pulled;
}

/* The side that it is pushed to is the one that it tips to: the other one is looked at
 * with the other push, in a frame whose braces hold that. */
static double turn_with_push(const bwi_arrangement *a, const bwi_row_forces *rows)
{
    return a->push * rows->turn < 0.0 ? 0.0 : rows->turn;
}

static bw_state *whole_state(const bwi_arrangement *a, const bwi_row_forces *rows)
{
    return state_of(a, rows->own, rows->total, rows->push, turn_with_push(a, rows));
}

static bw_status check_forces(const bwi_arrangement *a, const bwi_row_forces *rows)
{
    bw_arena *arena = a->t->plan->arena;
    const bw_arena_mark mark = bw_arena_now(arena);
    const bw_state *s = whole_state(a, rows);
    const bw_state *live =
        a->service ? state_of(a, 0.0, rows->live, 0.0, 0.0) : a->dead; /* not asked for */
    if (s == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    s = a->curved ? bwi_bend(a->t, s, bwi_softest_post(a), &a->event) : s;
    if (s == NULL) {
        return a->t->failed;
    }
    if (is_of_other_frame(a, s)) {
        bw_arena_back(arena, mark);
        return BW_OK;
    }
    const bool cap = bwi_wants(a->t, a->t->first_cap + a->f.bent);
    if (a->strength && cap && bwi_wants_seats(a->t, false)) {
        bwi_check_cap(a, s);
    }
    if (a->strength) {
        bwi_note(a->t, BWI_LONE_TURN, fabs(rows->turn));
        bwi_check_push_across(a, rows->push);
        if (a->t->plan->deck->bents[a->f.bent].cap >= 0) { /* else see note_top */
            bwi_note_push(a, rows->push, BWI_CAP_PUSH);
        }
        bwi_check_bent_posts(a, s);
        bwi_check_bent_braces(a, s);
    }
    if (a->service && cap && a->t->plan->deck->bents[a->f.bent].cap >= 0) {
        bwi_check_cap_deflection(a, live, a->dead);
    }
    bwi_track_frame(a->t, a->f.frame, s);
    bw_arena_back(arena, mark);
    return BW_OK;
}

/* ---- stringers that lift off their seats: what that changes on this bent ---- */

/* Force of a stringer on the bent beyond that of it held down; wheels (null: none) act
 * with the factor. */
static double freed_force(const bwi_arrangement *a, const bwi_lift *lift,
                          const bwi_row_forces *rows, const bwi_wheels *wheels,
                          double factor)
{
    const bwi_row_frame *f = &a->rows[a->t->plan->deck->stringers[lift->stringer].row];
    const bw_combination *c = rows->combination;
    const size_t strip = bwi_strip_in_set(a->t->plan, rows->set);
    const size_t n = lift->n, pattern = BWI_LIFT_FIRST_PATTERN + rows->pattern +
                                        strip * a->transfer->n_patterns;
    const double people =
        c->crowd != 0.0
            ? c->crowd * bwi_part_in_set(a->t->plan, rows->set, (size_t)f->row)
            : 0.0;
    double held[BWI_SEATS_MAX], gap[BWI_SEATS_MAX];
    for (size_t i = 0; i < n; i++) {
        held[i] = c->dead * lift->load[BWI_LIFT_DEAD * n + i] +
                  c->snow * lift->load[BWI_LIFT_SNOW * n + i];
        held[i] += people != 0.0 ? people * lift->load[pattern * n + i] : 0.0;
        held[i] +=
            wheels != NULL ? factor * bwi_seat_force(f, lift, i, NULL, wheels) : 0.0;
    }
    if (!bwi_lift_solve(lift, held, gap)) {
        return 0.0;
    }
    bwi_wheels gaps;
    bwi_gaps(lift, gap, &gaps);
    return bwi_row_wheel_reaction(f, &gaps, a->f.bent);
}

/* Adds to the forces of a row what its stringers on this bent do when free to lift; true
 * if that is anything. Live forces for deflection only grow. */
static bool free_row(const bwi_arrangement *a, size_t row, const bwi_row_forces *rows,
                     const bwi_wheels *wheels, double factor, double *total, double *live)
{
    const bwi_row_frame *f = &a->rows[row];
    double more = 0.0;
    for (size_t k = 0; f->frame != NULL && k < f->n_lifts; k++) {
        const bwi_lift *lift = &f->lifts[k];
        if (lift->first <= a->f.bent && a->f.bent < lift->first + lift->n) {
            more += freed_force(a, lift, rows, wheels, factor);
        }
    }
    *total += more;
    *live += fmax(more, 0.0);
    return more != 0.0;
}

/* Sets curved if the bent is near to buckling under the forces. */
static bw_status check_buckling(bwi_arrangement *a, const bwi_row_forces *rows,
                                bw_diags *d)
{
    const bw_state *s = whole_state(a, rows);
    if (s == NULL) {
        return BW_E_MEMORY;
    }
    bw_buckling found;
    bw_buckled *lowest = &a->t->buckled_bents[a->f.bent];
    const bwi_buckling_of of = {bwi_softest_post(a), &a->event, &a->presses, lowest};
    a->curved = bwi_check_buckling(a->t, a->f.frame, s, &of, &found, d);
    bwi_keep_buckled_bent(a->t->plan, &a->f, &found, &a->event, lowest);
    return a->t->failed;
}

static double of_row(const bwi_arrangement *a, const double *forces, size_t row)
{
    return forces[row * a->t->plan->deck->n_bents + a->f.bent];
}

/* Places across the deck that matter: either track over each row, and at both edges. */
static double wheel_across(const bwi_plan *p, const bwi_mover *mover, size_t k)
{
    const double reach = bwi_mover_reach(p->deck, mover);
    const double side = k % 2 == 0 ? -1.0 : 1.0;
    const double there = k / 2 < p->deck->n_rows
                             ? p->deck->rows[k / 2].across + side * mover->track / 2.0
                             : side * reach;
    return fmin(fmax(there, -reach), reach);
}

/* What the row hands down of the standing rider; wheels (null: not wanted): of it on the
 * row. 0 without a row. */
double bwi_live_of_row(const bwi_arrangement *a, size_t r, const bwi_rider_place *rider,
                       bwi_wheels *wheels)
{
    bwi_wheels own;
    wheels = wheels != NULL ? wheels : &own;
    if (a->rows[r].frame == NULL) {
        return 0.0;
    }
    bwi_riders(a->t->plan, &a->rows[r], rider, a->f.direction, (bwi_blow){1.0, 0.0},
               wheels);
    return bwi_row_wheel_reaction(&a->rows[r], wheels, a->f.bent);
}

/* Sideways with what moves; weight: of it on all rows. Who lifts the bent from afar makes
 * it lean less, but may push against the way it leans. */
double bwi_push_with(const bwi_arrangement *a, const bwi_row_forces *dead, double weight)
{
    const bw_case *deck = a->t->plan->deck;
    const bwi_mover mover = bwi_mover_in(deck, dead->combination);
    return dead->push +
           a->push * bwi_moving(dead->combination) *
               (mover.push * fabs(weight) + deck->loads.lean * mover.factor * weight);
}

/* Forces of the rows with a rider at a place. freed: stringers free to lift instead of
 * held down; false if that is the same. */
static bool wheel_forces(const bwi_arrangement *a, const bwi_rider_place *rider,
                         const bwi_row_forces *dead, bool freed, bwi_row_forces *out)
{
    const bwi_plan *p = a->t->plan;
    const bwi_mover mover = bwi_mover_in(p->deck, dead->combination);
    const double factor = bwi_moving(dead->combination) * mover.factor;
    double *total = BW_NEW(p->arena, double, p->deck->n_rows);
    double *live = BW_NEW(p->arena, double, p->deck->n_rows), weight = 0.0;
    *out = *dead;
    out->total = total;
    out->live = live;
    bool any = !freed;
    for (size_t r = 0; total != NULL && live != NULL && r < p->deck->n_rows; r++) {
        total[r] = dead->total[r];
        if (a->rows[r].frame == NULL) {
            continue;
        }
        bwi_wheels wheels;
        live[r] = bwi_live_of_row(a, r, rider, &wheels);
        total[r] += factor * live[r];
        weight += live[r];
        out->turn += factor * live[r] * bwi_beside_lone_row(p, rider->across);
        any =
            (freed && free_row(a, r, dead, &wheels, factor, &total[r], &live[r])) || any;
    }
    out->push = bwi_push_with(a, dead, weight);
    return any;
}

/* d: not null to look at buckling only. */
static bw_status check_wheel(bwi_arrangement *base, const bwi_rider_place *rider,
                             const bwi_row_forces *dead, bw_diags *d)
{
    bwi_arrangement a = *base;
    a.event.rider = *rider;
    for (int freed = 0; freed < (base->may_lift ? 2 : 1); freed++) {
        bwi_row_forces forces;
        if (!bwi_wants_lifts(base->t, freed == 1)) {
            continue;
        }
        const bool any = wheel_forces(base, rider, dead, freed == 1, &forces);
        if (forces.total == NULL || forces.live == NULL) {
            return BW_E_MEMORY;
        }
        a.event.lifts = freed == 1;
        if (any) {
            BW_TRY(d == NULL ? check_forces(&a, &forces)
                             : check_buckling(&a, &forces, d));
        }
        base->curved = base->curved || a.curved;
    }
    return BW_OK;
}

/* As for the rows: (pi / (2 BWI_BENT_POSITIONS))^2 / 2 = 0.9 %, and twice that. A
 * stringer that lifts gives edges instead of humps, of which the grid was seen to miss 3
 * %. */
static const double grid_leaves = 0.02, lifted_grid_leaves = 0.1;

typedef struct {
    bwi_arrangement *a;
    const bwi_row_forces *dead;
} refining;

static bw_status try_place(void *search, const bwi_rider_place *to)
{
    const refining *r = search;
    bw_arena *arena = r->a->t->plan->arena;
    const bw_arena_mark mark = bw_arena_now(arena);
    BW_TRY(check_wheel(r->a, to, r->dead, NULL));
    bw_arena_back(arena, mark);
    return BW_OK;
}

/* Along the deck: where stringers run on over the bent, they press hardest with the wheel
 * a little beside it. */
static bw_status refine_wheel(bwi_arrangement *a, const bwi_row_forces *dead,
                              size_t member, bw_check_kind kind)
{
    if (!bwi_has_peak(a->t, member, kind)) {
        return BW_OK;
    }
    refining r = {a, dead};
    return bwi_refine(a->t, &(bwi_refinement){.member = member,
                                              .kind = kind,
                                              .first_step = 0.5 / BWI_BENT_POSITIONS,
                                              .open = {grid_leaves, lifted_grid_leaves},
                                              .curved = a->curved,
                                              .try_place = try_place,
                                              .search = &r});
}

/* The bent's own members: its posts, and last its cap. */
static size_t own_member(const bwi_arrangement *a, size_t k)
{
    const size_t bent = a->f.bent;
    return k < a->t->plan->deck->bents[bent].n_posts ? a->t->post_first[bent] + k
                                                     : a->t->first_cap + bent;
}

static bw_status refine(bwi_arrangement *a, const bwi_row_forces *dead)
{
    for (size_t k = 0; k <= a->t->plan->deck->bents[a->f.bent].n_posts; k++) {
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            BW_TRY(refine_wheel(a, dead, own_member(a, k), (bw_check_kind)kind));
        }
    }
    return BW_OK;
}

/* Bays in which a wheel does something to the bent: those of every stringer that lies on
 * it or runs on over it; and in which the first one stands while another is there. */
void bwi_bays_that_matter(const bwi_plan *p, const bwi_mover *mover, size_t bent,
                          size_t *first, size_t *end)
{
    const bw_bent *bents = p->deck->bents;
    size_t from = bent, to = bent;
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        const bw_stringer *s = &p->deck->stringers[k];
        if (s->from <= (int)bent && (int)bent <= s->to) {
            from = (size_t)s->from < from ? (size_t)s->from : from;
            to = (size_t)s->to > to ? (size_t)s->to : to;
        }
    }
    const double train = (mover->count - 1) * mover->spacing + mover->wheelbase;
    *first = from;
    while (*first > 0 && bents[*first].at > bents[from].at - train) {
        (*first)--;
    }
    *end = to;
    while (*end < p->n_bays && bents[*end].at < bents[to].at + mover->wheelbase) {
        (*end)++;
    }
}

/* ---- places that are worth a look ---- */

/* Rows that carry the rider at some of n places; false if they are more than two. */
static bool find_two_rows(const double *live, size_t n, size_t n_rows, size_t row[2])
{
    size_t found = 0;
    for (size_t r = 0; r < n_rows; r++) {
        bool carries = false;
        for (size_t j = 0; j < n; j++) {
            carries = carries || live[j * n_rows + r] != 0.0;
        }
        if (carries && found == 2) {
            return false;
        }
        if (carries) {
            row[found++] = r;
        }
    }
    return true;
}

/* All that a bent feels follows in a straight line from the forces of the rows that carry
 * the rider, two of them unless it is a machine. A check that is used so much at most
 * under two sets of forces is so under any mixture of them: only the corners of all sets
 * need a look. The others are taken off the line. */
static bw_status keep_corners(const bwi_plan *p, line_places *line)
{
    const size_t n_rows = p->deck->n_rows;
    size_t row[2] = {0, 0}, kept = 0;
    bwi_point *point = BW_NEW(p->arena, bwi_point, line->n);
    if (point == NULL) {
        return BW_E_MEMORY;
    }
    if (!find_two_rows(line->live, line->n, n_rows, row)) {
        return BW_OK;
    }
    for (size_t j = 0; j < line->n; j++) {
        const double *live = &line->live[j * n_rows];
        point[j] = (bwi_point){live[row[0]], live[row[1]], false};
    }
    if (!bwi_mark_corners(point, line->n, p->arena)) {
        return BW_E_MEMORY;
    }
    for (size_t j = 0; j < line->n; j++) {
        if (point[j].is_corner) {
            line->along[kept] = line->along[j];
            memmove(&line->live[kept++ * n_rows], &line->live[j * n_rows],
                    n_rows * sizeof *line->live);
        }
    }
    line->n = kept;
    return BW_OK;
}

static bw_status make_line(const bwi_arrangement *a, const bwi_rider_place *rider,
                           line_places *out)
{
    const bwi_plan *p = a->t->plan;
    const size_t n_rows = p->deck->n_rows;
    bwi_rider_place at = *rider;
    double stops[BWI_STOPS_MAX];
    *out = (line_places){.rider = *rider};
    out->n = bwi_rider_stops(p, rider, a->f.direction, BWI_BENT_POSITIONS, stops);
    out->along = BW_NEW(p->arena, double, out->n);
    out->live = BW_NEW(p->arena, double, out->n *n_rows);
    if (out->along == NULL || out->live == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t j = 0; j < out->n; j++) {
        at.along = out->along[j] = stops[j];
        for (size_t r = 0; r < n_rows; r++) {
            out->live[j * n_rows + r] = bwi_live_of_row(a, r, &at, NULL);
        }
    }
    return keep_corners(p, out);
}

/* What the rows hand down there is the same in every combination: found once. Null
 * without memory. */
static const line_places *places_of(const bwi_arrangement *a,
                                    const bwi_rider_place *rider)
{
    known_lines *known = a->lines;
    for (size_t k = 0; k < known->n; k++) {
        const bwi_rider_place *other = &known->items[k].rider;
        if (other->bay == rider->bay && other->across == rider->across &&
            other->machine == rider->machine && other->alone == rider->alone) {
            return &known->items[k];
        }
    }
    line_places *items = bw_arena_grow(a->t->plan->arena, known->items, known->n,
                                       &known->capacity, sizeof *items);
    if (items == NULL) {
        return NULL;
    }
    known->items = items;
    return make_line(a, rider, &items[known->n]) == BW_OK ? &items[known->n++] : NULL;
}

static bw_status search_corners(const bwi_arrangement *base, const bwi_row_forces *dead,
                                bwi_rider_place rider)
{
    const bwi_plan *p = base->t->plan;
    const size_t n_rows = p->deck->n_rows;
    const line_places *line = places_of(base, &rider);
    double *total = BW_NEW(p->arena, double, n_rows);
    bwi_arrangement a = *base;
    if (line == NULL || total == NULL) {
        return BW_E_MEMORY;
    }
    const double factor =
        bwi_moving(dead->combination) * bwi_mover_in(p->deck, dead->combination).factor;
    for (size_t j = 0; j < line->n; j++) {
        bwi_row_forces forces = *dead;
        double weight = 0.0;
        forces.total = total;
        forces.live = &line->live[j * n_rows];
        for (size_t r = 0; r < n_rows; r++) {
            total[r] = dead->total[r] + factor * forces.live[r];
            weight += forces.live[r];
        }
        forces.turn += factor * weight * bwi_beside_lone_row(p, rider.across);
        forces.push = bwi_push_with(base, dead, weight);
        a.event.rider = rider;
        a.event.rider.along = line->along[j];
        BW_TRY(check_forces(&a, &forces));
    }
    return BW_OK;
}

/* Along one line of the deck. Stringers that lift, and frames that take turns without a
 * push, know no straight lines. */
static bw_status search_line(bwi_arrangement *a, const bwi_row_forces *dead,
                             bwi_rider_place rider)
{
    if (!a->may_lift && a->push != 0) {
        return search_corners(a, dead, rider);
    }
    bw_arena *arena = a->t->plan->arena;
    const bw_arena_mark mark = bw_arena_now(arena);
    double stops[BWI_STOPS_MAX];
    const size_t n =
        bwi_rider_stops(a->t->plan, &rider, a->f.direction, BWI_BENT_POSITIONS, stops);
    for (size_t j = 0; j < n; j++) {
        rider.along = stops[j];
        BW_TRY(check_wheel(a, &rider, dead, NULL));
        bw_arena_back(arena, mark);
    }
    return BW_OK;
}

static bw_status search_wheel(bwi_arrangement *a, const bwi_row_forces *dead)
{
    const bwi_plan *p = a->t->plan;
    const bool machine = dead->combination->machine != 0.0;
    const bwi_mover mover = bwi_mover_of(p->deck, machine);
    size_t first, end;
    bwi_bays_that_matter(p, &mover, a->f.bent, &first, &end);
    for (size_t k = 0; k <= p->deck->bents[a->f.bent].n_posts; k++) {
        bwi_peaks_clear(a->t, own_member(a, k));
    }
    for (size_t bay = first; bay < end; bay++) {
        for (size_t k = 0; k < 2 * p->deck->n_rows + 2; k++) {
            if (mover.track == 0.0 && k < 2 * p->deck->n_rows && k % 2 == 1) {
                continue; /* one track: the same place again */
            }
            bwi_rider_place rider = {.present = true,
                                     .bay = bay,
                                     .row = -1,
                                     .across = wheel_across(p, &mover, k),
                                     .machine = machine};
            for (int way = 0; way < bwi_mover_ways(&mover); way++) {
                rider.alone = way == 1;
                BW_TRY(search_line(a, dead, rider));
            }
        }
    }
    return refine(a, dead);
}

/* Buckling with the rider at the bent, over either edge. */
static bw_status check_wheel_buckling(bwi_arrangement *a, const bwi_row_forces *dead,
                                      bw_diags *d)
{
    const bwi_plan *p = a->t->plan;
    const size_t bay = a->f.bent < p->n_bays ? a->f.bent : a->f.bent - 1;
    const double length = p->deck->bents[bay + 1].at - p->deck->bents[bay].at;
    const double along = a->f.bent < p->n_bays ? 0.0 : length;
    const bool machine = dead->combination->machine != 0.0;
    const bwi_mover mover = bwi_mover_of(p->deck, machine);
    for (int side = -1; side <= 1; side += 2) {
        const bwi_rider_place rider = {
            true,    bay,  along, -1, side * bwi_mover_reach(p->deck, &mover),
            machine, false};
        BW_TRY(check_wheel(a, &rider, dead, d));
    }
    return BW_OK;
}

/* Plan area whose people push on the bent. */
static double push_area(const bwi_plan *p, size_t bent)
{
    const bw_bent *b = p->deck->bents;
    const double before = bent > 0 ? b[bent].at - b[bent - 1].at : 0.0;
    const double after = bent < p->n_bays ? b[bent + 1].at - b[bent].at : 0.0;
    return p->deck->boards.width * (before + after) / 2.0;
}

/* Forces of the rows under the combination, people on the bays of pattern k and the rows
 * of the set, no rider. */
bwi_row_forces bwi_plain_forces(const bwi_arrangement *a, const bw_combination *c,
                                size_t k, size_t set, double *total, double *live)
{
    const bwi_plan *p = a->t->plan;
    const bwi_transfer *t = a->transfer;
    const bw_loads *l = &p->deck->loads;
    const double *on_strip = t->crowd[k + bwi_strip_in_set(p, set) * t->n_patterns];
    double weight = c->dead * a->own_weight, people = 0.0, everybody = 0.0, turn = 0.0;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        const double q = c->crowd;
        const double here =
            q != 0.0 ? bwi_part_in_set(p, set, r) * q * of_row(a, on_strip, r) : 0.0;
        everybody += q != 0.0 ? q * of_row(a, t->crowd[k], r) : 0.0;
        people += here;
        live[r] = c->snow * of_row(a, t->snow, r) + here;
        total[r] = c->dead * of_row(a, t->dead, r) + live[r];
        weight += total[r];
        turn += (total[r] - here) * bwi_beside_lone_row(p, 0.0) +
                here * bwi_middle_of_set(p, set);
    }
    const double part = bwi_part_that_pushes(a, set, people, everybody);
    const double sway = part * c->crowd * l->sway * push_area(p, a->f.bent);
    const double push = a->push * (sway + l->lean * weight);
    return (bwi_row_forces){total, live, c->dead, push, turn, c, k, set};
}

/* The same without a rider, stringers free to lift. */
static bw_status check_freed(const bwi_arrangement *base, const bwi_row_forces *rows)
{
    const bwi_plan *p = base->t->plan;
    bwi_arrangement a = *base;
    a.event.lifts = true;
    double *total = BW_NEW(p->arena, double, p->deck->n_rows);
    double *live = BW_NEW(p->arena, double, p->deck->n_rows);
    if (total == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    bool any = false;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        total[r] = rows->total[r];
        live[r] = rows->live[r];
        any = free_row(&a, r, rows, NULL, 0.0, &total[r], &live[r]) || any;
    }
    bwi_row_forces freed = *rows;
    freed.total = total;
    freed.live = live;
    return any ? check_forces(&a, &freed) : BW_OK;
}

static bw_status search_combination(const bwi_arrangement *base, const bw_combination *c,
                                    bw_diags *d)
{
    const bwi_plan *p = base->t->plan;
    const bwi_transfer *t = base->transfer;
    const size_t n_rows = p->deck->n_rows;
    double *total = BW_NEW(p->arena, double, n_rows),
           *live = BW_NEW(p->arena, double, n_rows);
    if (total == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    const size_t n_sets = c->crowd != 0.0 ? bwi_row_sets(p, t) : 1;
    const size_t n_patterns = c->crowd != 0.0 ? t->n_patterns : 1;
    for (size_t j = 0; j < n_patterns * n_sets; j++) {
        const size_t k = j / n_sets, set = j % n_sets;
        bwi_arrangement a = *base;
        a.strength = c->strength || !c->factored;
        a.service = c->service && bwi_gives(p, base->push);
        a.event =
            (bwi_event){.combination = c->title,
                        .pattern = c->crowd != 0.0 ? bwi_set_words(base, k, set) : NULL,
                        .push = base->push != 0 ? bwi_push_across(base->push) : NULL,
                        .direction = base->push,
                        .dead = c->dead,
                        .load_duration = c->duration,
                        .lasting_share = c->lasting_share,
                        .not_ground = c->factored,
                        .only_ground = !c->strength};
        const bwi_row_forces forces = bwi_plain_forces(base, c, k, set, total, live);
        if (bwi_moving(c) != 0.0) {
            BW_TRY(check_wheel_buckling(&a, &forces, d));
        } else {
            BW_TRY(check_buckling(&a, &forces, d));
        }
        if (base->presses.collecting) {
            continue;
        }
        if (bwi_moving(c) != 0.0) {
            BW_TRY(search_wheel(&a, &forces));
        } else {
            BW_TRY(check_forces(&a, &forces));
            BW_TRY(check_freed(&a, &forces));
        }
    }
    return BW_OK;
}

/* ---- the bent, pushed one way ---- */

static double own_weight(const bwi_plan *p, const bwi_bent_frame *f)
{
    const bw_state *s = bw_frame_state(f->frame, &(bw_part){0, 1.0}, 1, p->arena);
    double sum = 0.0;
    for (size_t k = 0; s != NULL && k < p->deck->bents[f->bent].n_posts; k++) {
        sum += bw_state_reaction(s, f->posts[k].node[0]).y;
    }
    return sum;
}

static bw_status search_pushed(bwi_arrangement *a, int push, bw_diags *d)
{
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = bwi_combinations(a->t->plan->deck, list);
    a->push = push;
    for (size_t k = 0; k < n; k++) {
        a->combination = k;
        BW_TRY(search_combination(a, &list[k], d));
    }
    return BW_OK;
}

/* Without any push too where a brace is left out one way round, as for a row. */
static bw_status search_combinations(bwi_arrangement *a, bw_diags *d)
{
    BW_TRY(search_pushed(a, a->f.direction, d));
    return bwi_same_both_ways(a->t->plan, a->f.brace_member, a->f.slackened)
               ? BW_OK
               : search_pushed(a, 0, d);
}

static bw_status search_way(bwi_arrangement *a, int direction, bw_diags *d)
{
    const bwi_plan *p = a->t->plan;
    const size_t bent = a->f.bent;
    if (direction > 0 || !bwi_same_both_ways(p, a->f.brace_member, a->f.slackened)) {
        BW_TRY(bwi_bent_frame_make(p, bent, direction, &a->f, d));
    }
    a->f.direction = direction;
    double *dead = BW_NEW(p->arena, double, p->deck->n_rows);
    if (dead == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        dead[r] = of_row(a, a->transfer->dead, r);
    }
    a->dead = state_of(a, 1.0, dead, 0.0, 0.0);
    a->own_weight = own_weight(p, &a->f);
    if (a->dead == NULL) {
        return BW_E_MEMORY;
    }
    *a->lines = (known_lines){.n = 0}; /* which way wheels follow is another */
    BW_TRY(bwi_cap_seats_make(a));
    BW_TRY(bwi_presses_start(a->f.frame, p->arena, &a->presses));
    BW_TRY(search_combinations(a, d));
    BW_TRY(bwi_presses_end(a->f.frame, p->arena, &a->presses, d));
    BW_TRY(search_combinations(a, d));
    return a->t->failed;
}

bw_status bwi_search_bent(bwi_tracker *t, const bwi_row_frame *rows,
                          const bwi_transfer *transfer, size_t bent, bw_diags *d)
{
    known_lines lines;
    bwi_arrangement a = {
        .t = t, .rows = rows, .transfer = transfer, .f = {.bent = bent}, .lines = &lines};
    for (size_t r = 0; r < t->plan->deck->n_rows; r++) {
        a.may_lift = a.may_lift || rows[r].n_lifts > 0;
    }
    bwi_count_rows(&a);
    if (t->plan->deck->bents[bent].n_posts == 0) {
        return bwi_check_sill(&a);
    }
    BW_TRY(search_way(&a, 1, d));
    return search_way(&a, -1, d);
}
