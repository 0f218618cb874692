/* What is asked of a bent under a state: its cap, the seats on its posts, the posts, the
 * braces across, and what holds stringers on it. */
#include "bent.h"

#include <math.h>

enum { STATIONS = 64 };

static void check_cap_sections(const bwi_arrangement *a, const bw_line *lines)
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

static bool carries_row(const bwi_arrangement *a, size_t node)
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
static bwi_seat cap_seat(const bwi_arrangement *a, size_t k)
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

bw_status bwi_cap_seats_make(bwi_arrangement *a)
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

static void check_cap_seats(const bwi_arrangement *a, const bw_line *lines)
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

void bwi_count_rows(bwi_arrangement *a)
{
    const bwi_plan *p = a->t->plan;
    const size_t bent = a->f.bent;
    for (int row = 0; row < (int)p->deck->n_rows; row++) {
        a->n_rows += bwi_row_meets_bent(p, row, bent) ? 1.0 : 0.0;
        for (int side = BWI_BEFORE; side <= BWI_AFTER; side++) {
            const int joint = bwi_end_joint(p, row, bent, (bwi_side)side);
            a->unheld =
                a->unheld || (bwi_stringer_at(p, row, bent, (bwi_side)side) >= 0 &&
                              !bwi_is_fastened(p, joint));
        }
    }
}

void bwi_check_push_across(const bwi_arrangement *a, double push)
{
    const bwi_plan *p = a->t->plan;
    for (size_t r = 0; r < p->deck->n_rows && p->deck->n_joints > 0; r++) {
        if (bwi_row_meets_bent(p, (int)r, a->f.bent)) {
            bwi_check_sideways(a->t, (int)r, a->f.bent, push / a->n_rows, &a->event);
        }
    }
}

void bwi_note_push(const bwi_arrangement *a, double push, bwi_most of)
{
    if (a->unheld) {
        bwi_note(a->t, of, fabs(push) / a->n_rows);
    }
}

/* Notches of the cap; the butt lies on the left. */
static void check_cap_notches(const bwi_arrangement *a, const bw_line *lines)
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
void bwi_check_cap(const bwi_arrangement *a, const bw_state *s)
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

static double height_at(const bwi_arrangement *a, const bw_state *s, double across)
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
static double cap_sag(const bwi_arrangement *a, const bw_state *s, double across,
                      double own, double *span)
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

static void track_cap_sag(const bwi_arrangement *a, double across, double live,
                          double dead, double span)
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
void bwi_check_cap_deflection(const bwi_arrangement *a, const bw_state *live,
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
static void check_post_seat(const bwi_arrangement *a, size_t k, double force)
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

void bwi_check_bent_posts(const bwi_arrangement *a, const bw_state *s)
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
        const size_t post = member - a->t->first_post;
        const double turned = a->transfer->post_turned[post][a->combination];
        const bwi_post_check check = {
            .member = member,
            .place = bwi_plan_post(p, a->f.bent, &b->posts[k]),
            .foot = &a->f.feet[k],
            .chain = chain,
            /* along the deck only what always acts, and what turns it there: pushes come
               one way at a time */
            .other_moment = a->transfer->post_moment[post][0] + turned,
            .other_turned = turned,
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

void bwi_check_bent_braces(const bwi_arrangement *a, const bw_state *s)
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
size_t bwi_softest_post(const bwi_arrangement *a)
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
