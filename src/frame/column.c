/* A tapered member under axial force N(x), by Engesser's theory:
 *
 *   v' = theta - s V,   theta' = M/EI,   M' = V = R + N (v' + v0'),   R' = q
 *
 * s = 1/(kappa G A); v0' the initial slope; R the transverse force in the direction of
 * the unbent member. Eliminating v': with g = 1/(1 + N s)
 *
 *   v' = g (theta - s (R + N v0')),   M' = g (R + N v0') + N g theta
 *
 * Linear, so end values are T y + p of the start values. Integrated by Gauss collocation
 * (8 stages, order 16; Hairer, Norsett and Wanner, Solving ODEs I, 1993, II.7, MEMORY)
 * on the panels that the integrals of the compliance use, cut to at most one radian of
 * sqrt(g N/EI): exact to rounding. There (8!)^2 / (16! 17!) = 2e-19 is what a radian of
 * waves leaves, and 8.55^-16 = 1e-15 what the taper does (see quadrature.c). */
#include "column.h"
#include "poly.h"
#include "quadrature.h"

#include <math.h>
#include <string.h>

enum {
    N = BWI_STAGES,
    PANELS_MAX = 64,
    COLUMNS = 4
}; /* theta, M, R at the start, loads */

/* Roots of P_8 and their weights on [-1, 1], to 20 digits (COMPUTED). */
static const double rule[N / 2][2] = {
    {0.96028985649753623168, 0.10122853629037625915},
    {0.79666647741362673959, 0.22238103445337447054},
    {0.52553240991632898582, 0.31370664587788728734},
    {0.18343464249564980494, 0.36268378337836198297},
};

static void legendre(double x, double *P)
{
    P[0] = 1.0;
    P[1] = x;
    for (int k = 1; k <= N; k++) {
        P[k + 1] = ((2 * k + 1) * x * P[k] - k * P[k - 1]) / (k + 1);
    }
}

/* A_ij = int_0^{c_i} l_j: the Lagrange polynomials written in Legendre's, whose integrals
 * are int_{-1}^x P_k = (P_{k+1} - P_{k-1}) / (2k + 1). */
void bwi_collocation_fill(bwi_collocation *g)
{
    bwi_point points[N];
    for (int i = 0; i < N; i++) {
        points[i].x = (i % 2 == 0 ? -1.0 : 1.0) * rule[i / 2][0];
        points[i].weight = rule[i / 2][1];
    }
    double P[N][N + 2];
    for (int i = 0; i < N; i++) {
        legendre(points[i].x, P[i]);
        g->c[i] = (1.0 + points[i].x) / 2.0;
        g->b[i] = points[i].weight / 2.0;
    }
    for (int i = 0; i < N; i++) {
        for (int j = 0; j < N; j++) {
            double sum = points[i].x + 1.0;
            for (int k = 1; k < N; k++) {
                sum += P[j][k] * (P[i][k + 1] - P[i][k - 1]);
            }
            g->A[i][j] = points[j].weight * sum / 4.0;
        }
    }
}

/* ---- one panel inside one segment of loads ---- */

typedef struct {
    const bwi_column *c;
    const bwi_segment *s; /* loads and N of the line */
    double x0, h;
} panel;

static double axial_at(const panel *p, double x)
{
    return p->c->scale * bwi_poly_value(p->s->N, 3, x - p->s->from) + p->c->shift;
}

/* int q from the panel's start to x. */
static double force_to(const panel *p, double x)
{
    if (!p->c->loaded) {
        return 0.0;
    }
    return bwi_poly_value(p->s->V, 3, x - p->s->from) -
           bwi_poly_value(p->s->V, 3, p->x0 - p->s->from);
}

static double initial_slope(const bwi_column *c, double x)
{
    const double L = c->m->length;
    return c->loaded ? c->m->m.lean + 4.0 * c->m->m.bow * (L - 2.0 * x) / (L * L) : 0.0;
}

typedef struct {
    double f, s, g, N, load; /* 1/EI, 1/GA_s, g, axial, int q + N v0' */
} stage;

