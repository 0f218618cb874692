/* Moves the loads over a bent and checks its cap, the seats on its posts, and the posts.
 * The rows stand on it with the forces found in the row frames. */
#include "internal.h"

#include <math.h>
#include <string.h>

/* Fewer places to try than along a row: what a bent feels has its hump at or near it. */
enum { STATIONS = 64, POSITIONS = 12 };

/* The places along one line of the deck that are worth a look. */
typedef struct {
    bwi_rider_place rider; /* its bay and its place across */
    size_t n;
    double *along, *live; /* live: per place, of every row [N] */
} line_places;

typedef struct {
    line_places *items;
    size_t n, capacity;
} known_lines;

typedef struct {
    bwi_tracker *t;
    const bwi_row_frame *rows;
    const bwi_transfer *transfer;
    bwi_bent_frame f;
    bool curved;          /* the bent shape matters */
    int push;             /* which way things are pushed: as the frame, or 0 */
    bool may_lift;        /* a stringer runs on in some row */
    const bw_state *dead; /* of what stays */
    double own_weight;    /* [N] of the cap and the posts */
    bwi_presses presses;
    known_lines *lines;
    const bwi_seat *seats; /* of the cap */
    size_t n_seats;
    bool strength, service; /* which checks the combination is for */
    bwi_event event;
} arrangement;

/* ---- what is checked ---- */

static void check_cap_sections(const arrangement *a, const bw_line *lines)
{
    const bwi_plan *p = a->t->plan;
    const bw_bent *b = &p->deck->bents[a->f.bent];
    for (size_t k = 0; k + 1 < a->f.n_nodes; k++) {
        if (a->f.cap_member[k] < 0) {
            continue;
        }
        double x[STATIONS];
        const size_t n = bw_line_stations(&lines[k], x, STATIONS);
        for (size_t j = 0; j < 2 * n; j++) {
            const bw_action at = bw_line_action(&lines[k], x[j / 2], j % 2 == 0);
            const bw_section section =
                bw_frame_section(a->f.frame, a->f.cap_member[k], x[j / 2]);
            bw_check_input in = {.reference = &p->references[b->cap],
                                 .diameter = section.diameter,
                                 .section = bwi_check_section(p, b->cap, &section),
                                 .shear = fabs(at.shear),
                                 .moment = fabs(at.moment)};
            const double station = a->f.node_across[k] + x[j / 2];
            const size_t member = a->t->first_cap + a->f.bent;
            bwi_track(a->t, member, BW_CHECK_BENDING, &in, station, &a->event);
            bwi_track(a->t, member, BW_CHECK_SHEAR, &in, station, &a->event);
        }
    }
}

/* Nearest posts on either side of a place across; without one on a side it overhangs. */
static void posts_beside(const bwi_plan *p, size_t bent, double across, double *left,
                         double *right)
{
    *left = -(double)INFINITY;
    *right = (double)INFINITY;
    const bw_bent *b = &p->deck->bents[bent];
    for (size_t k = 0; k < b->n_posts; k++) {
        const double at = p->deck->rows[b->posts[k].row].across;
        *left = at <= across + 1e-6 ? fmax(*left, at) : *left;
        *right = at >= across - 1e-6 ? fmin(*right, at) : *right;
    }
}

/* Thickness of the top of the post at a place across; 0 if none stands there. */
static double post_width(const bwi_plan *p, size_t bent, double across)
{
    const bw_bent *b = &p->deck->bents[bent];
    for (size_t k = 0; k < b->n_posts; k++) {
        if (fabs(p->deck->rows[b->posts[k].row].across - across) < 2e-3) {
            const bwi_post_place place = bwi_plan_post(p, bent, &b->posts[k]);
            return bwi_post_diameter(p, &place, place.top);
        }
    }
    return 0.0;
}

static bool carries_row(const arrangement *a, size_t node)
{
    for (size_t r = 0; r < a->t->plan->deck->n_rows; r++) {
        if (a->f.row_node[r] == (int)node) {
            return true;
        }
    }
    return false;
}

/* The cap where seats are cut off it: on top under the rows, below on the posts. Side
 * number k: the first one, or the last one, of a part of it. */
static bwi_seat cap_seat(const arrangement *a, size_t k)
{
    const bwi_plan *p = a->t->plan;
    const size_t node = (k + 1) / 2;
    const int member = a->f.cap_member[k / 2];
    const double at = k % 2 == 1 ? bw_frame_length(a->f.frame, member) : 0.0;
    const double post = post_width(p, a->f.bent, a->f.node_across[node]);
    const bwi_seat_place place = {.whole = bw_frame_section(a->f.frame, member, at),
                                  .top = carries_row(a, node),
                                  .bottom = post > 0.0,
                                  .at_end = node == 0 || node + 1 == a->f.n_nodes,
                                  .reach = post / 2.0};
    return bwi_seat_cut(p, p->deck->bents[a->f.bent].cap, &place);
}

static bw_status make_seats(arrangement *a)
{
    const bwi_plan *p = a->t->plan;
    a->n_seats = p->deck->bents[a->f.bent].cap >= 0 ? 2 * (a->f.n_nodes - 1) : 0;
    bwi_seat *seats = BW_NEW(p->arena, bwi_seat, a->n_seats + 1);
    for (size_t k = 0; seats != NULL && k < a->n_seats; k++) {
        seats[k] = cap_seat(a, k);
    }
    a->seats = seats;
    return seats != NULL ? BW_OK : BW_E_MEMORY;
}

static void check_cap_seats(const arrangement *a, const bw_line *lines)
{
    const size_t number = a->t->first_cap + a->f.bent;
    for (size_t k = 0; k < a->n_seats; k++) {
        if (!a->seats[k].is_cut) {
            continue;
        }
        const int member = a->f.cap_member[k / 2];
        const bool last = k % 2 == 1;
        const double at = last ? bw_frame_length(a->f.frame, member) : 0.0;
        const double across = a->f.node_across[(k + 1) / 2];
        const bw_action act = bw_line_action(&lines[k / 2], at, last);
        bw_check_input in = bwi_seat_input(&a->seats[k], act.moment, act.shear);
        bwi_track(a->t, number, BW_CHECK_SHEAR, &in, across, &a->event);
        bwi_track(a->t, number, BW_CHECK_BENDING, &in, across, &a->event);
    }
}

static double rows_on(const bwi_plan *p, size_t bent)
{
    double rows = 0.0;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        rows += bwi_row_meets_bent(p, (int)r, bent) ? 1.0 : 0.0;
    }
    return rows;
}

/* Fasteners of the stringers that lie on the bent: all rows share its push alike. */
static void check_sideways(const arrangement *a, double push)
{
    const bwi_plan *p = a->t->plan;
    const size_t bent = a->f.bent;
    for (size_t r = 0; r < p->deck->n_rows && p->deck->n_joints > 0; r++) {
        if (bwi_row_meets_bent(p, (int)r, bent)) {
            bwi_check_sideways(a->t, (int)r, bent, push / rows_on(p, bent), &a->event);
        }
    }
}

/* What no described fastener holds on a sill or a cap, and so no check. */
static void note_push(const arrangement *a, double push, double *most)
{
    const bwi_plan *p = a->t->plan;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        for (int side = BWI_BEFORE; side <= BWI_AFTER; side++) {
            const int row = (int)r,
                      joint = bwi_end_joint(p, row, a->f.bent, (bwi_side)side);
            if (bwi_stringer_at(p, row, a->f.bent, (bwi_side)side) >= 0 &&
                !bwi_is_fastened(p, joint)) {
                *most = fmax(*most, fabs(push) / rows_on(p, a->f.bent));
            }
        }
    }
}

