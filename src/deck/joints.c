/* Joints of stringers: what the checks need of them, and what they are asked to hold. */
#include "internal.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

/* ---- from the case to the checks ---- */

/* Stiffness: the part of the log that the fasteners spread over, four diameters wide for
 * a single row, is the least that either direction of the force could count. A shell
 * splits where it is bored, and what is behind it holds nothing: no number. */
bw_joint_log bwi_joint_log(const bwi_plan *p, int log, double thickness, double area,
                           const bw_fasteners *f)
{
    const bw_log *l = &p->deck->logs[log];
    const double width = 4.0 * f->diameter + (f->rows - 1) * f->row_spacing;
    const bool hollow = bwi_is_hollow(l);
    return (bw_joint_log){
        .thickness = thickness,
        .gravity = hollow ? (double)NAN : l->species->specific_gravity.value,
        .density = hollow ? (double)NAN
                   : l->strength_class != NULL && p->deck->basis->knows_classes
                       ? l->strength_class->density
                       : 0.0,
        .stiffness = p->references[log].value[BW_MODULUS] * fmin(area, thickness * width),
        .group = l->species->group,
        .hollow = hollow};
}

static double from_first(const bwi_plan *p, const bw_joint_place *j)
{
    const bw_stringer *s = &p->deck->stringers[j->stringer];
    const bool last = j->bent == s->to;
    const bwi_part_of_stringer *part =
        bwi_plan_part(p, s->row, (size_t)(last ? j->bent - 1 : j->bent));
    return last ? part->from_first + part->length : part->from_first;
}

static bw_joint_log of_stringer(const bwi_plan *p, const bw_joint_place *j, bool upright)
{
    const int log = p->deck->stringers[j->stringer].log;
    const bw_section s = bwi_stringer_section(p, j->stringer, from_first(p, j));
    const double seat = s.flat_bottom > 0.0 ? 0.0 : p->deck->limits.seat_depth;
    return bwi_joint_log(p, log,
                         upright ? bw_section_depth(&s) - seat : bw_section_width(&s),
                         bw_section_area(&s), &j->fasteners);
}

static bw_joint_log of_cap(const bwi_plan *p, const bw_joint_place *j, int row)
{
    const double d = bwi_cap_diameter(p, (size_t)j->bent, p->deck->rows[row].across);
    const bw_section s = bw_section_round(d);
    return bwi_joint_log(p, p->deck->bents[j->bent].cap, d, bw_section_area(&s),
                         &j->fasteners);
}

/* along: the fasteners run down into its end. */
static bw_joint_log of_post(const bwi_plan *p, const bw_joint_place *j, int row,
                            bool along)
{
    const bw_bent *b = &p->deck->bents[j->bent];
    const bwi_post_place post =
        bwi_plan_post(p, (size_t)j->bent, &b->posts[bwi_post_of_row(b, row)]);
    const double d = bwi_post_diameter(p, &post, post.top);
    const bw_section s = bw_section_round(d);
    return bwi_joint_log(p, post.post->log, along ? post.top + post.foot_depth : d,
                         bw_section_area(&s), &j->fasteners);
}

/* Hung on a post: through the stringer into the post; two planes: between two pieces like
 * the post. Hung on a cap: through the cap into the stringer's end. Bearing: down through
 * the stringer. */
static bw_joint joint_of_stringer(const bwi_plan *p, const bw_joint_place *j)
{
    const int row = p->deck->stringers[j->stringer].row;
    const bool has_cap = p->deck->bents[j->bent].cap >= 0;
    bw_joint out = {.fasteners = j->fasteners, .hung = j->hung};
    if (!j->hung) {
        out.side_log = of_stringer(p, j, true);
        out.main_log = has_cap ? of_cap(p, j, row) : of_post(p, j, row, true);
        out.end_grain = !has_cap;
        out.fasteners.loaded_edge =
            j->fasteners.loaded_edge > 0.0 ? j->fasteners.loaded_edge : j->fasteners.edge;
    } else if (j->into_cap) {
        out.side_log = of_cap(p, j, row);
        out.main_log = of_stringer(p, j, false);
        out.main_log.thickness = p->stringer_length[j->stringer];
        out.end_grain = true;
    } else {
        const bw_joint_log post = of_post(p, j, row, false);
        const bw_joint_log stringer = of_stringer(p, j, false);
        out.side_log = j->fasteners.planes == 2 ? post : stringer;
        out.main_log = j->fasteners.planes == 2 ? stringer : post;
    }
    return out;
}

static void enter_stringer(bwi_plan *p, const bw_joint_place *j, int number)
{
    const bw_stringer *s = &p->deck->stringers[j->stringer];
    int *at = &p->end_joint[2 * ((size_t)s->row * p->deck->n_bents + (size_t)j->bent)];
    if (j->bent > s->from) {
        at[BWI_BEFORE] = number;
    }
    if (j->bent < s->to) {
        at[BWI_AFTER] = number;
    }
}

