/* Lowest lambda at which K(lambda) is singular.
 *
 * Estimate: (-K') phi = mu K(0) phi, mu = 1 / lambda, with K' = dK/dlambda at 0 (the
 * geometric stiffness), by LAPACK's generalised eigenvalues: close where bending governs,
 * too high where shear does, as K' changes with lambda. The factor itself lies between a
 * lambda under which the frame stands (see stability.c) and one under which it does not;
 * the softness b' K^-1 b, which grows as 1 / (factor - lambda), says where to look next.
 */
#include "stability.h"

#include <math.h>
#include <string.h>

enum { CUTS = 4, ESTIMATE_MAX = 600 };

/* Axial forces below this part of the largest are rounding. */
static const double negligible = 1e-12;

static double largest_axial(const bwi_columns *c, const bw_state *s)
{
    double most = 0.0;
    for (size_t k = 0; k < c->frame->n_members; k++) {
        for (int j = 0; j < 6; j++) {
            const double per = j % 3 == 2 ? c->frame->members[k].length : 1.0;
            most = fmax(most, fabs(s->end[k][j]) / per);
        }
    }
    return most;
}

/* Least Euler load of a part of the members, as if pinned: pi^2 EI / (L^2 N). */
static double smallest_euler(const bwi_columns *c, const bw_state *s)
{
    const double floor = negligible * largest_axial(c, s);
    double least = HUGE_VAL;
    for (size_t k = 0; k < c->frame->n_members; k++) {
        const bwi_member *m = &c->frame->members[k];
        const bwi_column column = {
            .gauss = &c->gauss, .m = m, .line = c->lines[k], .scale = 1.0};
        const double press = bwi_column_press(&column);
        const double most = fmax(bwi_member_compliance(m, 0.0).bending,
                                 bwi_member_compliance(m, m->length).bending);
        if (press > floor) {
            least = fmin(least, BWI_PI * BWI_PI / (most * m->length * m->length * press));
        }
    }
    return least;
}

/* Generalised eigenvalue at a small difference step. 0 if nothing buckles or the frame is
 * too large. */
static bw_status estimate(const bwi_columns *c, double step, double *lambda)
{
    const size_t size = ((size_t)c->system.half_band + 1) * (size_t)c->system.n;
    *lambda = 0.0;
    if (c->system.n > ESTIMATE_MAX) {
        return BW_OK;
    }
    double *K = BW_NEW(c->arena, double, size), *ahead = BW_NEW(c->arena, double, size);
    double *geometric = BW_NEW(c->arena, double, size);
    double *x = BW_NEW(c->arena, double, c->system.n);
    if (K == NULL || ahead == NULL || geometric == NULL || x == NULL) {
        return BW_E_MEMORY;
    }
    bwi_columns_assemble(c, step, ahead);
    bwi_columns_assemble(c, -step, geometric);
    bwi_columns_assemble(c, 0.0, K);
    for (size_t k = 0; k < size; k++) {
        geometric[k] = (geometric[k] - ahead[k]) / (2.0 * step); /* -K' */
    }
    double mu = 0.0;
    BW_TRY(bwi_largest_eigenvalue(c->system.n, c->system.half_band, geometric, K,
                                  c->arena, &mu, x));
    *lambda = mu > 0.0 ? 1.0 / mu : 0.0;
    return BW_OK;
}

/* ---- search ---- */

/* Of the last two places at which the frame stood: the place and 1 / (b' K^-1 b). */
typedef struct {
    bwi_columns *c;
    double low, high; /* stands, does not stand */
    double at[2], stiffness[2];
    int n, made;
} search;

/* Without symmetry, so that none can hide the lowest shape. */
static double pattern(int k)
{
    return 1.0 + 0.25 * (k % 7);
}

static bw_status note_stiffness(search *s, double lambda)
{
    const bwi_system *system = &s->c->system;
    double *x = BW_NEW(s->c->arena, double, system->n + 1);
    if (x == NULL) {
        return BW_E_MEMORY;
    }
    double softness = 0.0;
    for (int k = 0; k < system->n; k++) {
        x[k] = pattern(k) / system->scale[k];
    }
    bwi_band_solve(system, x, system->n > 0 ? 1 : 0);
    for (int k = 0; k < system->n; k++) {
        softness += x[k] * pattern(k) / system->scale[k];
    }
    if (s->made != s->c->made) {
        s->n = 0; /* other unknowns, another measure */
        s->made = s->c->made;
    }
    s->at[0] = s->at[1];
    s->stiffness[0] = s->stiffness[1];
    s->at[1] = lambda;
    s->stiffness[1] = softness > 0.0 ? 1.0 / softness : 0.0;
    s->n++;
    return BW_OK;
}

