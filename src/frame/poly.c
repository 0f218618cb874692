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

double bwi_bracketed_root(bwi_function f, const void *context, double lo, double hi,
                          double close)
{
    double last = (double)INFINITY;
    double f_lo = f(lo, context), f_hi = f(hi, context);
    int kept = 0; /* which end stood still in the last step: then its value is halved */
    for (int step = 0; step < 200 && f_lo != 0.0 && f_hi != 0.0 && hi - lo > close;
         step++) {
        const double middle = lo + (hi - lo) / 2.0;
        double x = (lo * f_hi - hi * f_lo) / (f_hi - f_lo);
        if (fabs(x - last) < close / 2.0) { /* a little further, to have it in between */
            x += kept == 1 ? close / 2.0 : -close / 2.0;
        }
        if (!(x > lo && x < hi) || step % 3 == 2) {
            x = middle;
        }
        if (!(x > lo && x < hi)) {
            break; /* neighbours among the doubles */
        }
        last = x;
        const double f_x = f(x, context);
        if ((f_x > 0.0) == (f_hi > 0.0)) {
            hi = x;
            f_hi = f_x;
            f_lo *= kept == -1 ? 0.5 : 1.0;
            kept = -1;
        } else {
            lo = x;
            f_lo = f_x;
            f_hi *= kept == 1 ? 0.5 : 1.0;
            kept = 1;
        }
    }
    if (f_lo == 0.0) {
        return lo;
    }
    return f_hi == 0.0 ? hi : lo + (hi - lo) / 2.0;
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

/* The size that rounding can give the polynomial inside |t| <= reach: below it a value
 * cannot be told from zero. */
static double rounding_size(const double *c, int degree, double reach)
{
    double size = 0.0;
    for (int k = degree; k >= 0; k--) {
        size = size * reach + fabs(c[k]);
    }
    return size * 8.0 * 2.220446049250313e-16;
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
    const double zero = rounding_size(c, degree, fmax(fabs(lo), fabs(hi)));
    if (degree < 1 || !(lo < hi) || !(zero > 0.0)) {
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
