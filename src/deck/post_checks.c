/* A post in one plane: above ground from the frame, below it from the buried part. */
#include "internal.h"

#include <math.h>

/* NDS Appendix G (MEMORY): recommended effective lengths, 2.1 for a held foot and a free
 * head, 1.0 for a post hinged at both ends that others keep upright. */
static double effective_factor(const bw_post *post)
{
    return post->foot == BW_FOOT_PAD ? 1.0 : 2.1;
}

static double joint_of(const bwi_post_check *c)
{
    return c->chain->at[c->chain->n];
}

/* Crooked logs: as measured, else an inch in ten feet of bow (JUDGEMENT). */
static double bow_of(const bwi_plan *p, const bwi_post_check *c)
{
    const double measured = p->deck->logs[c->place.post->log].sweep;
    return measured > 0.0 ? measured : joint_of(c) / 120.0;
}

/* With what lies beside the axis on top of it, whichever way that bends. */
static bw_action action_at(const bwi_post_check *c, const bw_line *line, double x,
                           bool before)
{
    bw_action a = bw_line_action(line, x, before);
    a.moment += copysign(c->turned, a.moment);
    return a;
}

static bw_check_input post_input(const bwi_tracker *t, const bwi_post_check *c)
{
    const bwi_plan *p = t->plan;
    bw_section ends[2];
    bwi_post_sections(p, &c->place, 0.0, joint_of(c), ends);
    /* a post standing on its tip is thinnest below ground */
    const double at_ground =
        fmin(bwi_post_diameter(p, &c->place, 0.0),
             bwi_post_diameter(p, &c->place, -c->place.foot_depth / 2.0));
    const double at_joint = bwi_post_diameter(p, &c->place, joint_of(c));
    return (bw_check_input){.reference = &p->references[c->place.post->log],
                            .weakest = bwi_weakest_between(p, c->place.post->log, ends),
                            .diameter_small = fmin(at_ground, at_joint),
                            .diameter_large = fmax(at_ground, at_joint),
                            /* the earth holds a post some way down its hole, not at the
                               surface: half the depth */
                            .length = joint_of(c) + c->place.foot_depth / 2.0,
                            .effective_factor = effective_factor(c->place.post)};
}