static bw_status probe(search *s, double lambda)
{
    bool stands = false;
    BW_TRY(bwi_columns_stand(s->c, lambda, &stands));
    if (!stands) {
        s->high = lambda;
        return BW_OK;
    }
    s->low = lambda;
    return note_stiffness(s, lambda);
}

static bw_status bracket(search *s, double guess)
{
    double at = 0.98 * guess, step = 1.04;
    for (int k = 0; k < 400 && (s->low == 0.0 || isinf(s->high)); k++) {
        BW_TRY(probe(s, at));
        at = isinf(s->high) ? s->low * step : s->high * 0.6;
        step = 1.6;
    }
    return BW_OK;
}

/* Where the stiffness, straight through the last two places, runs out; NaN if they do not
 * say. */
static double predicted(const search *s)
{
    const double fall = s->stiffness[0] - s->stiffness[1];
    if (s->n < 2 || !(fall > 0.0)) {
        return (double)NAN;
    }
    const double p = s->at[1] + s->stiffness[1] * (s->at[1] - s->at[0]) / fall;
    return p > s->low && p < s->high ? p : (double)NAN;
}

static bw_status narrow(search *s)
{
    const double resolution = 1e-13;
    double last = (double)NAN;
    for (int k = 0; k < 100 && s->high - s->low > resolution * s->high; k++) {
        const double width = s->high - s->low, p = predicted(s);
        const double doubt =
            fmax(isnan(last) ? 0.1 * width : 2.0 * fabs(p - last), resolution * s->high);
        last = p;
        if (p - doubt > s->low) {
            BW_TRY(probe(s, p - doubt));
        }
        if (p + doubt < s->high) { /* above low: p lay above it */
            BW_TRY(probe(s, p + doubt));
        }
        if (!(s->high - s->low < 0.25 * width)) {
            BW_TRY(probe(s, s->low + (s->high - s->low) / 2.0));
        }
    }
    return BW_OK;
}

/* Shape by inverse iteration just below the edge; left alone if it does not stand there.
 */
static bw_status sharpen(bwi_columns *c, double lambda, double *x)
{
    bool stands = false;
    BW_TRY(bwi_columns_stand(c, lambda * (1.0 - 1e-7), &stands));
    if (!stands) {
        return BW_OK;
    }
    for (int k = 0; k < c->system.n; k++) {
        x[k] = pattern(k) * c->system.scale[k];
    }
    for (int step = 0; step < 4; step++) {
        bwi_band_solve(&c->system, x, 1);
        double most = 0.0;
        for (int k = 0; k < c->system.n; k++) {
            most = fmax(most, fabs(x[k]));
        }
        for (int k = 0; k < c->system.n && most > 0.0; k++) {
            x[k] /= most;
        }
    }
    return BW_OK;
}

static bw_motion motion_of(const bwi_node *n, const double *x)
{
    double own[3];
    for (int j = 0; j < 3; j++) {
        own[j] = n->equation[j] >= 0 ? x[n->equation[j]] : 0.0;
    }
    return (bw_motion){n->cosine * own[0] - n->sine * own[1],
                       n->sine * own[0] + n->cosine * own[1], own[2]};
}

/* Shape at the frame's own nodes, the largest shift anywhere being 1. */
static void read_mode(const bwi_columns *c, const double *x, bw_motion *mode)
{
    double most = 0.0;
    for (size_t k = 0; k < c->fine->n_nodes; k++) {
        const bw_motion m = motion_of(&c->fine->nodes[k], x);
        most = fmax(most, hypot(m.x, m.y));
    }
    for (size_t k = 0; k < c->frame->n_nodes && most > 0.0; k++) {
        mode[k] = motion_of(&c->fine->nodes[k], x);
        mode[k].x /= most;
        mode[k].y /= most;
        mode[k].r /= most;
    }
}

static double across(const bwi_member *m, const bw_motion *shift)
{
    return m->cosine * shift->y - m->sine * shift->x;
}

/* Members cut in two: how far their middles go off the line between their ends. */
static void read_bows(const bwi_columns *c, const double *x, const bw_motion *mode,
                      double *bow)
{
    double most = 0.0;
    for (size_t k = 0; k < c->fine->n_nodes; k++) {
        const bw_motion m = motion_of(&c->fine->nodes[k], x);
        most = fmax(most, hypot(m.x, m.y));
    }
    for (size_t k = 0; k < c->n_parts && most > 0.0; k++) {
        const bwi_part_column *part = &c->parts[k];
        const bwi_member *m = &c->frame->members[part->member];
        if (part->node_j < (int)c->frame->n_nodes) {
            continue; /* the end of the member */
        }
        const bw_motion own = motion_of(&c->fine->nodes[part->node_j], x);
        const double t = part->to / m->length;
        const double off = across(m, &own) / most -
                           (1.0 - t) * across(m, &mode[m->m.node_i]) -
                           t * across(m, &mode[m->m.node_j]);
        bow[part->member] = fabs(off) > fabs(bow[part->member]) ? off : bow[part->member];
    }
}

