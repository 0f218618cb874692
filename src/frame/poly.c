/* Roots by the chain of derivatives: between two neighbouring stationary points a
 * polynomial is monotone, so one sign change there is one root and can be bracketed. */
#include "poly.h"

#include <math.h>
#include <stdbool.h>
#include <string.h>

double bwi_poly_value(const double *c, int degree, double t)
{
    double value = c[degree];
    for (int k = degree - 1; k >= 0; k--) {
        value = value * t + c[k];
    }
    return value;
}

void bwi_poly_derive(const double *c, int degree, double *out)
{
    for (int k = 1; k <= degree; k++) {
        out[k - 1] = k * c[k];
    }
    if (degree == 0) {
        out[0] = 0.0;
    }
}

void bwi_poly_shift(const double *c, int degree, double shift, double *out)
{
    memmove(out, c, (size_t)(degree + 1) * sizeof *c);
    for (int first = 0; first < degree; first++) { /* repeated synthetic division */
        for (int k = degree - 1; k >= first; k--) {
            out[k] += shift * out[k + 1];
        }
    }
}

/* One end of a bracket, or the end before it. */
typedef struct {
    double x, f;
} probe;

/* The share of the way from a to b where the parabola x(f) through a, b and c has f = 0,
 * if f is monotone enough over the three for that to be in between; else the middle. */
static double next_share(const probe *a, const probe *b, const probe *c)
{
    const double xi = (a->x - b->x) / (c->x - b->x);
    const double phi = (a->f - b->f) / (c->f - b->f);
    if (!(phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi)) {
        return 0.5;
    }
    return a->f / (b->f - a->f) * (c->f / (b->f - c->f)) + (c->x - a->x) / (b->x - a->x) *
                                                               (a->f / (c->f - a->f)) *
                                                               (b->f / (c->f - b->f));
}

/* Chandrupatla, Advances in Engineering Software 28 (1997) 145-149 (MEMORY): inverse
 * quadratic steps where they are safe, else halves. The first step is along the chord. */
double bwi_bracketed_root(bwi_function f, const void *context, double lo, double hi,
                          double close)
{
    probe a = {hi, f(hi, context)}, b = {lo, f(lo, context)};
    double share = a.f / (a.f - b.f);
    for (int step = 0; step < 200; step++) {
        const probe best = fabs(b.f) <= fabs(a.f) ? b : a;
        const double width = fabs(b.x - a.x);
        const double least = (fabs(best.x) * 2.220446049250313e-16 + close / 2.0) / width;
        if (best.f == 0.0 || !(least < 0.5)) {
            return best.x;
        }
        share = fmin(fmax(share, least), 1.0 - least);
        const double x = a.x + share * (b.x - a.x);
        const probe now = {x, f(x, context)};
        const bool same = (now.f > 0.0) == (a.f > 0.0); /* b stays across the root */
        const probe c = same ? a : b;
        b = same ? b : a;
        a = now;
        share = next_share(&a, &b, &c);
    }
    return fabs(b.f) <= fabs(a.f) ? b.x : a.x;
}

typedef struct {
    const double *c;
    int degree;
} polynomial;

static double evaluate(double t, const void *context)
{
    const polynomial *p = context;
    return bwi_poly_value(p->c, p->degree, t);
}

/* No value of the polynomial is larger inside |t| <= reach. */
static double size_within(const double *c, int degree, double reach)
{
    double size = 0.0;
    for (int k = degree; k >= 0; k--) {
        size = size * reach + fabs(c[k]);
    }
    return size;
}

int bwi_poly_roots(const double *c, int degree, double lo, double hi, double *roots)
{
    while (degree > 1 && c[degree] == 0.0) {
        degree--;
    }
    if (degree == 1 && c[1] != 0.0 && lo < hi) {
        roots[0] = -c[0] / c[1];
        return roots[0] > lo && roots[0] < hi ? 1 : 0;
    }
    const double size = size_within(c, degree, fmax(fabs(lo), fabs(hi)));
    /* below it a value cannot be told from zero, as rounding leaves it */
    const double zero = size * 8.0 * 2.220446049250313e-16;
    const bool never = 2.0 * fabs(c[0]) - size > zero; /* the rest never takes c[0] off */
    if (degree < 1 || !(lo < hi) || !(zero > 0.0) || never) {
        return 0;
    }
    double slope[BWI_POLY_DEGREE_MAX + 1], edge[BWI_POLY_DEGREE_MAX + 2];
    bwi_poly_derive(c, degree, slope);
    edge[0] = lo;
    const int n_turns = bwi_poly_roots(slope, degree - 1, lo, hi, edge + 1);
    edge[n_turns + 1] = hi;

    const polynomial p = {c, degree};
    int n = 0;
    for (int k = 0; k <= n_turns; k++) {
        const double f_left = evaluate(edge[k], &p), f_right = evaluate(edge[k + 1], &p);
        const bool touches = k > 0 && fabs(f_left) <= zero;
        if (touches) {
            roots[n++] = edge[k];
        } else if (f_left * f_right < 0.0 &&
                   !(k < n_turns && fabs(f_right) <= zero)) { /* found as touching next */
            const double root =
                bwi_bracketed_root(evaluate, &p, edge[k], edge[k + 1], 0.0);
            if (root > lo && root < hi) {
                roots[n++] = root;
            }
        }
    }
    return n;
}