/* Notches of the cap; the butt lies on the left. */
static void check_cap_notches(const arrangement *a, const bw_line *lines)
{
    const bwi_plan *p = a->t->plan;
    const int cap = p->deck->bents[a->f.bent].cap;
    const double left = p->caps[a->f.bent].across, whole = p->caps[a->f.bent].length;
    for (size_t j = 0; cap >= 0 && j < p->deck->logs[cap].n_notches; j++) {
        const bw_notch *n = &p->deck->logs[cap].notches[j];
        for (size_t k = 0; k + 1 < a->f.n_nodes; k++) {
            const int member = a->f.cap_member[k];
            const double at = left + n->from_butt - a->f.node_across[k];
            const double length =
                member >= 0 ? a->f.node_across[k + 1] - a->f.node_across[k] : -1.0;
            if (!(at >= 0.0 && at <= length)) {
                continue;
            }
            const bw_section section = bw_frame_section(a->f.frame, member, at);
            const double depth = bw_section_depth(&section);
            const bool at_first = n->from_butt <= depth,
                       at_last = n->from_butt >= whole - depth;
            const bw_action here = bw_line_action(&lines[k], at, false);
            const bw_action end =
                bw_line_action(&lines[k], at_first ? 0.0 : length, at_last);
            bw_check_input in = {.reference = &p->references[cap],
                                 .diameter = section.diameter,
                                 .shear = fabs(here.shear),
                                 .moment = fabs(here.moment)};
            in.shear = at_first || at_last ? fmax(in.shear, fabs(end.shear)) : in.shear;
            bwi_notch_input(
                p, cap,
                &(bwi_notch_place){n, section, here.moment, at_first || at_last, false},
                &in);
            const size_t number = a->t->first_cap + a->f.bent;
            bwi_track(a->t, number, BW_CHECK_BENDING, &in, left + n->from_butt,
                      &a->event);
            bwi_track(a->t, number, BW_CHECK_SHEAR, &in, left + n->from_butt, &a->event);
        }
    }
}

/* Its lines are read once for all: in a bent shape that takes longer than the checks. */
static void check_cap(const arrangement *a, const bw_state *s)
{
    bw_arena *arena = a->t->plan->arena;
    bw_line *lines = BW_NEW(arena, bw_line, a->f.n_nodes);
    for (size_t k = 0; lines != NULL && k + 1 < a->f.n_nodes; k++) {
        if (a->f.cap_member[k] >= 0) {
            lines[k] = bw_state_line(s, a->f.cap_member[k], arena);
        }
    }
    if (lines != NULL) {
        check_cap_sections(a, lines);
        check_cap_seats(a, lines);
        check_cap_notches(a, lines);
    }
}

static double height_at(const arrangement *a, const bw_state *s, double across)
{
    size_t best = 0;
    for (size_t k = 1; k < a->f.n_nodes; k++) {
        if (fabs(a->f.node_across[k] - across) < fabs(a->f.node_across[best] - across)) {
            best = k;
        }
    }
    return bw_state_displacement(s, a->f.node[best]).y;
}

/* How far the cap's axis lies under the straight line between the posts beside it, or
 * under the only post beside it; span: between them, or twice the overhang. */
static double cap_sag(const arrangement *a, const bw_state *s, double across, double own,
                      double *span)
{
    double left, right;
    posts_beside(a->t->plan, a->f.bent, across, &left, &right);
    if (!isfinite(left) || !isfinite(right)) {
        const double post = isfinite(left) ? left : right;
        *span = 2.0 * fabs(across - post);
        return fabs(own - height_at(a, s, post));
    }
    *span = right - left;
    const double t = right > left ? (across - left) / (right - left) : 0.0;
    return fabs(own - (1.0 - t) * height_at(a, s, left) - t * height_at(a, s, right));
}

static void track_cap_sag(const arrangement *a, double across, double live, double dead,
                          double span)
{
    const bw_limits *limits = &a->t->plan->deck->limits;
    const size_t member = a->t->first_cap + a->f.bent;
    bw_check_input in = {
        .deflection = live, .deflection_dead = dead, .span = span, .limit = limits->live};
    if (span > 1e-6) {
        bwi_track(a->t, member, BW_CHECK_DEFLECTION, &in, across, &a->event);
        in.limit = limits->long_term;
        bwi_track(a->t, member, BW_CHECK_SAG, &in, across, &a->event);
    }
}

/* At the joints of the cap and at the middle of each part. */
static void check_cap_deflection(const arrangement *a, const bw_state *live,
                                 const bw_state *dead)
{
    for (size_t k = 0; k < a->f.n_nodes; k++) {
        const double across = a->f.node_across[k];
        double span;
        const double sag =
            cap_sag(a, live, across, bw_state_displacement(live, a->f.node[k]).y, &span);
        const double lasting =
            cap_sag(a, dead, across, bw_state_displacement(dead, a->f.node[k]).y, &span);
        track_cap_sag(a, across, sag, lasting, span);
        const int member = k + 1 < a->f.n_nodes ? a->f.cap_member[k] : -1;
        if (member < 0) {
            continue;
        }
        const double middle = bw_frame_length(a->f.frame, member) / 2.0;
        const double at = (across + a->f.node_across[k + 1]) / 2.0;
        const double own = bw_state_local(live, member, middle).y;
        const double own_dead = bw_state_local(dead, member, middle).y;
        const double sag_between = cap_sag(a, live, at, own, &span);
        track_cap_sag(a, at, sag_between, cap_sag(a, dead, at, own_dead, &span), span);
    }
}

/* The cap on a post: the same force across the cap's grain and on the post's end. */
static void check_post_seat(const arrangement *a, size_t k, double force)
{
    const bwi_plan *p = a->t->plan;
    const bw_bent *b = &p->deck->bents[a->f.bent];
    if (b->cap < 0 || force <= 0.0) {
        return; /* the stringer sits on the post and is checked with the row; or it lifts
                   off */
    }
    const double across = p->deck->rows[b->posts[k].row].across;
    const bwi_post_place place = bwi_plan_post(p, a->f.bent, &b->posts[k]);
    const double top = bwi_post_diameter(p, &place, place.top);
    const double flat =
        bwi_bottom_flat(&p->deck->logs[b->cap], bwi_cap_diameter(p, a->f.bent, across),
                        p->deck->limits.seat_depth);
    bw_check_input in = {.reference = &p->references[b->cap],
                         .force = force,
                         .bearing_area = bwi_strip_on_post(p, &place, flat),
                         .bearing_length = top,
                         .bearing_beyond =
                             fmax(0.0, bwi_cap_beyond(p, a->f.bent, across) - top)};
    bwi_track(a->t, a->t->first_cap + a->f.bent, BW_CHECK_BEARING, &in, across,
              &a->event);
    in.reference = &p->references[b->posts[k].log];
    bwi_track(a->t, a->t->post_first[a->f.bent] + k, BW_CHECK_END_BEARING, &in, place.top,
              &a->event);
}

