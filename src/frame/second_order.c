/* Equilibrium in the bent shape: K(N) u = f with the axial forces N of the answer itself,
 * found by repeating (a few steps: N hardly depends on the bending). */
#include "poly.h"
#include "stability.h"

#include <math.h>

enum { STEPS_MAX = 60 };

/* What a curved member needs for reading: its start and axial force. */
typedef struct bwi_curved {
    bwi_beam_point start;
    double shift;
    bw_line line; /* of first order */
} bwi_curved;

typedef struct {
    bwi_columns c;
    const bw_state *first;
    bw_state *out;
    double *rhs, *balance;
} solver;

static void node_local(const solver *s, int member, int end, double out[3])
{
    const bwi_member *m = &s->c.frame->members[member];
    const int node = end == 0 ? m->m.node_i : m->m.node_j;
    const bw_motion g = bw_state_displacement(s->out, node);
    out[0] = m->cosine * g.x + m->sine * g.y;
    out[1] = m->cosine * g.y - m->sine * g.x;
    out[2] = g.r;
}

/* End actions of a member for the displacements of its nodes: N at i and j, R and M. */
static void member_ends(solver *s, size_t k)
{
    const bwi_column column = bwi_columns_part(&s->c, k, 1.0, true);
    const bwi_member *m = column.m;
    double a[3], b[3], own[4];
    node_local(s, (int)k, 0, a);
    node_local(s, (int)k, 1, b);
    const double node[4] = {a[1], a[2], b[1], b[2]};
    const bwi_column_stiffness stiff = bwi_column_stiff(&column);
    bwi_column_own(m, &stiff, node, own);
    double force[4];
    for (int i = 0; i < 4; i++) {
        force[i] = stiff.held[i];
        for (int j = 0; j < 4; j++) {
            force[i] += stiff.K[i][j] * own[j];
        }
    }
    /* N: as of first order plus what the elongation says beyond it */
    const double N_first = s->first->end[k][3];
    double first_a = 0.0, first_b = 0.0;
    const bw_motion ga = bw_state_displacement(s->first, m->m.node_i);
    const bw_motion gb = bw_state_displacement(s->first, m->m.node_j);
    first_a = m->cosine * ga.x + m->sine * ga.y;
    first_b = m->cosine * gb.x + m->sine * gb.y;
    const double more = m->ka * ((b[0] - a[0]) - (first_b - first_a));
    s->c.shift[k] = more;
    double *end = s->out->end[k];
    end[0] = s->first->end[k][0] + more;
    end[1] = force[0];
    end[2] = -force[1];
    end[3] = N_first + more;
    end[4] = -force[2];
    end[5] = force[3];
    s->out->curved[k] = (bwi_curved){
        {own[0], own[1], -force[1] + column.jumps[0][1], force[0] + column.jumps[0][0]},
        more,
        s->c.lines[k]};
}

/* Out-of-balance forces for the present displacements and axial forces. */
static void update(solver *s)
{
    const bw_frame *f = s->c.frame;
    for (size_t k = 0; k < f->n_members; k++) {
        member_ends(s, k);
    }
    bwi_state_balance(s->out, s->balance);
}

static double largest_change(const solver *s, const double *before)
{
    double change = 0.0, most = 0.0;
    for (size_t k = 0; k < s->c.frame->n_members; k++) {
        change = bwi_larger(change, fabs(s->c.shift[k] - before[k]));
        most = bwi_larger(most,
                          bwi_larger(fabs(s->out->end[k][0]), fabs(s->out->end[k][3])));
    }
    return most > 0.0 ? change / most : 0.0;
}

/* Largest free out-of-balance force over the largest action in the members. */
static double unbalance(const solver *s)
{
    const bw_frame *f = s->c.frame;
    double rest = 0.0, size = 0.0;
    for (size_t k = 0; k < 3 * f->n_nodes; k++) {
        if (f->nodes[k / 3].equation[k % 3] >= 0) {
            rest = bwi_larger(rest, fabs(s->balance[k]));
        }
    }
    for (size_t k = 0; k < f->n_members; k++) {
        for (int j = 0; j < 6; j++) {
            size = bwi_larger(size, fabs(s->out->end[k][j]));
        }
    }
    return size > 0.0 ? rest / size : 0.0;
}

