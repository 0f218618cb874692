/* dN/dx = -qx, dV/dx = qy, dM/dx = V between loads; at a point load N drops by Fx, V
 * rises by Fy and M drops by the (anticlockwise) moment. */
#include "internal.h"
#include "poly.h"

#include <math.h>

static size_t insert_break(double *breaks, size_t n, double x)
{
    size_t k = n;
    while (breaks[k - 1] > x) { /* the first is 0, and no place lies before it */
        k--;
    }
    if (breaks[k - 1] == x) {
        return n;
    }
    for (size_t j = n; j > k; j--) {
        breaks[j] = breaks[j - 1];
    }
    breaks[k] = x;
    return n + 1;
}

static size_t collect_breaks(double *breaks, double length, const bwi_extra *pieces,
                             size_t n_pieces)
{
    breaks[0] = 0.0;
    breaks[1] = length;
    size_t n = 2;
    for (size_t k = 0; k < n_pieces; k++) {
        n = insert_break(breaks, n, pieces[k].piece.a);
        n = insert_break(breaks, n, pieces[k].piece.b);
    }
    return n;
}

static void add_jumps(double action[3], double x, const bwi_extra *pieces,
                      size_t n_pieces)
{
    for (size_t k = 0; k < n_pieces; k++) {
        const bwi_piece *p = &pieces[k].piece;
        if (p->is_point && p->a == x) {
            action[0] -= pieces[k].factor * p->qx[0];
            action[1] += pieces[k].factor * p->qy[0];
            action[2] -= pieces[k].factor * p->moment;
        }
    }
}

static void fill_segment(bwi_segment *s, const double action[3], const bwi_extra *pieces,
                         size_t n_pieces)
{
    double qx[3] = {0.0, 0.0, 0.0};
    for (size_t k = 0; k < n_pieces; k++) {
        const bwi_piece *p = &pieces[k].piece;
        if (!p->is_point && p->a <= s->from && p->b >= s->to) {
            double x[3], y[3];
            bwi_poly_shift(p->qx, 2, s->from - p->a, x);
            bwi_poly_shift(p->qy, 2, s->from - p->a, y);
            for (int j = 0; j < 3; j++) {
                qx[j] += pieces[k].factor * x[j];
                s->qy[j] += pieces[k].factor * y[j];
            }
        }
    }
    s->N[0] = action[0];
    s->V[0] = action[1];
    s->M[0] = action[2];
    for (int j = 0; j < 3; j++) {
        s->N[j + 1] = -qx[j] / (j + 1);
        s->V[j + 1] = s->qy[j] / (j + 1);
    }
    for (int j = 0; j < 4; j++) {
        s->M[j + 1] = s->V[j] / (j + 1);
    }
}

bwi_diagram bwi_diagram_make(bw_arena *arena, double length, const double start[3],
                             const bwi_extra *pieces, size_t n_pieces)
{
    bwi_diagram d = {0};
    double *breaks = BW_NEW(arena, double, 2 * n_pieces + 2);
    if (breaks == NULL) {
        return d;
    }
    const size_t n = collect_breaks(breaks, length, pieces, n_pieces) - 1;
    bwi_segment *segments = BW_NEW(arena, bwi_segment, n);
    if (segments == NULL) {
        return d;
    }
    d = (bwi_diagram){segments, n};
    double action[3] = {start[0], start[1], start[2]};
    for (size_t k = 0; k < n; k++) {
        bwi_segment *s = &segments[k];
        s->from = breaks[k];
        s->to = breaks[k + 1];
        add_jumps(action, s->from, pieces, n_pieces);
        fill_segment(s, action, pieces, n_pieces);
        action[0] = bwi_poly_value(s->N, 3, s->to - s->from);
        action[1] = bwi_poly_value(s->V, 3, s->to - s->from);
        action[2] = bwi_poly_value(s->M, 4, s->to - s->from);
    }
    return d;
}