static void check_posts(const arrangement *a, const bw_state *s)
{
    const bwi_plan *p = a->t->plan;
    const bw_bent *b = &p->deck->bents[a->f.bent];
    for (size_t k = 0; k < b->n_posts; k++) {
        const size_t member = a->t->post_first[a->f.bent] + k;
        const bwi_chain *chain = &a->f.posts[k];
        const bool own = bwi_wants(a->t, member) && bwi_wants_seats(a->t, false);
        if (!own && !bwi_wants_seats(a->t, true)) {
            continue;
        }
        bw_line lines[BWI_CHAIN_MAX];
        for (int j = 0; j < chain->n; j++) {
            lines[j] = bw_state_line(s, chain->first + j, p->arena);
        }
        const bwi_post_check check = {
            .member = member,
            .place = bwi_plan_post(p, a->f.bent, &b->posts[k]),
            .foot = &a->f.feet[k],
            .chain = chain,
            /* along the deck only what always acts: pushes come one way at a time */
            .other_moment = a->transfer->post_moment[member - a->t->first_post][0],
            .dead_down = -bw_state_action(a->dead, chain->first, 0.0, false).axial};
        double unused = 0.0;
        if (own) {
            bwi_check_post(a->t, &check, lines, &a->event, &unused);
        }
        const int top = chain->n - 1;
        const double length = chain->at[top + 1] - chain->at[top];
        check_post_seat(a, k, -bw_line_action(&lines[top], length, true).axial);
    }
}

static void check_braces(const arrangement *a, const bw_state *s)
{
    const bwi_plan *p = a->t->plan;
    for (size_t k = 0; k < p->deck->n_braces; k++) {
        const int member = a->f.brace_member[k];
        if (member >= 0 && bwi_wants_brace(a->t, k)) {
            const bw_line line = bw_state_line(s, member, p->arena);
            bwi_check_brace(a->t, (int)k, &line, bw_frame_length(a->f.frame, member),
                            &a->event);
        }
    }
}

/* The post that bends most easily: buckling of the bent is filed under it. */
static size_t softest_post(const arrangement *a)
{
    size_t best = 0;
    double most = -1.0;
    for (size_t k = 0; k < a->t->plan->deck->bents[a->f.bent].n_posts; k++) {
        const bwi_chain *c = &a->f.posts[k];
        const bw_section s = bw_frame_section(a->f.frame, c->first, 0.0);
        const double softness = c->at[c->n] * c->at[c->n] / bw_section_second_moment(&s);
        best = softness > most ? k : best;
        most = fmax(most, softness);
    }
    return a->t->post_first[a->f.bent] + best;
}

/* ---- arrangements ---- */

/* State of factor * own weight, a force down at every row, a push at deck level, and what
 * tips a lone row to the right. */
static bw_state *state_of(const arrangement *a, double own, const double *force,
                          double push, double turn)
{
    const bwi_plan *p = a->t->plan;
    const size_t n = p->deck->n_rows + 2, more = p->lone_row >= 0 ? 1 : 0;
    bw_part *parts = BW_NEW(p->arena, bw_part, n + more);
    if (parts == NULL) {
        return NULL;
    }
    parts[0] = (bw_part){0, own};
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        parts[r + 1] = (bw_part){1 + (int)r, force[r]};
    }
    parts[n - 1] = (bw_part){(int)n - 1, push};
    if (more > 0) {
        parts[n] = (bw_part){(int)n, turn};
    }
    return bw_frame_state(a->f.frame, parts, n + more, p->arena);
}

typedef struct {
    const double *total; /* forces of the rows under the whole combination */
    const double
        *live;   /* of the part that comes and goes, or null: no deflection check */
    double own;  /* factor of the own weight */
    double push; /* at deck level, towards the right [N] */
    double turn; /* of it by loads beside a lone row, to the right [N*m] */
    const bw_combination *combination;
    size_t pattern, set; /* of the people */
} row_forces;

static double part_in_set(const bwi_plan *p, size_t set, size_t row);
static size_t strip_in_set(const bwi_plan *p, size_t set);

/* As for a row: without a push, the braces that the frame holds press. */
static bool is_of_other_frame(const arrangement *a, const bw_state *s)
{
    const bwi_plan *p = a->t->plan;
    bool pulled = false;
    for (size_t k = 0; a->push == 0 && !pulled && k < p->deck->n_braces; k++) {
        const int member = a->f.brace_member[k];
        if (member >= 0) {
            const bw_line line = bw_state_line(s, member, p->arena);
            pulled = bwi_brace_would_pull(&p->deck->braces[k], &line,
                                          bw_frame_length(a->f.frame, member));
        }
    }
    return pulled;
}

/* The side that it is pushed to is the one that it tips to: the other one is looked at
 * with the other push, in a frame whose braces hold that. */
static double turn_with_push(const arrangement *a, const row_forces *rows)
{
    return a->push * rows->turn < 0.0 ? 0.0 : rows->turn;
}

static bw_state *whole_state(const arrangement *a, const row_forces *rows)
{
    return state_of(a, rows->own, rows->total, rows->push, turn_with_push(a, rows));
}

