/* Bending, shear and deflection along a row, for pictures: under the rider at the place
 * where the largest bending stress is, the envelope of the rider anywhere, and people on
 * all bays. Vertical loads alone: the checks count pushes too. */
#include "drawing.h"

#include <math.h>

enum { N = BW_DRAWN_PER_BAY };

typedef struct {
    const bwi_plan *p;
    bwi_row_frame f;
    bw_drawn_bending *out;
    double rider;        /* factors on the rider's weight: combination and landing */
    double worst;        /* [Pa] largest bending stress yet */
    bwi_wheels at_worst; /* the wheels there, without the factors */
    const bw_state *base;
} bender;

/* The strength combination with the most of one action: rider or crowd. */
static const bw_combination *pick(const bw_combination *list, size_t n, bool rider)
{
    const bw_combination *best = NULL;
    double most = 0.0;
    for (size_t k = 0; k < n; k++) {
        const double part = rider ? list[k].rider : list[k].crowd;
        const bool more =
            part > most || (part == most && best != NULL &&
                            list[k].snow + list[k].dead > best->snow + best->dead);
        if (list[k].strength && list[k].slow == 0.0 && part > 0.0 && more) {
            best = &list[k];
            most = part;
        }
    }
    return best;
}

static bw_state *vertical(const bender *b, const bw_combination *c)
{
    const size_t n_bays = b->p->n_bays;
    bw_part *parts = BW_NEW(b->p->arena, bw_part, n_bays + 2);
    if (parts == NULL) {
        return NULL;
    }
    parts[0] = (bw_part){BWI_CASE_DEAD, c->dead};
    parts[1] = (bw_part){BWI_CASE_SNOW, c->snow};
    for (size_t bay = 0; bay < n_bays; bay++) {
        parts[2 + bay] = (bw_part){BWI_CASE_FIRST_BAY + (int)bay, c->crowd};
    }
    return bw_frame_state(b->f.frame, parts, n_bays + 2, b->p->arena);
}

static double length_of(const bender *b, size_t bay)
{
    return bwi_bay_length(&b->f, bay);
}

static bw_drawn_station *station(const bender *b, size_t bay, int j)
{
    return &b->out->stations[bay * N + (size_t)j];
}

/* A place just left or right of a station, so that rounding never puts a wheel that
 * stands there on the wrong side. */
static double beside(double x, double length, double side)
{
    return fmin(fmax(x + side * 2e-6 * length, 0.0), length);
}

/* Riders of their weight, without factors, the first of them just inside the bay. */
static void riders_at(const bender *b, size_t bay, int j, int direction, bwi_wheels *out)
{
    const bw_bent *bents = b->p->deck->bents;
    const double t = fmin(fmax((double)j / (N - 1), 1e-6), 1.0 - 1e-6);
    const bwi_rider_place place = {
        true, bay, t * (bents[bay + 1].at - bents[bay].at), b->f.row, 0.0, false, false};
    bwi_riders(b->p, &b->f, &place, direction, (bwi_blow){1.0, 0.0}, out);
}

/* ---- the envelope ---- */

static void widen(bw_drawn_station *s, double moment, const bw_action *left,
                  const bw_action *right)
{
    s->moment_most = fmax(s->moment_most, moment);
    s->moment_least = fmin(s->moment_least, moment);
    s->shear_most = fmax(s->shear_most, fmax(left->shear, right->shear));
    s->shear_least = fmin(s->shear_least, fmin(left->shear, right->shear));
}

/* One bay while the wheel is somewhere. */
static void see_bay(bender *b, size_t bay, const bwi_bay *read, const bwi_wheels *riders)
{
    const double length = length_of(b, bay);
    for (int j = 0; j < N; j++) {
        const double x = length * j / (N - 1);
        const bw_action left = bwi_bay_action(read, beside(x, length, -1.0), true);
        const bw_action right = bwi_bay_action(read, beside(x, length, 1.0), false);
        const double moment = bwi_bay_action(read, x, true).moment;
        widen(station(b, bay, j), moment, &left, &right);
        if (riders == NULL) {
            continue;
        }
        double along = x;
        const int piece = bwi_bay_piece(&b->f, bay, &along, true);
        const bw_section section = bw_frame_section(b->f.frame, piece, along);
        const double stress = fabs(moment) / bw_section_modulus(&section);
        if (stress > b->worst) {
            b->worst = stress;
            b->at_worst = *riders;
        }
    }
}

