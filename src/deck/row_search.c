/* Moves the loads along a row and checks its stringers, their seats and its posts. */
#include "internal.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

enum { POSITIONS = BWI_RIDER_POSITIONS, STATIONS = 64 };

/* One arrangement of loads on a row: a solved state, or a base state with riders on it.
 */
typedef struct {
    bwi_tracker *t;
    bwi_row_frame *f;
    bwi_transfer *transfer;
    size_t combination;     /* number, for the transfer of post moments */
    bool strength, service; /* which checks the combination is for */
    int push;               /* which way things are pushed: as the frame, or 0 */
    bool machine;           /* it is the machine that moves, no rider */
    bool coarse;            /* a few places will do: see FAR_STEP */
    bool simple;            /* spans alone: see is_of_simple_spans */
    bool no_posts;          /* of what is looked at */
    bwi_blow blow;          /* of the combination and dynamic */
    bool curved;            /* the bent shape matters */
    bwi_presses presses;
    bwi_seat (*seats)[2]; /* per bay, at its first and its last bent */
    bwi_bay *lasting;     /* per bay, under what stays; no pieces without one */
    double *foot_dead;    /* per bent, down at the ground under the same [N] */
    bwi_event event;
    const bw_state *base, *dead;
    const bwi_wheels *wheels; /* null: the base is all */
} arrangement;

static bw_line line_of(const arrangement *a, int member)
{
    bw_arena *arena = a->t->plan->arena;
    return a->wheels != NULL ? bw_influence_line(a->f->influence, a->base, member,
                                                 a->wheels->wheel, a->wheels->n, arena)
                             : bw_state_line(a->base, member, arena);
}

static bwi_bay bay_of(const arrangement *a, size_t bay)
{
    return bwi_bay_read(a->f, bay, a->base, a->wheels != NULL ? a->wheels->wheel : NULL,
                        a->wheels != NULL ? a->wheels->n : 0, a->t->plan->arena);
}

/* ---- stringers ---- */

static void check_section(const arrangement *a, const bwi_part_of_stringer *part,
                          const bw_section *section, bw_action s, double station)
{
    const bwi_plan *p = a->t->plan;
    const size_t member = (size_t)part->stringer;
    const int log = p->deck->stringers[member].log;
    const bw_reference *r = &p->references[log];
    const bw_check_section shape = bwi_check_section(p, log, section);
    bw_check_input in = {.reference = r,
                         .diameter = section->diameter,
                         .section = shape,
                         .weakest = shape,
                         .axial = -s.axial,
                         .shear = fabs(s.shear),
                         .moment = fabs(s.moment),
                         .diameter_small = section->diameter,
                         .diameter_large = section->diameter,
                         .length = part->length,
                         .effective_factor = 1.0};
    bwi_track(a->t, member, BW_CHECK_BENDING, &in, station, &a->event);
    bwi_track(a->t, member, BW_CHECK_SHEAR, &in, station, &a->event);
    /* a sloping bay also pushes or pulls along the log */
    const double stress = fabs(s.axial) / bw_section_area(section);
    if (stress > 0.005 * r->value[BW_COMPRESSION]) {
        bwi_track(a->t, member, BW_CHECK_COMBINED, &in, station, &a->event);
    }
}

static bool is_same(const bw_action *a, const bw_action *b)
{
    return a->axial == b->axial && a->shear == b->shear && a->moment == b->moment;
}

static void check_sections(const arrangement *a, size_t bay, const bwi_bay *read,
                           size_t piece)
{
    const bw_line *line = &read->line[piece];
    const bwi_part_of_stringer *part = bwi_plan_part(a->t->plan, a->f->row, bay);
    double x[STATIONS];
    const size_t n = bw_line_stations(line, x, STATIONS);
    for (size_t k = 0; k < n; k++) {
        const double station = part->from_first + read->from[piece] + x[k];
        const bw_section section = bw_frame_section(a->f->frame, line->member, x[k]);
        const bw_action before = bw_line_action(line, x[k], true);
        const bw_action behind = bw_line_action(line, x[k], false);
        check_section(a, part, &section, before, station);
        if (!is_same(&before, &behind)) { /* a load stands there */
            check_section(a, part, &section, behind, station);
        }
    }
}

/* Notches of the stringer in this bay. A notch close to an end stands for all between it
 * and the end. */
static void check_notches(const arrangement *a, size_t bay, const bwi_bay *read)
{
    const bwi_plan *p = a->t->plan;
    const bwi_part_of_stringer *part = bwi_plan_part(p, a->f->row, bay);
    const int k = part->stringer, log = p->deck->stringers[k].log;
    const double whole = p->stringer_length[k];
    for (size_t j = 0; j < p->deck->logs[log].n_notches; j++) {
        const bw_notch *n = &p->deck->logs[log].notches[j];
        const double station = bwi_stringer_from_butt(p, k, n->from_butt);
        const double at = station - part->from_first;
        if (!(at >= 0.0 && at <= part->length)) {
            continue;
        }
        double along = at;
        const int piece = bwi_bay_piece(a->f, bay, &along, false);
        const bw_section s = bw_frame_section(a->f->frame, piece, along);
        const double depth = bw_section_depth(&s);
        const bool at_first = station <= depth, at_last = station >= whole - depth;
        bw_action here = bwi_bay_action(read, at, false);
        const bw_action left = bwi_bay_action(read, at, true);
        const bw_action end =
            bwi_bay_action(read, at_first ? 0.0 : read->from[read->n], at_last);
        here.shear = fmax(fabs(here.shear), fabs(left.shear));
        here.shear = at_first || at_last ? fmax(here.shear, fabs(end.shear)) : here.shear;
        bw_check_input in = {.reference = &p->references[log],
                             .diameter = s.diameter,
                             .shear = here.shear,
                             .moment = fmax(fabs(here.moment), fabs(left.moment))};
        const bwi_notch_place place = {n, s, here.moment, at_first || at_last, false};
        bwi_notch_input(p, log, &place, &in);
        bwi_track(a->t, (size_t)k, BW_CHECK_BENDING, &in, station, &a->event);
        bwi_track(a->t, (size_t)k, BW_CHECK_SHEAR, &in, station, &a->event);
    }
}

static void check_seat_sections(const arrangement *a, size_t bay, const bwi_bay *read);

