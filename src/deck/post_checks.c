/* A post in one plane: above ground from the frame, below it from the buried part. */
#include "internal.h"

#include <math.h>

/* NDS Appendix G (MEMORY): recommended effective lengths, 2.1 for a held foot and a free
 * head, 1.0 for a post hinged at both ends that others keep upright. */
static double effective_factor(const bw_post *post)
{
    return post->foot == BW_FOOT_PAD ? 1.0 : 2.1;
}

static bw_check_input post_input(const bwi_tracker *t, const bwi_post_check *c)
{
    const bwi_plan *p = t->plan;
    const double at_ground = bwi_post_diameter(p, &c->place, 0.0);
    const double at_joint = bwi_post_diameter(p, &c->place, c->joint);
    return (bw_check_input){.reference = &p->references[c->place.post->log],
                            .diameter_small = fmin(at_ground, at_joint),
                            .diameter_large = fmax(at_ground, at_joint),
                            /* the earth holds a post some way down its hole, not at the
                               surface: half the depth */
                            .length = c->joint + c->place.foot_depth / 2.0,
                            .effective_factor = effective_factor(c->place.post)};
}

static void check_section(bwi_tracker *t, const bwi_post_check *c, bw_check_input *in,
                          bw_action a, double height, const bwi_event *event)
{
    in->diameter = bwi_post_diameter(t->plan, &c->place, height);
    in->axial = -a.axial;
    in->shear = fabs(a.shear);
    in->moment = hypot(a.moment, c->other_moment);
    bwi_track(t, c->member, BW_CHECK_COMBINED, in, height, event);
    bwi_track(t, c->member, BW_CHECK_SHEAR, in, height, event);
    if (in->axial > 0.0) {
        bwi_track(t, c->member, BW_CHECK_COMPRESSION, in, height, event);
    }
}

/* Keeps what is not a number: it must reach the checks. */
static void keep_larger(double *largest, double value)
{
    if (!(fabs(value) <= *largest)) {
        *largest = fabs(value);
    }
}

/* The buried part where its bending stress is largest: the post's own compression goes
 * with it, and what the soil takes of it on the way down is left out. */
static void check_buried(bwi_tracker *t, const bwi_post_check *c, bw_check_input *in,
                         bw_action ground, const bwi_event *event, double *largest_moment)
{
    int worst = 0;
    double largest = -1.0;
    for (int k = 0; k <= BWI_FOOT_PIECES; k++) {
        const double depth = c->foot->depth * k / BWI_FOOT_PIECES;
        const bw_section s =
            bw_section_round(bwi_post_diameter(t->plan, &c->place, -depth));
        const double M = bwi_foot_moment(c->foot, ground.shear, ground.moment, k);
        const double stress = hypot(M, c->other_moment) / bw_section_modulus(&s);
        keep_larger(largest_moment, M);
        if (!(stress <= largest)) {
            largest = stress;
            worst = k;
        }
    }
    const double M = bwi_foot_moment(c->foot, ground.shear, ground.moment, worst);
    check_section(t, c, in, (bw_action){ground.axial, 0.0, M},
                  -c->foot->depth * worst / BWI_FOOT_PIECES, event);
}

void bwi_check_post(bwi_tracker *t, const bwi_post_check *post, const bw_line *line,
                    const bwi_event *event, double *largest_moment)
{
    enum { ROOM = 64 };
    double x[ROOM];
    bw_check_input in = post_input(t, post);
    const size_t n = bw_line_stations(line, x, ROOM);
    for (size_t k = 0; k < n; k++) {
        const bw_action a = bw_line_action(line, x[k], k + 1 == n);
        keep_larger(largest_moment, a.moment);
        check_section(t, post, &in, a, x[k], event);
    }
    if (post->foot->depth > 0.0) {
        check_buried(t, post, &in, bw_line_action(line, 0.0, false), event,
                     largest_moment);
    }
}
