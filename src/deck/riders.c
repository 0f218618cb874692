/* Riders on the deck, one or several in a line, each on one contact or on two wheels; and
 * the machine, on four. */
#include "internal.h"

#include <math.h>

/* Of a rider's weight, the part on the rear wheel: more than half when landing or
 * climbing (JUDGEMENT after a force-plate study that gives the order only). */
static const double rear_share = 0.6;

/* ---- what moves ---- */

static bwi_mover riders_of(const bw_loads *l)
{
    const bw_blow blow = bw_rider_blow(l, NULL);
    return (bwi_mover){.mass = l->mass,
                       /* a mass is a rider, whatever the count */
                       .count = l->riders > 1 ? l->riders : 1,
                       .spacing = l->rider_spacing,
                       .wheelbase = l->wheelbase,
                       .rear_share = rear_share,
                       .factor = blow.factor,
                       .push = blow.push};
}

bwi_mover bwi_mover_of(const bw_case *deck, bool machine)
{
    const bw_machine *m = &deck->loads.machine;
    return machine ? (bwi_mover){.mass = m->mass,
                                 .count = 1,
                                 .wheelbase = m->wheelbase,
                                 .rear_share = m->heavy_share,
                                 .track = m->track,
                                 .factor = m->factor,
                                 .push = m->push}
                   : riders_of(&deck->loads);
}

bwi_mover bwi_mover_in(const bw_case *deck, const bw_combination *c)
{
    bwi_mover mover = bwi_mover_of(deck, c->machine != 0.0);
    if (c->slow > 0.0) {
        mover.factor = mover.factor > c->slow ? c->slow : mover.factor; /* NaN stays */
        mover.push = deck->loads.rider_push;
    }
    return mover;
}

double bwi_moving(const bw_combination *c)
{
    return c->machine != 0.0 ? c->machine : c->rider;
}

bool bwi_gives(const bwi_plan *p, int push)
{
    return push > 0 || (push < 0 && p->deck->n_braces > 0);
}

double bwi_mover_reach(const bw_case *deck, const bwi_mover *mover)
{
    return fmax(deck->boards.width - mover->track, 0.0) / 2.0;
}

/* ---- where its wheels stand ---- */

/* The bay of a place on the deck; false beyond its ends. */
static bool find_bay(const bw_case *deck, double at, size_t *bay)
{
    if (!(at >= deck->bents[0].at && at <= deck->bents[deck->n_bents - 1].at)) {
        return false;
    }
    size_t k = *bay < deck->n_bents - 1 ? *bay : 0;
    while (k > 0 && at < deck->bents[k].at) {
        k--;
    }
    while (k + 2 < deck->n_bents && at > deck->bents[k + 1].at) {
        k++;
    }
    *bay = k;
    return true;
}

static double share_of(const bwi_plan *p, int row, size_t bay,
                       const bwi_rider_place *rider, double track)
{
    const bwi_share *largest = bwi_plan_share(p, row, bay);
    if (rider->row >= 0) {
        return rider->machine ? largest->machine_share : largest->rider_share;
    }
    return (bwi_plan_wheel_share(p, row, bay, rider->across - track / 2.0) +
            bwi_plan_wheel_share(p, row, bay, rider->across + track / 2.0)) /
           2.0;
}

double bwi_mover_share(const bwi_plan *p, int row, const bwi_rider_place *rider)
{
    const bwi_mover mover = bwi_mover_of(p->deck, rider->machine);
    return share_of(p, row, rider->bay, rider, mover.track);
}

typedef struct {
    const bwi_plan *p;
    const bwi_row_frame *f;
    const bwi_rider_place *rider;
    const bwi_mover *mover;
    bwi_blow blow;
} standing;

static void add_wheel(const standing *s, double offset, double part, bwi_wheels *out)
{
    const bwi_row_frame *f = s->f;
    const bwi_rider_place *rider = s->rider;
    const bw_bent *bents = s->p->deck->bents;
    size_t bay = rider->bay;
    const double at = bents[rider->bay].at + rider->along + offset;
    const bool moved = offset != 0.0; /* the first stays in its own bay, at a bent too */
    if (out->n == BWI_WHEELS_MAX || (moved && !find_bay(s->p->deck, at, &bay)) ||
        f->bay_member == NULL || f->bay_member[bay] < 0) {
        return;
    }
    const double plan_length = bents[bay + 1].at - bents[bay].at;
    const double along = moved ? at - bents[bay].at : rider->along;
    const double length = bwi_bay_length(f, bay);
    double a = fmin(along * length / plan_length, length);
    const int piece = bwi_bay_piece(f, bay, &a, false) - f->bay_member[bay];
    const double weight = part * s->mover->mass * bw_gravity;
    const double share = share_of(s->p, f->row, bay, rider, s->mover->track);
    const bool machine = rider->machine && rider->row >= 0;
    const double push = machine ? bwi_plan_share(s->p, f->row, bay)->machine_push : share;
    bw_wheel *wheel = &out->wheel[out->n++];
    *wheel = (bw_wheel){.at = (size_t)(f->path_place[bay] + piece),
                        .a = a,
                        .fx = push * weight * s->blow.along,
                        .fy = -share * weight * s->blow.down};
    bw_influence_set(f->influence, wheel);
    out->last_bay = bay > out->last_bay ? bay : out->last_bay;
}