static void check_bay(const arrangement *a, size_t bay)
{
    const int stringer = bwi_plan_part(a->t->plan, a->f->row, bay)->stringer;
    if (stringer < 0 || !bwi_wants(a->t, (size_t)stringer)) {
        return;
    }
    const bwi_bay read = bay_of(a, bay);
    for (size_t j = 0; j < read.n && a->strength; j++) {
        check_sections(a, bay, &read, j);
    }
    if (read.n > 0 && a->strength) {
        check_seat_sections(a, bay, &read);
        check_notches(a, bay, &read);
    }
}

/* Deflection of a bay under the live part alone, and in the long run with the dead part.
 */
static void check_deflection(const arrangement *a, size_t bay, const bwi_bay *live)
{
    const bwi_plan *p = a->t->plan;
    const bwi_part_of_stringer *part = bwi_plan_part(p, a->f->row, bay);
    bw_extreme up, down;
    bw_lines_sag_extremes(live->line, live->n, &up, &down);
    const bw_extreme most = fabs(down.value) >= fabs(up.value) ? down : up;
    const bwi_bay *lasting = &a->lasting[bay];
    bw_check_input in = {.deflection = fabs(most.value),
                         .deflection_dead =
                             fabs(bw_lines_sag(lasting->line, lasting->n, most.x)),
                         .span = part->length,
                         .limit = p->deck->limits.live};
    const double station = part->from_first + most.x;
    const size_t member = (size_t)part->stringer;
    bwi_track(a->t, member, BW_CHECK_DEFLECTION, &in, station, &a->event);
    in.limit = p->deck->limits.long_term;
    bwi_track(a->t, member, BW_CHECK_SAG, &in, station, &a->event);
}

/* ---- seats ---- */

typedef struct {
    bwi_side side; /* of the bent that the stringer lies on; either if it runs on */
    int stringer;
    double from_first; /* place of the seat along the stringer */
    double force;
} seat;

static void check_seat(const arrangement *a, size_t bent, const seat *s)
{
    const bwi_plan *p = a->t->plan;
    const bw_bent *b = &p->deck->bents[bent];
    const double depth = p->deck->limits.seat_depth,
                 across = p->deck->rows[a->f->row].across;
    const double own =
        bwi_bottom_flat(&p->deck->logs[p->deck->stringers[s->stringer].log],
                        bwi_stringer_diameter(p, s->stringer, s->from_first), depth);
    bw_check_input in = {.reference = &p->references[p->deck->stringers[s->stringer].log],
                         .force = s->force};
    if (s->force <= 0.0) { /* lifted off: nothing bears; told where no fastener is checked
                            */
        const double lift = bwi_is_fastened(p, bwi_end_joint(p, a->f->row, bent, s->side))
                                ? 0.0
                                : -s->force;
        a->t->lift[s->stringer] = fmax(a->t->lift[s->stringer], lift);
        return;
    }
    const double width = bwi_support_width(p, a->f->row, bent);
    in.bearing_length = bwi_level_seat(p, a->f->row, bent, s->side, width);
    in.bearing_area = own * in.bearing_length;
    if (b->cap >= 0) {
        const double flat = bwi_top_flat(&p->deck->logs[b->cap],
                                         bwi_cap_diameter(p, bent, across), depth);
        in.bearing_area = isnan(flat) ? flat : in.bearing_area; /* through a shell */
    } else {
        const bwi_post_place post =
            bwi_plan_post(p, bent, &b->posts[bwi_post_of_row(b, a->f->row)]);
        in.bearing_area = in.bearing_length / width * bwi_strip_on_post(p, &post, own);
    }
    const double length = p->stringer_length[s->stringer];
    in.bearing_beyond =
        fmax(0.0, fmax(s->from_first, length - s->from_first) - in.bearing_length);
    bwi_track(a->t, (size_t)s->stringer, BW_CHECK_BEARING, &in, s->from_first, &a->event);
    if (b->cap >= 0) {
        in.reference = &p->references[b->cap];
        in.bearing_length = own;
        in.bearing_beyond = fmax(0.0, bwi_cap_beyond(p, bent, across) - own);
        bwi_track(a->t, a->t->first_cap + bent, BW_CHECK_BEARING, &in, across, &a->event);
    } else {
        const size_t post = (size_t)bwi_post_of_row(b, a->f->row);
        in.reference = &p->references[b->posts[post].log];
        bwi_track(a->t, a->t->post_first[bent] + post, BW_CHECK_END_BEARING, &in, -1.0,
                  &a->event);
    }
}

/* Forces of both stringer ends at a bent: before it and after it. */
typedef struct {
    double down[2], dead[2], along[2];
} end_forces;

/* What pushes stringers along on a cap is looked at on the grid alone, which has every
 * wheel at every bent. */
static bool is_noted(const arrangement *a, size_t bent)
{
    const bw_bent *b = &a->t->plan->deck->bents[bent];
    return b->cap >= 0 && !b->is_sill && a->t->probe == NULL;
}

static end_forces forces_at(const arrangement *a, size_t bent)
{
    end_forces f = {{0.0}, {0.0}, {0.0}};
    bwi_row_end_forces(a->f, bent, a->base, a->wheels, &f.down[0], &f.down[1]);
    if (a->t->plan->deck->n_joints > 0) {
        bwi_row_end_forces(a->f, bent, a->dead, NULL, &f.dead[0], &f.dead[1]);
    }
    if (a->t->plan->deck->n_joints > 0 || is_noted(a, bent)) {
        bwi_row_end_pushes(a->f, bent, a->base, a->wheels, &f.along[0], &f.along[1]);
    }
    return f;
}

/* A stringer's end on its joint, and on its seat if it does not hang. */
static void check_end(const arrangement *a, size_t bent, const seat *s, bwi_end end)
{
    end.stringer = s->stringer;
    end.station = s->from_first;
    end.joint = bwi_end_joint(a->t->plan, a->f->row, bent, s->side);
    bwi_check_end_joint(a->t, &end, &a->event);
    if (is_noted(a, bent) && !bwi_is_fastened(a->t->plan, end.joint)) {
        bwi_note(a->t, BWI_CAP_PUSH, fabs(end.along));
    }
    if (!bwi_is_hung(a->t->plan, end.joint)) {
        check_seat(a, bent, s);
    }
}

