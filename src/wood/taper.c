/* The national scale volume and taper equations (Westfall et al., GTR-WO-104, 2023; forms
 * READ in the source of the national volume estimator library):
 *
 *   V(h) / V = (1 - t^alpha)^beta,  t = 1 - h/H        share of the stem below h
 *   pi/4 d(h)^2 = dV/dh
 *   d(h) = sqrt(4 V / (pi H) alpha beta t^(alpha - 1) (1 - t^alpha)^(beta - 1))
 *
 * V, the volume over bark, is that of the wood plus that of the bark; the curve is of the
 * diameter over bark. Under bark: times sqrt(V_wood / V). The coefficients of the tables
 * are the national rows; a region's own rows differ by some per cent. */
#include "taper.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

/* Cubic feet of one equation; diameter in inches, height in feet. */
static double equation(const bw_volume_equation *e, double D, double H, double kink)
{
    switch (e->model) {
    case 1:
        return e->a * pow(D, e->b) * pow(H, e->c);
    case 2:
        return D < kink ? e->a * pow(D, e->b) * pow(H, e->c)
                        : e->a * pow(kink, e->b - e->b1) * pow(D, e->b1) * pow(H, e->c);
    case 3:
        return e->a * pow(D, e->a1 * pow(1.0 - exp(-e->b * D), e->c1)) * pow(H, e->c);
    case 4:
        return e->a * pow(D, e->b) * pow(H, e->c) * exp(-e->b1 * D);
    default:
        return (double)NAN; /* of a form that nobody knows */
    }
}

static double volume(const bw_species *species, const bw_volume_equation *e,
                     double breast_diameter, double height)
{
    const double foot = 0.3048; /* exactly, as 12 in */
    const double kink = species->group == BW_SOFTWOOD ? 9.0 : 11.0; /* [in] */
    return equation(e, breast_diameter / bw_inch, height / foot, kink) * foot * foot *
           foot;
}

double bw_taper_wood(const bw_species *species, double breast_diameter, double height)
{
    return volume(species, &species->taper.wood, breast_diameter, height);
}

double bw_taper_bark(const bw_species *species, double breast_diameter, double height)
{
    return volume(species, &species->taper.bark, breast_diameter, height);
}

double bwi_taper_share_below(const bw_taper *taper, double height, double above_ground)
{
    const double t = 1.0 - above_ground / height;
    return pow(1.0 - pow(t, taper->alpha), taper->beta);
}

double bwi_taper_diameter(const bw_taper *taper, double volume, double height,
                          double above_ground)
{
    const double alpha = taper->alpha, beta = taper->beta;
    const double t = 1.0 - above_ground / height;
    const double share = alpha * beta * pow(t, alpha - 1.0) *
                         pow(1.0 - pow(t, alpha), beta - 1.0); /* H d(V(h)/V)/dh */
    return sqrt(4.0 * volume / (pi * height) * share);
}

double bw_taper_over_bark(const bw_species *species, double breast_diameter,
                          double height, double above_ground)
{
    const double V = bw_taper_wood(species, breast_diameter, height) +
                     bw_taper_bark(species, breast_diameter, height);
    return bwi_taper_diameter(&species->taper, V, height, above_ground);
}
