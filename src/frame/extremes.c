/* Extremes where they really are: ends, jumps, and the roots of the polynomials that
 * vanish at stationary points. */
#include "internal.h"
#include "poly.h"

#include <math.h>

static void offer(bw_extreme *max, bw_extreme *min, double value, double x, bool first)
{
    if (first || value > max->value) {
        *max = (bw_extreme){value, x};
    }
    if (first || value < min->value) {
        *min = (bw_extreme){value, x};
    }
}

/* d(t) = d0 + d1 t over a segment; d1 = 0 for a given section. */
static void diameter_line(const bwi_member *m, const bwi_segment *s, double d[2])
{
    const bool tapers = m->m.section_i.kind == BW_SECTION_ROUND;
    d[0] = bwi_member_diameter(m, s->from);
    d[1] = tapers ? (m->m.section_j.diameter - m->m.section_i.diameter) / m->length : 0.0;
}

/* ---- stress ----
 *
 * Where all sizes of a section run alike, S ~ d^3, and M/S is stationary where a
 * polynomial vanishes. Any other shape is searched: a grid fine against what sections
 * along one log can do, and golden section beside every hump and dip of the grid. */

enum { GRID = 16, TURNS_MAX = 8 };

static double stress_at(const bwi_member *m, const bwi_segment *s, double t)
{
    const bw_section section = bwi_member_section(m, s->from + t);
    return bwi_poly_value(s->M, 4, t) / bw_section_modulus(&section);
}

/* Place of the largest of sign * M/S between two places with one hump. */
static double hump_between(const bwi_member *m, const bwi_segment *s, double sign,
                           double lo, double hi)
{
    const double golden = 0.61803398874989484820;
    double a = hi - golden * (hi - lo), b = lo + golden * (hi - lo);
    double at_a = sign * stress_at(m, s, a), at_b = sign * stress_at(m, s, b);
    for (int k = 0; k < 36; k++) {
        if (at_a > at_b) {
            hi = b;
            b = a;
            at_b = at_a;
            a = hi - golden * (hi - lo);
            at_a = sign * stress_at(m, s, a);
        } else {
            lo = a;
            a = b;
            at_a = at_b;
            b = lo + golden * (hi - lo);
            at_b = sign * stress_at(m, s, b);
        }
    }
    return (lo + hi) / 2.0;
}

static int stress_turns_searched(const bwi_member *m, const bwi_segment *s, double *t)
{
    const double h = s->to - s->from, near_end = 1e-4; /* of the first and last step */
    double place[GRID + 3], value[GRID + 3];
    for (int k = 0; k < GRID + 3; k++) {
        const double step = k == 1          ? near_end
                            : k == GRID + 1 ? GRID - near_end
                            : k > GRID + 1  ? GRID
                            : k > 0         ? k - 1
                                            : 0.0;
        place[k] = h * step / GRID;
        value[k] = stress_at(m, s, place[k]);
    }
    int n = 0;
    for (int k = 1; k < GRID + 2 && n < TURNS_MAX; k++) {
        const double before = value[k] - value[k - 1], after = value[k + 1] - value[k];
        if (before * after < 0.0) {
            t[n++] =
                hump_between(m, s, before > 0.0 ? 1.0 : -1.0, place[k - 1], place[k + 1]);
        }
    }
    return n;
}

/* M' d - 3 M d' = 0, a polynomial of degree 4. */
static int stress_turns(const bwi_member *m, const bwi_segment *s, double *t)
{
    double d[2], g[5];
    if (!bwi_member_is_similar(m)) {
        return stress_turns_searched(m, s, t);
    }
    diameter_line(m, s, d);
    for (int k = 0; k < 5; k++) {
        g[k] = -3.0 * d[1] * s->M[k];
        g[k] += k < 4 ? d[0] * s->V[k] : 0.0;
        g[k] += k > 0 ? d[1] * s->V[k - 1] : 0.0;
    }
    return bwi_poly_roots(g, 4, 0.0, s->to - s->from, t);
}