static void check_seats(const arrangement *a, size_t bent)
{
    const bwi_plan *p = a->t->plan;
    if (a->f->deck_node[bent] < 0 || !a->strength) {
        return;
    }
    const end_forces f = forces_at(a, bent);
    const bwi_part_of_stringer none = {-1, 0.0, 0.0};
    const bwi_part_of_stringer before =
        bent > 0 ? *bwi_plan_part(p, a->f->row, bent - 1) : none;
    const bwi_part_of_stringer after =
        bent < p->n_bays ? *bwi_plan_part(p, a->f->row, bent) : none;
    if (before.stringer >= 0 && before.stringer == after.stringer) {
        const seat s = {BWI_AFTER, after.stringer, after.from_first,
                        f.down[0] + f.down[1]};
        check_end(a, bent, &s,
                  (bwi_end){.down = s.force,
                            .dead = f.dead[0] + f.dead[1],
                            .along = f.along[0] + f.along[1]});
        return;
    }
    const seat ends[2] = {
        {BWI_BEFORE, before.stringer, before.from_first + before.length, f.down[0]},
        {BWI_AFTER, after.stringer, after.from_first, f.down[1]}};
    for (int k = 0; k < 2; k++) {
        if (ends[k].stringer >= 0) {
            check_end(
                a, bent, &ends[k],
                (bwi_end){.down = f.down[k], .dead = f.dead[k], .along = f.along[k]});
        }
    }
}

/* What the seat of a stringer at the first or the last bent of a bay leaves of it. */
static bwi_seat seat_of(const bwi_plan *p, const bwi_row_frame *f, size_t bay, int last)
{
    const bw_stringer *s = &p->deck->stringers[bwi_plan_part(p, f->row, bay)->stringer];
    const size_t bent = bay + (size_t)last;
    const bwi_side side = last == 1 ? BWI_BEFORE : BWI_AFTER;
    const int joint = bwi_end_joint(p, f->row, bent, side);
    if (bwi_is_hung(p, joint)) {
        return (bwi_seat){.is_cut = false};
    }
    double along = last == 1 ? bwi_bay_length(f, bay) : 0.0;
    const int piece = bwi_bay_piece(f, bay, &along, last == 1);
    const double width = bwi_support_width(p, f->row, bent); /* of what lies under it */
    const bwi_seat_place place = {.whole = bw_frame_section(f->frame, piece, along),
                                  .bottom = true,
                                  .at_end = (int)bent == s->from || (int)bent == s->to,
                                  .reach =
                                      bwi_seat_length(p, f->row, bent, side, width) / 2.0,
                                  .holes = bwi_joint_holes(p, joint)};
    return bwi_seat_cut(p, s->log, &place);
}

static bw_status make_seats(arrangement *a)
{
    const bwi_plan *p = a->t->plan;
    bwi_seat(*seats)[2] = bw_arena_alloc_array(p->arena, p->n_bays, sizeof *seats);
    for (size_t bay = 0; seats != NULL && bay < p->n_bays; bay++) {
        for (int last = 0; last < 2 && a->f->bay_member[bay] >= 0; last++) {
            seats[bay][last] = seat_of(p, a->f, bay, last);
        }
    }
    a->seats = seats;
    return seats != NULL ? BW_OK : BW_E_MEMORY;
}

/* What does not depend on the loads that come and go. */
static bw_status read_dead(arrangement *a)
{
    const bwi_plan *p = a->t->plan;
    a->lasting = BW_NEW(p->arena, bwi_bay, p->n_bays);
    a->foot_dead = BW_NEW(p->arena, double, p->deck->n_bents);
    if (a->lasting == NULL || a->foot_dead == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        a->lasting[bay] = bwi_bay_read(a->f, bay, a->dead, NULL, 0, p->arena);
    }
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        const bwi_chain *post = &a->f->posts[bent];
        a->foot_dead[bent] =
            post->n > 0 ? -bw_state_action(a->dead, post->first, 0.0, false).axial : 0.0;
    }
    return BW_OK;
}

/* What the seats at both ends of a bay leave of the stringer: for shear, with the notch
 * rule where it ends, and for bending where it runs on. */
static void check_seat_sections(const arrangement *a, size_t bay, const bwi_bay *read)
{
    const bwi_plan *p = a->t->plan;
    const bwi_part_of_stringer *part = bwi_plan_part(p, a->f->row, bay);
    const size_t member = (size_t)part->stringer;
    for (int last = 0; last < 2; last++) {
        const bwi_seat *s = &a->seats[bay][last];
        if (!s->is_cut) {
            continue;
        }
        const double at = last == 1 ? read->from[read->n] : 0.0;
        const bw_action act = bwi_bay_action(read, at, last == 1);
        bw_check_input in = bwi_seat_input(s, act.moment, act.shear);
        const double station = part->from_first + at;
        bwi_track(a->t, member, BW_CHECK_SHEAR, &in, station, &a->event);
        if (!s->at_end) {
            bwi_track(a->t, member, BW_CHECK_BENDING, &in, station, &a->event);
        }
    }
}

/* ---- posts ---- */

/* By the ends of its own row, and of rows that hand over, as far as they lie beside it
 * under loads on all bays (COMPUTED). */
static double turned_by_seats(const arrangement *a, size_t bent, const double down[2],
                              double pressed)
{
    const double handed = a->f->handed_load[bent];
    const double own = down[BWI_BEFORE] * a->f->seat_beside[BWI_BEFORE][bent] +
                       down[BWI_AFTER] * a->f->seat_beside[BWI_AFTER][bent];
    const double more = pressed - down[0] - down[1];
    return fabs(own + (handed > 0.0 && !(more <= 0.0)
                           ? more * a->f->handed_turn[bent] / handed
                           : 0.0));
}

static void check_row_post(const arrangement *a, size_t bent)
{
    const bwi_plan *p = a->t->plan;
    const int k = bwi_row_post(p, a->f->row, bent);
    const bwi_chain *chain = &a->f->posts[bent];
    if (chain->n == 0 || k < 0 || !a->strength) {
        return;
    }
    const size_t member = a->t->post_first[bent] + (size_t)k;
    if (!bwi_wants(a->t, member)) {
        return;
    }
    bw_line lines[BWI_CHAIN_MAX];
    for (int j = 0; j < chain->n; j++) {
        lines[j] = line_of(a, chain->first + j);
    }
    double down[2] = {0.0, 0.0};
    bwi_row_end_forces(a->f, bent, a->base, a->wheels, &down[0], &down[1]);
    const int top = chain->n - 1;
    const double length = chain->at[top + 1] - chain->at[top];
    const double pressed = -bw_line_action(&lines[top], length, true).axial;
    const double turned = turned_by_seats(a, bent, down, pressed);
    const double hung = bwi_hung_moment(p, a->f->row, bent, down);
    const bwi_post_check check = {
        .member = member,
        .place = bwi_plan_post(p, bent, &p->deck->bents[bent].posts[k]),
        .foot = &a->f->feet[bent],
        .chain = chain,
        .other_moment = hung,
        .turned = turned,
        .other_turned = hung,
        .dead_down = a->foot_dead[bent]};
    double *most = &a->transfer->post_turned[member - a->t->first_post][a->combination];
    *most = !(turned <= *most) ? turned : *most;
    bwi_check_post(a->t, &check, lines, &a->event,
                   &a->transfer->post_moment[member - a->t->first_post][a->combination]);
}