static bw_status check_forces(const arrangement *a, const row_forces *rows)
{
    bw_arena *arena = a->t->plan->arena;
    const bw_arena_mark mark = bw_arena_now(arena);
    const bw_state *s = whole_state(a, rows);
    const bw_state *live =
        a->service ? state_of(a, 0.0, rows->live, 0.0, 0.0) : a->dead; /* not asked for */
    if (s == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    s = a->curved ? bwi_bend(a->t, s, softest_post(a), &a->event) : s;
    if (s == NULL) {
        return a->t->failed;
    }
    if (is_of_other_frame(a, s)) {
        bw_arena_back(arena, mark);
        return BW_OK;
    }
    const bool cap = bwi_wants(a->t, a->t->first_cap + a->f.bent);
    if (a->strength && cap && bwi_wants_seats(a->t, false)) {
        check_cap(a, s);
    }
    if (a->strength) {
        a->t->turn = fmax(a->t->turn, fabs(rows->turn));
        check_sideways(a, rows->push);
        if (a->t->plan->deck->bents[a->f.bent].cap >= 0) { /* else see note_top */
            note_push(a, rows->push, &a->t->cap_push);
        }
        check_posts(a, s);
        check_braces(a, s);
    }
    if (a->service && cap && a->t->plan->deck->bents[a->f.bent].cap >= 0) {
        check_cap_deflection(a, live, a->dead);
    }
    bwi_track_frame(a->t, a->f.frame, s);
    bw_arena_back(arena, mark);
    return BW_OK;
}

/* ---- stringers that lift off their seats: what that changes on this bent ---- */

/* Force of a stringer on the bent beyond that of it held down; wheels (null: none) act
 * with the factor. */
static double freed_force(const arrangement *a, const bwi_lift *lift,
                          const row_forces *rows, const bwi_wheels *wheels, double factor)
{
    const bwi_row_frame *f = &a->rows[a->t->plan->deck->stringers[lift->stringer].row];
    const bw_combination *c = rows->combination;
    const size_t strip = strip_in_set(a->t->plan, rows->set);
    const size_t n = lift->n, pattern = BWI_LIFT_FIRST_PATTERN + rows->pattern +
                                        strip * a->transfer->n_patterns;
    const double people =
        c->crowd != 0.0 ? c->crowd * part_in_set(a->t->plan, rows->set, (size_t)f->row)
                        : 0.0;
    double held[BWI_SEATS_MAX], gap[BWI_SEATS_MAX];
    for (size_t i = 0; i < n; i++) {
        held[i] = c->dead * lift->load[BWI_LIFT_DEAD * n + i] +
                  c->snow * lift->load[BWI_LIFT_SNOW * n + i];
        held[i] += people != 0.0 ? people * lift->load[pattern * n + i] : 0.0;
        held[i] +=
            wheels != NULL ? factor * bwi_seat_force(f, lift, i, NULL, wheels) : 0.0;
    }
    if (!bwi_lift_solve(lift, held, gap)) {
        return 0.0;
    }
    bwi_wheels gaps;
    bwi_gaps(lift, gap, &gaps);
    return bwi_row_wheel_reaction(f, &gaps, a->f.bent);
}

/* Adds to the forces of a row what its stringers on this bent do when free to lift; true
 * if that is anything. Live forces for deflection only grow. */
static bool free_row(const arrangement *a, size_t row, const row_forces *rows,
                     const bwi_wheels *wheels, double factor, double *total, double *live)
{
    const bwi_row_frame *f = &a->rows[row];
    double more = 0.0;
    for (size_t k = 0; f->frame != NULL && k < f->n_lifts; k++) {
        const bwi_lift *lift = &f->lifts[k];
        if (lift->first <= a->f.bent && a->f.bent < lift->first + lift->n) {
            more += freed_force(a, lift, rows, wheels, factor);
        }
    }
    *total += more;
    *live += fmax(more, 0.0);
    return more != 0.0;
}

/* Sets curved if the bent is near to buckling under the forces. */
static bw_status check_buckling(arrangement *a, const row_forces *rows, bw_diags *d)
{
    const bw_state *s = whole_state(a, rows);
    if (s == NULL) {
        return BW_E_MEMORY;
    }
    bw_buckling found;
    bw_buckled *lowest = &a->t->buckled_bents[a->f.bent];
    const bwi_buckling_of of = {softest_post(a), &a->event, &a->presses, lowest};
    a->curved = bwi_check_buckling(a->t, a->f.frame, s, &of, &found, d);
    bwi_keep_buckled_bent(a->t->plan, &a->f, &found, &a->event, lowest);
    return a->t->failed;
}

static double of_row(const arrangement *a, const double *forces, size_t row)
{
    return forces[row * a->t->plan->deck->n_bents + a->f.bent];
}

/* How far right of a lone row a place across lies; 0 without one. */
static double beside_lone_row(const bwi_plan *p, double across)
{
    return p->lone_row >= 0 ? across - p->deck->rows[p->lone_row].across : 0.0;
}

/* Places across the deck that matter: either track over each row, and at both edges. */
static double wheel_across(const bwi_plan *p, const bwi_mover *mover, size_t k)
{
    const double reach = bwi_mover_reach(p->deck, mover);
    const double side = k % 2 == 0 ? -1.0 : 1.0;
    const double there = k / 2 < p->deck->n_rows
                             ? p->deck->rows[k / 2].across + side * mover->track / 2.0
                             : side * reach;
    return fmin(fmax(there, -reach), reach);
}

/* What the row hands down of the standing rider; wheels (null: not wanted): of it on the
 * row. 0 without a row. */
static double live_of_row(const arrangement *a, size_t r, const bwi_rider_place *rider,
                          bwi_wheels *wheels)
{
    bwi_wheels own;
    wheels = wheels != NULL ? wheels : &own;
    if (a->rows[r].frame == NULL) {
        return 0.0;
    }
    bwi_riders(a->t->plan, &a->rows[r], rider, a->f.direction, (bwi_blow){1.0, 0.0},
               wheels);
    return bwi_row_wheel_reaction(&a->rows[r], wheels, a->f.bent);
}

/* Sideways with what moves; weight: of it on all rows. Who lifts the bent from afar makes
 * it lean less, but may push against the way it leans. */
static double push_with(const arrangement *a, const row_forces *dead, double weight)
{
    const bw_case *deck = a->t->plan->deck;
    const bwi_mover mover = bwi_mover_in(deck, dead->combination);
    return dead->push +
           a->push * bwi_moving(dead->combination) *
               (mover.push * fabs(weight) + deck->loads.lean * mover.factor * weight);
}

/* Forces of the rows with a rider at a place. freed: stringers free to lift instead of
 * held down; false if that is the same. */
static bool wheel_forces(const arrangement *a, const bwi_rider_place *rider,
                         const row_forces *dead, bool freed, row_forces *out)
{
    const bwi_plan *p = a->t->plan;
    const bwi_mover mover = bwi_mover_in(p->deck, dead->combination);
    const double factor = bwi_moving(dead->combination) * mover.factor;
    double *total = BW_NEW(p->arena, double, p->deck->n_rows);
    double *live = BW_NEW(p->arena, double, p->deck->n_rows), weight = 0.0;
    *out = *dead;
    out->total = total;
    out->live = live;
    bool any = !freed;
    for (size_t r = 0; total != NULL && live != NULL && r < p->deck->n_rows; r++) {
        total[r] = dead->total[r];
        if (a->rows[r].frame == NULL) {
            continue;
        }
        bwi_wheels wheels;
        live[r] = live_of_row(a, r, rider, &wheels);
        total[r] += factor * live[r];
        weight += live[r];
        out->turn += factor * live[r] * beside_lone_row(p, rider->across);
        any =
            (freed && free_row(a, r, dead, &wheels, factor, &total[r], &live[r])) || any;
    }
    out->push = push_with(a, dead, weight);
    return any;
}

/* d: not null to look at buckling only. */
static bw_status check_wheel(arrangement *base, const bwi_rider_place *rider,
                             const row_forces *dead, bw_diags *d)
{
    arrangement a = *base;
    a.event.rider = *rider;
    for (int freed = 0; freed < (base->may_lift ? 2 : 1); freed++) {
        row_forces forces;
        if (!bwi_wants_lifts(base->t, freed == 1)) {
            continue;
        }
        const bool any = wheel_forces(base, rider, dead, freed == 1, &forces);
        if (forces.total == NULL || forces.live == NULL) {
            return BW_E_MEMORY;
        }
        a.event.lifts = freed == 1;
        if (any) {
            BW_TRY(d == NULL ? check_forces(&a, &forces)
                             : check_buckling(&a, &forces, d));
        }
        base->curved = base->curved || a.curved;
    }
    return BW_OK;
}

/* As for the rows: (pi / (2 POSITIONS))^2 / 2 = 0.9 %, and twice that. A stringer that
 * lifts gives edges instead of humps, of which the grid was seen to miss 3 %. */
static const double grid_leaves = 0.02, lifted_grid_leaves = 0.1;

typedef struct {
    arrangement *a;
    const row_forces *dead;
} refining;

static bw_status try_place(void *search, const bwi_rider_place *to)
{
    const refining *r = search;
    bw_arena *arena = r->a->t->plan->arena;
    const bw_arena_mark mark = bw_arena_now(arena);
    BW_TRY(check_wheel(r->a, to, r->dead, NULL));
    bw_arena_back(arena, mark);
    return BW_OK;
}

/* Along the deck: where stringers run on over the bent, they press hardest with the wheel
 * a little beside it. */
static bw_status refine_wheel(arrangement *a, const row_forces *dead, size_t member,
                              bw_check_kind kind)
{
    if (!bwi_has_peak(a->t, member, kind)) {
        return BW_OK;
    }
    refining r = {a, dead};
    return bwi_refine(a->t, &(bwi_refinement){.member = member,
                                              .kind = kind,
                                              .first_step = 0.5 / POSITIONS,
                                              .open = {grid_leaves, lifted_grid_leaves},
                                              .curved = a->curved,
                                              .try_place = try_place,
                                              .search = &r});
}

/* The bent's own members: its posts, and last its cap. */
static size_t own_member(const arrangement *a, size_t k)
{
    const size_t bent = a->f.bent;
    return k < a->t->plan->deck->bents[bent].n_posts ? a->t->post_first[bent] + k
                                                     : a->t->first_cap + bent;
}

static bw_status refine(arrangement *a, const row_forces *dead)
{
    for (size_t k = 0; k <= a->t->plan->deck->bents[a->f.bent].n_posts; k++) {
        for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
            BW_TRY(refine_wheel(a, dead, own_member(a, k), (bw_check_kind)kind));
        }
    }
    return BW_OK;
}

