/* Places in words, in the case's own units. */
#include "internal.h"

#include <math.h>

static const char *length_text(const bwi_plan *p, double value)
{
    const char *text =
        bw_quantity_print(p->arena, BW_LENGTH, fabs(value), p->deck->units);
    return text != NULL ? text : "?";
}

const char *bwi_across_text(const bwi_plan *p, double across)
{
    if (fabs(across) < 5e-4) {
        return "on the centre line";
    }
    return bw_arena_print(p->arena, "%s %s of the centre line", length_text(p, across),
                          across < 0.0 ? "left" : "right");
}

static const char *post_text(const bwi_plan *p, double height)
{
    if (fabs(height) < 5e-4) {
        return "at the ground";
    }
    return bw_arena_print(p->arena, "%s %s the ground", length_text(p, height),
                          height < 0.0 ? "below" : "above");
}

/* Along a brace, from its first end: what that end meets is said there. */
static const char *brace_text(const bwi_plan *p, const bw_brace *b, double station)
{
    if (station < 5e-4) {
        return bw_arena_print(p->arena, "at its first end, %s up",
                              length_text(p, b->from.height));
    }
    return bw_arena_print(p->arena, "%s from its first end", length_text(p, station));
}

const char *bwi_place_text(const bwi_tracker *t, size_t member, double station)
{
    const bwi_plan *p = t->plan;
    if (member < t->first_cap) {
        const bw_stringer *s = &p->deck->stringers[member];
        const double length = p->stringer_length[member];
        const bool from_last = station > length / 2.0;
        const double distance = from_last ? length - station : station;
        const char *bent = p->deck->bents[from_last ? s->to : s->from].name;
        return distance < 5e-4 ? bw_arena_print(p->arena, "at bent %s", bent)
                               : bw_arena_print(p->arena, "%s from bent %s",
                                                length_text(p, distance), bent);
    }
    if (member == t->boards) {
        return bwi_across_text(p, station);
    }
    if (member >= t->first_brace) {
        return brace_text(p, &p->deck->braces[member - t->first_brace], station);
    }
    return member < t->first_post ? bwi_across_text(p, station) : post_text(p, station);
}

const char *bwi_push_along(int direction)
{
    return direction > 0 ? "pushed forward" : "pushed back";
}

const char *bwi_push_across(int direction)
{
    return direction > 0 ? "pushed to the right" : "pushed to the left";
}

/* "rider 2 ft 4 in past bent B2, over row left", "people on all bays", or null. */
const char *bwi_rider_text(const bwi_plan *p, const bwi_event *event)
{
    if (!event->rider.present) {
        return event->pattern;
    }
    const bwi_rider_place *r = &event->rider;
    const char *who =
        r->machine ? p->deck->loads.machine.name
        : r->alone ? "one rider alone"
        : p->deck->loads.riders > 1
            ? bw_arena_print(p->arena, "first of %d riders", p->deck->loads.riders)
            : "rider";
    const char *where = NULL;
    if (r->row >= 0) {
        const bwi_share *s = bwi_plan_share(p, r->row, r->bay);
        const double share = r->machine ? 0.0 : s->rider_share;
        where = share > 1.0 + 1e-6
                    ? bw_arena_print(p->arena, "at the edge beyond row %s",
                                     p->deck->rows[r->row].name)
                    : bw_arena_print(p->arena, "over row %s", p->deck->rows[r->row].name);
    } else {
        where = bwi_across_text(p, r->across);
    }
    const double length = p->deck->bents[r->bay + 1].at - p->deck->bents[r->bay].at;
    const double shown = 1e-3 * length; /* closer to a bent than a thousandth: on it */
    if (r->along < shown || r->along > length - shown) {
        const size_t bent = r->along < shown ? r->bay : r->bay + 1;
        return bw_arena_print(p->arena, "%s at bent %s, %s", who,
                              p->deck->bents[bent].name, where);
    }
    return bw_arena_print(p->arena, "%s %s past bent %s, %s", who,
                          length_text(p, r->along), p->deck->bents[r->bay].name, where);
}

static const char *joined(const bwi_plan *p, const char *a, const char *b)
{
    return a == NULL || b == NULL ? (a != NULL ? a : b)
                                  : bw_arena_print(p->arena, "%s, %s", a, b);
}

/* Where the loads are, which way they push, and whether a stringer lifts; or null. */
const char *bwi_position_text(const bwi_plan *p, const bwi_event *event)
{
    return joined(p, joined(p, bwi_rider_text(p, event), event->push),
                  event->lifts ? "a stringer lifting off a seat" : NULL);
}