static void fill_stages(const panel *p, stage *out)
{
    for (int i = 0; i < N; i++) {
        const double x = p->x0 + p->h * p->c->gauss->c[i];
        const bwi_compliance f = bwi_member_compliance(p->c->m, x);
        const double axial = axial_at(p, x);
        out[i] = (stage){.f = f.bending,
                         .s = f.shear,
                         .g = 1.0 / (1.0 + axial * f.shear),
                         .N = axial,
                         .load = force_to(p, x) + axial * initial_slope(p->c, x)};
    }
}

/* Solves A x = B in place for COLUMNS right-hand sides, rows pivoted. */
static void solve_dense(double A[N][N], double B[N][COLUMNS])
{
    for (int k = 0; k < N; k++) {
        int pivot = k;
        for (int i = k + 1; i < N; i++) {
            pivot = fabs(A[i][k]) > fabs(A[pivot][k]) ? i : pivot;
        }
        for (int j = 0; j < N && pivot != k; j++) {
            const double swap = A[k][j];
            A[k][j] = A[pivot][j];
            A[pivot][j] = swap;
        }
        for (int j = 0; j < COLUMNS && pivot != k; j++) {
            const double swap = B[k][j];
            B[k][j] = B[pivot][j];
            B[pivot][j] = swap;
        }
        for (int i = k + 1; i < N; i++) {
            const double factor = A[i][k] / A[k][k];
            for (int j = k + 1; j < N; j++) {
                A[i][j] -= factor * A[k][j];
            }
            for (int j = 0; j < COLUMNS; j++) {
                B[i][j] -= factor * B[k][j];
            }
        }
    }
    for (int k = N - 1; k >= 0; k--) {
        for (int j = 0; j < COLUMNS; j++) {
            for (int i = k + 1; i < N; i++) {
                B[k][j] -= A[k][i] * B[i][j];
            }
            B[k][j] /= A[k][k];
        }
    }
}

/* Force part of M' at a stage for each column: R is 1 in the third, the loads in the
 * last. */
static double column_force(const stage *s, int column)
{
    return column == 2 ? s->g : column == 3 ? s->g * s->load : 0.0;
}

/* Slopes theta at the stages for unit start values and for the loads:
 * theta = theta0 + h A f (M0 + h A (g R + N g theta)). */
static void stage_turns(const panel *p, const stage *s, double theta[N][COLUMNS])
{
    const bwi_collocation *g = p->c->gauss;
    double AF[N][N], M[N][COLUMNS], K[N][N];
    for (int i = 0; i < N; i++) {
        for (int c = 0; c < COLUMNS; c++) {
            M[i][c] = c == 1 ? 1.0 : 0.0;
            for (int j = 0; j < N; j++) {
                M[i][c] += p->h * g->A[i][j] * column_force(&s[j], c);
            }
        }
        for (int j = 0; j < N; j++) {
            AF[i][j] = p->h * g->A[i][j] * s[j].f;
        }
    }
    for (int i = 0; i < N; i++) {
        for (int c = 0; c < COLUMNS; c++) {
            theta[i][c] = c == 0 ? 1.0 : 0.0;
            for (int j = 0; j < N; j++) {
                theta[i][c] += AF[i][j] * M[j][c];
            }
        }
        for (int k = 0; k < N; k++) {
            K[i][k] = i == k ? 1.0 : 0.0;
            for (int j = 0; j < N; j++) {
                K[i][k] -= AF[i][j] * p->h * g->A[j][k] * s[k].N * s[k].g;
            }
        }
    }
    solve_dense(K, theta);
}