/* Bays in which a wheel does something to the bent: those of every stringer that lies on
 * it or runs on over it; and in which the first one stands while another is there. */
static void bays_that_matter(const bwi_plan *p, const bwi_mover *mover, size_t bent,
                             size_t *first, size_t *end)
{
    const bw_bent *bents = p->deck->bents;
    size_t from = bent, to = bent;
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        const bw_stringer *s = &p->deck->stringers[k];
        if (s->from <= (int)bent && (int)bent <= s->to) {
            from = (size_t)s->from < from ? (size_t)s->from : from;
            to = (size_t)s->to > to ? (size_t)s->to : to;
        }
    }
    const double train = (mover->count - 1) * mover->spacing + mover->wheelbase;
    *first = from;
    while (*first > 0 && bents[*first].at > bents[from].at - train) {
        (*first)--;
    }
    *end = to;
    while (*end < p->n_bays && bents[*end].at < bents[to].at + mover->wheelbase) {
        (*end)++;
    }
}

/* ---- places that are worth a look ---- */

/* Rows that carry the rider at some of n places; false if they are more than two. */
static bool find_two_rows(const double *live, size_t n, size_t n_rows, size_t row[2])
{
    size_t found = 0;
    for (size_t r = 0; r < n_rows; r++) {
        bool carries = false;
        for (size_t j = 0; j < n; j++) {
            carries = carries || live[j * n_rows + r] != 0.0;
        }
        if (carries && found == 2) {
            return false;
        }
        if (carries) {
            row[found++] = r;
        }
    }
    return true;
}

/* All that a bent feels follows in a straight line from the forces of the rows that carry
 * the rider, two of them unless it is a machine. A check that is used so much at most
 * under two sets of forces is so under any mixture of them: only the corners of all sets
 * need a look. The others are taken off the line. */
static bw_status keep_corners(const bwi_plan *p, line_places *line)
{
    const size_t n_rows = p->deck->n_rows;
    size_t row[2] = {0, 0}, kept = 0;
    bwi_point *point = BW_NEW(p->arena, bwi_point, line->n);
    if (point == NULL) {
        return BW_E_MEMORY;
    }
    if (!find_two_rows(line->live, line->n, n_rows, row)) {
        return BW_OK;
    }
    for (size_t j = 0; j < line->n; j++) {
        const double *live = &line->live[j * n_rows];
        point[j] = (bwi_point){live[row[0]], live[row[1]], false};
    }
    if (!bwi_mark_corners(point, line->n, p->arena)) {
        return BW_E_MEMORY;
    }
    for (size_t j = 0; j < line->n; j++) {
        if (point[j].is_corner) {
            line->along[kept] = line->along[j];
            memmove(&line->live[kept++ * n_rows], &line->live[j * n_rows],
                    n_rows * sizeof *line->live);
        }
    }
    line->n = kept;
    return BW_OK;
}

static bw_status make_line(const arrangement *a, const bwi_rider_place *rider,
                           line_places *out)
{
    const bwi_plan *p = a->t->plan;
    const size_t n_rows = p->deck->n_rows;
    bwi_rider_place at = *rider;
    double stops[BWI_STOPS_MAX];
    *out = (line_places){.rider = *rider};
    out->n = bwi_rider_stops(p, rider, a->f.direction, POSITIONS, stops);
    out->along = BW_NEW(p->arena, double, out->n);
    out->live = BW_NEW(p->arena, double, out->n *n_rows);
    if (out->along == NULL || out->live == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t j = 0; j < out->n; j++) {
        at.along = out->along[j] = stops[j];
        for (size_t r = 0; r < n_rows; r++) {
            out->live[j * n_rows + r] = live_of_row(a, r, &at, NULL);
        }
    }
    return keep_corners(p, out);
}

/* What the rows hand down there is the same in every combination: found once. Null
 * without memory. */
static const line_places *places_of(const arrangement *a, const bwi_rider_place *rider)
{
    known_lines *known = a->lines;
    for (size_t k = 0; k < known->n; k++) {
        const bwi_rider_place *other = &known->items[k].rider;
        if (other->bay == rider->bay && other->across == rider->across &&
            other->machine == rider->machine && other->alone == rider->alone) {
            return &known->items[k];
        }
    }
    line_places *items = bw_arena_grow(a->t->plan->arena, known->items, known->n,
                                       &known->capacity, sizeof *items);
    if (items == NULL) {
        return NULL;
    }
    known->items = items;
    return make_line(a, rider, &items[known->n]) == BW_OK ? &items[known->n++] : NULL;
}

static bw_status search_corners(const arrangement *base, const row_forces *dead,
                                bwi_rider_place rider)
{
    const bwi_plan *p = base->t->plan;
    const size_t n_rows = p->deck->n_rows;
    const line_places *line = places_of(base, &rider);
    double *total = BW_NEW(p->arena, double, n_rows);
    arrangement a = *base;
    if (line == NULL || total == NULL) {
        return BW_E_MEMORY;
    }
    const double factor =
        bwi_moving(dead->combination) * bwi_mover_in(p->deck, dead->combination).factor;
    for (size_t j = 0; j < line->n; j++) {
        row_forces forces = *dead;
        double weight = 0.0;
        forces.total = total;
        forces.live = &line->live[j * n_rows];
        for (size_t r = 0; r < n_rows; r++) {
            total[r] = dead->total[r] + factor * forces.live[r];
            weight += forces.live[r];
        }
        forces.turn += factor * weight * beside_lone_row(p, rider.across);
        forces.push = push_with(base, dead, weight);
        a.event.rider = rider;
        a.event.rider.along = line->along[j];
        BW_TRY(check_forces(&a, &forces));
    }
    return BW_OK;
}

/* Along one line of the deck. Stringers that lift, and frames that take turns without a
 * push, know no straight lines. */
static bw_status search_line(arrangement *a, const row_forces *dead,
                             bwi_rider_place rider)
{
    if (!a->may_lift && a->push != 0) {
        return search_corners(a, dead, rider);
    }
    bw_arena *arena = a->t->plan->arena;
    const bw_arena_mark mark = bw_arena_now(arena);
    double stops[BWI_STOPS_MAX];
    const size_t n =
        bwi_rider_stops(a->t->plan, &rider, a->f.direction, POSITIONS, stops);
    for (size_t j = 0; j < n; j++) {
        rider.along = stops[j];
        BW_TRY(check_wheel(a, &rider, dead, NULL));
        bw_arena_back(arena, mark);
    }
    return BW_OK;
}

