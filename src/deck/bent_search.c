/* Moves the loads over a bent and checks its cap, the seats on its posts, and the posts.
 * The rows stand on it with the forces found in the row frames. */
#include "internal.h"

#include <math.h>

enum { STATIONS = 64 };

typedef struct {
    bwi_tracker *t;
    const bwi_row_frame *rows;
    const bwi_transfer *transfer;
    bwi_bent_frame f;
    size_t combination;
    bool strength, service; /* which checks the combination is for */
    bwi_event event;
} arrangement;

/* ---- what is checked ---- */

static void check_cap_sections(const arrangement *a, const bw_state *s)
{
    const bwi_plan *p = a->t->plan;
    const bw_bent *b = &p->deck->bents[a->f.bent];
    for (size_t k = 0; k + 1 < a->f.n_nodes; k++) {
        if (a->f.cap_member[k] < 0) {
            continue;
        }
        double x[STATIONS];
        const bw_line line = bw_state_line(s, a->f.cap_member[k], p->arena);
        const size_t n = bw_line_stations(&line, x, STATIONS);
        for (size_t j = 0; j < 2 * n; j++) {
            const bw_action at = bw_line_action(&line, x[j / 2], j % 2 == 0);
            const bw_section section =
                bw_frame_section(a->f.frame, a->f.cap_member[k], x[j / 2]);
            const bw_check_input in = {.reference = &p->references[b->cap],
                                       .diameter = section.diameter,
                                       .shear = fabs(at.shear),
                                       .moment = fabs(at.moment)};
            const double station = a->f.node_across[k] + x[j / 2];
            const size_t member = a->t->first_cap + a->f.bent;
            bwi_track(a->t, member, BW_CHECK_BENDING, &in, station, &a->event);
            bwi_track(a->t, member, BW_CHECK_SHEAR, &in, station, &a->event);
        }
    }
}

/* Nearest posts on either side of a place across; without one on a side it overhangs. */
static void posts_beside(const bwi_plan *p, size_t bent, double across, double *left,
                         double *right)
{
    *left = -(double)INFINITY;
    *right = (double)INFINITY;
    const bw_bent *b = &p->deck->bents[bent];
    for (size_t k = 0; k < b->n_posts; k++) {
        const double at = p->deck->rows[b->posts[k].row].across;
        *left = at <= across + 1e-6 ? fmax(*left, at) : *left;
        *right = at >= across - 1e-6 ? fmin(*right, at) : *right;
    }
}

static double height_at(const arrangement *a, const bw_state *s, double across)
{
    size_t best = 0;
    for (size_t k = 1; k < a->f.n_nodes; k++) {
        if (fabs(a->f.node_across[k] - across) < fabs(a->f.node_across[best] - across)) {
            best = k;
        }
    }
    return bw_state_displacement(s, a->f.node[best]).y;
}

/* How far the cap's axis lies under the straight line between the posts beside it, or
 * under the only post beside it; span: between them, or twice the overhang. */
static double cap_sag(const arrangement *a, const bw_state *s, double across, double own,
                      double *span)
{
    double left, right;
    posts_beside(a->t->plan, a->f.bent, across, &left, &right);
    if (!isfinite(left) || !isfinite(right)) {
        const double post = isfinite(left) ? left : right;
        *span = 2.0 * fabs(across - post);
        return fabs(own - height_at(a, s, post));
    }
    *span = right - left;
    const double t = right > left ? (across - left) / (right - left) : 0.0;
    return fabs(own - (1.0 - t) * height_at(a, s, left) - t * height_at(a, s, right));
}

static void track_cap_sag(const arrangement *a, double across, double live, double dead,
                          double span)
{
    const bw_limits *limits = &a->t->plan->deck->limits;
    const size_t member = a->t->first_cap + a->f.bent;
    bw_check_input in = {.deflection = live, .span = span, .limit = limits->live};
    if (span > 1e-6) {
        bwi_track(a->t, member, BW_CHECK_DEFLECTION, &in, across, &a->event);
        in.deflection_dead = dead;
        in.limit = limits->long_term;
        bwi_track(a->t, member, BW_CHECK_SAG, &in, across, &a->event);
    }
}

/* At the joints of the cap and at the middle of each part. */
static void check_cap_deflection(const arrangement *a, const bw_state *live,
                                 const bw_state *dead)
{
    for (size_t k = 0; k < a->f.n_nodes; k++) {
        const double across = a->f.node_across[k];
        double span;
        const double sag =
            cap_sag(a, live, across, bw_state_displacement(live, a->f.node[k]).y, &span);
        const double lasting =
            cap_sag(a, dead, across, bw_state_displacement(dead, a->f.node[k]).y, &span);
        track_cap_sag(a, across, sag, lasting, span);
        const int member = k + 1 < a->f.n_nodes ? a->f.cap_member[k] : -1;
        if (member < 0) {
            continue;
        }
        const double middle = bw_frame_length(a->f.frame, member) / 2.0;
        const double at = (across + a->f.node_across[k + 1]) / 2.0;
        const double own = bw_state_local(live, member, middle).y;
        const double own_dead = bw_state_local(dead, member, middle).y;
        const double sag_between = cap_sag(a, live, at, own, &span);
        track_cap_sag(a, at, sag_between, cap_sag(a, dead, at, own_dead, &span), span);
    }
}