static bwi_transfer panel_transfer(const panel *p)
{
    stage s[N];
    double theta[N][COLUMNS];
    bwi_transfer t = {.T = {{1.0, 0.0, 0.0, 0.0}, {0.0}, {0.0}, {0.0, 0.0, 0.0, 1.0}}};
    const bwi_collocation *g = p->c->gauss;
    fill_stages(p, s);
    stage_turns(p, s, theta);
    double end[3][COLUMNS] = {{0.0}, {1.0, 0.0, 0.0, 0.0}, {0.0, 1.0, 0.0, 0.0}};
    for (int c = 0; c < COLUMNS; c++) {
        for (int i = 0; i < N; i++) {
            const double w = p->h * g->b[i];
            const double force = column_force(&s[i], c); /* g (R + N v0') */
            double M = c == 1 ? 1.0 : 0.0;
            for (int j = 0; j < N; j++) {
                M += p->h * g->A[i][j] *
                     (column_force(&s[j], c) + s[j].N * s[j].g * theta[j][c]);
            }
            end[0][c] += w * (s[i].g * theta[i][c] - s[i].s * force);
            end[1][c] += w * s[i].f * M;
            end[2][c] += w * (force + s[i].N * s[i].g * theta[i][c]);
        }
    }
    for (int row = 0; row < 3; row++) {
        for (int c = 0; c < 3; c++) {
            t.T[row][c + 1] = end[row][c];
        }
        t.p[row] = end[row][3];
    }
    t.p[3] = force_to(p, p->x0 + p->h);
    return t;
}

/* ---- panels in a row ---- */

/* after o before */
static bwi_transfer chain(const bwi_transfer *before, const bwi_transfer *after)
{
    bwi_transfer t = {0};
    for (int i = 0; i < 4; i++) {
        t.p[i] = after->p[i];
        for (int k = 0; k < 4; k++) {
            t.p[i] += after->T[i][k] * before->p[k];
            for (int j = 0; j < 4; j++) {
                t.T[i][j] += after->T[i][k] * before->T[k][j];
            }
        }
    }
    return t;
}

/* g N/EI at x, by size; HUGE_VAL where N overcomes the shear stiffness. */
static double wave_square(const panel *p, double x)
{
    const bwi_compliance f = bwi_member_compliance(p->c->m, x);
    const double axial = axial_at(p, x), shear = 1.0 + axial * f.shear;
    return shear > 0.0 ? fabs(axial) * f.bending / shear : HUGE_VAL;
}

static double largest_wave_square(const panel *p)
{
    const double a = wave_square(p, p->x0), b = wave_square(p, p->x0 + p->h);
    return fmax(wave_square(p, p->x0 + p->h / 2.0), fmax(a, b));
}

static int panels_needed(const panel *whole)
{
    const double n = 1.0 + whole->h * sqrt(largest_wave_square(whole));
    return n < PANELS_MAX ? (int)n : PANELS_MAX;
}

/* A stretch over which the section changes little. */
static bwi_transfer stretch_transfer(const bwi_column *c, const bwi_segment *s,
                                     double from, double to, const bwi_transfer *before)
{
    const panel whole = {c, s, from, to - from};
    const int n = panels_needed(&whole);
    bwi_transfer t = *before;
    for (int k = 0; k < n; k++) {
        const double x0 = from + (to - from) * k / n,
                     x1 = from + (to - from) * (k + 1) / n;
        const panel p = {c, s, x0, x1 - x0};
        const bwi_transfer step = panel_transfer(&p);
        t = chain(&t, &step);
    }
    return t;
}

static bwi_transfer segment_transfer(const bwi_column *c, const bwi_segment *s,
                                     double from, double to, const bwi_transfer *before)
{
    bwi_point points[BWI_GAUSS_POINTS * BWI_PANELS_MAX];
    const int n = bwi_member_points(c->m, from, to, points);
    bwi_transfer t = *before;
    double at = from;
    for (int k = 0; k < n; k += BWI_GAUSS_POINTS) {
        double length = 0.0; /* of this panel */
        for (int j = k; j < k + BWI_GAUSS_POINTS; j++) {
            length += points[j].weight;
        }
        const double end = k + BWI_GAUSS_POINTS < n ? fmin(at + length, to) : to;
        t = stretch_transfer(c, s, at, end, &t);
        at = end;
    }
    return t;
}

/* A point load or moment where a segment (not the first) starts: what V and M of first
 * order jump by. */