static bw_status search_wheel(arrangement *a, const row_forces *dead)
{
    const bwi_plan *p = a->t->plan;
    const bool machine = dead->combination->machine != 0.0;
    const bwi_mover mover = bwi_mover_of(p->deck, machine);
    size_t first, end;
    bays_that_matter(p, &mover, a->f.bent, &first, &end);
    for (size_t k = 0; k <= p->deck->bents[a->f.bent].n_posts; k++) {
        bwi_peaks_clear(a->t, own_member(a, k));
    }
    for (size_t bay = first; bay < end; bay++) {
        for (size_t k = 0; k < 2 * p->deck->n_rows + 2; k++) {
            if (mover.track == 0.0 && k < 2 * p->deck->n_rows && k % 2 == 1) {
                continue; /* one track: the same place again */
            }
            bwi_rider_place rider = {.present = true,
                                     .bay = bay,
                                     .row = -1,
                                     .across = wheel_across(p, &mover, k),
                                     .machine = machine};
            for (int way = 0; way < bwi_mover_ways(&mover); way++) {
                rider.alone = way == 1;
                BW_TRY(search_line(a, dead, rider));
            }
        }
    }
    return refine(a, dead);
}

/* Buckling with the rider at the bent, over either edge. */
static bw_status check_wheel_buckling(arrangement *a, const row_forces *dead, bw_diags *d)
{
    const bwi_plan *p = a->t->plan;
    const size_t bay = a->f.bent < p->n_bays ? a->f.bent : a->f.bent - 1;
    const double length = p->deck->bents[bay + 1].at - p->deck->bents[bay].at;
    const double along = a->f.bent < p->n_bays ? 0.0 : length;
    const bool machine = dead->combination->machine != 0.0;
    const bwi_mover mover = bwi_mover_of(p->deck, machine);
    for (int side = -1; side <= 1; side += 2) {
        const bwi_rider_place rider = {
            true,    bay,  along, -1, side * bwi_mover_reach(p->deck, &mover),
            machine, false};
        BW_TRY(check_wheel(a, &rider, dead, d));
    }
    return BW_OK;
}

/* Plan area whose people push on the bent. */
static double push_area(const bwi_plan *p, size_t bent)
{
    const bw_bent *b = p->deck->bents;
    const double before = bent > 0 ? b[bent].at - b[bent - 1].at : 0.0;
    const double after = bent < p->n_bays ? b[bent + 1].at - b[bent].at : 0.0;
    return p->deck->boards.width * (before + after) / 2.0;
}

/* Which rows carry people: every set of them where they are few, else all, each alone,
 * and either half. Loads beyond a post relieve the other side, so all at once is not
 * always worst. On a lone row: the whole width, and either half of it. */
enum { FEW_ROWS = 4, ALL = 0, LEFT_HALF, RIGHT_HALF, HALVES };

static size_t sets_of_rows(const bwi_plan *p)
{
    const size_t n = p->deck->n_rows;
    if (p->lone_row >= 0) {
        return HALVES;
    }
    return n <= FEW_ROWS ? ((size_t)1 << n) - 1 : n + 3;
}

/* And those of strips of the width, all but the whole of it. */
static size_t row_sets(const bwi_plan *p, const bwi_transfer *t)
{
    return sets_of_rows(p) + t->n_strips - 1;
}

/* Number of the strip in the transfer; 0 if it is a set of rows. */
static size_t strip_in_set(const bwi_plan *p, size_t set)
{
    const size_t n = sets_of_rows(p);
    return set < n ? 0 : set - n + 1;
}

/* Part of its people that a row has: of those on the strip, if it is a set of a strip. */
static double part_in_set(const bwi_plan *p, size_t set, size_t row)
{
    const size_t n = p->deck->n_rows;
    const double across = p->deck->rows[row].across;
    if (strip_in_set(p, set) > 0) {
        return 1.0;
    }
    if (p->lone_row >= 0) {
        return set == ALL ? 1.0 : 0.5;
    }
    if (n <= FEW_ROWS) {
        return (((((size_t)1 << n) - 1) - set) >> row & 1) != 0 ? 1.0 : 0.0;
    }
    return set == ALL || (set <= n       ? row + 1 == set
                          : set == n + 1 ? across <= 0.0
                                         : across >= 0.0)
               ? 1.0
               : 0.0;
}

/* [m] right of a lone row, where the weight of the people is. */
static double middle_of_set(const bwi_plan *p, size_t set)
{
    const double quarter = p->deck->boards.width / 4.0;
    return beside_lone_row(p, set == LEFT_HALF    ? -quarter
                              : set == RIGHT_HALF ? quarter
                                                  : 0.0);
}

static const char *set_words(const arrangement *a, size_t k, size_t set)
{
    const bwi_plan *p = a->t->plan;
    const char *pattern = a->transfer->pattern[k];
    const size_t strip = strip_in_set(p, set);
    const char *const where = strip > 0 ? bwi_strip_words(a->transfer->strip[strip])
                              : p->lone_row < 0  ? "not over every row"
                              : set == LEFT_HALF ? "on the left half"
                                                 : "on the right half";
    const char *words =
        set == ALL ? pattern : bw_arena_print(p->arena, "%s, %s", pattern, where);
    return words != NULL ? words : pattern;
}

/* Those who are there push; people further away may lift what those here press. */
static double part_that_pushes(const arrangement *a, size_t set, double people,
                               double everybody)
{
    const bwi_plan *p = a->t->plan;
    const size_t strip = strip_in_set(p, set);
    if (!(everybody > 0.0)) {
        return 0.0;
    }
    return strip > 0 ? bwi_strip_part(p, a->transfer->strip[strip], a->f.bent)
                     : fmin(fmax(people / everybody, 0.0), 1.0);
}

/* Forces of the rows under the combination, people on the bays of pattern k and the rows
 * of the set, no rider. */
static row_forces plain_forces(const arrangement *a, const bw_combination *c, size_t k,
                               size_t set, double *total, double *live)
{
    const bwi_plan *p = a->t->plan;
    const bwi_transfer *t = a->transfer;
    const bw_loads *l = &p->deck->loads;
    const double *on_strip = t->crowd[k + strip_in_set(p, set) * t->n_patterns];
    double weight = c->dead * a->own_weight, people = 0.0, everybody = 0.0, turn = 0.0;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        const double q = c->crowd;
        const double here =
            q != 0.0 ? part_in_set(p, set, r) * q * of_row(a, on_strip, r) : 0.0;
        everybody += q != 0.0 ? q * of_row(a, t->crowd[k], r) : 0.0;
        people += here;
        live[r] = c->snow * of_row(a, t->snow, r) + here;
        total[r] = c->dead * of_row(a, t->dead, r) + live[r];
        weight += total[r];
        turn +=
            (total[r] - here) * beside_lone_row(p, 0.0) + here * middle_of_set(p, set);
    }
    const double part = part_that_pushes(a, set, people, everybody);
    const double sway = part * c->crowd * l->sway * push_area(p, a->f.bent);
    const double push = a->push * (sway + l->lean * weight);
    return (row_forces){total, live, c->dead, push, turn, c, k, set};
}

/* The same without a rider, stringers free to lift. */
static bw_status check_freed(const arrangement *base, const row_forces *rows)
{
    const bwi_plan *p = base->t->plan;
    arrangement a = *base;
    a.event.lifts = true;
    double *total = BW_NEW(p->arena, double, p->deck->n_rows);
    double *live = BW_NEW(p->arena, double, p->deck->n_rows);
    if (total == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    bool any = false;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        total[r] = rows->total[r];
        live[r] = rows->live[r];
        any = free_row(&a, r, rows, NULL, 0.0, &total[r], &live[r]) || any;
    }
    row_forces freed = *rows;
    freed.total = total;
    freed.live = live;
    return any ? check_forces(&a, &freed) : BW_OK;
}

