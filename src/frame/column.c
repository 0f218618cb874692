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
 * waves leaves, and 8.55^-16 = 1e-15 what the taper does (see quadrature.c). Short panels
 * do with 4 stages: (4!)^2 / (8! 9!) / 16^9 = 6e-19 of a sixteenth of a radian, and
 * 78^-8 = 7e-16 of a twentieth more of diameter. */
#include "column.h"
#include "poly.h"
#include "quadrature.h"

#include <math.h>
#include <string.h>

enum { N = BWI_STAGES, PANELS_MAX = 64 };

/* Roots of P_8 and of P_4 and their weights on [-1, 1], to 20 digits (COMPUTED). */
static const double whole[BWI_STAGES / 2][2] = {
    {0.96028985649753623168, 0.10122853629037625915},
    {0.79666647741362673959, 0.22238103445337447054},
    {0.52553240991632898582, 0.31370664587788728734},
    {0.18343464249564980494, 0.36268378337836198297},
};
static const double few[BWI_FEW_STAGES / 2][2] = {
    {0.86113631159405257522, 0.34785484513745385737},
    {0.33998104358485626480, 0.65214515486254614263},
};

static void legendre(double x, int n, double *P)
{
    P[0] = 1.0;
    P[1] = x;
    for (int k = 1; k <= n; k++) {
        P[k + 1] = ((2 * k + 1) * x * P[k] - k * P[k - 1]) / (k + 1);
    }
}

/* A_ij = int_0^{c_i} l_j: the Lagrange polynomials written in Legendre's, whose integrals
 * are int_{-1}^x P_k = (P_{k+1} - P_{k-1}) / (2k + 1). */
static void fill_rule(int n, const double (*roots)[2], bwi_rule *g)
{
    bwi_point points[BWI_STAGES];
    double P[BWI_STAGES][BWI_STAGES + 2];
    g->n = n;
    for (int i = 0; i < n; i++) {
        points[i].x = (i % 2 == 0 ? -1.0 : 1.0) * roots[i / 2][0];
        points[i].weight = roots[i / 2][1];
        legendre(points[i].x, n, P[i]);
        g->c[i] = (1.0 + points[i].x) / 2.0;
        g->b[i] = points[i].weight / 2.0;
    }
    for (int i = 0; i < n; i++) {
        for (int j = 0; j < n; j++) {
            double sum = points[i].x + 1.0;
            for (int k = 1; k < n; k++) {
                sum += P[j][k] * (P[i][k + 1] - P[i][k - 1]);
            }
            g->A[i][j] = points[j].weight * sum / 4.0;
        }
    }
}

void bwi_collocation_fill(bwi_collocation *g)
{
    fill_rule(BWI_STAGES, whole, &g->whole);
    fill_rule(BWI_FEW_STAGES, few, &g->few);
}

/* ---- one panel inside one segment of loads ---- */

typedef struct {
    const bwi_column *c;
    const bwi_segment *s; /* loads and N of the line */
    double x0, h;
    const bwi_rule *rule;
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
    for (int i = 0; i < p->rule->n; i++) {
        const double x = p->x0 + p->h * p->rule->c[i];
        const bwi_compliance f = bwi_member_compliance(p->c->m, x);
        const double axial = axial_at(p, x);
        out[i] = (stage){.f = f.bending,
                         .s = f.shear,
                         .g = 1.0 / (1.0 + axial * f.shear),
                         .N = axial,
                         .load = force_to(p, x) + axial * initial_slope(p->c, x)};
    }
}

/* What is carried along the member: values at a place, and how much of the loads acts. */
typedef struct {
    bwi_beam_point y;
    double loads;
} course;

/* A = L U in place, rows pivoted. */
static void factor_dense(int n, double A[N][N], int pivot[N])
{
    for (int k = 0; k < n; k++) {
        pivot[k] = k;
        for (int i = k + 1; i < n; i++) {
            pivot[k] = fabs(A[i][k]) > fabs(A[pivot[k]][k]) ? i : pivot[k];
        }
        for (int j = 0; j < n && pivot[k] != k; j++) {
            const double swap = A[k][j];
            A[k][j] = A[pivot[k]][j];
            A[pivot[k]][j] = swap;
        }
        for (int i = k + 1; i < n; i++) {
            A[i][k] /= A[k][k];
            for (int j = k + 1; j < n; j++) {
                A[i][j] -= A[i][k] * A[k][j];
            }
        }
    }
}