/* One correction: K(N) du = what is out of balance. */
static bw_status correct(solver *s)
{
    const bw_frame *f = s->c.frame;
    if (f->system.n == 0) {
        return BW_OK;
    }
    bwi_columns_assemble(&s->c, 1.0, s->c.system.band);
    BW_TRY(bwi_band_factor(&s->c.system));
    for (size_t k = 0; k < 3 * f->n_nodes; k++) {
        const int eq = f->nodes[k / 3].equation[k % 3];
        if (eq >= 0) {
            s->rhs[s->c.fine->nodes[k / 3].equation[k % 3]] = s->balance[k];
        }
    }
    bwi_band_solve(&s->c.system, s->rhs, 1);
    for (size_t k = 0; k < 3 * f->n_nodes; k++) {
        const int eq = s->c.fine->nodes[k / 3].equation[k % 3];
        s->out->u[k] += eq >= 0 ? s->rhs[eq] : 0.0;
    }
    return BW_OK;
}

/* Members may have buckled between their nodes, which K over the nodes alone hides. */
static bw_status check_stands(const solver *s)
{
    bool stands = false;
    bwi_columns c = s->c;
    c.cuts = BW_NEW(c.arena, int, c.frame->n_members);
    if (c.cuts == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < c.frame->n_members; k++) {
        c.cuts[k] = s->c.cuts[k];
    }
    BW_TRY(bwi_columns_stand(&c, 1.0, &stands));
    return stands ? BW_OK : BW_E_MECHANISM;
}

static bw_status iterate(solver *s)
{
    const size_t n = s->c.frame->n_members;
    double *before = BW_NEW(s->out->arena, double, n);
    if (before == NULL) {
        return BW_E_MEMORY;
    }
    const double target = 1e-10; /* reached with steps that gain several digits each */
    update(s);
    for (int step = 0; step < STEPS_MAX; step++) {
        for (size_t k = 0; k < n; k++) {
            before[k] = s->c.shift[k];
        }
        BW_TRY(correct(s));
        update(s); /* N of the new shape; its K comes with the next step */
        s->out->residual = unbalance(s);
        if (largest_change(s, before) < target && s->out->residual < target) {
            return check_stands(s);
        }
    }
    return BW_E_MECHANISM;
}

static bw_status start_solver(solver *s, const bw_state *first, bw_arena *arena)
{
    bw_frame *f = first->frame;
    s->first = first;
    s->out = bwi_state_new(f, first->n_parts, first->n_extras, arena);
    s->balance = BW_NEW(arena, double, 3 * f->n_nodes);
    s->rhs = BW_NEW(arena, double, f->system.n + 1);
    if (s->out == NULL || s->balance == NULL || s->rhs == NULL) {
        return BW_E_MEMORY;
    }
    s->out->curved = BW_NEW(arena, bwi_curved, f->n_members);
    if (s->out->curved == NULL) {
        return BW_E_MEMORY;
    }
    for (size_t k = 0; k < first->n_parts; k++) {
        s->out->parts[k] = first->parts[k];
    }
    for (size_t k = 0; k < first->n_extras; k++) {
        s->out->extras[k] = first->extras[k];
    }
    for (size_t k = 0; k < 3 * f->n_nodes; k++) {
        s->out->u[k] = first->u[k] + first->u_low[k];
    }
    return bwi_columns_make(f, first, 1, arena, &s->c);
}

bw_status bw_state_second_order(const bw_state *first, bw_arena *arena, bw_state **out,
                                bw_diags *d)
{
    solver s = {0};
    *out = NULL;
    BW_TRY(start_solver(&s, first, arena));
    const bw_status status = iterate(&s);
    if (status == BW_E_MECHANISM) {
        bw_diags_error(d, "frame.unstable", NULL, "stiffen it, brace it, or load it less",
                       "the frame finds no equilibrium: it buckles under these loads");
    }
    *out = status == BW_OK ? s.out : NULL;
    return status;
}

bw_status bw_frame_second_order(bw_frame *f, const bw_part *parts, size_t n_parts,
                                bw_arena *arena, bw_state **out, bw_diags *d)
{
    BW_TRY(bw_frame_factor(f, d));
    const bw_state *first = bw_frame_state(f, parts, n_parts, arena);
    if (first == NULL) {
        return bw_arena_failed(arena) ? BW_E_MEMORY : BW_E_INTERNAL;
    }
    return bw_state_second_order(first, arena, out, d);
}

/* ---- reading a curved member ---- */

/* Quartic pieces through M and M' at both ends and M in the middle, 32 to a radian of
 * sqrt(N/EI): they follow M to about 1e-10 and V to 1e-9. Pieces too short to bend (loads
 * that end just short of the member's end) are straight. */