static bw_status search_combination(const arrangement *base, const bw_combination *c,
                                    bw_diags *d)
{
    const bwi_plan *p = base->t->plan;
    const bwi_transfer *t = base->transfer;
    const size_t n_rows = p->deck->n_rows;
    double *total = BW_NEW(p->arena, double, n_rows),
           *live = BW_NEW(p->arena, double, n_rows);
    if (total == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    const size_t n_sets = c->crowd != 0.0 ? row_sets(p, t) : 1;
    const size_t n_patterns = c->crowd != 0.0 ? t->n_patterns : 1;
    for (size_t j = 0; j < n_patterns * n_sets; j++) {
        const size_t k = j / n_sets, set = j % n_sets;
        arrangement a = *base;
        a.strength = c->strength || !c->factored;
        a.service = c->service && bwi_gives(p, base->push);
        a.event =
            (bwi_event){.combination = c->title,
                        .pattern = c->crowd != 0.0 ? set_words(base, k, set) : NULL,
                        .push = base->push != 0 ? bwi_push_across(base->push) : NULL,
                        .direction = base->push,
                        .dead = c->dead,
                        .load_duration = c->duration,
                        .lasting_share = c->lasting_share,
                        .not_ground = c->factored,
                        .only_ground = !c->strength};
        const row_forces forces = plain_forces(base, c, k, set, total, live);
        if (bwi_moving(c) != 0.0) {
            BW_TRY(check_wheel_buckling(&a, &forces, d));
        } else {
            BW_TRY(check_buckling(&a, &forces, d));
        }
        if (base->presses.collecting) {
            continue;
        }
        if (bwi_moving(c) != 0.0) {
            BW_TRY(search_wheel(&a, &forces));
        } else {
            BW_TRY(check_forces(&a, &forces));
            BW_TRY(check_freed(&a, &forces));
        }
    }
    return BW_OK;
}

/* ---- a sill on the ground ---- */

/* Weight of what moves on a sill, with the factor of the combination: the first of a line
 * over it, the others to both sides of it, each with what it has of the way to the next
 * bent [N]. */
static double moving_weight(const bwi_plan *p, size_t bent, const bwi_mover *mover,
                            double factor)
{
    const bw_bent *b = p->deck->bents;
    const double before = bent > 0 ? b[bent].at - b[bent - 1].at : 0.0;
    const double after = bent < p->n_bays ? b[bent + 1].at - b[bent].at : 0.0;
    double part = 0.0;
    for (int k = 0; k < mover->count; k++) {
        const int away = (k + 1) / 2;
        part += fmax(0.0, 1.0 - away * mover->spacing / fmax(before, after));
    }
    return factor == 0.0 ? 0.0 : factor * part * mover->mass * bw_gravity;
}

typedef struct {
    double middle, length; /* [m] across the deck */
    double area, own;      /* [m2] on the ground, [N] */
} sill;

/* It lies as far beyond either outer row; half the thickness of a round log is on the
 * ground (JUDGEMENT), and presses no further from a row than it is stiff enough for:
 * three thicknesses (JUDGEMENT). Its end bends there by q d / 2 (3 d)^2 / 2, 3.3 MPa on
 * the 144 kPa that gravel bears. */
static sill sill_of(const bwi_plan *p, size_t bent)
{
    static const double least = 0.3; /* a block under one row */
    const bwi_cap_place *place = &p->caps[bent];
    const bw_log *log = &p->deck->logs[p->deck->bents[bent].cap];
    const double d = log->tip_diameter, reach = 3.0 * d;
    const double built = fmax(place->length, log->length);
    const double length = fmax(fmin(built, place->length + 2.0 * reach), least);
    const double pressed = fmin(length, 2.0 * reach * (double)p->deck->n_rows);
    const bw_section round = bw_section_round(d);
    return (sill){.middle = place->across + place->length / 2.0,
                  .length = length,
                  .area = fmax(pressed, least) * d / 2.0,
                  .own = bw_section_area(&round) * length * bw_gravity *
                         bwi_log_density(p->deck, log)};
}

/* Forces on it, and their moments about an end, turning it over that one. */
typedef struct {
    double down, live_turn, dead_turn;
} sill_actions;

static sill_actions on_sill(const arrangement *a, const row_forces *rows, const sill *s,
                            double moving, double push)
{
    const bw_case *deck = a->t->plan->deck;
    const int way = a->event.direction;
    const double end = s->middle + way * s->length / 2.0;
    const double height = deck->bents[a->f.bent].deck_height;
    sill_actions out = {.down = s->own + moving, .dead_turn = -s->own * s->length / 2.0};
    out.live_turn = moving * way * (a->event.rider.across - end) + fabs(push) * height;
    out.live_turn += way * rows->turn;
    for (size_t r = 0; r < deck->n_rows; r++) {
        const double beyond = way * (deck->rows[r].across - end);
        const double dead = rows->total[r] - rows->live[r];
        const double turn = way * dead * beside_lone_row(a->t->plan, 0.0);
        out.down += rows->total[r];
        out.live_turn += rows->live[r] * beyond - turn;
        out.dead_turn += dead * beyond + turn;
    }
    return out;
}

/* What is not a number must reach the checks. */
static double not_below_0(double value)
{
    return value < 0.0 ? 0.0 : value;
}

/* A sill pressed beside its middle, and drawn up at its other end, as a post would be. */
static void check_on_sill(const arrangement *a, const row_forces *rows, const sill *s,
                          double moving, double push)
{
    const bwi_plan *p = a->t->plan;
    const size_t member = a->t->first_cap + a->f.bent;
    const sill_actions on = on_sill(a, rows, s, moving, push);
    const double off = (on.live_turn + on.dead_turn) / on.down + s->length / 2.0;
    const double pull = on.live_turn / s->length;
    bw_check_input in = {.soil = p->deck->ground.soil,
                         .foot_force = not_below_0(on.down),
                         .foot_area = s->area,
                         .foot_length = s->length,
                         .foot_off = not_below_0(off),
                         .pull = not_below_0(pull),
                         .foot_dead = -on.dead_turn / s->length};
    bwi_track(a->t, member, BW_CHECK_SOIL_BEARING, &in, 0.0, &a->event);
    if (!(pull <= 0.0)) {
        bwi_track(a->t, member, BW_CHECK_UPLIFT, &in, 0.0, &a->event);
    }
}

static bool runs_on_from(const bwi_plan *p, size_t bent)
{
    bool any = false;
    for (size_t k = 0; k < p->deck->n_stringers; k++) {
        const bw_stringer *s = &p->deck->stringers[k];
        any = any || (s->to > s->from + 1 && s->from <= (int)bent && (int)bent <= s->to);
    }
    return any;
}

/* With what moves at a place along an edge. */
static void check_from_afar(const arrangement *a, const row_forces *plain, const sill *s,
                            double *total, double *live)
{
    const bwi_plan *p = a->t->plan;
    const bwi_mover mover = bwi_mover_in(p->deck, plain->combination);
    const double moving = bwi_moving(plain->combination), factor = moving * mover.factor;
    row_forces rows = *plain;
    double weight = 0.0;
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        const double more = live_of_row(a, r, &a->event.rider, NULL);
        live[r] = plain->live[r] + factor * more;
        total[r] = plain->total[r] + factor * more;
        weight += more;
    }
    rows.total = total;
    rows.live = live;
    rows.turn += factor * weight * beside_lone_row(p, a->event.rider.across);
    check_on_sill(a, &rows, s, 0.0, push_with(a, plain, weight));
}

