/* Seats: flats cut where a log bears, how long they are, and what they leave of it. */
#include "internal.h"

#include <math.h>

/* A log that nobody measured ends there. */
double bwi_log_beyond(const bwi_plan *p, int stringer)
{
    const double own = p->deck->logs[p->deck->stringers[stringer].log].length;
    return own > 0.0 ? fmax(0.0, (own - p->stringer_length[stringer]) / 2.0) : 0.0;
}

int bwi_stringer_at(const bwi_plan *p, int row, size_t bent, bwi_side side)
{
    const bool there = side == BWI_BEFORE ? bent > 0 : bent < p->n_bays;
    return there ? bwi_plan_part(p, row, side == BWI_BEFORE ? bent - 1 : bent)->stringer
                 : -1;
}

double bwi_seat_length(const bwi_plan *p, int row, size_t bent, bwi_side side,
                       double width)
{
    const int own = bwi_stringer_at(p, row, bent, side);
    const int other =
        bwi_stringer_at(p, row, bent, side == BWI_BEFORE ? BWI_AFTER : BWI_BEFORE);
    if (own == other) {
        return width;
    }
    return other >= 0 ? width / 2.0 : fmin(width, width / 2.0 + bwi_log_beyond(p, own));
}

/* Sine of the steeper slope of the deck on the sides of a bent where the stringer is. */
static double slope_at(const bwi_plan *p, int row, size_t bent, int stringer)
{
    double most = 0.0;
    for (int side = BWI_BEFORE; side <= BWI_AFTER; side++) {
        if (bwi_stringer_at(p, row, bent, (bwi_side)side) == stringer) {
            const bw_bent *b = &p->deck->bents[side == BWI_BEFORE ? bent - 1 : bent];
            const double rise = fabs(b[1].deck_height - b[0].deck_height);
            most = fmax(most, rise / hypot(b[1].at - b[0].at, rise));
        }
    }
    return most;
}

/* A level seat of the depth h under a log that slopes is a wedge, which ends where that
 * depth is used up (COMPUTED):
 *
 *   l = h / sin a
 *
 * It counts as wide as where it is deepest: the flat of a round cap may lean a little
 * too. */
double bwi_level_seat(const bwi_plan *p, int row, size_t bent, bwi_side side,
                      double width)
{
    const int stringer = bwi_stringer_at(p, row, bent, side);
    const double flat = bwi_seat_length(p, row, bent, side, width);
    const double sine = slope_at(p, row, bent, stringer);
    const double depth = p->deck->limits.seat_depth;
    return sine * flat > depth ? depth / sine : flat;
}

double bwi_support_width(const bwi_plan *p, int row, size_t bent)
{
    const bw_bent *b = &p->deck->bents[bent];
    if (b->cap >= 0) {
        return bwi_top_width(&p->deck->logs[b->cap],
                             bwi_cap_diameter(p, bent, p->deck->rows[row].across),
                             p->deck->limits.seat_depth);
    }
    const bwi_post_place post =
        bwi_plan_post(p, bent, &b->posts[bwi_post_of_row(b, row)]);
    return bwi_post_diameter(p, &post, post.top);
}

/* Which way along the deck it goes down from the bent, on the side where the stringer is:
 * +1 forward, -1 back. */
static double downhill(const bwi_plan *p, size_t bent, bwi_side side)
{
    const bw_bent *b = &p->deck->bents[side == BWI_BEFORE ? bent - 1 : bent];
    return b[1].deck_height < b[0].deck_height ? 1.0 : -1.0;
}

double bwi_seat_beside(const bwi_plan *p, int row, size_t bent, bwi_side side)
{
    const double inward = side == BWI_BEFORE ? -1.0 : 1.0;
    const int joint = bwi_end_joint(p, row, bent, side);
    if (bwi_stringer_at(p, row, bent, side) < 0 ||
        (bwi_is_hung(p, joint) && !p->deck->joints[joint].into_cap)) {
        return 0.0;
    }
    if (bwi_is_hung(p, joint)) {
        return inward * bwi_cap_diameter(p, bent, p->deck->rows[row].across) / 2.0;
    }
    const double width = bwi_support_width(p, row, bent);
    const double flat = bwi_seat_length(p, row, bent, side, width);
    const double level = bwi_level_seat(p, row, bent, side, width);
    const double down = downhill(p, bent, side);
    const bool ends = bwi_stringer_at(p, row, bent, BWI_BEFORE) !=
                      bwi_stringer_at(p, row, bent, BWI_AFTER);
    if (level < flat && (!ends || down == inward)) {
        return down * (width - level) / 2.0; /* the wedge lies at the edge below */
    }
    return inward * (width - flat) / 2.0;
}

/* Holes alone, in a full circle. */
static bw_check_section bored(const bw_section *s)
{
    return (bw_check_section){.area = bw_section_area(s),
                              .modulus = bw_section_modulus(s),
                              .second_moment = bw_section_second_moment(s),
                              .shear_factor = bw_section_shear_factor(s),
                              .depth = bw_section_depth(s),
                              .width = bw_section_width(s)};
}

static bw_check_section left_of(const bwi_plan *p, int log, const bw_section *left,
                                double holes)
{
    bw_check_section out = bwi_check_section(p, log, left);
    const bool only_bored = out.area == 0.0;
    out = only_bored ? bored(left) : out;
    out.words = only_bored    ? "what the holes leave"
                : holes > 0.0 ? "what seat and holes leave"
                              : "what the seat leaves";
    out.modulus -= holes * out.depth * out.depth / 6.0;
    return out;
}

bwi_seat bwi_seat_cut(const bwi_plan *p, int log, const bwi_seat_place *at)
{
    const double depth = p->deck->limits.seat_depth;
    const double whole = bw_section_depth(&at->whole);
    const bool top = at->top && at->whole.flat_top == 0.0; /* else hewn flat already */
    const bool bottom = at->bottom && at->whole.flat_bottom == 0.0;
    const bool deep = !at->at_end && depth > whole / 6.0;
    bwi_seat out = {
        .is_cut = top || bottom || at->holes > 0.0,
        .at_end = at->at_end,
        .no_rule = {top && deep, bottom && deep},
        .left = {.reference = &p->references[log], .diameter = at->whole.diameter}};
    if (!out.is_cut) {
        return out;
    }
    bw_section left = at->whole;
    left.flat_top = top ? depth : left.flat_top;
    left.flat_bottom = bottom ? depth : left.flat_bottom;
    if (left.bore > 0.0 && left.bore >= (left.diameter - 2.0 * depth) * (1.0 - 1e-9) &&
        (top || bottom)) {
        left.diameter = (double)NAN; /* through its shell: nothing to rely on */
    }
    out.left.section = left_of(p, log, &left, at->holes);
    if (at->at_end && bottom) {
        out.left.notch_left = whole - depth;
        out.left.notch_whole = whole;
        out.left.notch_reach = at->reach;
    }
    return out;
}

bw_check_input bwi_seat_input(const bwi_seat *seat, double moment, double shear)
{
    bw_check_input in = seat->left;
    in.moment = fabs(moment);
    in.shear = fabs(shear);
    if ((moment < 0.0 && seat->no_rule[0]) || (moment > 0.0 && seat->no_rule[1])) {
        in.section.modulus = (double)NAN;
    }
    return in;
}
