/* The same frame described differently: what must come out is known from the change. */
#include "sketch.h"
#include <math.h>

static bwt_point turned(bwt_point p, double angle)
{
    return (bwt_point){cos(angle) * p.x - sin(angle) * p.y,
                       sin(angle) * p.x + cos(angle) * p.y};
}

void bwt_sketch_plan_to_length(bwt_sketch *s)
{
    for (int k = 0; k < s->n_loads; k++) {
        bw_member_load *w = &s->loads[k].on_member;
        if (s->loads[k].kind == BWT_LOAD_MEMBER && w->per_plan_length) {
            const double plan = fabs(bwt_member_direction(s, w->member).x);
            w->per_plan_length = false;
            for (int e = 0; e < 2; e++) {
                w->x[e] *= plan;
                w->y[e] *= plan;
            }
        }
    }
}

static void turn_load(bwt_load *l, double angle)
{
    const bwt_point f = turned((bwt_point){l->fx, l->fy}, angle);
    l->fx = f.x;
    l->fy = f.y;
    bw_member_load *w = &l->on_member;
    for (int e = 0; e < 2 && !w->local; e++) {
        const bwt_point q = turned((bwt_point){w->x[e], w->y[e]}, angle);
        w->x[e] = q.x;
        w->y[e] = q.y;
    }
}

void bwt_sketch_turn(bwt_sketch *s, double angle)
{
    bwt_sketch_plan_to_length(s);
    for (int n = 0; n < s->n_nodes; n++) {
        s->nodes[n] = turned(s->nodes[n], angle);
    }
    for (int k = 0; k < s->n_supports; k++) {
        s->supports[k].angle += angle;
    }
    for (int k = 0; k < s->n_loads; k++) {
        turn_load(&s->loads[k], angle);
    }
}

static void mirror_load(bwt_load *l)
{
    l->fx = -l->fx;
    l->moment = -l->moment;
    bw_member_load *w = &l->on_member;
    w->moment = -w->moment;
    for (int e = 0; e < 2; e++) {
        if (w->local) { /* local x goes with the member, local y changes sides */
            w->y[e] = -w->y[e];
        } else {
            w->x[e] = -w->x[e];
        }
    }
}

/* Local y turns to the other side, the log stays where it is. */
static void swap_flats(bw_member *m)
{
    bw_section *const ends[2] = {&m->section_i, &m->section_j};
    for (int e = 0; e < 2; e++) {
        const double top = ends[e]->flat_top;
        ends[e]->flat_top = ends[e]->flat_bottom;
        ends[e]->flat_bottom = top;
    }
}

void bwt_sketch_mirror(bwt_sketch *s)
{
    for (int k = 0; k < s->n_members; k++) {
        swap_flats(&s->members[k]);
        s->members[k].lean = -s->members[k].lean;
        s->members[k].bow = -s->members[k].bow;
    }
    for (int n = 0; n < s->n_nodes; n++) {
        s->nodes[n].x = -s->nodes[n].x;
    }
    for (int k = 0; k < s->n_supports; k++) {
        s->supports[k].angle = -s->supports[k].angle;
        s->supports[k].settle[0] = -s->supports[k].settle[0];
        s->supports[k].settle[2] = -s->supports[k].settle[2];
    }
    for (int k = 0; k < s->n_loads; k++) {
        mirror_load(&s->loads[k]);
    }
}

static void reverse_load(bw_member_load *w, double length)
{
    const bw_member_load old = *w;
    w->a = length - old.b;
    w->b = length - old.a;
    if (old.kind == BW_LOAD_LINE) {
        for (int e = 0; e < 2; e++) {
            w->x[e] = old.x[1 - e];
            w->y[e] = old.y[1 - e];
        }
    }
    for (int e = 0; e < 2 && w->local; e++) {
        w->x[e] = -w->x[e];
        w->y[e] = -w->y[e];
    }
}

void bwt_sketch_reverse(bwt_sketch *s, int member)
{
    bw_member *m = &s->members[member];
    const bw_member old = *m;
    const double length = bwt_member_length(s, member);
    m->node_i = old.node_j;
    m->node_j = old.node_i;
    m->section_i = old.section_j;
    m->section_j = old.section_i;
    m->hinge_i = old.hinge_j;
    m->hinge_j = old.hinge_i;
    m->turn_spring_i = old.turn_spring_j;
    m->turn_spring_j = old.turn_spring_i;
    m->bow = -old.bow; /* a lean stays: both axes turn round */
    swap_flats(m);
    for (int k = 0; k < s->n_loads; k++) {
        bwt_load *l = &s->loads[k];
        if (l->kind == BWT_LOAD_MEMBER && l->on_member.member == member) {
            reverse_load(&l->on_member, length);
        }
    }
}

static void scale_section(bw_section *section, double k)
{
    section->diameter *= k;
    section->flat_top *= k;
    section->flat_bottom *= k;
    section->bore *= k;
    section->area *= k * k;
    section->second_moment *= k * k * k * k;
    section->modulus *= k * k * k;
}

static void scale_member(bw_member *member, double k, double m)
{
    scale_section(&member->section_i, k);
    scale_section(&member->section_j, k);
    member->modulus *= m / (k * k);
    member->shear_modulus *= m / (k * k);
    member->density *= m / (k * k * k);
    member->turn_spring_i *= m * k;
    member->turn_spring_j *= m * k;
    member->bow *= k;
}