static void add_jump(const bwi_column *c, size_t k, bwi_transfer *t)
{
    const bwi_segment *s = &c->line.segments[k];
    if (!c->loaded) {
        return;
    }
    const bwi_segment *before = s - 1;
    const double h = before->to - before->from;
    t->p[3] += s->V[0] - bwi_poly_value(before->V, 3, h);
    t->p[2] += s->M[0] - bwi_poly_value(before->M, 4, h);
}

static void add_end_jump(const bwi_column *c, int end, bwi_transfer *t)
{
    if (c->loaded && c->jumps != NULL) {
        t->p[3] += c->jumps[end][0];
        t->p[2] += c->jumps[end][1];
    }
}

static bwi_transfer transfer_to(const bwi_column *c, double to)
{
    bwi_transfer t = {.T = {{1.0, 0.0, 0.0, 0.0},
                            {0.0, 1.0, 0.0, 0.0},
                            {0.0, 0.0, 1.0, 0.0},
                            {0.0, 0.0, 0.0, 1.0}}};
    if (c->from == 0.0) {
        add_end_jump(c, 0, &t);
    }
    for (size_t k = 0; k < c->line.n; k++) {
        const bwi_segment *s = &c->line.segments[k];
        const double a = fmax(s->from, c->from), b = fmin(s->to, to);
        if (!(b > a)) {
            continue;
        }
        if (s->from > c->from) {
            add_jump(c, k, &t);
        }
        t = segment_transfer(c, s, a, b, &t);
    }
    if (to == c->m->length) {
        add_end_jump(c, 1, &t);
    }
    return t;
}

bwi_transfer bwi_column_transfer(const bwi_column *c)
{
    return transfer_to(c, c->to);
}

bwi_beam_point bwi_column_point(const bwi_column *c, const bwi_beam_point *start,
                                double x)
{
    const bwi_transfer t = transfer_to(c, x);
    const double y[4] = {start->v, start->turn, start->moment, start->force};
    double out[4];
    for (int i = 0; i < 4; i++) {
        out[i] = t.p[i];
        for (int j = 0; j < 4; j++) {
            out[i] += t.T[i][j] * y[j];
        }
    }
    return (bwi_beam_point){out[0], out[1], out[2], out[3]};
}

/* What is left between a load and the end of a member when rounding parts them. */
static bool is_speck(const bwi_column *c, const panel *p)
{
    return p->h < 1e-9 * c->m->length;
}

double bwi_column_press(const bwi_column *c)
{
    double most = -HUGE_VAL;
    for (size_t k = 0; k < c->line.n; k++) {
        const bwi_segment *s = &c->line.segments[k];
        const panel p = {c, s, s->from, s->to - s->from};
        const double places[3] = {s->from, (s->from + s->to) / 2.0, s->to};
        for (int j = 0; j < 3 && !is_speck(c, &p); j++) {
            most = fmax(most, -axial_at(&p, places[j]));
        }
    }
    return most;
}

double bwi_column_waves(const bwi_column *c)
{
    double most = 0.0;
    for (size_t k = 0; k < c->line.n; k++) {
        const bwi_segment *s = &c->line.segments[k];
        const panel p = {c, s, s->from, s->to - s->from};
        most = is_speck(c, &p) ? most : fmax(most, largest_wave_square(&p));
    }
    return c->m->length * sqrt(most);
}

/* ---- stiffness ---- */

/* From d_j = T_dd d_i + T_df f_i + p_d: f_i = T_df^-1 (d_j - T_dd d_i - p_d), and f_j
 * from the lower half. End forces: along +y R at i and -R at j; anticlockwise -M at i and
 * M at j. */