/* Braces that start at the bent. */
static void check_braces(const arrangement *a, size_t bent)
{
    const bw_case *deck = a->t->plan->deck;
    for (size_t k = 0; k < deck->n_braces; k++) {
        const int member = a->f->brace_member[k];
        if (member >= 0 && deck->braces[k].from.bent == (int)bent && a->strength &&
            bwi_wants_brace(a->t, k)) {
            const bw_line line = line_of(a, member);
            bwi_check_brace(a->t, (int)k, &line, bw_frame_length(a->f->frame, member),
                            &a->event);
        }
    }
}

/* Without a push, a frame counts only where the braces that it holds press: where one
 * would pull, it is that one which is slack, as in the frame for the other way. */
static bool is_of_other_frame(const arrangement *a)
{
    const bw_case *deck = a->t->plan->deck;
    bool pulled = false;
    for (size_t k = 0; a->push == 0 && !pulled && k < deck->n_braces; k++) {
        const int member = a->f->brace_member[k];
        if (member >= 0) {
            const bw_line line = line_of(a, member);
            pulled = bwi_brace_would_pull(&deck->braces[k], &line,
                                          bw_frame_length(a->f->frame, member));
        }
    }
    return pulled;
}

/* ---- arrangements ---- */

/* Bents (and the bays after them) to look at under a wheel, and what of them. */
typedef struct {
    size_t first, last;
    bool strength, deflection;
    bool whole; /* all that the riders reach, not one member */
    bool no_posts;
} scope;

static void check_near(const arrangement *a, size_t bent);

/* The same with stringers off the seats that they lift from, one stringer at a time. */
static void check_lifted(const arrangement *a, scope of)
{
    for (size_t k = 0; k < a->f->n_lifts; k++) {
        const bwi_lift *lift = &a->f->lifts[k];
        const size_t end = lift->first + lift->n;
        bwi_wheels wheels;
        if (lift->first > of.last || end <= of.first ||
            !bwi_lift_off(a->f, lift, a->base, a->wheels, &wheels)) {
            continue;
        }
        arrangement free = *a;
        free.wheels = &wheels;
        free.event.lifts = true;
        const bool wanted = !is_of_other_frame(&free);
        const size_t from = lift->first > of.first ? lift->first : of.first;
        for (size_t bent = from; wanted && bent < end && bent <= of.last; bent++) {
            check_near(&free, bent);
        }
    }
}

/* Deflection of the bays of stringers that lift under live loads on top of dead ones. */
static void check_lifted_deflection(const arrangement *a, const bw_state *live,
                                    const bwi_wheels *wheels)
{
    bw_arena *arena = a->t->plan->arena;
    const bw_state *all =
        live != NULL ? bw_state_add(a->dead, 1.0, live, arena) : a->dead;
    for (size_t k = 0; k < a->f->n_lifts && all != NULL; k++) {
        const bwi_lift *lift = &a->f->lifts[k];
        bwi_wheels off;
        if (!bwi_lift_off(a->f, lift, all, wheels, &off)) {
            continue;
        }
        arrangement free = *a;
        free.event.lifts = true;
        for (size_t bay = lift->first; bay + 1 < lift->first + lift->n; bay++) {
            const bw_arena_mark mark = bw_arena_now(arena);
            const bwi_bay read = bwi_bay_read(a->f, bay, live, off.wheel, off.n, arena);
            check_deflection(&free, bay, &read);
            bw_arena_back(arena, mark);
        }
    }
}

/* Everything, under a solved state; live: the part of it that comes and goes. */
static void check_state(const arrangement *a, const bw_state *live)
{
    const bwi_plan *p = a->t->plan;
    const bool wanted = !is_of_other_frame(a);
    for (size_t bent = 0; wanted && bent < p->deck->n_bents; bent++) {
        const bw_arena_mark mark = bw_arena_now(p->arena);
        check_seats(a, bent);
        check_row_post(a, bent);
        check_braces(a, bent);
        if (bent < p->n_bays && a->f->bay_member[bent] >= 0) {
            check_bay(a, bent);
            if (a->service) {
                const bwi_bay part = bwi_bay_read(a->f, bent, live, NULL, 0, p->arena);
                check_deflection(a, bent, &part);
            }
        }
        bw_arena_back(p->arena, mark);
    }
    check_lifted(a, (scope){.last = p->n_bays});
    if (a->service) {
        check_lifted_deflection(a, live, NULL);
    }
    bwi_track_frame(a->t, a->f->frame, a->base);
}

/* One bent and the bay after it, under a wheel. */
static void check_near(const arrangement *a, size_t bent)
{
    const bwi_plan *p = a->t->plan;
    const bw_arena_mark mark = bw_arena_now(p->arena);
    if (bwi_wants_seats(a->t, true)) {
        check_seats(a, bent);
    }
    if (bwi_wants_seats(a->t, false) && !a->no_posts) {
        check_row_post(a, bent);
    }
    check_braces(a, bent);
    if (bent < p->n_bays && bwi_wants_seats(a->t, false)) {
        check_bay(a, bent);
    }
    bw_arena_back(p->arena, mark);
}

/* The post nearest to buckling by itself: most force for its height and thickness. Of
 * posts alike the first, and the last in *last_out: it would be the first in a mirror. */
static size_t weakest_post(const bwi_plan *p, const bwi_row_frame *f, size_t *bent_out,
                           size_t *last_out)
{
    size_t member = (size_t)bwi_plan_part(p, f->row, f->path_bay[0])->stringer;
    double worst = -1.0;
    *bent_out = *last_out = f->path_bay[0];
    const double alike = 1e-9;
    size_t number = p->deck->n_stringers + p->deck->n_bents;
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        const bwi_chain *c = &f->posts[bent];
        const int k = bwi_row_post(p, f->row, bent);
        if (c->n > 0 && k >= 0) {
            const bw_section s = bw_frame_section(f->frame, c->first, 0.0);
            const double softness =
                c->at[c->n] * c->at[c->n] / bw_section_second_moment(&s);
            if (softness > worst * (1.0 + alike)) {
                worst = softness;
                *bent_out = bent;
                member = number + (size_t)k;
            }
            *last_out = softness >= worst * (1.0 - alike) ? bent : *last_out;
        }
        number += p->deck->bents[bent].n_posts;
    }
    return member;
}