static void fit_piece(const bwi_beam_point p[3], const double slope[2], double length,
                      bwi_segment *s)
{
    const double h = s->to - s->from, a = p[0].moment, c = p[2].moment;
    const double u = slope[0] * h, v = slope[1] * h;
    if (h < 1e-8 * length) {
        s->M[0] = a;
        s->M[1] = s->V[0] = slope[0];
        return;
    }
    /* Hermite cubic of ends and slopes, plus k t^2 (1 - t)^2 to meet the middle */
    const double middle = (a + c) / 2.0 + (u - v) / 8.0;
    const double k = 16.0 * (p[1].moment - middle);
    s->M[0] = a;
    s->M[1] = slope[0];
    s->M[2] = (3.0 * (c - a) - 2.0 * u - v + k) / (h * h);
    s->M[3] = (2.0 * (a - c) + u + v - 2.0 * k) / (h * h * h);
    s->M[4] = k / (h * h * h * h);
    bwi_poly_derive(s->M, 4, s->V);
    bwi_poly_derive(s->V, 3, s->qy);
}

/* V = M' = g (R + N v0' + N theta) at a point, by the column itself: a short difference
 * would lose digits, so it is read from the equation. */
static double shear_at(const bwi_column *c, const bwi_beam_point *p, const bwi_segment *s,
                       double x)
{
    const double N = bwi_poly_value(s->N, 3, x - s->from) + c->shift;
    const double L = c->m->length;
    const double lean = c->m->m.lean + 4.0 * c->m->m.bow * (L - 2.0 * x) / (L * L);
    const double g = 1.0 / (1.0 + N * bwi_member_compliance(c->m, x).shear);
    return g * (p->force + N * (lean + p->turn));
}

static void fill_stretch(const bwi_column *c, const bwi_segment *first,
                         bwi_beam_point start, bwi_segment *out, int pieces,
                         bwi_beam_point *end)
{
    const double h = (first->to - first->from) / pieces;
    bwi_column part = *c;
    for (int k = 0; k < pieces; k++) {
        bwi_segment *s = &out[k];
        s->from = first->from + k * h;
        s->to = k + 1 == pieces ? first->to : s->from + h;
        part.from = s->from;
        part.to = s->to;
        const double middle = (s->from + s->to) / 2.0;
        const bwi_beam_point p[3] = {start, bwi_column_point(&part, &start, middle),
                                     bwi_column_point(&part, &start, s->to)};
        const double slope[2] = {shear_at(c, &p[0], first, s->from),
                                 shear_at(c, &p[2], first, s->to)};
        fit_piece(p, slope, c->m->length, s);
        bwi_poly_shift(first->N, 3, s->from - first->from, s->N);
        s->N[0] += c->shift;
        start = p[2];
    }
    *end = start;
}

/* Pieces for a stretch between loads. */
static int pieces_for(const bw_line *first, size_t k, double waves)
{
    const bwi_segment *s = &first->segments[k];
    const double length = first->frame->members[first->member].length;
    const double n = 8.0 + 32.0 * waves * (s->to - s->from) / length;
    return n < 256.0 ? (int)n : 256;
}

bw_line bwi_curved_line(const bw_state *s, int member, bw_arena *arena)
{
    bw_line line = {.frame = s->frame, .member = member};
    const bwi_curved *curved = &s->curved[member];
    bwi_collocation *gauss = BW_NEW(arena, bwi_collocation, 1);
    if (gauss == NULL) {
        return line;
    }
    bwi_collocation_fill(gauss);
    const bwi_column c = {.gauss = gauss,
                          .m = &s->frame->members[member],
                          .line = curved->line,
                          .scale = 1.0,
                          .shift = curved->shift,
                          .loaded = true};
    const double waves = bwi_column_waves(&c);
    size_t room = 0, n = 0;
    for (size_t k = 0; k < curved->line.n; k++) {
        room += (size_t)pieces_for(&curved->line, k, waves);
    }
    bwi_segment *segments = BW_NEW(arena, bwi_segment, room);
    if (segments == NULL) {
        return line;
    }
    bwi_beam_point start = curved->start;
    for (size_t k = 0; k < curved->line.n; k++) {
        const bwi_segment *first = &curved->line.segments[k];
        if (k > 0) { /* point loads and moments between the stretches */
            const bwi_segment *before = first - 1;
            const double h = before->to - before->from;
            start.force += first->V[0] - bwi_poly_value(before->V, 3, h);
            start.moment += first->M[0] - bwi_poly_value(before->M, 4, h);
        }
        const int pieces = pieces_for(&curved->line, k, waves);
        fill_stretch(&c, first, start, segments + n, pieces, &start);
        n += (size_t)pieces;
    }
    line.segments = segments;
    line.n = n;
    return line;
}
