/* search.c - the step at which a check goes over, by secants of the logarithms.
 *
 * Of u ~ n^p through the last trial, or through the nearest trials on both sides, the
 * place of u = 1 is looked for; the two whole steps around it are tried until they are
 * neighbours. A utilisation that goes another way costs trials, never the answer. */
#include "internal.h"

#include <math.h>
#include <stdlib.h>

typedef struct {
    const bwi_search *s;
    int toward_over; /* +1 or -1: from within to over */
    bool has[2];     /* within, over */
    int step[2];
    bw_sized at[2];
    int trials;
} hunt;

enum { WITHIN, OVER };

static bw_status look(hunt *h, int step, bw_diags *d)
{
    bw_sized at;
    BW_TRY(h->s->try_step(h->s->context, step, &at, d));
    const int side = at.verdict == BW_WITHIN ? WITHIN : OVER;
    h->has[side] = true;
    h->step[side] = step;
    h->at[side] = at;
    h->trials++;
    return BW_OK;
}

/* About where the utilisation would be 1; not a number where it does not change with the
 * steps, or one of them is none. */
static double edge_of(const hunt *h)
{
    const int one = h->has[WITHIN] ? WITHIN : OVER;
    double power = h->s->power;
    if (h->has[WITHIN] && h->has[OVER]) {
        const double rise = log(h->at[OVER].utilisation) - log(h->at[WITHIN].utilisation);
        power = rise / (log((double)h->step[OVER]) - log((double)h->step[WITHIN]));
    }
    return power != 0.0 ? h->step[one] * pow(h->at[one].utilisation, -1.0 / power)
                        : (double)NAN;
}

static bool is_between(const hunt *h, int step)
{
    return (step - h->step[WITHIN]) * h->toward_over > 0 &&
           (h->step[OVER] - step) * h->toward_over > 0;
}

/* The two steps around the edge; whichever is news. */
static int next_between(const hunt *h)
{
    enum { PATIENCE = 6 }; /* then halving takes turns with the secant */
    const int middle = (h->step[WITHIN] + h->step[OVER]) / 2;
    const double edge = edge_of(h);
    if (!isfinite(edge) || (h->trials > PATIENCE && h->trials % 2 == 0)) {
        return middle;
    }
    const double last = h->toward_over > 0 ? floor(edge) : ceil(edge);
    const double bounded = fmin(fmax(last, 0.0), 1e6);
    const int within = (int)bounded, over = within + h->toward_over;
    return is_between(h, within) ? within : is_between(h, over) ? over : middle;
}

/* With trials on one side only: over the edge, and further each time it is not enough. */
static int next_beyond(const hunt *h)
{
    const int side = h->has[WITHIN] ? WITHIN : OVER;
    const int away = side == WITHIN ? h->toward_over : -h->toward_over;
    const int end = side == WITHIN ? h->s->worst : h->s->best;
    const double edge = edge_of(h);
    if (!isfinite(edge)) {
        return end;
    }
    const double cap = abs(end - h->step[side]);
    const double least = fmin((double)(1 << (h->trials > 1 ? h->trials - 1 : 0)), cap);
    const double way = fmin(fmax(ceil((edge - h->step[side]) * away), least), cap);
    return h->step[side] + away * (int)way;
}

static bool is_at_end(const hunt *h, int side)
{
    return h->has[side] && !h->has[1 - side] &&
           h->step[side] == (side == WITHIN ? h->s->worst : h->s->best);
}

static bool is_done(const hunt *h)
{
    return is_at_end(h, WITHIN) || is_at_end(h, OVER) ||
           (h->has[WITHIN] && h->has[OVER] && abs(h->step[WITHIN] - h->step[OVER]) == 1);
}

bw_status bwi_search_steps(const bwi_search *search, bwi_found *out, bw_diags *d)
{
    const int low = search->best < search->worst ? search->best : search->worst;
    const int high = search->best < search->worst ? search->worst : search->best;
    const int start = search->guess < low    ? low
                      : search->guess > high ? high
                                             : search->guess;
    hunt h = {.s = search, .toward_over = search->worst > search->best ? 1 : -1};
    BW_TRY(look(&h, start, d));
    while (!is_done(&h)) {
        const bool both = h.has[WITHIN] && h.has[OVER];
        BW_TRY(look(&h, both ? next_between(&h) : next_beyond(&h), d));
    }
    *out = (bwi_found){.has_within = h.has[WITHIN],
                       .has_over = h.has[OVER],
                       .within = h.step[WITHIN],
                       .over = h.step[OVER],
                       .at_within = h.at[WITHIN],
                       .at_over = h.at[OVER],
                       .edge = edge_of(&h)};
    return BW_OK;
}
