/* Which bays carry people. For stringers that end at every bent all bays loaded is the
 * worst for everything; where stringers run on, every other bay is worst between
 * supports, and two neighbours with every other bay beyond them over a support. That rule
 * is for supports that do not give; that posts shorten and caps bend moves a result by a
 * few thousandths (tests/deck/test_patterns.c tries every arrangement).
 *
 * Across, people on an overhang of the boards lift the row next to the outer one. Who
 * sways there turns the deck over as well, and so do those further in, until what they
 * press on that row is more: with people from an edge up to the share s_0 = V h / (q d)
 * of it, push V and height h, it is lifted most. Tried are the overhangs and every
 * quarter from there on to the next one, which leaves out (1/8)^2 / 2 q d of its length
 * at most. */
#include "internal.h"

#include <math.h>

static bool runs_on_over(const bwi_plan *p, size_t bent)
{
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        const bw_stringer *s = &p->deck->stringers[k];
        if ((size_t)s->from < bent && bent < (size_t)s->to) {
            return true;
        }
    }
    return false;
}

static bool *add_pattern(const bwi_plan *p, bwi_transfer *t, bool **flags,
                         const char *words)
{
    const size_t k = t->n_patterns++;
    flags[k] = BW_NEW(p->arena, bool, p->n_bays);
    t->pattern[k] = words;
    t->crowd[k] = BW_NEW(p->arena, double, p->deck->n_rows * p->deck->n_bents);
    return t->crowd[k] != NULL && words != NULL ? flags[k] : NULL;
}

static bool add_alternate(const bwi_plan *p, bwi_transfer *t, bool **flags, size_t parity)
{
    bool *on = add_pattern(p, t, flags, "people on every other bay");
    for (size_t bay = 0; on != NULL && bay < p->n_bays; bay++) {
        on[bay] = bay % 2 == parity;
    }
    return on != NULL;
}

/* Bays bent - 1 and bent, and every other one beyond. */
static bool add_pair(const bwi_plan *p, bwi_transfer *t, bool **flags, size_t bent)
{
    bool *on = add_pattern(p, t, flags,
                           bw_arena_print(p->arena, "people on both sides of bent %s",
                                          p->deck->bents[bent].name));
    for (size_t bay = 0; on != NULL && bay < p->n_bays; bay++) {
        on[bay] = bay >= bent ? (bay - bent) % 2 == 0 : (bent - 1 - bay) % 2 == 0;
    }
    return on != NULL;
}

/* ---- across the deck ---- */

/* People between the edges and the two places: on the left up to the first, on the right
 * from the second on. */
typedef struct {
    double left, right;
} both_sides;

static both_sides sides_of(const bwi_plan *p, bwi_strip strip, size_t bay)
{
    int rows[BWI_ROWS_MAX];
    double at[BWI_ROWS_MAX];
    const size_t n = bwi_plan_rows(p, bay, rows, at);
    const double edge = p->deck->boards.width / 2.0;
    const double first = n > 0 ? at[0] : -edge, last = n > 0 ? at[n - 1] : edge;
    const double left = first < 0.0 ? first / 2.0 : first;
    const double right = last > 0.0 ? last / 2.0 : last;
    switch (strip) {
    case BWI_LEFT_OVERHANG:
        return (both_sides){first, edge};
    case BWI_RIGHT_OVERHANG:
        return (both_sides){-edge, last};
    case BWI_BOTH_OVERHANGS: /* they lift one row only where there are three */
        return n > 2 ? (both_sides){first, last} : (both_sides){-edge, edge};
    case BWI_LEFT_PART:
        return (both_sides){left, edge};
    case BWI_RIGHT_PART:
        return (both_sides){-edge, right};
    case BWI_LEFT_SIDE:
        return (both_sides){0.0, edge};
    case BWI_RIGHT_SIDE:
        return (both_sides){-edge, 0.0};
    case BWI_NOT_LEFT_PART:
        return (both_sides){-edge, left};
    case BWI_NOT_RIGHT_PART:
        return (both_sides){right, edge};
    case BWI_NOT_LEFT_OVERHANG:
        return (both_sides){-edge, first};
    case BWI_NOT_RIGHT_OVERHANG:
        return (both_sides){last, edge};
    case BWI_WHOLE_WIDTH:
    case BWI_STRIPS:
        break;
    }
    return (both_sides){edge, edge};
}

double bwi_strip_on_row(const bwi_plan *p, bwi_strip strip, int row, size_t bay)
{
    const double edge = p->deck->boards.width / 2.0;
    const both_sides s = sides_of(p, strip, bay);
    return bwi_plan_width_on_row(p, row, bay, -edge, s.left) +
           bwi_plan_width_on_row(p, row, bay, s.right, edge);
}

static double part_of_bay(const bwi_plan *p, bwi_strip strip, size_t bay)
{
    const both_sides s = sides_of(p, strip, bay);
    return (p->deck->boards.width + s.left - s.right) / p->deck->boards.width;
}

double bwi_strip_part(const bwi_plan *p, bwi_strip strip, size_t bent)
{
    const double before = bent > 0 ? part_of_bay(p, strip, bent - 1) : 0.0;
    const double after = bent < p->n_bays ? part_of_bay(p, strip, bent) : 0.0;
    return before > after ? before : after;
}

