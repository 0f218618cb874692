/* From the worst place of a grid to the worst there is, for one check of one member.
 *
 * Between grid points a check is smooth, with one hump at most, or it has its peak at a
 * bent. So a place from which a hair to either side is no worse is the top. Else three
 * places a step apart show where their parabola is highest,
 *
 *   x + step / 2 * (left - right) / (left - 2 here + right),
 *
 * and the step shrinks around it until nothing is worse a hair away. */
#include "internal.h"

#include <math.h>

/* Of the bay. A bent shape costs a solution of its own for every place: close enough is
 * enough. */
static const double hair_straight = 1e-7, hair_curved = 1e-3;
static const double shrink = 4.0;
/* Never seen; a row of bays that each are worse than the last would need as many. */
enum { ROUNDS_MAX = 100 };

typedef struct {
    bwi_tracker *t;
    const bwi_refinement *r;
    const bwi_worst *worst;
    double length; /* [m] of the bay that it starts in */
} climb;

/* What the check comes to with the rider moved by a part of the bay. */
static bw_status look(const climb *c, bwi_rider_place from, double by, double *value)
{
    const bwi_rider_place to = bwi_rider_moved(c->t->plan, from, by * c->length);
    c->t->probe->most = 0.0;
    BW_TRY(c->r->try_place(c->r->search, &to));
    *value = c->t->probe->most;
    return BW_OK;
}

/* Both sides of the worst place; *moved: one of them is worse, and now the worst. */
static bw_status look_beside(const climb *c, double step, double side[2], bool *moved)
{
    const bwi_rider_place from = c->worst->event.rider;
    const double before = c->worst->ratio.utilisation;
    BW_TRY(look(c, from, -step, &side[0]));
    BW_TRY(look(c, from, step, &side[1]));
    *moved = c->worst->ratio.utilisation > before; /* what is no number stays */
    return BW_OK;
}

/* One step to either side, and to the top of the parabola where neither is worse. */
static bw_status take_step(const climb *c, double step, bool *moved)
{
    const double here = c->worst->ratio.utilisation;
    double side[2], unused;
    BW_TRY(look_beside(c, step, side, moved));
    const double bend = 2.0 * here - side[0] - side[1];
    if (*moved || !(bend > 0.0)) {
        return BW_OK;
    }
    return look(c, c->worst->event.rider, step / 2.0 * (side[1] - side[0]) / bend,
                &unused);
}

static bw_status climb_to_top(const climb *c)
{
    const double hair = c->r->curved ? hair_curved : hair_straight;
    double side[2];
    bool moved;
    BW_TRY(take_step(c, c->r->first_step, &moved));
    double step = c->r->first_step;
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

bool bwi_can_refine(const bwi_worst *worst, const bwi_event *event)
{
    return worst->has && worst->event.rider.present &&
           worst->event.combination == event->combination &&
           worst->event.direction == event->direction && !isnan(worst->ratio.utilisation);
}

bw_status bwi_refine(bwi_tracker *t, const bwi_refinement *r)
{
    const bwi_worst *worst = &t->worst[r->member][r->kind];
    const bw_bent *bents = t->plan->deck->bents;
    const size_t bay = worst->event.rider.bay;
    const climb c = {t, r, worst, bents[bay + 1].at - bents[bay].at};
    bwi_probe probe = {.member = r->member, .kind = r->kind};
    t->probe = &probe;
    const bw_status status = climb_to_top(&c);
    t->probe = NULL;
    return status;
}