/* The cap on a post: the same force across the cap's grain and on the post's end. */
static void check_post_seat(const arrangement *a, size_t k, double force)
{
    const bwi_plan *p = a->t->plan;
    const bw_bent *b = &p->deck->bents[a->f.bent];
    if (b->cap < 0 || force <= 0.0) {
        return; /* the stringer sits on the post and is checked with the row; or it lifts
                   off */
    }
    const double across = p->deck->rows[b->posts[k].row].across;
    const bwi_post_place place = bwi_plan_post(p, a->f.bent, &b->posts[k]);
    const double top = bwi_post_diameter(p, &place, place.top);
    const double flat = bwi_flat_width(bwi_cap_diameter(p, a->f.bent, across),
                                       p->deck->limits.seat_depth);
    bw_check_input in = {.reference = &p->references[b->cap],
                         .force = force,
                         .bearing_area = bwi_strip_on_circle(flat, top),
                         .bearing_length = top};
    bwi_track(a->t, a->t->first_cap + a->f.bent, BW_CHECK_BEARING, &in, across,
              &a->event);
    in.reference = &p->references[b->posts[k].log];
    bwi_track(a->t, a->t->post_first[a->f.bent] + k, BW_CHECK_END_BEARING, &in, place.top,
              &a->event);
}

static void check_posts(const arrangement *a, const bw_state *s)
{
    const bwi_plan *p = a->t->plan;
    const bw_bent *b = &p->deck->bents[a->f.bent];
    for (size_t k = 0; k < b->n_posts; k++) {
        const size_t member = a->t->post_first[a->f.bent] + k;
        const bw_line line = bw_state_line(s, a->f.post_member[k], p->arena);
        const double joint = bw_frame_length(a->f.frame, a->f.post_member[k]);
        const bwi_post_check check = {
            .member = member,
            .place = bwi_plan_post(p, a->f.bent, &b->posts[k]),
            .foot = &a->f.feet[k],
            .joint = joint,
            .other_moment =
                a->transfer->post_moment[member - a->t->first_post][a->combination]};
        double unused = 0.0;
        bwi_check_post(a->t, &check, &line, &a->event, &unused);
        check_post_seat(a, k, -bw_line_action(&line, joint, true).axial);
    }
}

/* ---- arrangements ---- */

/* State of factor * own weight and a force down at every row. */
static bw_state *state_of(const arrangement *a, double own, const double *force)
{
    const bwi_plan *p = a->t->plan;
    bw_part *parts = BW_NEW(p->arena, bw_part, p->deck->n_rows + 1);
    if (parts == NULL) {
        return NULL;
    }
    parts[0] = (bw_part){0, own};
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        parts[r + 1] = (bw_part){1 + (int)r, force[r]};
    }
    return bw_frame_state(a->f.frame, parts, p->deck->n_rows + 1, p->arena);
}

typedef struct {
    const double *total; /* forces of the rows under the whole combination */
    const double
        *live;  /* of the part that comes and goes, or null: no deflection check */
    double own; /* factor of the own weight */
    const bw_state *dead;
} row_forces;