/* The base state with the riders on it, as one state. */
static const bw_state *with_riders(const arrangement *a, const bwi_wheels *wheels)
{
    bw_arena *arena = a->t->plan->arena;
    const bw_state *sum = a->base;
    for (size_t k = 0; k < wheels->n && sum != NULL; k++) {
        const bw_wheel *wheel = &wheels->wheel[k];
        const bw_member_load load = {.kind = BW_LOAD_POINT,
                                     .member = a->f->path[wheel->at],
                                     .a = wheel->a,
                                     .x = {wheel->fx, 0.0},
                                     .y = {wheel->fy, 0.0}};
        bw_state *s = NULL;
        sum = bw_frame_solve_loads(a->f->frame, &load, 1, &s, arena) == BW_OK
                  ? bw_state_add(sum, 1.0, s, arena)
                  : NULL;
    }
    a->t->failed = sum == NULL ? BW_E_MEMORY : a->t->failed;
    return sum;
}

static const bw_state *bend_under(const arrangement *a, const bwi_wheels *wheels,
                                  const bwi_event *event)
{
    const bw_state *first = with_riders(a, wheels);
    size_t bent, last;
    const size_t member = weakest_post(a->t->plan, a->f, &bent, &last);
    return first != NULL ? bwi_bend(a->t, first, member, event) : NULL;
}

static const bwi_blow standing = {1.0, 0.0};

/* Deflection of the bays that the riders stand on, standing still. */
static void check_wheel_deflection(const arrangement *a, const bwi_wheels *wheels)
{
    const bwi_plan *p = a->t->plan;
    const bool held = bwi_wants_lifts(a->t, false);
    for (size_t bay = a->event.rider.bay; held && bay <= wheels->last_bay; bay++) {
        if (a->f->bay_member[bay] >= 0) {
            const bw_arena_mark mark = bw_arena_now(p->arena);
            const bwi_bay live =
                bwi_bay_read(a->f, bay, NULL, wheels->wheel, wheels->n, p->arena);
            check_deflection(a, bay, &live);
            bw_arena_back(p->arena, mark);
        }
    }
    if (bwi_wants_lifts(a->t, true)) {
        check_lifted_deflection(a, NULL, wheels);
    }
}

/* Riders with the first of them at a place. */
static void check_wheel(const arrangement *base, const bwi_rider_place *rider, scope of)
{
    const bwi_plan *p = base->t->plan;
    const size_t bay = rider->bay;
    arrangement a = *base;
    a.event.rider = *rider;
    a.no_posts = of.no_posts;
    bwi_wheels wheels;
    if (base->service && of.deflection) {
        bwi_riders(p, a.f, &a.event.rider, a.f->direction, standing, &wheels);
        check_wheel_deflection(&a, &wheels);
    }
    if (!of.strength) {
        return;
    }
    bwi_riders(p, a.f, &a.event.rider, a.f->direction, a.blow, &wheels);
    const bw_arena_mark mark = bw_arena_now(p->arena);
    a.wheels = base->curved ? NULL : &wheels;
    a.base = base->curved ? bend_under(base, &wheels, &a.event) : base->base;
    of.last += of.whole ? wheels.last_bay - bay : 0;
    const bool wanted =
        a.base != NULL && bwi_wants_lifts(a.t, false) && !is_of_other_frame(&a);
    for (size_t bent = of.first; wanted && bent <= of.last && bent < p->deck->n_bents;
         bent++) {
        check_near(&a, bent);
    }
    if (a.base != NULL && bwi_wants_lifts(a.t, true)) {
        check_lifted(&a, of);
    }
    bw_arena_back(p->arena, mark);
}

/* The seats alone, under riders that lift the row. */
static void check_lifting_wheel(const arrangement *base, const bwi_rider_place *rider,
                                scope of)
{
    const bwi_plan *p = base->t->plan;
    arrangement a = *base;
    bwi_wheels wheels;
    a.event.rider = *rider;
    bwi_riders(p, a.f, rider, a.f->direction, a.blow, &wheels);
    a.wheels = &wheels;
    for (size_t bent = of.first; bent <= of.last && bent < p->deck->n_bents; bent++) {
        const bw_arena_mark mark = bw_arena_now(p->arena);
        check_seats(&a, bent);
        bw_arena_back(p->arena, mark);
    }
}

/* What the member is: bents of a stringer, or the bent of a post or cap. */
static scope scope_of_member(const bwi_tracker *t, size_t member, int kind)
{
    const bool deflection = kind == BW_CHECK_DEFLECTION || kind == BW_CHECK_SAG;
    scope of = {.strength = !deflection, .deflection = deflection};
    if (member < t->first_cap) {
        of.first = (size_t)t->plan->deck->stringers[member].from;
        of.last = (size_t)t->plan->deck->stringers[member].to;
    } else if (member < t->first_post) {
        of.first = of.last = member - t->first_cap;
    } else if (member >= t->first_brace) {
        of.first = (size_t)t->plan->deck->braces[member - t->first_brace].from.bent;
        of.last = of.first;
    } else {
        while (of.first + 1 < t->plan->deck->n_bents &&
               t->post_first[of.first + 1] <= member) {
            of.first++;
        }
        of.last = of.first;
    }
    return of;
}

/* A hump of the length of a bay, half a step off its top: (pi / (2 POSITIONS))^2 / 2 =
 * 0.3 %, 5 % on the coarse grid, and three times that for narrower ones. */
static const double grid_leaves = 0.01, coarse_grid_leaves = 0.15;

typedef struct {
    const arrangement *base;
    scope of;
} refining;

static bw_status try_place(void *search, const bwi_rider_place *to)
{
    const refining *r = search;
    const bw_bent *bents = r->base->t->plan->deck->bents;
    const double end = bents[to->bay + 1].at - bents[to->bay].at;
    bwi_rider_place rider = *to;
    rider.along = fmin(fmax(to->along / end, 1e-6), 1.0 - 1e-6) * end;
    check_wheel(r->base, &rider, r->of);
    return BW_OK;
}

/* No stringer runs on over a bent or has a notch, under which a wheel does most in one
 * place, and no brace takes part. */