/* Where a wheel, or both of an axle, stand from the first one, and its part of a rider.
 */
typedef struct {
    double offset, part;
} contact;

static size_t contacts_of(const bwi_mover *mover, bool alone, int direction,
                          contact out[BWI_WHEELS_MAX])
{
    size_t n = 0;
    const int count = alone ? 1 : mover->count;
    for (int k = 0; k < count && n + 1 < BWI_WHEELS_MAX; k++) {
        const double at = k * mover->spacing;
        const bool one = !(mover->wheelbase > 0.0);
        out[n++] = (contact){at, one ? 1.0 : mover->rear_share};
        if (!one) {
            out[n++] =
                (contact){at + direction * mover->wheelbase, 1.0 - mover->rear_share};
        }
    }
    return n;
}

int bwi_mover_ways(const bwi_mover *mover)
{
    return mover->count > 1 ? 2 : 1;
}

/* Right at a bent a wheel is on the bay before it or on the one after it: of the bay. */
static const double beside = 1e-6, other_beside = 1e-8;

/* Where a notch of a stringer lies along the deck, as bents do [m]; NaN: outside. */
static double notch_at(const bwi_plan *p, int stringer, const bw_notch *notch)
{
    const bw_bent *bents = p->deck->bents;
    const bw_stringer *s = &p->deck->stringers[stringer];
    const double station = bwi_stringer_from_butt(p, stringer, notch->from_butt);
    for (int bay = s->from; bay < s->to; bay++) {
        const bwi_part_of_stringer *part = bwi_plan_part(p, s->row, (size_t)bay);
        const double t = (station - part->from_first) / part->length;
        if (t >= 0.0 && t <= 1.0) {
            return bents[bay].at + t * (bents[bay + 1].at - bents[bay].at);
        }
    }
    return (double)NAN;
}

typedef struct {
    double *at; /* [BWI_STOPS_MAX] */
    size_t n;
    double from, length; /* of the bay: what is outside is none */
} stop_list;

static void add_stop(stop_list *list, double at)
{
    const double t = at / list->length;
    if (list->n < BWI_STOPS_MAX && t > beside && t < 1.0 - beside) {
        list->at[list->n++] = at;
    }
}

/* A wheel over a notch bends it most; the rest of the log has its hump elsewhere. */
static void add_notches(const bwi_plan *p, int stringer, const contact *contacts,
                        size_t n_contacts, stop_list *list)
{
    const bw_log *log = &p->deck->logs[p->deck->stringers[stringer].log];
    for (size_t j = 0; j < log->n_notches; j++) {
        const double there = notch_at(p, stringer, &log->notches[j]) - list->from;
        for (size_t c = 0; c < n_contacts; c++) {
            add_stop(list, there - contacts[c].offset);
        }
    }
}

size_t bwi_rider_stops(const bwi_plan *p, const bwi_rider_place *rider, int direction,
                       int grid, double stops[BWI_STOPS_MAX])
{
    const bw_bent *bents = p->deck->bents;
    const double from = bents[rider->bay].at, length = bents[rider->bay + 1].at - from;
    const bwi_mover mover = bwi_mover_of(p->deck, rider->machine);
    contact contacts[BWI_WHEELS_MAX];
    const size_t n_contacts = contacts_of(&mover, rider->alone, direction, contacts);
    stop_list list = {stops, 0, from, length};
    for (int j = 0; j <= grid; j++) {
        const double t = (double)j / grid;
        stops[list.n++] = fmin(fmax(t, beside), 1.0 - beside) * length;
    }
    for (size_t k = 0; k < 2 * n_contacts * p->deck->n_bents; k++) {
        const contact *c = &contacts[k / 2 % n_contacts];
        const double there = bents[k / 2 / n_contacts].at - c->offset - from;
        if (c->offset != 0.0) {
            add_stop(&list, there + (k % 2 == 0 ? -other_beside : other_beside) * length);
        }
    }
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        if (p->deck->stringers[k].row == rider->row) {
            add_notches(p, (int)k, contacts, n_contacts, &list);
        }
    }
    return list.n;
}

void bwi_riders(const bwi_plan *p, const bwi_row_frame *f, const bwi_rider_place *rider,
                int direction, bwi_blow blow, bwi_wheels *out)
{
    const bwi_mover mover = bwi_mover_of(p->deck, rider->machine);
    const standing s = {p, f, rider, &mover, blow};
    contact contacts[BWI_WHEELS_MAX];
    const size_t n = contacts_of(&mover, rider->alone, direction, contacts);
    out->n = 0;
    out->last_bay = rider->bay;
    for (size_t k = 0; k < n; k++) {
        add_wheel(&s, contacts[k].offset, contacts[k].part, out);
    }
}