static void segment_extremes(const bwi_member *m, const bwi_segment *s, bool first,
                             bw_extremes *e)
{
    const double h = s->to - s->from;
    double t[2 + 3 + TURNS_MAX + 2 + 2] = {0.0, h};
    int n = 2;
    double slope[4];
    n += bwi_poly_roots(s->V, 3, 0.0, h, t + n);
    n += stress_turns(m, s, t + n);
    bwi_poly_derive(s->V, 3, slope);
    n += bwi_poly_roots(slope, 2, 0.0, h, t + n);
    bwi_poly_derive(s->N, 3, slope);
    n += bwi_poly_roots(slope, 2, 0.0, h, t + n);
    for (int k = 0; k < n; k++) {
        const double x = k == 1 ? s->to : s->from + t[k];
        const bw_action a = bwi_segment_action(s, x);
        const bw_section section = bwi_member_section(m, x);
        const double S = bw_section_modulus(&section);
        const bool start = first && k == 0;
        offer(&e->moment_max, &e->moment_min, a.moment, x, start);
        offer(&e->shear_max, &e->shear_min, a.shear, x, start);
        offer(&e->axial_max, &e->axial_min, a.axial, x, start);
        offer(&e->stress_max, &e->stress_min, S > 0.0 ? a.moment / S : 0.0, x, start);
    }
}

bw_extremes bw_line_extremes(const bw_line *line)
{
    const bwi_member *m = &line->frame->members[line->member];
    bw_extremes e = {0};
    for (size_t k = 0; k < line->n; k++) {
        segment_extremes(m, &line->segments[k], k == 0, &e);
    }
    if (line->n == 0) {
        const bw_extreme unknown = {(double)NAN, 0.0};
        e = (bw_extremes){unknown, unknown, unknown, unknown,
                          unknown, unknown, unknown, unknown};
    }
    return e;
}

static void sort(double *x, size_t n)
{
    for (size_t k = 1; k < n; k++) { /* insertion: nearly sorted already */
        const double value = x[k];
        size_t j = k;
        for (; j > 0 && x[j - 1] > value; j--) {
            x[j] = x[j - 1];
        }
        x[j] = value;
    }
}

size_t bw_line_stations(const bw_line *line, double *x, size_t room)
{
    size_t n = 0;
    for (size_t k = 0; k < line->n; k++) {
        const bwi_segment *s = &line->segments[k];
        double t[3 + TURNS_MAX + 2 + 2], slope[4];
        const double h = s->to - s->from;
        int turns = bwi_poly_roots(s->V, 3, 0.0, h, t);
        turns += stress_turns(&line->frame->members[line->member], s, t + turns);
        bwi_poly_derive(s->V, 3, slope);
        turns += bwi_poly_roots(slope, 2, 0.0, h, t + turns);
        bwi_poly_derive(s->N, 3, slope);
        turns += bwi_poly_roots(slope, 2, 0.0, h, t + turns);
        if (n < room) {
            x[n++] = s->from;
        }
        for (int j = 0; j < turns && n < room; j++) {
            x[n++] = s->from + t[j];
        }
    }
    if (n < room && line->n > 0) {
        x[n++] = line->segments[line->n - 1].to;
    }
    sort(x, n);
    return n;
}

/* ---- deflection: v' against the chord changes sign only once between
 * the places where v'' = M/EI - (V/(kappa G A))' does; times d^4 that is a polynomial.
 * ---- */

typedef struct {
    const bw_line *line;
    const bwi_segment *s;
    bw_motion start; /* relative to the chord */
} slope_context;

static bw_motion motion_at(const slope_context *k, double x)
{
    return bwi_line_advance(k->line, k->s, k->s->from, x, k->start);
}

/* Of the axis where it has moved so. */
static double slope_of(const slope_context *k, const bw_motion *moved, double x)
{
    const bwi_member *member = &k->line->frame->members[k->line->member];
    return moved->r -
           bwi_member_compliance(member, x).shear * bwi_segment_action(k->s, x).shear;
}

static double slope_from_chord(double x, const void *context)
{
    const bw_motion moved = motion_at(context, x);
    return slope_of(context, &moved, x);
}