static bool is_of_simple_spans(const bwi_plan *p, int row)
{
    bool simple = p->deck->n_braces == 0;
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        const bw_stringer *s = &p->deck->stringers[k];
        const bool plain = s->to == s->from + 1 && p->deck->logs[s->log].n_notches == 0;
        simple = simple && (s->row != row || plain);
    }
    return simple;
}

static bw_status refine_wheel(const arrangement *base, size_t member, bw_check_kind kind)
{
    if (!bwi_has_peak(base->t, member, kind)) {
        return BW_OK;
    }
    refining r = {base, scope_of_member(base->t, member, (int)kind)};
    const double open = base->coarse ? coarse_grid_leaves : grid_leaves;
    return bwi_refine(base->t, &(bwi_refinement){.member = member,
                                                 .kind = kind,
                                                 .first_step = 0.5 / POSITIONS,
                                                 .open = {open, open},
                                                 .curved = base->curved && r.of.strength,
                                                 .try_place = try_place,
                                                 .search = &r});
}

/* How many bays to either side a wheel is looked at. What it does fades with the
 * distance: a bay feels it only through a stringer that runs on, a post also through the
 * push along the deck, which the nearest posts take most of. So the worst place for a
 * member is near it. */
static size_t wheel_reach(const bwi_plan *p, int row)
{
    size_t longest = 2;
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        const bw_stringer *s = &p->deck->stringers[k];
        const size_t bays = (size_t)(s->to - s->from);
        longest = s->row == row && bays > longest ? bays : longest;
    }
    return longest;
}

/* Bents of the stringers that wheels stand on while the first of them is in the bay. On
 * simple spans what comes down to a bent runs straight from one stop of the wheels to the
 * next, so posts are worst at stops: there all is looked at. */
static scope near_of(const arrangement *base, size_t bay)
{
    const bwi_plan *p = base->t->plan;
    const bw_bent *bents = p->deck->bents;
    const bwi_mover mover = bwi_mover_of(p->deck, base->machine);
    const double train = (mover.count - 1) * mover.spacing + mover.wheelbase;
    scope of = {.first = bay,
                .last = bay + 1,
                .strength = true,
                .deflection = true,
                .no_posts = base->simple};
    for (size_t k = 0; k < p->n_bays; k++) {
        const int s = bwi_plan_part(p, base->f->row, k)->stringer;
        if (s >= 0 && bents[k + 1].at > bents[bay].at - mover.wheelbase &&
            bents[k].at < bents[bay + 1].at + train) {
            const size_t from = (size_t)p->deck->stringers[s].from;
            const size_t to = (size_t)p->deck->stringers[s].to;
            of.first = from < of.first ? from : of.first;
            of.last = to > of.last ? to : of.last;
        }
    }
    return of;
}

/* What is further away feels the riders through posts alone, which is smooth and small:
 * every fourth place of the grid will do, unless braces hand it over. So it will for one
 * wheel of a slow rider on simple spans, who is rarely worse than the blow: its humps are
 * as wide as bays, and climbed from further down. */
enum { FAR_STEP = 4 };

static bool is_coarse(const arrangement *base, const bwi_mover *mover,
                      const bw_combination *c)
{
    return base->simple && c->slow > 0.0 && mover->count == 1 && mover->wheelbase == 0.0;
}

/* What moves at an edge of the boards from which it lifts the row: only what holds its
 * stringers down, posts are pulled by way of the cap. A few places will do, a stringer is
 * lifted most from a bent. */
static void search_lifting(const arrangement *base, bwi_rider_place rider, scope of)
{
    const bwi_plan *p = base->t->plan;
    const bwi_mover mover = bwi_mover_of(p->deck, base->machine);
    const double reach = bwi_mover_reach(p->deck, &mover);
    double stops[BWI_STOPS_MAX];
    const size_t n = bwi_rider_stops(p, &rider, base->f->direction, POSITIONS, stops);
    rider.row = -1;
    for (size_t j = 0; j < 2 * n; j++) {
        rider.across = j % 2 == 0 ? -reach : reach;
        rider.along = stops[j / 2];
        if (bwi_mover_share(p, base->f->row, &rider) < 0.0 &&
            (j / 2 >= POSITIONS || j / 2 % FAR_STEP == 0)) {
            check_lifting_wheel(base, &rider, of);
        }
    }
}

static void search_bay(const arrangement *base, size_t bay, size_t reach, bool alone)
{
    const bwi_plan *p = base->t->plan;
    const size_t last = bay + 1 + reach;
    const scope far = {.first = bay > reach ? bay - reach : 0,
                       .last = last < p->deck->n_bents ? last : p->deck->n_bents - 1,
                       .strength = true,
                       .deflection = true,
                       .whole = true};
    const scope near = p->deck->n_braces == 0 ? near_of(base, bay) : far;
    bwi_rider_place rider = {.present = true,
                             .bay = bay,
                             .row = base->f->row,
                             .machine = base->machine,
                             .alone = alone};
    double stops[BWI_STOPS_MAX];
    const size_t n = bwi_rider_stops(p, &rider, base->f->direction, POSITIONS, stops);
    for (size_t j = 0; j < n; j++) {
        const bool between = j < POSITIONS && j % FAR_STEP != 0;
        rider.along = stops[j];
        if (!(between && base->coarse)) {
            check_wheel(base, &rider, between ? near : far);
        }
    }
    search_lifting(base, rider, far);
}

static bw_status search_wheel(const arrangement *base)
{
    const bwi_plan *p = base->t->plan;
    const size_t reach = wheel_reach(p, base->f->row);
    const bwi_mover mover = bwi_mover_of(p->deck, base->machine);
    for (size_t member = 0; member < base->t->n_members; member++) {
        bwi_peaks_clear(base->t, member);
    }
    for (size_t bay = 0; bay < p->n_bays; bay++) {
        for (int way = 0; way < bwi_mover_ways(&mover); way++) {
            if (base->f->bay_member[bay] >= 0) {
                search_bay(base, bay, reach, way == 1);
            }
        }
    }
    for (size_t member = 0; member < base->t->n_members; member++) {
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            BW_TRY(refine_wheel(base, member, (bw_check_kind)kind));
        }
    }
    return BW_OK;
}

/* ---- states of the load cases ---- */

static const bwi_people nobody = {NULL, NULL, 1.0};

/* dead * D + snow * S + crowd where the people are, and what pushes along the deck with
 * them, one way (direction 0: nothing). */
