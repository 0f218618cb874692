/* Riders on the deck: one or several in a line, each on one contact or on two wheels. */
#include "internal.h"

#include <math.h>

/* Of a rider's weight, the part on the rear wheel: more than half when landing or
 * climbing (JUDGEMENT after a force-plate study that gives the order only). */
static const double rear_share = 0.6;

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
                       const bwi_rider_place *rider)
{
    return rider->row >= 0 ? bwi_plan_share(p, row, bay)->rider_share
                           : bwi_plan_wheel_share(p, row, bay, rider->across);
}

static void add_wheel(const bwi_plan *p, const bwi_row_frame *f,
                      const bwi_rider_place *rider, double offset, double part,
                      bwi_wheels *out)
{
    const bw_case *deck = p->deck;
    size_t bay = rider->bay;
    const double at = deck->bents[rider->bay].at + rider->along + offset;
    const bool moved = offset != 0.0; /* the first stays in its own bay, at a bent too */
    if (out->n == BWI_WHEELS_MAX || (moved && !find_bay(deck, at, &bay)) ||
        f->bay_member == NULL || f->bay_member[bay] < 0) {
        return;
    }
    const double plan_length = deck->bents[bay + 1].at - deck->bents[bay].at;
    const double along = moved ? at - deck->bents[bay].at : rider->along;
    const double length = bwi_bay_length(f, bay);
    double a = fmin(along * length / plan_length, length);
    const int piece = bwi_bay_piece(f, bay, &a, false) - f->bay_member[bay];
    out->wheel[out->n++] = (bw_wheel){.at = (size_t)(f->path_place[bay] + piece),
                                      .a = a,
                                      .fy = -part * deck->loads.mass * bw_gravity *
                                            share_of(p, f->row, bay, rider)};
    out->last_bay = bay > out->last_bay ? bay : out->last_bay;
}

bwi_wheels bwi_riders(const bwi_plan *p, const bwi_row_frame *f,
                      const bwi_rider_place *rider, int direction)
{
    const bw_loads *l = &p->deck->loads;
    bwi_wheels out = {.last_bay = rider->bay};
    const int riders =
        l->riders > 1 ? l->riders : 1; /* a mass is a rider, whatever the count */
    for (int k = 0; k < riders; k++) {
        const double offset = k * l->rider_spacing;
        if (l->wheelbase > 0.0) {
            add_wheel(p, f, rider, offset, rear_share, &out);
            add_wheel(p, f, rider, offset + direction * l->wheelbase, 1.0 - rear_share,
                      &out);
        } else {
            add_wheel(p, f, rider, offset, 1.0, &out);
        }
    }
    for (size_t k = 0; k < out.n; k++) {
        bw_influence_set(f->influence, &out.wheel[k]);
    }
    return out;
}
