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
static const double stride = 0.2; /* the longest step */
static const double rounding = 1e-12;
/* Never seen; a row of bays that each are worse than the last would need as many. */
enum { ROUNDS_MAX = 100 };

typedef struct {
    bwi_tracker *t;
    const bwi_refinement *r;
    bwi_peak best;
    double length;        /* [m] of the bay that it starts in */
    const bwi_peak *tops; /* that other climbs have come to */
    int n_tops;
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

/* Within half a step of the grid of a top that another climb has come to, and no higher:
 * it is on the way there. Not with sums of two humps, which have others beside them. */
static bool is_known(const climb *c)
{
    const bw_bent *bents = c->t->plan->deck->bents;
    const double here = bents[c->best.place.bay].at + c->best.place.along;
    bool known = false;
    for (int k = 0; k < c->n_tops && c->r->kind != BW_CHECK_COMBINED; k++) {
        const bwi_peak *top = &c->tops[k];
        const double there = bents[top->place.bay].at + top->place.along;
        known = known || (c->best.value <= top->value &&
                          fabs(there - here) < c->r->first_step * c->length &&
                          top->place.across == c->best.place.across &&
                          top->place.alone == c->best.place.alone);
    }
    return known;
}

static bw_status climb_to_top(climb *c)
{
    const double hair = c->r->curved ? hair_curved : hair_straight;
    double side[2], step = c->r->first_step;
    bool moved = false;
    int moves = 0; /* one after the other */
    if (c->r->kind == BW_CHECK_COMBINED) {
        BW_TRY(take_step(c, step, &moved));
        BW_TRY(take_step(c, step / shrink, &moved));
    }
    for (int k = 0; k < ROUNDS_MAX && step > hair && !is_known(c); k++) {
        bool beside;
        BW_TRY(look_beside(c, hair, side, &beside));
        if (!beside && !moved) {
            return BW_OK;
        }
        BW_TRY(take_step(c, step, &moved));
        moves = moved ? moves + 1 : 0;
        step = moves > 1 ? fmin(2.0 * step, stride) : moved ? step : step / shrink;
    }
    return BW_OK;
}

/* Peaks lower than the highest, or than what is the worst already, matter only if the
 * grid may have missed that much. */
static bool is_worth_a_look(const bwi_tracker *t, const bwi_refinement *r,
                            const bwi_peak *peak, const bwi_peak *highest)
{
    const double open = r->open[t->probe->lifts ? 1 : 0];
    const double worst = bwi_tracked(t, r->member, (int)r->kind)->ratio.utilisation;
    const double most = fmax(worst, highest->value);
    return peak->value > 0.0 && peak->value >= (1.0 - open) * most;
}

/* The highest first; equal ones as they were found. */
static void sort_peaks(const bwi_peak *peaks, bwi_peak sorted[BWI_PEAKS])
{
    for (int k = 0; k < BWI_PEAKS; k++) {
        int at = k;
        for (; at > 0 && peaks[k].value > sorted[at - 1].value; at--) {
            sorted[at] = sorted[at - 1];
        }
        sorted[at] = peaks[k];
    }
}

/* Of one of the two curves. */
static bw_status refine_curve(bwi_tracker *t, const bwi_refinement *r, bool lifts)
{
    const bw_bent *bents = t->plan->deck->bents;
    bwi_probe probe = {.member = r->member, .kind = r->kind, .lifts = lifts};
    const bwi_peak *peaks = bwi_peaks(t, r->member, (int)r->kind, lifts);
    bwi_peak sorted[BWI_PEAKS], tops[BWI_PEAKS];
    int n_tops = 0;
    bw_status status = BW_OK;
    if (peaks == NULL) {
        return BW_OK;
    }
    sort_peaks(peaks, sorted);
    t->probe = &probe;
    for (int k = 0; k < BWI_PEAKS && status == BW_OK; k++) {
        if (is_worth_a_look(t, r, &sorted[k], &sorted[0])) {
            const size_t bay = sorted[k].place.bay;
            const double length = bents[bay + 1].at - bents[bay].at;
            climb c = {t, r, sorted[k], length, tops, n_tops};
            status = climb_to_top(&c);
            tops[n_tops++] = c.best;
        }
    }
    t->probe = NULL;
    return status;
}

bw_status bwi_refine(bwi_tracker *t, const bwi_refinement *r)
{
    BW_TRY(refine_curve(t, r, false));
    return refine_curve(t, r, true);
}