const char *bwi_strip_words(bwi_strip strip)
{
    static const char *const words[BWI_STRIPS] = {
        [BWI_WHOLE_WIDTH] = "on the whole width",
        [BWI_LEFT_OVERHANG] = "on the left overhang",
        [BWI_RIGHT_OVERHANG] = "on the right overhang",
        [BWI_BOTH_OVERHANGS] = "on both overhangs",
        [BWI_LEFT_PART] = "left of half way from the left row to the middle",
        [BWI_RIGHT_PART] = "right of half way from the right row to the middle",
        [BWI_LEFT_SIDE] = "on the left half",
        [BWI_RIGHT_SIDE] = "on the right half",
        [BWI_NOT_LEFT_PART] = "right of half way from the middle to the left row",
        [BWI_NOT_RIGHT_PART] = "left of half way from the middle to the right row",
        [BWI_NOT_LEFT_OVERHANG] = "not on the left overhang",
        [BWI_NOT_RIGHT_OVERHANG] = "not on the right overhang",
    };
    return words[strip];
}

/* Two strips that put the same on every row of every bay; none: nothing. */
static bool same_strips(const bwi_plan *p, bwi_strip a, const bwi_strip *b)
{
    const double nothing = 1e-9 * p->deck->boards.width;
    bool same = true;
    for (size_t bay = 0; same && bay < p->n_bays; bay++) {
        for (int r = 0; same && r < (int)p->deck->n_rows; r++) {
            const double other = b != NULL ? bwi_strip_on_row(p, *b, r, bay) : 0.0;
            same = fabs(bwi_strip_on_row(p, a, r, bay) - other) < nothing;
        }
    }
    return same;
}

static bool is_new_strip(const bwi_plan *p, const bwi_transfer *t, bwi_strip strip)
{
    bool is_new = !same_strips(p, strip, NULL);
    for (size_t k = 0; is_new && k < t->n_strips; k++) {
        is_new = !same_strips(p, strip, &t->strip[k]);
    }
    return is_new;
}

/* What stands on a lone row is looked at by halves of it. */
static bw_status add_strips(const bwi_plan *p, bwi_transfer *t)
{
    const bool wanted = p->lone_row < 0 && p->deck->loads.crowd != 0.0;
    t->strip[t->n_strips++] = BWI_WHOLE_WIDTH;
    for (int k = BWI_WHOLE_WIDTH + 1; wanted && k < BWI_STRIPS; k++) {
        if (is_new_strip(p, t, (bwi_strip)k)) {
            t->strip[t->n_strips++] = (bwi_strip)k;
        }
    }
    for (size_t k = t->n_patterns; k < t->n_patterns * t->n_strips; k++) {
        t->crowd[k] = BW_NEW(p->arena, double, p->deck->n_rows * p->deck->n_bents);
        if (t->crowd[k] == NULL) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}

bwi_people bwi_people_on_strip(const bwi_plan *p, bwi_strip strip, int row,
                               const bool *on)
{
    double *part = BW_NEW(p->arena, double, p->n_bays);
    for (size_t bay = 0; part != NULL && bay < p->n_bays; bay++) {
        if (bwi_plan_part(p, row, bay)->stringer >= 0) {
            const double all = bwi_plan_share(p, row, bay)->crowd_width;
            part[bay] = bwi_strip_on_row(p, strip, row, bay) / all;
        }
    }
    return (bwi_people){on, part, 1.0};
}

/* [m] of the boards of a bay whose people lift the row. */
static double lifting_width(const bwi_plan *p, int row, size_t bay)
{
    int rows[BWI_ROWS_MAX];
    double at[BWI_ROWS_MAX];
    const size_t n = bwi_plan_rows(p, bay, rows, at);
    const double edge = p->deck->boards.width / 2.0;
    const double left = n > 1 && rows[1] == row ? at[0] + edge : 0.0;
    const double right = n > 1 && rows[n - 2] == row ? edge - at[n - 1] : 0.0;
    return left + right;
}

bwi_people bwi_people_lifting(const bwi_plan *p, int row, const bool *on)
{
    bwi_people out = {on, NULL, 0.0};
    double widest = 0.0, *part = BW_NEW(p->arena, double, p->n_bays);
    for (size_t bay = 0; part != NULL && bay < p->n_bays; bay++) {
        const double width = lifting_width(p, row, bay);
        if (width > 1e-9 * p->deck->boards.width) {
            const bwi_share *s = bwi_plan_share(p, row, bay);
            part[bay] = (s->dead_width - s->crowd_width) / s->crowd_width;
            widest = width > widest ? width : widest;
            out.part = part;
        }
    }
    out.pushing = widest / p->deck->boards.width;
    return out;
}

bw_status bwi_patterns(const bwi_plan *p, bool ***flags, bwi_transfer *t)
{
    size_t n_run_on = 0;
    for (size_t bent = 1; bent < p->n_bays; bent++) {
        n_run_on += runs_on_over(p, bent) ? 1 : 0;
    }
    *flags = BW_NEW(p->arena, bool *, p->n_bays + 3);
    t->pattern = BW_NEW(p->arena, const char *, p->n_bays + 3);
    t->crowd = BW_NEW(p->arena, double *, (p->n_bays + 3) * BWI_STRIPS);
    if (*flags == NULL || t->pattern == NULL || t->crowd == NULL) {
        return BW_E_MEMORY;
    }
    bool *all = add_pattern(p, t, *flags, "people on all bays");
    if (all == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        all[bay] = true;
    }
    if (n_run_on > 0 &&
        (!add_alternate(p, t, *flags, 0) || !add_alternate(p, t, *flags, 1))) {
        return BW_E_MEMORY;
    }
    /* also where logs end on a bent, but run on over the next one */
    for (size_t bent = 1; n_run_on > 0 && bent < p->n_bays; bent++) {
        if (!add_pair(p, t, *flags, bent)) {
            return BW_E_MEMORY;
        }
    }
    return add_strips(p, t);
}