static void solve_dense(int n, const double A[N][N], const int pivot[N], double b[N])
{
    for (int k = 0; k < n; k++) {
        const double swap = b[k];
        b[k] = b[pivot[k]];
        b[pivot[k]] = swap;
    }
    for (int k = 0; k < n; k++) {
        for (int j = 0; j < k; j++) {
            b[k] -= A[k][j] * b[j];
        }
    }
    for (int k = n - 1; k >= 0; k--) {
        for (int j = k + 1; j < n; j++) {
            b[k] -= A[k][j] * b[j];
        }
        b[k] /= A[k][k];
    }
}

/* 1 - h A f h A N g: what the slopes at the stages are multiplied with. */
static void stage_matrix(const panel *p, const stage *s, double K[N][N])
{
    const bwi_rule *g = p->rule;
    for (int i = 0; i < g->n; i++) {
        double row[N] = {0.0};
        for (int j = 0; j < g->n; j++) {
            const double part = g->A[i][j] * s[j].f;
            for (int k = 0; k < g->n; k++) {
                row[k] += part * g->A[j][k];
            }
        }
        for (int k = 0; k < g->n; k++) {
            K[i][k] = (i == k ? 1.0 : 0.0) - p->h * p->h * row[k] * s[k].N * s[k].g;
        }
    }
}

/* out = from + h A rate */
static void stage_sums(const panel *p, double from, const double rate[N], double out[N])
{
    for (int i = 0; i < p->rule->n; i++) {
        double sum = 0.0;
        for (int j = 0; j < p->rule->n; j++) {
            sum += p->rule->A[i][j] * rate[j];
        }
        out[i] = from + p->h * sum;
    }
}

/* Over the panel: theta = theta0 + h A f (M0 + h A (g (R + N v0') + N g theta)). */
static void carry(const panel *p, const stage *s, const double K[N][N],
                  const int pivot[N], course *at)
{
    double force[N], M[N], rate[N], theta[N];
    for (int i = 0; i < p->rule->n; i++) {
        force[i] = s[i].g * (at->y.force + at->loads * s[i].load);
    }
    stage_sums(p, at->y.moment, force, M);
    for (int i = 0; i < p->rule->n; i++) {
        rate[i] = s[i].f * M[i];
    }
    stage_sums(p, at->y.turn, rate, theta);
    solve_dense(p->rule->n, K, pivot, theta);
    for (int i = 0; i < p->rule->n; i++) {
        rate[i] = force[i] + s[i].N * s[i].g * theta[i];
    }
    stage_sums(p, at->y.moment, rate, M);
    for (int i = 0; i < p->rule->n; i++) {
        const double w = p->h * p->rule->b[i];
        at->y.v += w * (s[i].g * theta[i] - s[i].s * force[i]);
        at->y.turn += w * s[i].f * M[i];
        at->y.moment += w * rate[i];
    }
    at->y.force += at->loads * force_to(p, p->x0 + p->h);
}

static void carry_all(const panel *p, course *at, int n)
{
    stage s[N];
    double K[N][N];
    int pivot[N];
    fill_stages(p, s);
    stage_matrix(p, s, K);
    factor_dense(p->rule->n, K, pivot);
    for (int k = 0; k < n; k++) {
        carry(p, s, (const double(*)[N])K, pivot, &at[k]);
    }
}

/* ---- panels in a row ---- */

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

/* Whether few stages do: see the top. */
static bool is_short(const bwi_member *m, double x0, double x1, double waves)
{
    const double a = bwi_member_diameter(m, x0), b = bwi_member_diameter(m, x1);
    return bwi_member_is_similar(m) && waves < 1.0 / 16.0 && a < 1.05 * b && b < 1.05 * a;
}

/* A stretch over which the section changes little. */
static void carry_stretch(const bwi_column *c, const bwi_segment *s, double from,
                          double to, course *at, int n_courses)
{
    const panel all = {c, s, from, to - from, NULL};
    const double waves = all.h * sqrt(largest_wave_square(&all));
    const int n = 1.0 + waves < PANELS_MAX ? (int)(1.0 + waves) : PANELS_MAX;
    const bool few_do = n == 1 && is_short(c->m, from, to, waves);
    const bwi_rule *rule = few_do ? &c->gauss->few : &c->gauss->whole;
    for (int k = 0; k < n; k++) {
        const double x0 = from + (to - from) * k / n,
                     x1 = from + (to - from) * (k + 1) / n;
        const panel p = {c, s, x0, x1 - x0, rule};
        carry_all(&p, at, n_courses);
    }
}