static void scale_support(bw_support *support, double k, double m)
{
    for (int c = 0; c < 2; c++) {
        support->spring[c] *= m / k;
        support->settle[c] *= k;
    }
    support->spring[2] *= m * k;
}

static void scale_load(bwt_load *l, double k, double m)
{
    l->fx *= m;
    l->fy *= m;
    l->moment *= m * k;
    bw_member_load *w = &l->on_member;
    const double force = w->kind == BW_LOAD_LINE ? m / k : m;
    w->a *= k;
    w->b *= k;
    w->moment *= m * k;
    for (int e = 0; e < 2; e++) {
        w->x[e] *= force;
        w->y[e] *= force;
    }
}

void bwt_sketch_scale(bwt_sketch *s, double k, double m)
{
    for (int n = 0; n < s->n_nodes; n++) {
        s->nodes[n].x *= k;
        s->nodes[n].y *= k;
    }
    for (int e = 0; e < s->n_members; e++) {
        scale_member(&s->members[e], k, m);
    }
    for (int e = 0; e < s->n_supports; e++) {
        scale_support(&s->supports[e], k, m);
    }
    for (int e = 0; e < s->n_loads; e++) {
        scale_load(&s->loads[e], k, m);
    }
}

void bwt_sketch_renumber(bwt_sketch *s, const int *node_order, const int *member_order)
{
    const bwt_sketch old = *s;
    for (int n = 0; n < s->n_nodes; n++) {
        s->nodes[node_order[n]] = old.nodes[n];
    }
    for (int k = 0; k < s->n_members; k++) {
        bw_member *m = &s->members[member_order[k]];
        *m = old.members[k];
        m->node_i = node_order[m->node_i];
        m->node_j = node_order[m->node_j];
    }
    for (int k = 0; k < s->n_supports; k++) {
        s->supports[k].node = node_order[s->supports[k].node];
    }
    for (int k = 0; k < s->n_loads; k++) {
        bwt_load *l = &s->loads[k];
        l->node = node_order[l->node];
        l->on_member.member = member_order[l->on_member.member];
    }
}

/* The part of a line load between from and to, seen from the new origin. */
static bw_member_load piece(const bw_member_load *w, double from, double to,
                            double origin)
{
    bw_member_load p = *w;
    p.a = fmax(w->a, from) - origin;
    p.b = fmin(w->b, to) - origin;
    for (int e = 0; e < 2; e++) {
        const double t = ((e == 0 ? p.a : p.b) + origin - w->a) / (w->b - w->a);
        p.x[e] = w->x[0] + t * (w->x[1] - w->x[0]);
        p.y[e] = w->y[0] + t * (w->y[1] - w->y[0]);
    }
    return p;
}

static void cut_load(bwt_sketch *s, bwt_load *l, int new_member, double x)
{
    const bw_member_load w = l->on_member;
    const bool is_line = w.kind == BW_LOAD_LINE;
    if (w.b <= x) {
        return;
    }
    if (w.a >= x) { /* all of it beyond the cut */
        l->on_member.member = new_member;
        l->on_member.a -= x;
        l->on_member.b -= x;
    } else if (is_line) {
        bwt_load *rest = &s->loads[s->n_loads++];
        *rest = *l;
        rest->on_member = piece(&w, x, w.b, x);
        rest->on_member.member = new_member;
        l->on_member = piece(&w, w.a, x, 0.0);
    }
}

/* A parabola of rise bow, cut at the share t: two of the same curvature on their chords.
 */
static void cut_shape(bw_member *first, bw_member *rest, double t, double length)
{
    const double bow = first->bow, lean = first->lean;
    first->bow = bow * t * t;
    first->lean = lean + 4.0 * bow * (1.0 - t) / length;
    rest->bow = bow * (1.0 - t) * (1.0 - t);
    rest->lean = lean - 4.0 * bow * t / length;
}

void bwt_sketch_cut(bwt_sketch *s, int member, double x)
{
    const double length = bwt_member_length(s, member);
    const bwt_point e = bwt_member_direction(s, member);
    const bw_section section = bwt_member_section(s, member, x);
    const int node = s->n_nodes++;
    const int rest = s->n_members++;
    bw_member *m = &s->members[member];
    s->nodes[node].x = s->nodes[m->node_i].x + x * e.x;
    s->nodes[node].y = s->nodes[m->node_i].y + x * e.y;
    s->members[rest] = *m;
    s->members[rest].node_i = node;
    s->members[rest].section_i = section;
    s->members[rest].hinge_i = false;
    s->members[rest].turn_spring_i = 0.0;
    m->node_j = node;
    m->section_j = section;
    m->hinge_j = false;
    m->turn_spring_j = 0.0;
    m->slides = false; /* a sliding member slides at its end j */
    cut_shape(m, &s->members[rest], x / length, length);
    const int n_loads = s->n_loads; /* those added meanwhile are already cut */
    for (int k = 0; k < n_loads; k++) {
        bwt_load *l = &s->loads[k];
        if (l->kind == BWT_LOAD_MEMBER && l->on_member.member == member) {
            cut_load(s, l, rest, x);
        }
    }
}
