/* int f dx = sum w_k f(x_k): 12-point Gauss-Legendre on panels over which the diameter
 * changes by at most a factor 1.6.
 *
 * The integrands are polynomials over d(x)^2 or d(x)^4 with d linear. With a ratio r of
 * the diameters of a panel the pole lies at z = (r + 1)/(r - 1) = 4.33 half lengths from
 * its middle, rho = z + sqrt(z^2 - 1) = 8.55, and the error falls as rho^(-24) = 4e-23:
 * nothing is left to gain, and no closed form with its cancellation at small taper is
 * needed. Points: roots of P_12, computed to 20 digits (COMPUTED). */
#include "quadrature.h"

#include <math.h>

static const double rule[BWI_GAUSS_POINTS / 2][2] = {
    {0.98156063424671925069, 0.047175336386511827195},
    {0.90411725637047485668, 0.10693932599531843096},
    {0.76990267419430468704, 0.16007832854334622633},
    {0.5873179542866174473, 0.20316742672306592175},
    {0.36783149899818019375, 0.23349253653835480876},
    {0.12523340851146891547, 0.249147045813402785},
};

static int fill_panel(double lo, double hi, bwi_point *points)
{
    const double middle = (lo + hi) / 2.0, half = (hi - lo) / 2.0;
    for (int k = 0; k < BWI_GAUSS_POINTS / 2; k++) {
        const double x = half * rule[k][0], w = half * rule[k][1];
        points[2 * k] = (bwi_point){middle - x, w};
        points[2 * k + 1] = (bwi_point){middle + x, w};
    }
    return BWI_GAUSS_POINTS;
}

int bwi_gauss(double lo, double hi, double d_lo, double d_hi, bwi_point *points)
{
    const double panel_ratio = 1.6;
    const double ratio = d_hi / d_lo;
    int panels = 1 + (int)(fabs(log(ratio)) / log(panel_ratio));
    if (panels > BWI_PANELS_MAX) {
        panels = BWI_PANELS_MAX; /* a taper of 1 : 80000 */
    }
    int n = 0;
    double from = lo;
    for (int k = 1; k < panels; k++) {
        /* ends of panels in geometric steps of the diameter */
        const double d = d_lo * pow(ratio, (double)k / panels);
        const double to = lo + (hi - lo) * (d - d_lo) / (d_hi - d_lo);
        n += fill_panel(from, to, points + n);
        from = to;
    }
    return n + fill_panel(from, hi, points + n);
}

/* A size below this part of its larger end counts as 0: what is left of the integral
 * there no longer shows. */
static const double negligible = 1e-5;

/* The share of the way at which the size has changed by its factor since the share t. */
static double next_end(const bwi_size *size, double t)
{
    const double a = size->at_lo, b = size->at_hi;
    const double least = negligible * fmax(a, b);
    const double now = fmax(a + t * (b - a), least);
    const double then = b > a ? now * size->factor : now / size->factor;
    if (a == b || then < least) {
        return 1.0;
    }
    return (then - a) / (b - a);
}

int bwi_gauss_sizes(double lo, double hi, const bwi_size *sizes, int n_sizes,
                    bwi_point *points)
{
    double t = 0.0;
    int n = 0;
    for (int panel = 1; t < 1.0; panel++) {
        double end = 1.0;
        for (int k = 0; k < n_sizes && panel < BWI_PANELS_MAX; k++) {
            end = fmin(end, next_end(&sizes[k], t));
        }
        if (!(end > t) || end > 1.0 - 1e-9) {
            end = 1.0;
        }
        n += fill_panel(lo + t * (hi - lo), end < 1.0 ? lo + end * (hi - lo) : hi,
                        points + n);
        t = end;
    }
    return n;
}
