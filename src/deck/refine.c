/* From the worst place of a grid to the worst there is, for one check of one member.
 *
 * Between grid points a check is smooth, with a hump, or it has its peak where a wheel is
 * at a bent. So a place that is no better a hair to either side is the top of its hump.
 * Else three places a step apart show where their parabola is highest,
 *
 *   x + step / 2 * (left - right) / (left - 2 here + right),
 *
 * and the step shrinks around it until nothing is worse a hair away. */
#include "internal.h"

#include <math.h>

/* Of the bay. A bent shape costs a solution of its own for every place: close enough is
 * enough. */
static const double hair_straight = 1e-7, hair_curved = 1e-3;
static const double shrink = 8.0;
static const double rounding = 1e-12;
/* Never seen; a row of bays that each are worse than the last would need as many. */
enum { ROUNDS_MAX = 100 };

typedef struct {
    bwi_tracker *t;
    const bwi_refinement *r;
    bwi_peak best;
    double length; /* [m] of the bay that it starts in */
} climb;

/* What the check comes to with the rider moved by a part of the bay. */
static bw_status look(climb *c, bwi_rider_place from, double by, double *value)
{
    const bwi_rider_place to = bwi_rider_moved(c->t->plan, from, by * c->length);
    c->t->probe->most = 0.0;
    BW_TRY(c->r->try_place(c->r->search, &to));
    *value = c->t->probe->most;
    if (*value > c->best.value) {
        c->best = (bwi_peak){*value, to};
    }
    return BW_OK;
}

/* Both sides of the best place; *moved: one of them is now the best. */
static bw_status look_beside(climb *c, double step, double side[2], bool *moved)
{
    const bwi_peak from = c->best;
    BW_TRY(look(c, from.place, -step, &side[0]));
    BW_TRY(look(c, from.place, step, &side[1]));
    *moved = c->best.value > from.value * (1.0 + rounding);
    return BW_OK;
}

/* One step to either side, and to the top of the parabola where neither is worse. */
static bw_status take_step(climb *c, double step, bool *moved)
{
    const bwi_peak from = c->best;
    double side[2], unused;
    BW_TRY(look_beside(c, step, side, moved));
    const double bend = 2.0 * from.value - side[0] - side[1];
    if (*moved || !(bend > 0.0)) {
        return BW_OK;
    }
    return look(c, from.place, step / 2.0 * (side[1] - side[0]) / bend, &unused);
}

static bw_status climb_to_top(climb *c)
{
    const double hair = c->r->curved ? hair_curved : hair_straight;
    double side[2], step = c->r->first_step;
    bool moved = false;
    if (c->r->kind == BW_CHECK_COMBINED) { /* sums of two humps have others beside them */
        BW_TRY(take_step(c, step, &moved));
        BW_TRY(take_step(c, step / shrink, &moved));
    }
    for (int k = 0; k < ROUNDS_MAX && step > hair; k++) {
        bool beside;
        BW_TRY(look_beside(c, hair, side, &beside));
        if (!beside && !moved) {
            return BW_OK;
        }
        BW_TRY(take_step(c, step, &moved));
        step = moved ? step : step / shrink;
    }
    return BW_OK;
}

/* Lower peaks of the same search matter only if the grid may have missed that much. */
static bool is_worth_a_look(const bwi_tracker *t, const bwi_refinement *r, int k)
{
    const bwi_peak *peaks = bwi_peaks(t, r->member, (int)r->kind);
    if (peaks == NULL) {
        return false;
    }
    double most = bwi_tracked(t, r->member, (int)r->kind)->ratio.utilisation;
    for (int j = 0; j < BWI_PEAKS; j++) {
        most = fmax(most, peaks[j].value);
    }
    return peaks[k].value > 0.0 && peaks[k].value >= (1.0 - r->open) * most;
}

bw_status bwi_refine(bwi_tracker *t, const bwi_refinement *r)
{
    const bw_bent *bents = t->plan->deck->bents;
    bwi_probe probe = {.member = r->member, .kind = r->kind};
    bw_status status = BW_OK;
    t->probe = &probe;
    for (int k = 0; k < BWI_PEAKS && status == BW_OK; k++) {
        if (is_worth_a_look(t, r, k)) {
            const bwi_peak *peak = &bwi_peaks(t, r->member, (int)r->kind)[k];
            const size_t bay = peak->place.bay;
            climb c = {t, r, *peak, bents[bay + 1].at - bents[bay].at};
            status = climb_to_top(&c);
        }
    }
    t->probe = NULL;
    return status;
}