bw_status bwi_joints_number(bwi_plan *p)
{
    const bw_case *deck = p->deck;
    const size_t n_ends = 2 * deck->n_rows * deck->n_bents;
    p->joints = BW_NEW(p->arena, bw_joint, deck->n_joints);
    p->end_joint = BW_NEW(p->arena, int, n_ends);
    p->brace_joint = BW_NEW(p->arena, int, 2 * deck->n_braces);
    if (p->joints == NULL || p->end_joint == NULL || p->brace_joint == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < n_ends; k++) {
        p->end_joint[k] = -1;
    }
    for (size_t k = 0; k < 2 * deck->n_braces; k++) {
        p->brace_joint[k] = -1;
    }
    for (size_t k = 0; k < deck->n_joints; k++) {
        const bw_joint_place *j = &deck->joints[k];
        if (j->stringer >= 0) {
            enter_stringer(p, j, (int)k);
        } else {
            p->brace_joint[2 * j->brace + (j->at_to ? 1 : 0)] = (int)k;
        }
    }
    return BW_OK;
}

void bwi_joints_make(bwi_plan *p)
{
    for (size_t k = 0; k < p->deck->n_joints; k++) {
        const bw_joint_place *j = &p->deck->joints[k];
        if (j->stringer >= 0) {
            p->joints[k] = joint_of_stringer(p, j);
        }
    }
}

int bwi_end_joint(const bwi_plan *p, int row, size_t bent, bwi_side side)
{
    return p->end_joint[2 * ((size_t)row * p->deck->n_bents + bent) + (size_t)side];
}

bool bwi_is_hung(const bwi_plan *p, int joint)
{
    return joint >= 0 && p->joints[joint].hung;
}

double bwi_joint_holes(const bwi_plan *p, int joint)
{
    const bw_fasteners *f = joint >= 0 ? &p->joints[joint].fasteners : NULL;
    return f != NULL && f->kind != BW_FASTENER_NONE && !p->joints[joint].hung
               ? f->rows * f->diameter
               : 0.0;
}

bool bwi_is_fastened(const bwi_plan *p, int joint)
{
    return joint >= 0 && p->joints[joint].fasteners.kind != BW_FASTENER_NONE;
}

/* ---- what they are asked to hold ---- */

static bw_check_input joint_input(const bwi_plan *p, int joint, int log, double force)
{
    return (bw_check_input){
        .reference = &p->references[log], .joint = &p->joints[joint], .force = force};
}

/* The wood of the stringer between the fastener that is farthest from the edge it pushes
 * against, and that edge: above it, or, where it lifts, below. */
static void check_split(bwi_tracker *t, const bwi_end *end, const bwi_event *event)
{
    const bwi_plan *p = t->plan;
    const bw_joint_place *j = &p->deck->joints[end->joint];
    const int log = p->deck->stringers[end->stringer].log;
    bw_section left = bwi_stringer_section(p, end->stringer, end->station);
    const double whole = bw_section_depth(&left);
    const double cut = end->down < 0.0 ? j->fasteners.loaded_edge : j->fasteners.edge;
    double *const flat = end->down < 0.0 ? &left.flat_top : &left.flat_bottom;
    *flat += cut;
    const bool known = cut > 0.0 && cut < 0.95 * whole && left.bore == 0.0;
    bw_check_input in = {
        .reference = &p->references[log],
        .force = fabs(end->down),
        .section = {.area = known ? bw_section_area(&left) : (double)NAN},
        .notch_left = known ? whole - cut : (double)NAN,
        .notch_whole = whole};
    bwi_track(t, (size_t)end->stringer, BW_CHECK_SPLIT, &in, end->station, event);
}

/* Down and along at once. The angle to the stringer's grain is that to the horizontal.
 * Only a push of more than a quarter counts as one towards its end (JUDGEMENT). */
static void check_hung(bwi_tracker *t, const bwi_end *end, const bwi_event *event)
{
    const bwi_plan *p = t->plan;
    const bw_joint *j = &p->joints[end->joint];
    const int log = p->deck->stringers[end->stringer].log;
    const double down = fabs(end->down), along = fabs(end->along);
    const double steep = j->end_grain ? pi / 2.0 : atan2(down, along);
    bw_check_input in =
        joint_input(p, end->joint, log, j->end_grain ? down : hypot(down, along));
    const bool between = j->fasteners.planes == 2; /* the stringer is the middle log */
    in.side_angle = between ? pi / 2.0 - steep : steep;
    in.main_angle = j->end_grain ? pi / 2.0 : pi / 2.0 - in.side_angle;
    in.to_end = along > 0.25 * down;
    bwi_track(t, (size_t)end->stringer, BW_CHECK_JOINT, &in, end->station, event);
    check_split(t, end, event);
}