static bw_state *state_of(const bwi_plan *p, bw_frame *f, const bw_combination *c,
                          const bwi_people *people, int direction)
{
    const bw_loads *l = &p->deck->loads;
    bw_part *parts = BW_NEW(p->arena, bw_part, p->n_bays + 5);
    if (parts == NULL) {
        return NULL;
    }
    size_t n = 0;
    if (direction != 0) {
        const double area = people->pushing * c->crowd * (l->sway + l->lean * l->crowd) +
                            c->snow * l->lean * l->snow;
        const double thrust = c->slow == 0.0 ? c->rider : 0.0;
        parts[n++] = (bw_part){BWI_CASE_PUSH_DEAD, direction * c->dead * l->lean};
        parts[n++] = (bw_part){BWI_CASE_PUSH_AREA, direction * area};
        parts[n++] =
            (bw_part){BWI_CASE_THRUST, bwi_thrust_way(p->deck, direction) * thrust};
    }
    parts[n++] = (bw_part){BWI_CASE_DEAD, c->dead};
    if (c->snow != 0.0) {
        parts[n++] = (bw_part){BWI_CASE_SNOW, c->snow};
    }
    for (size_t bay = 0; people->on != NULL && bay < p->n_bays; bay++) {
        if (people->on[bay] && c->crowd != 0.0) {
            const double part = people->part != NULL ? people->part[bay] : 1.0;
            parts[n++] = (bw_part){BWI_CASE_FIRST_BAY + (int)bay, part * c->crowd};
        }
    }
    return bw_frame_state(f, parts, n, p->arena);
}

/* Sets curved if the frame is near to buckling in the loaded state; member: to file it
 * under. */
static void check_loaded(arrangement *a, const bw_state *loaded, size_t member,
                         const bwi_event *event, bw_diags *d)
{
    bw_buckling found = {.factor = HUGE_VAL};
    bw_buckled *lowest = &a->t->buckled_rows[a->f->row];
    const bwi_buckling_of of = {member, event, &a->presses, lowest};
    const bool near =
        loaded != NULL && bwi_check_buckling(a->t, a->f->frame, loaded, &of, &found, d);
    a->curved = a->curved || near;
    bwi_keep_buckled_row(a->t->plan, a->f, &found, event, lowest);
}

/* With the rider at a bent, on the bay after it or before it, as far as there is one. */
static void check_rider_at(arrangement *a, size_t bent, bool after, size_t member,
                           bw_diags *d)
{
    const bwi_plan *p = a->t->plan;
    const bool has_after = bent < p->n_bays && a->f->bay_member[bent] >= 0;
    const bool has_before = bent > 0 && a->f->bay_member[bent - 1] >= 0;
    const size_t bay = has_after && (after || !has_before) ? bent : bent - 1;
    const double length = p->deck->bents[bay + 1].at - p->deck->bents[bay].at;
    const double along = (bay == bent ? 1e-6 : 1.0 - 1e-6) * length;
    bwi_event event = a->event;
    event.rider = (bwi_rider_place){true, bay, along, a->f->row, 0.0, a->machine, false};
    bwi_wheels wheels;
    bwi_riders(p, a->f, &event.rider, a->f->direction, a->blow, &wheels);
    check_loaded(a, with_riders(a, &wheels), member, &event, d);
}

/* Sets curved if the frame is near to buckling under the arrangement, with the rider over
 * the weakest post; the base then becomes its bent shape unless wheels are still to come.
 */
static void check_stability(arrangement *a, const bw_combination *c, bw_diags *d)
{
    size_t bent, last;
    const size_t member = weakest_post(a->t->plan, a->f, &bent, &last);
    a->curved = false;
    if (bwi_moving(c) == 0.0) {
        check_loaded(a, a->base, member, &a->event, d);
        a->base = a->curved ? bwi_bend(a->t, a->base, member, &a->event) : a->base;
        return;
    }
    check_rider_at(a, bent, true, member, d);
    if (last != bent) {
        check_rider_at(a, last, false, member, d);
    }
}

/* The combination with the people of a pattern; null: nobody. Without its states. */
static arrangement arranged(const arrangement *base, const bw_combination *c,
                            const char *pattern)
{
    const bwi_plan *p = base->t->plan;
    const bwi_mover mover = bwi_mover_in(p->deck, c);
    arrangement a = *base;
    a.event = (bwi_event){.combination = c->title,
                          .pattern = pattern,
                          .push = base->push != 0 ? bwi_push_along(base->push) : NULL,
                          .direction = base->push,
                          .dead = c->dead,
                          .load_duration = c->duration,
                          .lasting_share = c->lasting_share};
    a.strength = c->strength || !c->factored;
    a.event.not_ground = c->factored;
    a.event.only_ground = !c->strength;
    a.service = c->service && bwi_gives(p, base->push);
    a.machine = c->machine != 0.0;
    a.coarse = is_coarse(base, &mover, c);
    a.blow.down = bwi_moving(c) * mover.factor;
    a.blow.along =
        base->push * (bwi_moving(c) * mover.push + a.blow.down * p->deck->loads.lean);
    return a;
}

/* People from where they lift the row, on the bays of pattern k: its stringers and what
 * holds them down. Posts are pulled by way of the cap: see the bents. */
static bw_status check_lifting_people(const arrangement *base, const bw_combination *c,
                                      const bool *on, size_t k)
{
    const bwi_plan *p = base->t->plan;
    const bwi_people people = bwi_people_lifting(p, base->f->row, on);
    const char *words =
        bw_arena_print(p->arena, "%s, beyond the next row", base->transfer->pattern[k]);
    arrangement a = arranged(base, c, words);
    if (people.part == NULL) {
        return BW_OK;
    }
    const bw_arena_mark mark = bw_arena_now(p->arena);
    a.base = state_of(p, a.f->frame, c, &people, base->push);
    if (a.base == NULL || words == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        check_seats(&a, bent);
        if (bent < p->n_bays && a.f->bay_member[bent] >= 0) {
            check_bay(&a, bent);
        }
    }
    bw_arena_back(p->arena, mark);
    return BW_OK;
}