static bw_status check_forces(const arrangement *a, const row_forces *rows)
{
    bw_arena *arena = a->t->plan->arena;
    const bw_arena_mark mark = bw_arena_now(arena);
    const bw_state *s = state_of(a, rows->own, rows->total);
    const bw_state *live = state_of(a, 0.0, rows->live);
    if (s == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    if (a->strength) {
        check_cap_sections(a, s);
        check_posts(a, s);
    }
    if (a->service && a->t->plan->deck->bents[a->f.bent].cap >= 0) {
        check_cap_deflection(a, live, rows->dead);
    }
    bwi_track_frame(a->t, a->f.frame, s);
    bw_arena_back(arena, mark);
    return BW_OK;
}

static double of_row(const arrangement *a, const double *forces, size_t row)
{
    return forces[row * a->t->plan->deck->n_bents + a->f.bent];
}

/* Wheels across the deck that matter: over each row, and at both edges. */
static double wheel_across(const bwi_plan *p, size_t k)
{
    const size_t n = p->deck->n_rows;
    const double half = p->deck->boards.width / 2.0;
    return k < n    ? fmin(fmax(p->deck->rows[k].across, -half), half)
           : k == n ? -half
                    : half;
}

static bw_status check_wheel(const arrangement *base, const bw_combination *c,
                             const bwi_rider_place *rider, const row_forces *dead)
{
    const bwi_plan *p = base->t->plan;
    const bw_loads *loads = &p->deck->loads;
    const double plan_length =
        p->deck->bents[rider->bay + 1].at - p->deck->bents[rider->bay].at;
    double *total = BW_NEW(p->arena, double, p->deck->n_rows);
    double *live = BW_NEW(p->arena, double, p->deck->n_rows);
    if (total == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        total[r] = dead->total[r];
        const int member =
            base->rows[r].bay_member != NULL ? base->rows[r].bay_member[rider->bay] : -1;
        if (member < 0) {
            continue;
        }
        const double length = bw_frame_length(base->rows[r].frame, member);
        const double share = bwi_plan_wheel_share(p, (int)r, rider->bay, rider->across);
        const bw_wheel wheel = {.at = (size_t)base->rows[r].path_place[rider->bay],
                                .a = rider->along * length / plan_length,
                                .fy = -loads->mass * bw_gravity * share};
        live[r] = bwi_row_wheel_reaction(&base->rows[r], &wheel, base->f.bent);
        total[r] += c->rider * loads->factor * live[r];
    }
    arrangement a = *base;
    a.event.rider = *rider;
    return check_forces(&a, &(row_forces){total, live, c->dead, dead->dead});
}

static bw_status search_wheel(const arrangement *a, const bw_combination *c,
                              const row_forces *dead)
{
    const bwi_plan *p = a->t->plan;
    const size_t first = a->f.bent > 0 ? a->f.bent - 1 : 0;
    for (size_t bay = first; bay <= a->f.bent && bay < p->n_bays; bay++) {
        const double length = p->deck->bents[bay + 1].at - p->deck->bents[bay].at;
        for (size_t k = 0; k < p->deck->n_rows + 2; k++) {
            for (int j = 0; j <= BWI_RIDER_POSITIONS; j++) {
                const bw_arena_mark mark = bw_arena_now(p->arena);
                const bwi_rider_place rider = {
                    true, bay, length * j / BWI_RIDER_POSITIONS, -1, wheel_across(p, k)};
                BW_TRY(check_wheel(a, c, &rider, dead));
                bw_arena_back(p->arena, mark);
            }
        }
    }
    return BW_OK;
}

static bw_status search_combination(const arrangement *base, const bw_combination *c,
                                    const bw_state *dead)
{
    const bwi_plan *p = base->t->plan;
    const bwi_transfer *t = base->transfer;
    const size_t n_rows = p->deck->n_rows;
    double *total = BW_NEW(p->arena, double, n_rows),
           *live = BW_NEW(p->arena, double, n_rows);
    if (total == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    const size_t n_patterns = c->crowd != 0.0 ? t->n_patterns : 1;
    for (size_t k = 0; k < n_patterns; k++) {
        arrangement a = *base;
        a.strength = c->strength;
        a.service = c->service;
        a.event = (bwi_event){.combination = c->title,
                              .pattern = c->crowd != 0.0 ? t->pattern[k] : NULL,
                              .load_duration = c->duration};
        for (size_t r = 0; r < n_rows; r++) {
            live[r] = c->snow * of_row(base, t->snow, r);
            live[r] += c->crowd != 0.0 ? c->crowd * of_row(base, t->crowd[k], r) : 0.0;
            total[r] = c->dead * of_row(base, t->dead, r) + live[r];
        }
        const row_forces forces = {total, live, c->dead, dead};
        BW_TRY(c->rider != 0.0 ? search_wheel(&a, c, &forces)
                               : check_forces(&a, &forces));
    }
    return BW_OK;
}

bw_status bwi_search_bent(bwi_tracker *t, const bwi_row_frame *rows,
                          const bwi_transfer *transfer, size_t bent, bw_diags *d)
{
    const bwi_plan *p = t->plan;
    if (p->deck->bents[bent].n_posts == 0) {
        return BW_OK; /* a sill on the ground: its seats are checked with the rows */
    }
    arrangement a = {.t = t, .rows = rows, .transfer = transfer};
    BW_TRY(bwi_bent_frame_make(p, bent, &a.f, d));
    double *dead_force = BW_NEW(p->arena, double, p->deck->n_rows);
    if (dead_force == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        dead_force[r] = of_row(&a, transfer->dead, r);
    }
    const bw_state *dead = state_of(&a, 1.0, dead_force);
    if (dead == NULL) {
        return BW_E_MEMORY;
    }
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = bwi_combinations(p->deck, list);
    for (size_t k = 0; k < n; k++) {
        a.combination = k;
        BW_TRY(search_combination(&a, &list[k], dead));
    }
    return BW_OK;
}
