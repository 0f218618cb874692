/* Random frames that hold together by construction. The generator is SplitMix64 (Steele,
 * Lea, Flood 2014), so that a failing frame can be found again on any machine. */
#include "sketch.h"
#include <math.h>

static const double pi = 3.14159265358979323846;

/* Two bytes in every quarter of the number, so that its size and what is left of it after
 * a division both follow them. */
static uint64_t next_given(bwt_random *r)
{
    const uint64_t two = (uint64_t)r->bytes[0] << 8 | r->bytes[1];
    r->bytes += 2;
    r->n_bytes -= 2;
    return two << 48 | two << 32 | two << 16 | two;
}

static uint64_t next(bwt_random *r)
{
    if (r->n_bytes >= 2) {
        return next_given(r);
    }
    r->state += 0x9E3779B97F4A7C15u;
    uint64_t z = r->state;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

double bwt_random_between(bwt_random *r, double low, double high)
{
    return low + (high - low) * (double)(next(r) >> 11) / 9007199254740992.0; /* 2^53 */
}

int bwt_random_below(bwt_random *r, int n)
{
    return (int)(next(r) % (uint64_t)n);
}

bool bwt_random_chance(bwt_random *r, double probability)
{
    return bwt_random_between(r, 0.0, 1.0) < probability;
}

/* 10 to a power between low and high. */
static double decade(bwt_random *r, double low, double high)
{
    return pow(10.0, bwt_random_between(r, low, high));
}

/* ---- members ---- */

/* A log with flats, hollow, or both; now and then alike along the member, or a flat that
 * runs out at one end. */
static void random_shape(bwt_random *r, bw_member *m)
{
    bw_section *const ends[2] = {&m->section_i, &m->section_j};
    const bool top = bwt_random_chance(r, 0.6), bottom = bwt_random_chance(r, 0.4);
    const bool hollow = bwt_random_chance(r, 0.4), alike = bwt_random_chance(r, 0.2);
    const double part_top = bwt_random_between(r, 0.02, hollow ? 0.2 : 0.5);
    const double part_bottom = bwt_random_between(r, 0.02, 0.2);
    const double part_bore = bwt_random_between(r, 0.1, 0.55);
    for (int e = 0; e < 2; e++) {
        const double d = ends[e]->diameter;
        const double less = alike ? 1.0 : bwt_random_between(r, 0.3, 1.0);
        const bool runs_out = !alike && e == 1 && bwt_random_chance(r, 0.2);
        ends[e]->flat_top = top && !runs_out ? part_top * less * d : 0.0;
        ends[e]->flat_bottom = bottom ? part_bottom * less * d : 0.0;
        ends[e]->bore = hollow ? part_bore * less * d : 0.0;
    }
}

static void random_sections(bwt_random *r, bw_member *m)
{
    if (bwt_random_chance(r, 0.2)) {
        const double b = bwt_random_between(r, 0.05, 0.25);
        const double h = bwt_random_between(r, 0.08, 0.3);
        m->section_i = bw_section_given(b * h, b * h * h * h / 12.0, b * h * h / 6.0);
        m->section_j = m->section_i;
    } else {
        m->section_i = bw_section_round(bwt_random_between(r, 0.1, 0.35));
        m->section_j = bwt_random_chance(r, 0.2)
                           ? m->section_i
                           : bw_section_round(bwt_random_between(r, 0.1, 0.35));
        if (bwt_random_chance(r, 0.35)) {
            random_shape(r, m);
        }
    }
}

static double random_joint(bwt_random *r, const bw_member *m, double length)
{
    const double bending = m->modulus * bw_section_second_moment(&m->section_i) / length;
    return bwt_random_chance(r, 0.2) ? bending * decade(r, -1.0, 2.0) : 0.0;
}

static bw_member *add_member(bwt_random *r, bwt_sketch *s, int node_a, int node_b)
{
    const int k = s->n_members++;
    bw_member *m = &s->members[k];
    *m = (bw_member){0};
    const bool forward = bwt_random_chance(r, 0.5);
    m->node_i = forward ? node_a : node_b;
    m->node_j = forward ? node_b : node_a;
    random_sections(r, m);
    m->modulus = bwt_random_between(r, 5e9, 1.5e10);
    m->density = bwt_random_between(r, 350.0, 1100.0);
    if (bwt_random_chance(r, 0.75)) {
        m->shear_modulus = m->modulus / bwt_random_between(r, 10.0, 20.0);
        m->kappa = bwt_random_between(r, 0.8, 1.0);
    }
    m->turn_spring_i = random_joint(r, m, bwt_member_length(s, k));
    m->turn_spring_j = random_joint(r, m, bwt_member_length(s, k));
    return m;
}

static void grow_tree(bwt_random *r, bwt_sketch *s)
{
    const int n = 2 + bwt_random_below(r, 9);
    const bool square = bwt_random_chance(r, 0.4); /* upright and level members only */
    s->nodes[0] = (bwt_point){bwt_random_between(r, -3.0, 3.0), 0.0};
    s->n_nodes = 1;
    while (s->n_nodes < n) {
        const int parent = bwt_random_below(r, s->n_nodes);
        const double length = bwt_random_between(r, 0.6, 4.0);
        const double angle =
            square ? 0.5 * pi * bwt_random_below(r, 4) : bwt_random_between(r, -pi, pi);
        s->nodes[s->n_nodes].x = s->nodes[parent].x + length * cos(angle);
        s->nodes[s->n_nodes].y = s->nodes[parent].y + length * sin(angle);
        s->n_nodes++;
        add_member(r, s, parent, s->n_nodes - 1);
    }
}

static double distance(const bwt_sketch *s, int a, int b)
{
    return hypot(s->nodes[b].x - s->nodes[a].x, s->nodes[b].y - s->nodes[a].y);
}

/* Members more than the tree needs: whatever they let go, the tree still holds. */
static void close_rings(bwt_random *r, bwt_sketch *s)
{
    for (int tries = bwt_random_below(r, 6); tries > 0; tries--) {
        const int a = bwt_random_below(r, s->n_nodes);
        const int b = bwt_random_below(r, s->n_nodes);
        if (a == b || distance(s, a, b) < 0.5) {
            continue;
        }
        bw_member *m = add_member(r, s, a, b);
        m->hinge_i = bwt_random_chance(r, 0.4);
        m->hinge_j = bwt_random_chance(r, 0.4);
        m->slides = !(m->hinge_i && m->hinge_j) && bwt_random_chance(r, 0.2);
        m->turn_spring_i = m->hinge_i ? 0.0 : m->turn_spring_i;
        m->turn_spring_j = m->hinge_j ? 0.0 : m->turn_spring_j;
    }
}

/* ---- supports ---- */

static bw_support *add_support(bwt_sketch *s, int node, double angle)
{
    bw_support *p = &s->supports[s->n_supports++];
    *p = (bw_support){.node = node, .angle = angle};
    return p;
}

static void add_pin(bwt_random *r, bwt_sketch *s, int node)
{
    const bool level = bwt_random_chance(r, 0.5);
    bw_support *p = add_support(s, node, level ? 0.0 : bwt_random_between(r, -pi, pi));
    p->fix[0] = true;
    p->fix[1] = true;
    p->spring[2] = bwt_random_chance(r, 0.3) ? decade(r, 4.0, 6.0) : 0.0;
}

static void add_springs(bwt_random *r, bwt_sketch *s, int node)
{
    bw_support *p = add_support(s, node, bwt_random_between(r, -pi, pi));
    p->spring[0] = decade(r, 5.0, 7.0);
    p->spring[1] = decade(r, 5.0, 7.0);
    p->spring[2] = decade(r, 4.0, 6.0);
}

/* A node far enough from node 0 to hold the turning about it, or -1. */
static int far_node(bwt_random *r, const bwt_sketch *s)
{
    const int n = 1 + bwt_random_below(r, s->n_nodes - 1);
    return distance(s, 0, n) > 0.5 ? n : -1;
}

/* Node 0 pinned and a roller elsewhere that does not point at node 0. */
static void add_roller(bwt_random *r, bwt_sketch *s, int node)
{
    const double towards =
        atan2(s->nodes[node].y - s->nodes[0].y, s->nodes[node].x - s->nodes[0].x);
    bw_support *p = add_support(s, node, towards + bwt_random_between(r, -1.0, 1.0));
    p->fix[1] = true;
    p->spring[0] = bwt_random_chance(r, 0.3) ? decade(r, 4.0, 6.0) : 0.0;
}

static void hold(bwt_random *r, bwt_sketch *s)
{
    const int second = far_node(r, s);
    const int pattern = second < 0 ? 0 : bwt_random_below(r, 4);
    if (pattern == 0) {
        add_pin(r, s, 0);
        s->supports[0].fix[2] = true;
        s->supports[0].spring[2] = 0.0;
    } else if (pattern == 1) {
        add_pin(r, s, 0);
        add_pin(r, s, second);
    } else if (pattern == 2) {
        add_pin(r, s, 0);
        add_roller(r, s, second);
    } else {
        add_springs(r, s, 0);
    }
    for (int n = 1; n < s->n_nodes; n++) { /* more than needed */
        const bool taken = s->n_supports > 1 && n == s->supports[1].node;
        if (!taken && bwt_random_chance(r, 0.1)) {
            add_pin(r, s, n);
            s->supports[s->n_supports - 1].fix[bwt_random_below(r, 3)] = true;
        } else if (!taken && bwt_random_chance(r, 0.1)) {
            add_springs(r, s, n);
        }
    }
}

void bwt_sketch_random(bwt_random *r, bwt_sketch *out)
{
    *out = (bwt_sketch){0};
    grow_tree(r, out);
    close_rings(r, out);
    hold(r, out);
}

void bwt_sketch_settle_random(bwt_random *r, bwt_sketch *s)
{
    for (int k = 0; k < s->n_supports; k++) {
        for (int c = 0; c < 3; c++) {
            if (s->supports[k].fix[c] && bwt_random_chance(r, 0.5)) {
                s->supports[k].settle[c] = bwt_random_between(r, -0.01, 0.01);
            }
        }
    }
}

void bwt_sketch_lean_random(bwt_random *r, bwt_sketch *s)
{
    for (int k = 0; k < s->n_members; k++) {
        s->members[k].lean = bwt_random_between(r, -0.02, 0.02);
        s->members[k].bow = bwt_member_length(s, k) * bwt_random_between(r, -0.01, 0.01);
    }
}

/* ---- loads ---- */

static void load_point(bwt_random *r, bw_member_load *w, double length)
{
    w->kind = BW_LOAD_POINT;
    w->a = bwt_random_chance(r, 0.15) ? (bwt_random_chance(r, 0.5) ? 0.0 : length)
                                      : length * bwt_random_between(r, 0.03, 0.97);
    w->b = w->a;
    w->local = bwt_random_chance(r, 0.3);
    w->x[0] = bwt_random_between(r, -3000.0, 3000.0);
    w->y[0] = bwt_random_between(r, -5000.0, 1000.0);
    w->moment = bwt_random_chance(r, 0.4) ? bwt_random_between(r, -900.0, 900.0) : 0.0;
}

static void load_line(bwt_random *r, bw_member_load *w, double length)
{
    w->kind = BW_LOAD_LINE;
    w->a = bwt_random_chance(r, 0.4) ? 0.0 : length * bwt_random_between(r, 0.0, 0.45);
    w->b = bwt_random_chance(r, 0.4) ? length : length * bwt_random_between(r, 0.55, 1.0);
    w->local = bwt_random_chance(r, 0.3);
    w->per_plan_length = !w->local && bwt_random_chance(r, 0.3);
    for (int k = 0; k < 2; k++) {
        w->x[k] = bwt_random_between(r, -800.0, 800.0);
        w->y[k] = bwt_random_between(r, -2000.0, 400.0);
    }
}

static void load_node(bwt_random *r, bwt_sketch *s, bwt_load *l)
{
    l->kind = BWT_LOAD_NODE;
    l->node = bwt_random_below(r, s->n_nodes);
    l->fx = bwt_random_between(r, -3000.0, 3000.0);
    l->fy = bwt_random_between(r, -5000.0, 1000.0);
    l->moment = bwt_random_between(r, -900.0, 900.0);
}

void bwt_sketch_load_random(bwt_random *r, bwt_sketch *s, int load_case, bool own_weight)
{
    for (int left = 2 + bwt_random_below(r, 5); left > 0; left--) {
        bwt_load *l = &s->loads[s->n_loads++];
        *l = (bwt_load){.load_case = load_case};
        const int k = bwt_random_below(r, s->n_members);
        if (bwt_random_chance(r, 0.25)) {
            load_node(r, s, l);
            continue;
        }
        l->kind = BWT_LOAD_MEMBER;
        l->on_member.member = k;
        if (bwt_random_chance(r, 0.5)) {
            load_point(r, &l->on_member, bwt_member_length(s, k));
        } else {
            load_line(r, &l->on_member, bwt_member_length(s, k));
        }
    }
    if (own_weight) {
        s->loads[s->n_loads++] = (bwt_load){.kind = BWT_LOAD_SELF,
                                            .load_case = load_case,
                                            .factor = bwt_random_between(r, 0.9, 1.4)};
    }
}