static void carry_segment(const bwi_column *c, const bwi_segment *s, double from,
                          double to, course *at, int n_courses)
{
    bwi_point points[BWI_GAUSS_POINTS * BWI_PANELS_MAX];
    const int n = bwi_member_points(c->m, from, to, points);
    double start = from;
    for (int k = 0; k < n; k += BWI_GAUSS_POINTS) {
        double length = 0.0; /* of this panel */
        for (int j = k; j < k + BWI_GAUSS_POINTS; j++) {
            length += points[j].weight;
        }
        const double end = k + BWI_GAUSS_POINTS < n ? fmin(start + length, to) : to;
        carry_stretch(c, s, start, end, at, n_courses);
        start = end;
    }
}

static void add_jump(double force, double moment, course *at, int n_courses)
{
    for (int k = 0; k < n_courses; k++) {
        at[k].y.force += at[k].loads * force;
        at[k].y.moment += at[k].loads * moment;
    }
}

/* A point load or moment where a segment (not the first) starts: what V and M of first
 * order jump by. */
static void add_load_jump(const bwi_column *c, size_t k, course *at, int n_courses)
{
    const bwi_segment *s = &c->line.segments[k];
    if (!c->loaded) {
        return;
    }
    const bwi_segment *before = s - 1;
    const double h = before->to - before->from;
    add_jump(s->V[0] - bwi_poly_value(before->V, 3, h),
             s->M[0] - bwi_poly_value(before->M, 4, h), at, n_courses);
}

static void add_end_jump(const bwi_column *c, int end, course *at, int n_courses)
{
    if (c->loaded && c->jumps != NULL) {
        add_jump(c->jumps[end][0], c->jumps[end][1], at, n_courses);
    }
}

static void carry_to(const bwi_column *c, double to, course *at, int n_courses)
{
    if (c->from == 0.0) {
        add_end_jump(c, 0, at, n_courses);
    }
    for (size_t k = 0; k < c->line.n; k++) {
        const bwi_segment *s = &c->line.segments[k];
        const double a = fmax(s->from, c->from), b = fmin(s->to, to);
        if (!(b > a)) {
            continue;
        }
        if (s->from > c->from) {
            add_load_jump(c, k, at, n_courses);
        }
        carry_segment(c, s, a, b, at, n_courses);
    }
    if (to == c->m->length) {
        add_end_jump(c, 1, at, n_courses);
    }
}

/* Unit values at the start one by one, then the loads alone; a unit deflection stays. */
bwi_transfer bwi_column_transfer(const bwi_column *c)
{
    course at[4] = {{.y = {.turn = 1.0}},
                    {.y = {.moment = 1.0}},
                    {.y = {.force = 1.0}},
                    {.loads = 1.0}};
    bwi_transfer t = {.T = {{1.0}}};
    carry_to(c, c->to, at, c->loaded ? 4 : 3);
    for (int k = 0; k < 4; k++) {
        const double y[4] = {at[k].y.v, at[k].y.turn, at[k].y.moment, at[k].y.force};
        for (int i = 0; i < 4; i++) {
            *(k < 3 ? &t.T[i][k + 1] : &t.p[i]) = y[i];
        }
    }
    return t;
}

bwi_beam_point bwi_column_point(const bwi_column *c, const bwi_beam_point *start,
                                double x)
{
    course at = {*start, 1.0};
    carry_to(c, x, &at, 1);
    return at.y;
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
        const panel p = {c, s, s->from, s->to - s->from, NULL};
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
        const panel p = {c, s, s->from, s->to - s->from, NULL};
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
    /* nothing holds the joint where the member has lost all its stiffness: no number */
    const double held_by = k->K[t][t] + spring;
    const double pivot = held_by != 0.0 ? held_by : (double)NAN;
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

void bwi_column_own(const bwi_member *member, const bwi_column_stiffness *k,
                    const double node[4], double own[4])
{
    const bw_member *m = &member->m;
    memcpy(own, node, 4 * sizeof *own);
    const bool loose_i = m->hinge_i || m->turn_spring_i > 0.0;
    const bool loose_j = m->hinge_j || m->turn_spring_j > 0.0;
    const double s_i = m->hinge_i ? 0.0 : m->turn_spring_i;
    const double s_j = m->hinge_j ? 0.0 : m->turn_spring_j;
    const double *a = k->K[1], *b = k->K[3];
    const double r_i = s_i * node[1] - k->held[1] - a[0] * node[0] - a[2] * node[2];
    const double r_j = s_j * node[3] - k->held[3] - b[0] * node[0] - b[2] * node[2];
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