/* v'' d^4 = 64/(pi E) M - 4/(pi kappa G) (q d^2 - 2 V d d') for a round section; for a
 * given one M/EI - q/(kappa G A). */
static int curvature_turns(const bwi_member *m, const bwi_segment *s, double *t)
{
    double d[2], g[5], q[5];
    if (!bwi_member_is_similar(m)) { /* no polynomial: steps too short for two turns */
        for (int k = 1; k < GRID; k++) {
            t[k - 1] = (s->to - s->from) * k / GRID;
        }
        return GRID - 1;
    }
    diameter_line(m, s, d);
    const bool tapers = m->m.section_i.kind == BW_SECTION_ROUND;
    const bwi_compliance c = bwi_member_compliance(m, s->from);
    const double scale = tapers ? d[0] * d[0] : 1.0;
    const double bending = c.bending * scale * scale, shear = c.shear * scale;
    const double square[3] = {tapers ? d[0] * d[0] : 1.0, 2.0 * d[0] * d[1], d[1] * d[1]};
    for (int k = 0; k < 5; k++) {
        q[k] = 0.0;
        for (int j = 0; j <= k && j < 3; j++) {
            q[k] += k - j < 3 ? square[j] * s->qy[k - j] : 0.0;
        }
        q[k] -= k < 4 ? 2.0 * d[0] * d[1] * s->V[k] : 0.0;
        q[k] -= k > 0 ? 2.0 * d[1] * d[1] * s->V[k - 1] : 0.0;
        g[k] = bending * s->M[k] - shear * q[k];
    }
    return bwi_poly_roots(g, 4, 0.0, s->to - s->from, t);
}

/* Of the length, to which the place of an extreme is sought: the sag is flat there. */
static const double close_by = 1e-9;

/* *end: the motion where the segment ends. */
static void segment_sag(const slope_context *k, bool first, bw_extreme *max,
                        bw_extreme *min, bw_motion *end)
{
    const bwi_segment *s = k->s;
    const double length = s->to - s->from;
    double edge[GRID + 2] = {0.0};
    const int n =
        curvature_turns(&k->line->frame->members[k->line->member], s, edge + 1) + 1;
    edge[n] = length;
    offer(max, min, k->start.y, s->from, first);
    double before = slope_of(k, &k->start, s->from);
    for (int j = 1; j <= n; j++) {
        const double a = s->from + edge[j - 1], b = j < n ? s->from + edge[j] : s->to;
        *end = motion_at(k, b);
        const double after = slope_of(k, end, b);
        if (before * after < 0.0) {
            const double x =
                bwi_bracketed_root(slope_from_chord, k, a, b, close_by * length);
            offer(max, min, motion_at(k, x).y, x, false);
        }
        before = after;
    }
    offer(max, min, end->y, s->to, false);
}

/* Extremes of one line that begins at *at, which moves on to its end. */
static void line_sag(const bw_line *line, bw_motion *at, bw_extreme *max, bw_extreme *min)
{
    *max = *min = (bw_extreme){(double)NAN, 0.0};
    for (size_t k = 0; k < line->n; k++) {
        const slope_context context = {line, &line->segments[k], *at};
        segment_sag(&context, k == 0, max, min, at);
    }
}

void bw_lines_sag_extremes(const bw_line *lines, size_t n, bw_extreme *max,
                           bw_extreme *min)
{
    *max = *min = (bw_extreme){(double)NAN, 0.0};
    for (size_t k = 0; k < n; k++) {
        if (lines[k].n == 0) {
            return;
        }
    }
    bw_motion at = {0.0, 0.0, bwi_lines_start_turn(lines, n)};
    double from = 0.0;
    for (size_t k = 0; k < n; k++) {
        bw_extreme high, low;
        line_sag(&lines[k], &at, &high, &low);
        offer(max, min, high.value, from + high.x, k == 0);
        offer(max, min, low.value, from + low.x, false);
        from += lines[k].frame->members[lines[k].member].length;
    }
}

void bw_line_sag_extremes(const bw_line *line, bw_extreme *max, bw_extreme *min)
{
    bw_lines_sag_extremes(line, 1, max, min);
}