bwi_column_stiffness bwi_column_stiff(const bwi_column *c)
{
    const bwi_transfer t = bwi_column_transfer(c);
    const double a = t.T[0][2], b = t.T[0][3], e = t.T[1][2], g = t.T[1][3];
    /* 0: pulled so hard that all digits are lost, or just at its own load: not known */
    const double loss = a * g - b * e, det = loss != 0.0 ? loss : (double)NAN;
    const double inverse[2][2] = {{g / det, -b / det}, {-e / det, a / det}};
    double f_i[2][5], f_j[2][5]; /* M, R over v_i, r_i, v_j, r_j and held */
    for (int col = 0; col < 5; col++) {
        double d[2]; /* d_j - T_dd d_i - p_d for a unit motion */
        for (int row = 0; row < 2; row++) {
            d[row] = col == row + 2 ? 1.0
                     : col < 2      ? -t.T[row][col]
                     : col == 4     ? -t.p[row]
                                    : 0.0;
        }
        for (int row = 0; row < 2; row++) {
            f_i[row][col] = inverse[row][0] * d[0] + inverse[row][1] * d[1];
        }
        for (int row = 0; row < 2; row++) {
            f_j[row][col] =
                t.T[row + 2][2] * f_i[0][col] + t.T[row + 2][3] * f_i[1][col] +
                (col < 2 ? t.T[row + 2][col] : 0.0) + (col == 4 ? t.p[row + 2] : 0.0);
        }
    }
    bwi_column_stiffness k;
    for (int col = 0; col < 5; col++) {
        const double end[4] = {f_i[1][col], -f_i[0][col], -f_j[1][col], f_j[0][col]};
        for (int row = 0; row < 4; row++) {
            *(col < 4 ? &k.K[row][col] : &k.held[row]) = end[row];
        }
    }
    return k;
}

/* Puts a joint between the member's end and the node: own turn t with k_tt t + ... = s (r
 * - t), eliminated. s = 0 for a hinge. */
static void join(bwi_column_stiffness *k, int end, double spring)
{
    const int t = 2 * end + 1;
    const double pivot = k->K[t][t] + spring;
    double row[4];
    memcpy(row, k->K[t], sizeof row);
    const double held = k->held[t];
    for (int i = 0; i < 4; i++) {
        for (int j = 0; j < 4; j++) {
            if (i != t && j != t) {
                k->K[i][j] -= row[i] * row[j] / pivot;
            }
        }
        if (i != t) {
            k->held[i] -= row[i] * held / pivot;
            k->K[i][t] = k->K[t][i] = spring * row[i] / pivot;
        }
    }
    k->K[t][t] = spring - spring * spring / pivot;
    k->held[t] = spring * held / pivot;
}

bwi_column_stiffness bwi_column_joined(const bwi_column *c, bool first, bool last)
{
    bwi_column_stiffness k = bwi_column_stiff(c);
    const bw_member *m = &c->m->m;
    if (first && (m->hinge_i || m->turn_spring_i > 0.0)) {
        join(&k, 0, m->hinge_i ? 0.0 : m->turn_spring_i);
    }
    if (last && (m->hinge_j || m->turn_spring_j > 0.0)) {
        join(&k, 1, m->hinge_j ? 0.0 : m->turn_spring_j);
    }
    return k;
}

void bwi_column_own(const bwi_column *c, const double node[4], double own[4])
{
    const bwi_column_stiffness k = bwi_column_stiff(c);
    const bw_member *m = &c->m->m;
    memcpy(own, node, 4 * sizeof *own);
    const bool loose_i = m->hinge_i || m->turn_spring_i > 0.0;
    const bool loose_j = m->hinge_j || m->turn_spring_j > 0.0;
    const double s_i = m->hinge_i ? 0.0 : m->turn_spring_i;
    const double s_j = m->hinge_j ? 0.0 : m->turn_spring_j;
    const double *a = k.K[1], *b = k.K[3];
    const double r_i = s_i * node[1] - k.held[1] - a[0] * node[0] - a[2] * node[2];
    const double r_j = s_j * node[3] - k.held[3] - b[0] * node[0] - b[2] * node[2];
    if (loose_i && loose_j) {
        const double p = a[1] + s_i, q = b[3] + s_j, det = p * q - a[3] * b[1];
        own[1] = (r_i * q - a[3] * r_j) / det;
        own[3] = (p * r_j - b[1] * r_i) / det;
    } else if (loose_i) {
        own[1] = (r_i - a[3] * node[3]) / (a[1] + s_i);
    } else if (loose_j) {
        own[3] = (r_j - b[1] * node[1]) / (b[3] + s_j);
    }
}
