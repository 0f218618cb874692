/* The ends of braces. One that is not described sits square in a notch, as deep as seats
 * are, and can only push: on the slanting face of the notch it bears with its end grain,
 * and the post or cap with its wood at an angle. Fasteners pull; "hung", they push too.
 */
#include "internal.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

/* What the end meets: its log, thickness there, and the angle of the brace to its grain.
 */
typedef struct {
    int log;
    double diameter, angle;
    bool on_post;
    double beyond; /* [m] of a post from here to its top */
} partner;

/* A knee under a stringer: the part of the row that lies there. */
static partner stringer_over(const bwi_plan *p, const bw_brace_end *end, double angle)
{
    const double x = p->deck->bents[end->bent].at + end->beside;
    size_t bay = 0;
    while (bay + 1 < p->n_bays && x > p->deck->bents[bay + 1].at) {
        bay++;
    }
    const bwi_part_of_stringer *part = bwi_plan_part(p, end->row, bay);
    const double t = (x - p->deck->bents[bay].at) /
                     (p->deck->bents[bay + 1].at - p->deck->bents[bay].at);
    if (part->stringer < 0) {
        return (partner){p->deck->braces[0].log, (double)NAN, angle, false, 0.0};
    }
    return (partner){
        p->deck->stringers[part->stringer].log,
        bwi_stringer_diameter(p, part->stringer, part->from_first + t * part->length),
        angle, false, 0.0};
}

static partner partner_of(const bwi_plan *p, const bw_brace_end *end, const bw_line *line)
{
    double c, s;
    bw_frame_direction(line->frame, line->member, &c, &s);
    const bw_bent *b = &p->deck->bents[end->bent];
    if (end->on_stringer) {
        return stringer_over(p, end, atan2(fabs(s), fabs(c)));
    }
    if (end->on_cap) {
        const double across = p->deck->rows[end->row].across + end->beside;
        return (partner){b->cap, bwi_cap_diameter(p, (size_t)end->bent, across),
                         atan2(fabs(s), fabs(c)), false, 0.0};
    }
    const int k = bwi_post_of_row(b, end->row);
    const bwi_post_place place = bwi_plan_post(p, (size_t)end->bent, &b->posts[k]);
    return (partner){b->posts[k].log, bwi_post_diameter(p, &place, end->height),
                     atan2(fabs(c), fabs(s)), true, place.top - end->height};
}

/* Area that a cut of the depth takes off a circle (COMPUTED). */
static double segment_area(double diameter, double depth)
{
    const double R = diameter / 2.0, h = fmin(depth, R);
    return R * R * acos((R - h) / R) - (R - h) * sqrt(2.0 * R * h - h * h);
}

/* The face of the notch stands square to the brace: seen along the partner's grain it is
 * the segment that the notch cuts off. Not more than the end of the brace itself. */
static double notch_area(const partner *to, double depth, double end_area)
{
    const double seen = segment_area(to->diameter, depth), c = cos(to->angle);
    return seen >= end_area * c ? end_area : seen / c; /* NaN runs through */
}

typedef struct {
    int brace, joint;
    partner to;
    bw_section own; /* of the brace there */
    double station;
} brace_end;

static void check_notch(bwi_tracker *t, const brace_end *e, double push,
                        const bwi_event *event)
{
    const bwi_plan *p = t->plan;
    const double given = e->joint >= 0 ? p->deck->joints[e->joint].notch : 0.0;
    const double depth = given > 0.0 ? given : p->deck->limits.seat_depth;
    const bool opens = bwi_opens(&p->deck->logs[e->to.log], e->to.diameter, depth);
    const size_t member = t->first_brace + (size_t)e->brace;
    bw_check_input in = {.reference = &p->references[e->to.log],
                         .force = push,
                         .bearing_area =
                             opens ? (double)NAN
                                   : notch_area(&e->to, depth, bw_section_area(&e->own)),
                         .grain_angle = e->to.angle};
    bwi_track(t, member, BW_CHECK_ANGLE, &in, e->station, event);
    in.reference = &p->references[p->deck->braces[e->brace].log];
    bwi_track(t, member, BW_CHECK_END_BEARING, &in, e->station, event);
}

static bw_joint_log log_of(const bwi_plan *p, int log, const bw_section *s,
                           const bw_fasteners *f)
{
    return bwi_joint_log(p, log, bw_section_width(s), bw_section_area(s), f);
}

/* Through the brace into what it meets. The joint is kept with the plan: a finding works
 * it again. */
static void check_fasteners(bwi_tracker *t, const brace_end *e, double force,
                            const bwi_event *event)
{
    static const bw_joint nothing = {.fasteners = {.kind = BW_FASTENER_NONE}};
    const bwi_plan *p = t->plan;
    const int log = p->deck->braces[e->brace].log;
    const bw_section to = bw_section_round(e->to.diameter);
    bw_joint *joint = e->joint >= 0 ? &p->joints[e->joint] : NULL;
    if (joint != NULL) {
        const bw_joint_place *place = &p->deck->joints[e->joint];
        const bw_fasteners *f = &place->fasteners;
        *joint = (bw_joint){.fasteners = *f,
                            .hung = place->hung,
                            .side_log = log_of(p, log, &e->own, f),
                            .main_log = log_of(p, e->to.log, &to, f)};
        /* a post ends at its cap, whatever distance is told */
        if (f->end > 0.0 && e->to.on_post && e->to.beyond < f->end) {
            joint->fasteners.end = fmax(e->to.beyond, 0.001);
        }
        if (f->loaded_edge == 0.0) {
            joint->fasteners.loaded_edge = f->edge;
        }
    }
    bw_check_input in = {.reference = &p->references[log],
                         .joint = joint != NULL ? joint : &nothing,
                         .force = fabs(force),
                         .main_angle = fmin(e->to.angle, pi / 2.0),
                         .to_end = force < 0.0};
    bwi_track(t, t->first_brace + (size_t)e->brace, BW_CHECK_JOINT, &in, e->station,
              event);
}

/* [N] Less than a fist's weight: what rounding leaves in a brace that hangs idle. */
static const double rounding = 1.0;

void bwi_check_brace_ends(bwi_tracker *t, int brace, const bw_line *line, double length,
                          const bwi_event *event)
{
    const bwi_plan *p = t->plan;
    const bw_brace *b = &p->deck->braces[brace];
    bw_section own[2];
    bwi_log_sections(&p->deck->logs[b->log], own);
    for (int to = 0; to < 2; to++) {
        const double push = -bw_line_action(line, to == 1 ? length : 0.0, to == 1).axial;
        const brace_end e = {.brace = brace,
                             .joint = p->brace_joint[2 * brace + to],
                             .to = partner_of(p, to == 1 ? &b->to : &b->from, line),
                             .own = own[to],
                             .station = to == 1 ? length : 0.0};
        if (push >= 0.0 && !bwi_is_hung(p, e.joint)) {
            check_notch(t, &e, push, event);
        } else if (push >= 0.0 || b->pulls || e.joint >= 0 || -push > rounding) {
            /* a pull that nothing can take is no number: the verdict cannot be good */
            check_fasteners(t, &e, push, event);
        }
    }
}