static bool bay_is_reached(const bender *b, size_t bay, size_t at)
{
    bool reached = false;
    for (int j = 0; j < b->f.bay_pieces[bay] && !reached; j++) {
        reached = bw_influence_reaches(b->f.influence, b->f.bay_member[bay] + j, at);
    }
    return reached;
}

static void place_riders(bender *b, const bwi_wheels *riders)
{
    bw_arena *arena = b->p->arena;
    bwi_wheels landing = *riders;
    for (size_t k = 0; k < landing.n; k++) {
        landing.wheel[k] = bw_wheel_scaled(&riders->wheel[k], b->rider);
    }
    for (size_t bay = 0; bay < b->p->n_bays; bay++) {
        bool reached = false;
        for (size_t k = 0; k < landing.n && b->f.bay_member[bay] >= 0 && !reached; k++) {
            reached = bay_is_reached(b, bay, landing.wheel[k].at);
        }
        if (reached) {
            const bw_arena_mark mark = bw_arena_now(arena);
            const bwi_bay read =
                bwi_bay_read(&b->f, bay, b->base, landing.wheel, landing.n, arena);
            see_bay(b, bay, &read, riders);
            bw_arena_back(arena, mark);
        }
    }
}

/* Two wheels come either way round. */
static void move_riders(bender *b, size_t bay)
{
    const int ways = b->p->deck->loads.wheelbase > 0.0 ? 2 : 1;
    for (int j = 0; j < ways * N; j++) {
        bwi_wheels riders;
        riders_at(b, bay, j % N, j < N ? 1 : -1, &riders);
        if (riders.n > 0) {
            place_riders(b, &riders);
        }
    }
}

/* ---- single states ---- */

/* Downward movement at x of a bay. */
static double drop(const bender *b, const bw_state *s, size_t bay, double x)
{
    double cosine, sine;
    const int member = bwi_bay_piece(&b->f, bay, &x, true);
    bw_frame_direction(b->f.frame, member, &cosine, &sine);
    const bw_motion local = bw_state_local(s, member, x);
    return -(sine * local.x + cosine * local.y);
}

static void read_rider(bender *b, const bw_state *all, const bw_state *standing)
{
    for (size_t bay = 0; bay < b->p->n_bays; bay++) {
        const bwi_bay read = bwi_bay_read(&b->f, bay, all, NULL, 0, b->p->arena);
        for (int j = 0; read.n > 0 && j < N; j++) {
            const double length = length_of(b, bay), x = length * j / (N - 1);
            bw_drawn_station *s = station(b, bay, j);
            const bw_action left = bwi_bay_action(&read, beside(x, length, -1.0), true);
            const bw_action right = bwi_bay_action(&read, beside(x, length, 1.0), false);
            s->moment = bwi_bay_action(&read, x, true).moment;
            s->shear[0] = left.shear;
            s->shear[1] = right.shear;
            s->drop = drop(b, standing, bay, x);
        }
    }
}

/* The riders at their worst place: added to *all with the factors, and alone. */
static bw_status stand_riders(bender *b, const bw_state **all, const bw_state **standing)
{
    bw_arena *arena = b->p->arena;
    for (size_t k = 0; k < b->at_worst.n; k++) {
        const bw_wheel *w = &b->at_worst.wheel[k];
        const bw_member_load load = {.kind = BW_LOAD_POINT,
                                     .member = b->f.path[w->at],
                                     .a = w->a,
                                     .y = {w->fy, 0.0}};
        bw_state *one = NULL;
        BW_TRY(bw_frame_solve_loads(b->f.frame, &load, 1, &one, arena));
        *all = bw_state_add(*all, b->rider, one, arena);
        *standing = *standing == NULL ? one : bw_state_add(*standing, 1.0, one, arena);
        if (*all == NULL || *standing == NULL) {
            return BW_E_MEMORY;
        }
    }
    /* no place was worse than none: the lines could not be read for want of memory */
    return *standing != NULL ? BW_OK : BW_E_MEMORY;
}

