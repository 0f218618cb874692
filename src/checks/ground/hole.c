/* hole.c - how deep a post must stand to be pushed sideways.
 *
 * IBC 1807.3.2, READ. Not held at the ground line, Eq. 18-1:
 *
 *   d = A / 2 (1 + (1 + 4.36 h / A)^0.5),   A = 2.34 P / (S1 b),   S1 at d / 3
 *
 * which is A = d^2 / (d + 1.09 h), or, with V = P and M = P h at the ground line,
 *
 *   V + 1.09 M / d <= S1 b d / 2.34
 *
 * so that a moment without a push needs no rule of its own. Held at the ground line by a
 * rigid floor or pavement, Eq. 18-3: d = (4.25 M / (S3 b))^0.5, S3 at d. Pressure counts
 * down to 12 ft. b is the diameter of the round post or footing: stones packed round a
 * post are neither. */
#include "ground.h"

#include <math.h>

static const double scale_factor = 2.34, moment_factor = 1.09, held_factor = 4.25;

/* Allowable pressure at a depth, as deep as it may count. */
static double pressure_at(const bw_hole *hole, double depth)
{
    const double deepest = 12.0 * 12.0 * bw_inch;

    return bwi_positive(hole->lateral) * bwi_smaller(bwi_positive(depth), deepest);
}

static double magnitude(double action)
{
    return bwi_not_negative(fabs(action));
}

bw_hole bw_hole_of(bw_soil soil, double width, bool half_inch_movement_ok)
{
    const double doubled = half_inch_movement_ok ? 2.0 : 1.0; /* IBC 1806.3.4, READ */

    return (bw_hole){doubled * bwi_positive(bw_soil_find(soil).lateral.value), width};
}

double bwi_hole_scale(double push, double pressure, double width)
{
    return scale_factor * magnitude(push) /
           (bwi_positive(pressure) * bwi_positive(width));
}

double bwi_hole_pressure(const bw_hole *hole, double depth)
{
    return pressure_at(hole, depth) / 3.0;
}

double bwi_hole_demand(double depth, double push, double moment)
{
    return magnitude(push) + moment_factor * magnitude(moment) / bwi_positive(depth);
}

double bwi_hole_capacity(const bw_hole *hole, double depth)
{
    return bwi_hole_pressure(hole, depth) * bwi_positive(hole->width) * depth /
           scale_factor;
}

double bw_hole_push_allowed(const bw_hole *hole, double depth, double height)
{
    const double per_push = bwi_hole_demand(depth, 1.0, bwi_not_negative(height));

    return bwi_hole_capacity(hole, depth) / per_push;
}

double bw_hole_moment_allowed(const bw_hole *hole, double depth)
{
    return bwi_hole_capacity(hole, depth) * depth / moment_factor;
}

/* The demand falls and the capacity grows with the depth, so they meet once. */
double bw_hole_depth_free(const bw_hole *hole, double push, double moment)
{
    const double load = magnitude(push) + magnitude(moment);
    double low = 0.0, high = 1.0;

    if (!(load > 0.0)) {
        return bwi_hole_capacity(hole, high) > 0.0 ? load : (double)NAN;
    }
    while (bwi_hole_capacity(hole, high) < bwi_hole_demand(high, push, moment)) {
        low = high;
        high *= 2.0;
    }
    for (int i = 0; i < 80; i++) {
        const double d = (low + high) / 2.0;
        const bool enough =
            bwi_hole_capacity(hole, d) >= bwi_hole_demand(d, push, moment);
        *(enough ? &high : &low) = d;
    }
    return isfinite(bwi_hole_capacity(hole, high)) ? high : (double)NAN;
}

double bw_hole_depth_held(const bw_hole *hole, double moment)
{
    const double need = held_factor * magnitude(moment) / bwi_positive(hole->width);
    const double growing = cbrt(need / bwi_positive(hole->lateral));
    const double full = pressure_at(hole, growing > 0.0 ? growing : 1.0);

    return sqrt(need / full); /* growing itself down to 12 ft */
}