/* On stringers that run on, what moves in another bay may lift what holds a sill down: at
 * the edge that it turns it away from. */
static bw_status try_from_afar(const arrangement *base, const row_forces *plain,
                               const sill *s)
{
    const bwi_plan *p = base->t->plan;
    const bwi_mover mover = bwi_mover_in(p->deck, plain->combination);
    double *total = BW_NEW(p->arena, double, p->deck->n_rows);
    double *live = BW_NEW(p->arena, double, p->deck->n_rows);
    double stops[BWI_STOPS_MAX];
    size_t first, end;
    if (total == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    arrangement a = *base;
    a.f.direction = a.push; /* which way wheels follow */
    bays_that_matter(p, &mover, a.f.bent, &first, &end);
    bwi_rider_place *const rider = &a.event.rider;
    const size_t ways = 2 * (size_t)bwi_mover_ways(&mover);
    for (size_t k = ways * first; k < ways * end; k++) {
        rider->bay = k / ways;
        rider->across *= -1.0;
        rider->alone = k % ways >= 2;
        const size_t n = bwi_rider_stops(p, rider, a.f.direction, POSITIONS, stops);
        for (size_t j = 0; j < n; j++) {
            rider->along = stops[j];
            check_from_afar(&a, plain, s, total, live);
        }
    }
    return BW_OK;
}

/* One combination with people on the bays of a pattern and the rows of a set, pushed over
 * an end; what moves stands at the edge there. */
static bw_status try_on_sill(const arrangement *base, const bw_combination *c, size_t k,
                             size_t set, int way, double *total, double *live)
{
    const bwi_plan *p = base->t->plan;
    const size_t bent = base->f.bent;
    const bwi_mover mover = bwi_mover_in(p->deck, c);
    const double weight = moving_weight(p, bent, &mover, bwi_moving(c));
    const bool before = bent == p->n_bays; /* of the last bay's end */
    const size_t bay = before ? bent - 1 : bent;
    arrangement a = *base;
    a.push = way;
    a.event = (bwi_event){
        .combination = c->title,
        .rider = {.present = weight > 0.0,
                  .bay = bay,
                  .along =
                      before ? p->deck->bents[bent].at - p->deck->bents[bay].at : 0.0,
                  .row = -1,
                  .across = way * bwi_mover_reach(p->deck, &mover),
                  .machine = c->machine != 0.0},
        .pattern = c->crowd != 0.0 ? set_words(base, k, set) : NULL,
        .push = bwi_push_across(way),
        .direction = way,
        .dead = c->dead,
        .load_duration = c->duration,
        .lasting_share = c->lasting_share,
        .not_ground = c->factored,
        .only_ground = !c->strength};
    const sill s = sill_of(p, bent);
    const row_forces rows = plain_forces(&a, c, k, set, total, live);
    const double push = rows.push + way * weight * mover.push;
    check_sideways(&a, push);
    note_push(&a, push, &a.t->sill_push);
    check_on_sill(&a, &rows, &s, weight * mover.factor, push);
    if (weight == 0.0) {
        return BW_OK;
    }
    /* it may press no harder than it weighs while it pushes */
    check_on_sill(&a, &rows, &s, weight, push);
    return runs_on_from(p, bent) ? try_from_afar(&a, &rows, &s) : BW_OK;
}

static bw_status check_sill(const arrangement *a)
{
    const bwi_plan *p = a->t->plan;
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = bwi_combinations(p->deck, list);
    double *total = BW_NEW(p->arena, double, p->deck->n_rows);
    double *live = BW_NEW(p->arena, double, p->deck->n_rows);
    if (total == NULL || live == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < n; k++) {
        const bool crowd = list[k].crowd != 0.0;
        const size_t sets = crowd ? row_sets(p, a->transfer) : 1;
        const size_t all = sets * (crowd ? a->transfer->n_patterns : 1);
        for (size_t j = 0; j < 2 * all; j++) {
            BW_TRY(try_on_sill(a, &list[k], j / 2 / sets, j / 2 % sets,
                               j % 2 == 0 ? 1 : -1, total, live));
        }
    }
    return BW_OK;
}

/* ---- the bent, pushed one way ---- */

static double own_weight(const bwi_plan *p, const bwi_bent_frame *f)
{
    const bw_state *s = bw_frame_state(f->frame, &(bw_part){0, 1.0}, 1, p->arena);
    double sum = 0.0;
    for (size_t k = 0; s != NULL && k < p->deck->bents[f->bent].n_posts; k++) {
        sum += bw_state_reaction(s, f->posts[k].node[0]).y;
    }
    return sum;
}

static bw_status search_pushed(arrangement *a, int push, bw_diags *d)
{
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = bwi_combinations(a->t->plan->deck, list);
    a->push = push;
    for (size_t k = 0; k < n; k++) {
        BW_TRY(search_combination(a, &list[k], d));
    }
    return BW_OK;
}

/* Without any push too where a brace is left out one way round, as for a row. */
static bw_status search_combinations(arrangement *a, bw_diags *d)
{
    BW_TRY(search_pushed(a, a->f.direction, d));
    return bwi_same_both_ways(a->t->plan, a->f.brace_member, a->f.slackened)
               ? BW_OK
               : search_pushed(a, 0, d);
}

static bw_status search_way(arrangement *a, int direction, bw_diags *d)
{
    const bwi_plan *p = a->t->plan;
    const size_t bent = a->f.bent;
    if (direction > 0 || !bwi_same_both_ways(p, a->f.brace_member, a->f.slackened)) {
        BW_TRY(bwi_bent_frame_make(p, bent, direction, &a->f, d));
    }
    a->f.direction = direction;
    double *dead = BW_NEW(p->arena, double, p->deck->n_rows);
    if (dead == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t r = 0; r < p->deck->n_rows; r++) {
        dead[r] = of_row(a, a->transfer->dead, r);
    }
    a->dead = state_of(a, 1.0, dead, 0.0, 0.0);
    a->own_weight = own_weight(p, &a->f);
    if (a->dead == NULL) {
        return BW_E_MEMORY;
    }
    *a->lines = (known_lines){.n = 0}; /* which way wheels follow is another */
    BW_TRY(make_seats(a));
    BW_TRY(bwi_presses_start(a->f.frame, p->arena, &a->presses));
    BW_TRY(search_combinations(a, d));
    BW_TRY(bwi_presses_end(a->f.frame, p->arena, &a->presses, d));
    BW_TRY(search_combinations(a, d));
    return a->t->failed;
}

bw_status bwi_search_bent(bwi_tracker *t, const bwi_row_frame *rows,
                          const bwi_transfer *transfer, size_t bent, bw_diags *d)
{
    known_lines lines;
    arrangement a = {
        .t = t, .rows = rows, .transfer = transfer, .f = {.bent = bent}, .lines = &lines};
    if (t->plan->deck->bents[bent].n_posts == 0) {
        return check_sill(&a);
    }
    for (size_t r = 0; r < t->plan->deck->n_rows; r++) {
        a.may_lift = a.may_lift || rows[r].n_lifts > 0;
    }
    BW_TRY(search_way(&a, 1, d));
    return search_way(&a, -1, d);
}