/* The shape at the factor, of members cut in two: what bows between still nodes shows. */
static bw_status find_shape(bw_frame *f, const bw_state *s, bw_arena *arena,
                            bw_buckling *out, bw_motion *mode, double *bow)
{
    bwi_columns c;
    BW_TRY(bwi_columns_make(f, s, 2, arena, &c));
    bool stands = false;
    BW_TRY(bwi_columns_stand(&c, out->factor * (1.0 - 1e-7), &stands));
    double *x = BW_NEW(arena, double, c.system.n + 1); /* standing may cut further */
    if (x == NULL) {
        return BW_E_MEMORY;
    }
    BW_TRY(sharpen(&c, out->factor, x));
    read_mode(&c, x, mode);
    read_bows(&c, x, mode, bow);
    out->mode = mode;
    out->bow = bow;
    return BW_OK;
}

static bw_status find_estimate(bw_frame *f, const bw_state *s, double euler,
                               bw_arena *arena, double *lambda)
{
    bwi_columns c;
    BW_TRY(bwi_columns_make(f, s, CUTS, arena, &c));
    return estimate(&c, 1e-4 * euler, lambda);
}

/* out->factor is HUGE_VAL yet, and stays so if nothing is pressed together. */
static bw_status find(bw_frame *f, const bw_state *s, bw_arena *arena, bw_motion *mode,
                      double *bow, bw_buckling *out)
{
    bwi_columns c;
    BW_TRY(bwi_columns_make(f, s, 1, arena, &c));
    const double euler = smallest_euler(&c, s);
    if (!isfinite(euler)) {
        return BW_OK;
    }
    BW_TRY(find_estimate(f, s, euler, arena, &out->estimate));
    search where = {.c = &c, .high = HUGE_VAL};
    BW_TRY(bracket(&where, out->estimate > 0.0 ? out->estimate : euler));
    BW_TRY(narrow(&where));
    out->factor = where.low;
    return find_shape(f, s, arena, out, mode, bow);
}

bw_status bw_frame_stands(bw_frame *f, const bw_state *s, double factor, bw_arena *arena,
                          bool *out, bw_diags *d)
{
    *out = false;
    BW_TRY(bw_frame_factor(f, d));
    bwi_columns c;
    const bw_arena_mark mark = bw_arena_now(arena);
    bw_status status = bwi_columns_make(f, s, 1, arena, &c);
    if (status == BW_OK) {
        status = bwi_columns_stand(&c, factor, out);
    }
    bw_arena_back(arena, mark);
    return status;
}

void bw_state_press(const bw_state *s, double *press)
{
    for (size_t k = 0; k < s->frame->n_members; k++) {
        const double most = -bw_state_extremes(s, (int)k).axial_min.value;
        press[k] = isnan(press[k]) || most <= press[k] ? press[k] : most;
    }
}

bw_status bw_frame_stands_pressed(bw_frame *f, const double *press, double factor,
                                  bw_arena *arena, bool *out, bw_diags *d)
{
    *out = false;
    BW_TRY(bw_frame_factor(f, d));
    bwi_columns c;
    const bw_arena_mark mark = bw_arena_now(arena);
    const bw_status made = bwi_columns_pressed(f, press, arena, &c);
    const bw_status status = made == BW_OK ? bwi_columns_stand(&c, factor, out) : made;
    bw_arena_back(arena, mark);
    return status;
}

bw_status bw_frame_buckling(bw_frame *f, const bw_state *s, bw_arena *arena,
                            bw_buckling *out, bw_diags *d)
{
    *out = (bw_buckling){.factor = HUGE_VAL};
    BW_TRY(bw_frame_factor(f, d));
    bw_motion *mode = BW_NEW(arena, bw_motion, f->n_nodes);
    double *bow = BW_NEW(arena, double, f->n_members);
    if (mode == NULL || bow == NULL) {
        return BW_E_MEMORY;
    }
    const bw_arena_mark mark = bw_arena_now(arena);
    const bw_status status = find(f, s, arena, mode, bow, out);
    bw_arena_back(arena, mark);
    return status;
}