static bw_status draw_rider(bender *b, const bw_combination *c)
{
    const bwi_plan *p = b->p;
    b->base = vertical(b, c);
    if (b->base == NULL) {
        return BW_E_MEMORY;
    }
    b->rider = c->rider * bwi_mover_of(p->deck, false).factor;
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        const bwi_bay read = bwi_bay_read(&b->f, bay, b->base, NULL, 0, p->arena);
        if (read.n > 0) {
            see_bay(b, bay, &read, NULL);
        }
    }
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        if (b->f.bay_member[bay] >= 0) {
            move_riders(b, bay);
        }
    }
    const bw_state *all = b->base, *standing = NULL;
    BW_TRY(stand_riders(b, &all, &standing));
    const bw_wheel *first = &b->at_worst.wheel[0];
    const size_t bay = b->f.path_bay[first->at];
    const double bay_length = p->deck->bents[bay + 1].at - p->deck->bents[bay].at;
    double along = first->a;
    for (size_t k = (size_t)b->f.path_place[bay]; k < first->at; k++) {
        along += bw_frame_length(b->f.frame, b->f.path[k]);
    }
    b->out->rider_at = p->deck->bents[bay].at + along / length_of(b, bay) * bay_length;
    b->out->has_rider = true;
    b->out->rider_title = c->title;
    read_rider(b, all, standing);
    return BW_OK;
}

static bw_status draw_people(bender *b, const bw_combination *c)
{
    const bwi_plan *p = b->p;
    const bw_combination people = {.crowd = 1.0};
    const bw_state *all = vertical(b, c), *live = vertical(b, &people);
    if (all == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        const bwi_bay read = bwi_bay_read(&b->f, bay, all, NULL, 0, p->arena);
        for (int j = 0; read.n > 0 && j < N; j++) {
            const double x = length_of(b, bay) * j / (N - 1);
            const bw_action action = bwi_bay_action(&read, x, j > 0);
            bw_drawn_station *s = station(b, bay, j);
            s->people_moment = action.moment;
            s->people_shear = action.shear;
            s->people_drop = drop(b, live, bay, x);
        }
    }
    b->out->has_people = true;
    b->out->people_title = c->title;
    return BW_OK;
}

/* ---- the row ---- */

static bw_status lay_stations(bender *b)
{
    const bwi_plan *p = b->p;
    b->out->has_bay = BW_NEW(p->arena, bool, p->n_bays);
    b->out->stations = BW_NEW(p->arena, bw_drawn_station, p->n_bays * N);
    if (b->out->has_bay == NULL || b->out->stations == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        const bw_bent *from = &p->deck->bents[bay], *to = &p->deck->bents[bay + 1];
        b->out->has_bay[bay] = b->f.bay_member[bay] >= 0;
        for (int j = 0; j < N; j++) {
            bw_drawn_station *s = station(b, bay, j);
            s->at = from->at + (to->at - from->at) * j / (N - 1);
            s->moment_most = s->shear_most = -(double)INFINITY;
            s->moment_least = s->shear_least = (double)INFINITY;
        }
    }
    return BW_OK;
}

bw_status bwi_drawn_bending(const bwi_plan *p, int row, bw_drawn_bending *out)
{
    bw_diags unused = bw_diags_new(p->arena, NULL); /* the assessment has said it all */
    bender b = {.p = p, .out = out};
    *out = (bw_drawn_bending){0};
    BW_TRY(bwi_row_frame_make(p, row, 1, &b.f, &unused));
    if (b.f.frame == NULL) {
        return BW_OK;
    }
    BW_TRY(lay_stations(&b));
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = bwi_combinations(p->deck, list);
    const bw_combination *rider = pick(list, n, true), *people = pick(list, n, false);
    if (rider != NULL) {
        BW_TRY(draw_rider(&b, rider));
    }
    return people != NULL ? draw_people(&b, people) : BW_OK;
}