static void check_section(bwi_tracker *t, const bwi_post_check *c, bw_check_input *in,
                          bw_action a, double height, const bwi_event *event)
{
    const bw_section section = bwi_post_section(t->plan, &c->place, height);
    in->diameter = section.diameter;
    in->section = bwi_check_section_any(t->plan, c->place.post->log, &section);
    in->axial = -a.axial;
    in->shear = fabs(a.shear);
    const double bowed = height > 0.0 ? fabs(a.axial) * bow_of(t->plan, c) : 0.0;
    in->moment = hypot(fabs(a.moment) + bowed, c->other_moment);
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

/* Largest shear below ground: the moment's change from piece to piece, on the thinnest
 * end. */
static void check_buried_shear(bwi_tracker *t, const bwi_post_check *c, bw_check_input in,
                               const double *moment, const bwi_event *event)
{
    const double piece = c->foot->depth / BWI_FOOT_PIECES;
    double depth = 0.0, most = 0.0;
    for (int k = 0; k < BWI_FOOT_PIECES; k++) {
        const double change = fabs(moment[k + 1] - moment[k]);
        depth = change > most ? k * piece : depth;
        keep_larger(&most, change);
    }
    in.shear = most / piece;
    const double at_bottom = bwi_post_diameter(t->plan, &c->place, -c->place.foot_depth);
    const double at_ground = bwi_post_diameter(t->plan, &c->place, 0.0);
    const bw_section section = bwi_post_section(
        t->plan, &c->place, at_bottom < at_ground ? -c->place.foot_depth : 0.0);
    in.diameter = section.diameter;
    in.section = bwi_check_section_any(t->plan, c->place.post->log, &section);
    bwi_track(t, c->member, BW_CHECK_SHEAR, &in, -depth, event);
}

/* The buried part where its bending stress is largest: the post's own compression goes
 * with it, and what the soil takes of it on the way down is left out. */
static void check_buried(bwi_tracker *t, const bwi_post_check *c, bw_check_input *in,
                         bw_action ground, const bwi_event *event, double *largest_moment)
{
    int worst = 0;
    double largest = -1.0, moment[BWI_FOOT_PIECES + 1];
    for (int k = 0; k <= BWI_FOOT_PIECES; k++) {
        const double per_S = c->foot->per_modulus[k];
        const double M = moment[k] =
            bwi_foot_moment(c->foot, ground.shear, ground.moment, k);
        const double squared =
            (M * M + c->other_moment * c->other_moment) * per_S * per_S;
        keep_larger(largest_moment, M);
        if (!(squared <= largest)) {
            largest = squared; /* of the stress */
            worst = k;
        }
    }
    check_buried_shear(t, c, *in, moment, event);
    check_section(t, c, in, (bw_action){ground.axial, 0.0, moment[worst]},
                  -c->foot->depth * worst / BWI_FOOT_PIECES, event);
}

/* ---- ground ---- */

/* As thick all along as in the middle. */
static double weight_between(const bwi_plan *p, const bwi_post_check *c, double low,
                             double high)
{
    const bw_section s = bwi_post_section(p, &c->place, (low + high) / 2.0);
    return bw_section_area(&s) * (high - low) * bw_gravity *
           bwi_log_density(p->deck, &p->deck->logs[c->place.post->log]);
}

/* Of what pushes on the soil, where it is thinnest: at the ground, or at the bottom if
 * the post stands on its tip. */
static double embedded_width(const bwi_plan *p, const bwi_post_check *c)
{
    return fmin(bwi_post_diameter(p, &c->place, 0.0),
                bwi_post_diameter(p, &c->place, -c->place.foot_depth));
}

static double foot_area(const bwi_plan *p, const bwi_post_check *c)
{
    const bw_section end = bwi_post_section(p, &c->place, -c->place.foot_depth);
    return fmax(c->place.post->pad_area, bw_section_area(&end));
}

/* What lies on a post pushes it to a side with V in its top. Off one that is drawn up it
 * is lifted, with N there and the share s of the weight that the check of uplift counts:
 *
 *   N + (n_dead - s) max(D - G, 0),  G: the post's own above ground */
static void note_top(bwi_tracker *t, const bwi_post_check *c, const bw_line *last,
                     const bwi_event *event)
{
    const double length = bw_frame_length(last->frame, last->member);
    const double more = event->dead - bw_uplift_share.value;
    const bw_action at_top = bw_line_action(last, length, true);
    const double axial = at_top.axial;
    double *const most = &t->lift[c->member];
    bwi_note(t, BWI_TOP_PUSH, fabs(at_top.shear));
    bwi_note(t, BWI_TOP_TURN, c->turned);
    if (axial + more * fmax(c->dead_down, 0.0) <= *most) {
        return; /* whatever the post weighs */
    }
    const double own = weight_between(t->plan, c, 0.0, joint_of(c));
    *most = fmax(*most, axial + more * fmax(c->dead_down - own, 0.0));
}

/* What the ground has to give for the actions V, M, N at the ground line. */
static void check_ground(bwi_tracker *t, const bwi_post_check *c, bw_action ground,
                         const bwi_event *event)
{
    const bwi_plan *p = t->plan;
    const bw_post *post = c->place.post;
    const double down = -ground.axial, live = down - event->dead * c->dead_down;
    const double buried = weight_between(p, c, -c->place.foot_depth, 0.0);
    const bool brief = event->rider.present || event->pattern != NULL;
    bw_check_input in = {.soil = post->soil,
                         .hole_depth = c->place.foot_depth,
                         .embedded_width = embedded_width(p, c),
                         .push = fabs(ground.shear),
                         .push_moment = hypot(ground.moment, c->other_turned),
                         .half_inch_movement_ok =
                             brief && p->deck->ground.half_inch_movement_ok,
                         .foot_force = (down < 0.0 ? 0.0 : down) + buried,
                         .foot_area = foot_area(p, c),
                         .pull = live < 0.0 ? -live : 0.0,
                         .foot_dead = c->dead_down,
                         .buried_weight = buried};
    if (post->foot == BW_FOOT_FIXED) {
        const double dead = c->dead_down;
        const double held = dead > 0.0 ? bw_uplift_share.value * dead : dead;
        bwi_note(t, BWI_BASE_MOMENT, in.push_moment);
        bwi_note(t, BWI_BASE_PUSH, in.push);
        bwi_note(t, BWI_BASE_LIFT, in.pull - held);
        return;
    }
    if (post->foot == BW_FOOT_PAD) {
        bwi_note(t, BWI_PAD_PUSH, in.push);
    }
    if (post->foot == BW_FOOT_HOLE) {
        bwi_track(t, c->member, BW_CHECK_SOIL_LATERAL, &in, 0.0, event);
    }
    bwi_track(t, c->member, BW_CHECK_SOIL_BEARING, &in, -c->place.foot_depth, event);
    if (in.pull > 0.0) {
        bwi_track(t, c->member, BW_CHECK_UPLIFT, &in, 0.0, event);
    }
}

/* Notches in a piece of the post that begins at the height base, whichever way they face.
 */
static void check_notches(bwi_tracker *t, const bwi_post_check *c,
                          const bw_check_input *from, const bw_line *line, double base,
                          const bwi_event *event)
{
    const int log = c->place.post->log;
    const double length = bw_frame_length(line->frame, line->member);
    for (size_t j = 0; j < t->plan->deck->logs[log].n_notches; j++) {
        const bw_notch *n = &t->plan->deck->logs[log].notches[j];
        const double height = bwi_post_notch_height(&c->place, n);
        if (!(height >= fmax(base, 0.0) && height <= base + length)) {
            continue;
        }
        const bw_section whole = bwi_post_section(t->plan, &c->place, height);
        const bw_action a = action_at(c, line, height - base, false);
        bw_check_input in = *from;
        in.diameter = whole.diameter;
        in.axial = -a.axial;
        in.shear = fabs(a.shear);
        in.moment =
            hypot(fabs(a.moment) + fabs(a.axial) * bow_of(t->plan, c), c->other_moment);
        bwi_notch_input(t->plan, log, &(bwi_notch_place){n, whole, a.moment, true, true},
                        &in);
        bwi_track(t, c->member, BW_CHECK_COMBINED, &in, height, event);
        bwi_track(t, c->member, BW_CHECK_SHEAR, &in, height, event);
    }
}

/* Stations of a piece, and half way up the post if that is on it: there it bows most, and
 * what bends the frame may be nothing there. The last station stays last. */
static size_t stations_of(const bwi_post_check *post, const bw_line *line, double base,
                          double *x, size_t room)
{
    const double middle = joint_of(post) / 2.0 - base;
    size_t n = bw_line_stations(line, x, room - 1);
    if (n > 0 && middle > 0.0 && middle < x[n - 1]) {
        x[n] = x[n - 1];
        x[n - 1] = middle;
        n++;
    }
    return n;
}

/* Turns of what is nothing but rounding would say at random how far below its middle a
 * post bows. */
static bool is_rounding(const bwi_post_check *post, bw_action a)
{
    const double bent = fabs(a.moment) - post->turned;
    return fabs(bent) < 1e-9 * fabs(a.axial) * joint_of(post);
}

static void check_piece(bwi_tracker *t, const bwi_post_check *post, bw_check_input *in,
                        const bw_line *line, double base, const bwi_event *event,
                        double *largest_moment)
{
    enum { ROOM = 64 };
    double x[ROOM];
    const double middle = joint_of(post) / 2.0;
    const size_t n = stations_of(post, line, base, x, ROOM);
    for (size_t k = 0; k < n; k++) { /* the largest moment is at one of them too */
        const bw_action a = action_at(post, line, x[k], k + 1 == n);
        keep_larger(largest_moment, a.moment);
        if (k == 0 || base + x[k] >= middle || !is_rounding(post, a)) {
            check_section(t, post, in, a, base + x[k], event);
        }
    }
}

void bwi_check_post(bwi_tracker *t, const bwi_post_check *post, const bw_line *lines,
                    const bwi_event *event, double *largest_moment)
{
    const bw_action ground = action_at(post, &lines[0], 0.0, false);
    if (bwi_wants_soil(t, true)) {
        check_ground(t, post, ground, event);
        note_top(t, post, &lines[post->chain->n - 1], event);
    }
    if (!bwi_wants_soil(t, false)) {
        return;
    }
    bw_check_input in = post_input(t, post);
    for (int k = 0; k < post->chain->n; k++) {
        check_piece(t, post, &in, &lines[k], post->chain->at[k], event, largest_moment);
        check_notches(t, post, &in, &lines[k], post->chain->at[k], event);
    }
    if (post->foot->depth > 0.0) {
        check_buried(t, post, &in, ground, event, largest_moment);
    }
}