static bw_status search_combination(const arrangement *base, const bw_combination *c,
                                    bool **patterns, bw_diags *d)
{
    const bwi_plan *p = base->t->plan;
    const bool crowd = c->crowd != 0.0;
    const size_t n_patterns = crowd ? base->transfer->n_patterns : 1;
    for (size_t k = 0; k < n_patterns; k++) {
        const bw_arena_mark mark = bw_arena_now(p->arena);
        const bwi_people people = {crowd ? patterns[k] : NULL, NULL, 1.0};
        const bw_combination live_part = {.crowd = c->crowd, .snow = c->snow};
        arrangement a = arranged(base, c, crowd ? base->transfer->pattern[k] : NULL);
        a.base = state_of(p, a.f->frame, c, &people, base->push);
        const bw_state *live = state_of(p, a.f->frame, &live_part, &people, 0);
        if (a.base == NULL || live == NULL) {
            return BW_E_MEMORY;
        }
        check_stability(&a, c, d);
        if (a.presses.collecting) {
            /* nothing else yet */
        } else if (bwi_moving(c) != 0.0) {
            BW_TRY(search_wheel(&a));
        } else if (a.base != NULL) {
            check_state(&a, live);
        }
        bw_arena_back(p->arena, mark);
        if (crowd && !a.presses.collecting) {
            BW_TRY(check_lifting_people(base, c, patterns[k], k));
        }
    }
    return BW_OK;
}

/* What the bents need to know of lifting: forces on the held seats. */
static void fill_lifts(const arrangement *base, size_t load, const bw_state *s)
{
    for (size_t k = 0; k < base->f->n_lifts; k++) {
        const bwi_lift *lift = &base->f->lifts[k];
        for (size_t i = 0; i < lift->n; i++) {
            lift->load[load * lift->n + i] = bwi_seat_force(base->f, lift, i, s, NULL);
        }
    }
}

static bw_status make_lift_loads(const arrangement *base)
{
    const bwi_transfer *t = base->transfer;
    const size_t n_loads = BWI_LIFT_FIRST_PATTERN + t->n_patterns * t->n_strips;
    for (size_t k = 0; k < base->f->n_lifts; k++) {
        bwi_lift *lift = &base->f->lifts[k];
        lift->load = BW_NEW(base->t->plan->arena, double, n_loads * lift->n);
        if (lift->load == NULL) {
            return BW_E_MEMORY;
        }
    }
    return BW_OK;
}

/* Forces on the bents under the plain load cases. */
static bw_status fill_transfer(const arrangement *base, bool **patterns,
                               const bw_state *dead)
{
    const bwi_plan *p = base->t->plan;
    bwi_transfer *out = base->transfer;
    const size_t first = (size_t)base->f->row * p->deck->n_bents;
    const bw_combination snow = {.snow = 1.0}, crowd = {.crowd = 1.0};
    const bw_state *snow_state = state_of(p, base->f->frame, &snow, &nobody, 0);
    if (snow_state == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(make_lift_loads(base));
    fill_lifts(base, BWI_LIFT_DEAD, dead);
    fill_lifts(base, BWI_LIFT_SNOW, snow_state);
    for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
        out->dead[first + bent] = bwi_row_reaction(base->f, dead, bent);
        out->snow[first + bent] = bwi_row_reaction(base->f, snow_state, bent);
    }
    for (size_t k = 0; k < out->n_patterns * out->n_strips; k++) {
        const bw_arena_mark mark = bw_arena_now(p->arena);
        const bool *on = patterns[k % out->n_patterns];
        const bwi_strip strip = out->strip[k / out->n_patterns];
        const bwi_people people = strip == BWI_WHOLE_WIDTH
                                      ? (bwi_people){on, NULL, 1.0}
                                      : bwi_people_on_strip(p, strip, base->f->row, on);
        const bw_state *s = state_of(p, base->f->frame, &crowd, &people, 0);
        if (s == NULL || (strip != BWI_WHOLE_WIDTH && people.part == NULL)) {
            return BW_E_MEMORY;
        }
        for (size_t bent = 0; bent < p->deck->n_bents; bent++) {
            out->crowd[k][first + bent] = bwi_row_reaction(base->f, s, bent);
        }
        fill_lifts(base, BWI_LIFT_FIRST_PATTERN + k, s);
        bw_arena_back(p->arena, mark);
    }
    return BW_OK;
}

static bw_status search_pushed(arrangement *base, int push, bool **patterns, bw_diags *d)
{
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = bwi_combinations(base->t->plan->deck, list);
    base->push = push;
    for (size_t k = 0; k < n; k++) {
        base->combination = k;
        BW_TRY(search_combination(base, &list[k], patterns, d));
    }
    return BW_OK;
}

/* Pushes may be as large as they are or none. Both ways with the same braces, what lies
 * between them is no worse; where a brace is left out one way round, none is a case of
 * its own: the braces that this way holds press the posts under the weight alone, and a
 * push may relieve them. */
static bw_status search_combinations(arrangement *base, bool **patterns, bw_diags *d)
{
    const bwi_row_frame *f = base->f;
    BW_TRY(search_pushed(base, f->direction, patterns, d));
    return bwi_same_both_ways(base->t->plan, f->brace_member, f->slackened)
               ? BW_OK
               : search_pushed(base, 0, patterns, d);
}

static bw_state *dead_state(const bwi_plan *p, const bwi_row_frame *f)
{
    const bw_combination dead_only = {.dead = 1.0};
    return state_of(p, f->frame, &dead_only, &nobody, 0);
}

bw_status bwi_hand_over(bwi_tracker *t, bwi_row_frame *f, bwi_transfer *transfer,
                        bool **patterns)
{
    const arrangement base = {.t = t, .f = f, .transfer = transfer};
    const bw_state *dead = dead_state(t->plan, f);
    return dead != NULL ? fill_transfer(&base, patterns, dead) : BW_E_MEMORY;
}

bw_status bwi_search_row(bwi_tracker *t, bwi_row_frame *f, bwi_transfer *transfer,
                         bool **patterns, bw_diags *d)
{
    const bwi_plan *p = t->plan;
    bw_state *dead = dead_state(p, f);
    if (dead == NULL) {
        return BW_E_MEMORY;
    }
    arrangement base = {.t = t,
                        .f = f,
                        .transfer = transfer,
                        .simple = is_of_simple_spans(p, f->row),
                        .dead = dead};
    if (f->direction > 0 || p->deck->n_braces > 0) { /* else the same both ways */
        BW_TRY(fill_transfer(&base, patterns, dead));
    }
    BW_TRY(make_seats(&base));
    BW_TRY(read_dead(&base));
    BW_TRY(bwi_presses_start(f->frame, p->arena, &base.presses));
    BW_TRY(search_combinations(&base, patterns, d));
    BW_TRY(bwi_presses_end(f->frame, p->arena, &base.presses, d));
    BW_TRY(search_combinations(&base, patterns, d));
    return t->failed;
}
