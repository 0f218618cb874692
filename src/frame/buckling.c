/* Lowest lambda at which K(lambda) is singular.
 *
 * Estimate and shape: (-K') phi = mu K(0) phi, mu = 1 / lambda, with K' = dK/dlambda at 0
 * (the geometric stiffness), by LAPACK's generalised eigenvalues. The factor itself:
 * K(lambda) is positive definite below the lowest critical factor and not above it
 * (Wittrick and Williams, Q. J. Mech. Appl. Math. 24, 1971, MEMORY: members are cut so
 * finely that none buckles between held nodes first), so Cholesky decides, and bisection
 * finds the edge to the last digits. */
#include "stability.h"

#include <math.h>
#include <string.h>

enum { CUTS = 4, ESTIMATE_MAX = 600 };

static bool stands(bwi_columns *c, double lambda)
{
    bwi_columns_assemble(c, lambda, c->system.band);
    return bwi_band_factor(&c->system) == BW_OK;
}

/* Least Euler load of a part of the members, as if pinned: pi^2 EI / (L^2 N). */
static double smallest_euler(const bwi_columns *c)
{
    double least = HUGE_VAL;
    for (size_t k = 0; k < c->frame->n_members; k++) {
        const bwi_member *m = &c->frame->members[k];
        const bwi_column column = {
            .gauss = &c->gauss, .m = m, .line = c->lines[k], .scale = 1.0};
        const double press = bwi_column_press(&column);
        const double most = fmax(bwi_member_compliance(m, 0.0).bending,
                                 bwi_member_compliance(m, m->length).bending);
        if (press > 0.0) {
            least = fmin(least, BWI_PI * BWI_PI / (most * m->length * m->length * press));
        }
    }
    return least;
}

/* Generalised eigenvalue at a small difference step; also leaves the shape in x (n
 * unknowns). 0 if nothing buckles or the frame is too large. */
static bw_status estimate(bwi_columns *c, double step, bw_arena *arena, double *lambda,
                          double *x)
{
    const size_t size = ((size_t)c->system.half_band + 1) * (size_t)c->system.n;
    *lambda = 0.0;
    if (c->system.n > ESTIMATE_MAX || c->system.n == 0) {
        return BW_OK;
    }
    double *K = BW_NEW(arena, double, size), *ahead = BW_NEW(arena, double, size);
    double *geometric = BW_NEW(arena, double, size);
    if (K == NULL || ahead == NULL || geometric == NULL) {
        return BW_E_MEMORY;
    }
    bwi_columns_assemble(c, step, ahead);
    bwi_columns_assemble(c, -step, geometric);
    bwi_columns_assemble(c, 0.0, K);
    for (size_t k = 0; k < size; k++) {
        geometric[k] = (geometric[k] - ahead[k]) / (2.0 * step); /* -K' */
    }
    double mu = 0.0;
    BW_TRY(bwi_largest_eigenvalue(c->system.n, c->system.half_band, geometric, K, arena,
                                  &mu, x));
    *lambda = mu > 0.0 ? 1.0 / mu : 0.0;
    return BW_OK;
}

/* Bracket from a guess, then bisection. */
static double edge(bwi_columns *c, double guess)
{
    double low = 0.98 * guess, high = 1.02 * guess;
    for (int k = 0; k < 200 && !stands(c, low); k++) {
        high = low;
        low *= 0.6;
    }
    for (int k = 0; k < 200 && stands(c, high); k++) {
        low = high;
        high *= 1.6;
    }
    for (int k = 0; k < 60; k++) {
        const double middle = low + (high - low) / 2.0;
        if (!(middle > low && middle < high)) {
            break;
        }
        *(stands(c, middle) ? &low : &high) = middle;
    }
    return low;
}

/* Shape by inverse iteration just below the edge, from the estimate's shape or from
 * unity. */
static void sharpen(bwi_columns *c, double lambda, double *x)
{
    if (!stands(c, lambda * (1.0 - 1e-7))) {
        return;
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
static bw_status read_mode(const bwi_columns *c, const double *x, bw_arena *arena,
                           bw_buckling *out)
{
    bw_motion *mode = BW_NEW(arena, bw_motion, c->frame->n_nodes);
    if (mode == NULL) {
        return BW_E_MEMORY;
    }
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
    out->mode = mode;
    return BW_OK;
}

bw_status bw_frame_stands(bw_frame *f, const bw_state *s, double factor, bw_arena *arena,
                          bool *out, bw_diags *d)
{
    BW_TRY(bw_frame_factor(f, d));
    bwi_columns c;
    const bw_arena_mark mark = bw_arena_now(arena);
    const bw_status status = bwi_columns_make(f, s, CUTS, arena, &c);
    *out = status == BW_OK && (c.system.n == 0 || stands(&c, factor));
    bw_arena_back(arena, mark);
    return status;
}

bw_status bw_frame_buckling(bw_frame *f, const bw_state *s, bw_arena *arena,
                            bw_buckling *out, bw_diags *d)
{
    BW_TRY(bw_frame_factor(f, d));
    *out = (bw_buckling){.factor = HUGE_VAL};
    bwi_columns c;
    BW_TRY(bwi_columns_make(f, s, CUTS, arena, &c));
    const double euler = smallest_euler(&c);
    double *x = BW_NEW(arena, double, c.system.n + 1);
    if (x == NULL) {
        return BW_E_MEMORY;
    }
    if (!isfinite(euler) || c.system.n == 0) {
        return BW_OK;
    }
    for (int k = 0; k < c.system.n; k++) {
        x[k] = 1.0 + 0.25 * (k % 7); /* no symmetry may hide the lowest shape */
    }
    BW_TRY(estimate(&c, 1e-4 * euler, arena, &out->estimate, x));
    out->factor = edge(&c, out->estimate > 0.0 ? out->estimate : euler);
    sharpen(&c, out->factor, x);
    return read_mode(&c, x, arena, out);
}