double bwi_hung_arm(const bwi_plan *p, int row, size_t bent, bwi_side side)
{
    const int k = bwi_end_joint(p, row, bent, side);
    if (!bwi_is_hung(p, k) || p->deck->joints[k].into_cap ||
        p->joints[k].fasteners.planes != 1) {
        return 0.0;
    }
    const bw_joint *j = &p->joints[k];
    return (j->side_log.thickness + j->main_log.thickness) / 2.0;
}

double bwi_hung_moment(const bwi_plan *p, int row, size_t bent, const double down[2])
{
    double sum = 0.0;
    for (int side = BWI_BEFORE; side <= BWI_AFTER; side++) {
        sum += fabs(down[side]) * bwi_hung_arm(p, row, bent, (bwi_side)side);
    }
    return sum;
}

static double wood_angle(const bw_joint *j, double to_cap)
{
    return j->end_grain ? pi / 2.0 : to_cap;
}

void bwi_check_end_joint(bwi_tracker *t, const bwi_end *end, const bwi_event *event)
{
    if (end->joint < 0) {
        return;
    }
    const bw_joint *j = &t->plan->joints[end->joint];
    const int log = t->plan->deck->stringers[end->stringer].log;
    if (j->hung) {
        check_hung(t, end, event);
        return;
    }
    if (j->fasteners.kind == BW_FASTENER_NONE) {
        return;
    }
    bw_check_input in = joint_input(t->plan, end->joint, log, fabs(end->along));
    in.main_angle = wood_angle(j, pi / 2.0);
    in.to_end = true;
    bwi_track(t, (size_t)end->stringer, BW_CHECK_JOINT, &in, end->station, event);
    const double live = end->down - event->dead * end->dead;
    if (!(live >= 0.0)) {
        in.pull = -live;
        in.foot_dead = end->dead;
        bwi_track(t, (size_t)end->stringer, BW_CHECK_LIFT, &in, end->station, event);
    }
}

void bwi_check_sideways(bwi_tracker *t, int row, size_t bent, double push,
                        const bwi_event *event)
{
    const bwi_plan *p = t->plan;
    const int before = bwi_end_joint(p, row, bent, BWI_BEFORE),
              after = bwi_end_joint(p, row, bent, BWI_AFTER);
    for (int side = BWI_BEFORE; side <= BWI_AFTER; side++) {
        const int joint = side == BWI_BEFORE ? before : after;
        const bool again = side == BWI_AFTER && before == after;
        if (joint < 0 || again || bwi_is_hung(p, joint) ||
            p->joints[joint].fasteners.kind == BW_FASTENER_NONE) {
            continue;
        }
        const bw_joint_place *place = &p->deck->joints[joint];
        const double share = bwi_seat_length(p, row, bent, (bwi_side)side, 1.0);
        const bool two_ends = before >= 0 && after >= 0 && before != after;
        bw_check_input in = joint_input(p, joint, p->deck->stringers[place->stringer].log,
                                        fabs(push) * (two_ends ? share : 1.0));
        in.side_angle = pi / 2.0;
        in.main_angle = wood_angle(&p->joints[joint], 0.0);
        in.to_end = true;
        bwi_track(t, (size_t)place->stringer, BW_CHECK_JOINT, &in, from_first(p, place),
                  event);
    }
}

/* ---- words ---- */

const char *bwi_joint_missing(const bwi_plan *p, const bw_joint *joint)
{
    const bw_fasteners *f = &joint->fasteners;
    const bool through = f->kind == BW_FASTENER_BOLT;
    const struct {
        bool missing;
        const char *words;
    } all[] = {{!through && f->length == 0.0 && f->penetration == 0.0, "length"},
               {f->kind == BW_FASTENER_SCREW && f->root == 0.0, "root"},
               {f->kind == BW_FASTENER_SCREW && f->thread == 0.0 && !joint->hung,
                "thread (for lift)"},
               {f->end == 0.0, "end"},
               {f->edge == 0.0, "edge"},
               {joint->hung && f->loaded_edge == 0.0, "loaded_edge"},
               {f->count > f->rows && f->spacing == 0.0, "spacing"},
               {f->rows > 1 && f->row_spacing == 0.0, "row_spacing"}};
    if (f->kind == BW_FASTENER_NONE) {
        return "no fasteners are described for it: see \"joints\" of a case";
    }
    if (joint->side_log.hollow || joint->main_log.hollow) {
        return "no rule knows what fasteners hold in the shell of a hollow log: take one "
               "that is solid there";
    }
    bw_text text = bw_text_new(p->arena);
    bw_text_add(&text, "cannot say without: ");
    const size_t none = text.length;
    for (size_t k = 0; k < sizeof all / sizeof all[0]; k++) {
        if (all[k].missing) {
            bw_text_print(&text, "%s%s", text.length > none ? ", " : "", all[k].words);
        }
    }
    if (text.length == none) {
        return "no rule reaches this joint: end grain, or sizes beyond what rules are "
               "for";
    }
    return bw_text_string(&text);
}
