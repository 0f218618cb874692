/* Sections: full circles, and circles with flats and a concentric hollow.
 *
 * Full circle: A = pi d^2/4, I = pi d^4/64, S = pi d^3/32. Any other round section is
 * what lies between two heights a < b of the circle, less the same part of the hollow.
 * With r the radius and s = sqrt(r^2 - y^2) the half chord (COMPUTED):
 *
 *   int 2 s dy      = y s + r^2 asin(y/r)
 *   int 2 s y dy    = -2/3 s^3
 *   int 2 s y^2 dy  = (r^4 asin(y/r) - y s (r^2 - 2 y^2)) / 4
 *   int 2/3 s^3 dy  = y s^3/6 + r^2/4 (y s + r^2 asin(y/r))    about the vertical axis */
#include "bolewright/frame.h"
#include "internal.h"
#include "poly.h"

#include <math.h>

bw_section bw_section_round(double diameter)
{
    return (bw_section){.kind = BW_SECTION_ROUND, .diameter = diameter};
}

bw_section bw_section_given(double area, double second_moment, double modulus)
{
    return (bw_section){.kind = BW_SECTION_GIVEN,
                        .area = area,
                        .second_moment = second_moment,
                        .modulus = modulus};
}

bool bw_section_is_plain(const bw_section *s)
{
    return s->kind == BW_SECTION_ROUND && s->flat_top == 0.0 && s->flat_bottom == 0.0 &&
           s->bore == 0.0;
}

bw_section bw_section_between(const bw_section *a, const bw_section *b, double t)
{
    bw_section s = *a;
    s.diameter = a->diameter + t * (b->diameter - a->diameter);
    s.flat_top = a->flat_top + t * (b->flat_top - a->flat_top);
    s.flat_bottom = a->flat_bottom + t * (b->flat_bottom - a->flat_bottom);
    s.bore = a->bore + t * (b->bore - a->bore);
    return s;
}

/* ---- moments of area about the centre of the circle ---- */

typedef struct {
    double area, first, second, sideways;
} moments;

static double half_chord(double r, double y)
{
    const double square = r * r - y * y;
    return square <= 0.0 ? 0.0 : sqrt(square); /* what is not a number stays */
}

/* The integrals above, at y. */
static moments integral(double r, double y)
{
    const double s = half_chord(r, y);
    const double angle = asin(fmin(fmax(y / r, -1.0), 1.0));
    const double square = r * r, area = y * s + square * angle;
    return (moments){
        .area = area,
        .first = -2.0 / 3.0 * s * s * s,
        .second = (square * square * angle - y * s * (square - 2.0 * y * y)) / 4.0,
        .sideways = y * s * s * s / 6.0 + square / 4.0 * area,
    };
}

static moments difference(moments a, moments b)
{
    return (moments){a.area - b.area, a.first - b.first, a.second - b.second,
                     a.sideways - b.sideways};
}

/* The part of a circle between two heights. One that is not known is not nothing: an area
 * of 0 counts as a full circle further on. */
static moments slice(double r, double low, double high)
{
    if (!(r > 0.0)) {
        const double none = isnan(r) ? r : 0.0;
        return (moments){none, none, none, none};
    }
    return difference(integral(r, fmin(fmax(high, -r), r)),
                      integral(r, fmin(fmax(low, -r), r)));
}

/* The part of a round section between two heights, its hollow taken out. */
static moments part(const bw_section *s, double low, double high)
{
    return difference(slice(s->diameter / 2.0, low, high),
                      slice(s->bore / 2.0, low, high));
}

static double top_of(const bw_section *s) /* above the centre */
{
    return s->diameter / 2.0 - s->flat_top;
}

static double bottom_of(const bw_section *s)
{
    return s->flat_bottom - s->diameter / 2.0;
}

static moments whole(const bw_section *s)
{
    return part(s, bottom_of(s), top_of(s));
}

/* ---- what is asked ---- */

void bwi_section_stiffness(const bw_section *s, double *area, double *second_moment)
{
    const double d = s->diameter;
    if (s->kind != BW_SECTION_ROUND) {
        *area = s->area;
        *second_moment = s->second_moment;
    } else if (bw_section_is_plain(s)) {
        *area = BWI_PI * d * d / 4.0;
        *second_moment = BWI_PI * d * d * d * d / 64.0;
    } else {
        const moments m = whole(s);
        *area = m.area;
        *second_moment = m.second - m.first * m.first / m.area;
    }
}

double bw_section_area(const bw_section *s)
{
    double area, second_moment;
    bwi_section_stiffness(s, &area, &second_moment);
    return area;
}

double bw_section_second_moment(const bw_section *s)
{
    double area, second_moment;
    bwi_section_stiffness(s, &area, &second_moment);
    return second_moment;
}

static double centroid(const bw_section *s) /* above the centre */
{
    const moments m = whole(s);
    return bw_section_is_plain(s) ? 0.0 : m.first / m.area;
}

double bw_section_depth(const bw_section *s)
{
    return s->kind == BW_SECTION_ROUND ? top_of(s) - bottom_of(s) : 0.0;
}

double bw_section_width(const bw_section *s)
{
    if (s->kind != BW_SECTION_ROUND) {
        return 0.0;
    }
    const double widest = fmin(fmax(0.0, bottom_of(s)), top_of(s));
    return 2.0 * half_chord(s->diameter / 2.0, widest);
}

double bw_section_neutral_axis(const bw_section *s)
{
    return s->kind == BW_SECTION_ROUND ? centroid(s) - bottom_of(s) : 0.0;
}

double bw_section_modulus_top(const bw_section *s)
{
    return s->kind == BW_SECTION_ROUND
               ? bw_section_second_moment(s) / (top_of(s) - centroid(s))
               : 0.0;
}

double bw_section_modulus_bottom(const bw_section *s)
{
    return s->kind == BW_SECTION_ROUND
               ? bw_section_second_moment(s) / (centroid(s) - bottom_of(s))
               : 0.0;
}

double bw_section_modulus(const bw_section *s)
{
    const double d = s->diameter;
    if (s->kind != BW_SECTION_ROUND) {
        return s->modulus;
    }
    if (bw_section_is_plain(s)) {
        return BWI_PI * d * d * d / 32.0;
    }
    const moments m = whole(s);
    const double axis = m.first / m.area;
    return (m.second - m.first * axis) / fmax(top_of(s) - axis, axis - bottom_of(s));
}

double bw_section_second_moment_sideways(const bw_section *s)
{
    if (s->kind != BW_SECTION_ROUND) {
        return 0.0;
    }
    return bw_section_is_plain(s) ? bw_section_second_moment(s) : whole(s).sideways;
}

/* Stress at a point (x, y from the centroid) under a unit moment about the worst axis:
 * sqrt((y/I)^2 + (x/I_v)^2). Along an arc its square is convex in the height, because I
 * <= I_v: it is largest at an end of the arc, so only the edges of the flats count (or
 * the top and the bottom of the circle). */
double bw_section_modulus_any(const bw_section *s)
{
    if (s->kind != BW_SECTION_ROUND || bw_section_is_plain(s)) {
        return bw_section_modulus(s);
    }
    const moments m = whole(s);
    const double axis = m.first / m.area, I = m.second - m.first * axis;
    const double edge[2] = {top_of(s), bottom_of(s)};
    double worst = 0.0;
    for (int k = 0; k < 2; k++) {
        const double x = half_chord(s->diameter / 2.0, edge[k]);
        worst = fmax(worst, hypot((edge[k] - axis) / I, x / m.sideways));
    }
    return 1.0 / worst;
}

/* ---- shear: the largest of Q(y) / b(y), Q the first moment of what lies above y about
 * the neutral axis, b the wood across at y ---- */

static double shear_at(const bw_section *s, double axis, double y)
{
    const double r = s->diameter / 2.0, bore = s->bore / 2.0;
    const double chord = 2.0 * (half_chord(r, y) - half_chord(bore, y));
    const moments above = part(s, y, top_of(s));
    return chord > 0.0 ? (above.first - axis * above.area) / chord : 0.0;
}

/* Without a hollow Q/b has one hump. With b = 2 s its slope, times b over 2 s, is
 *
 *   (axis - y) + Q y / (2 s^3)
 *
 * which has the sign of the axis at the axis (seen from the centre), and the other one at
 * the edge beyond it. */
typedef struct {
    const bw_section *section;
    double axis;
} hump_context;

static double hump_slope(double y, const void *context)
{
    const hump_context *k = context;
    const double s = half_chord(k->section->diameter / 2.0, y);
    const moments above = part(k->section, y, top_of(k->section));
    const double Q = above.first - k->axis * above.area;
    return k->axis - y + Q * y / (2.0 * s * s * s);
}

static double largest_solid(const bw_section *s, double axis)
{
    const double inward = 1e-3 * bw_section_depth(s); /* the chord ends in a point */
    const double low = bottom_of(s) + (s->flat_bottom > 0.0 ? 0.0 : inward);
    const double high = top_of(s) - (s->flat_top > 0.0 ? 0.0 : inward);
    const hump_context k = {s, axis};
    const double from = axis < 0.0 ? low : axis, to = axis < 0.0 ? axis : high;
    double y = axis;
    if (axis != 0.0 && hump_slope(from, &k) * hump_slope(to, &k) < 0.0) {
        y = bwi_bracketed_root(hump_slope, &k, from, to, 0.0);
    }
    return fmax(shear_at(s, axis, y), shear_at(s, axis, axis));
}

/* With a hollow the chord has kinks where it begins and ends: a grid between them, then
 * golden section beside the best of it. */
static double golden_between(const bw_section *s, double axis, double low, double high)
{
    const double golden = 0.61803398874989484820;
    double a = high - golden * (high - low), b = low + golden * (high - low);
    double at_a = shear_at(s, axis, a), at_b = shear_at(s, axis, b);
    for (int k = 0; k < 30; k++) {
        if (at_a > at_b) {
            high = b;
            b = a;
            at_b = at_a;
            a = high - golden * (high - low);
            at_a = shear_at(s, axis, a);
        } else {
            low = a;
            a = b;
            at_a = at_b;
            b = low + golden * (high - low);
            at_b = shear_at(s, axis, b);
        }
    }
    return fmax(at_a, at_b);
}

static double largest_hollow(const bw_section *s, double axis)
{
    enum { STEPS = 8 };
    const double low = bottom_of(s), high = top_of(s), r = s->bore / 2.0;
    const double edge[4] = {low, fmin(fmax(-r, low), high), fmin(fmax(r, low), high),
                            high};
    double best = 0.0, from = low, to = high;
    for (int k = 0; k < 3; k++) {
        const double step = (edge[k + 1] - edge[k]) / STEPS;
        for (int j = 0; j <= STEPS; j++) {
            const double y = edge[k] + step * j, value = shear_at(s, axis, y);
            if (value > best) {
                best = value;
                from = fmax(y - step, edge[k]);
                to = fmin(y + step, edge[k + 1]);
            }
        }
    }
    return fmax(best, golden_between(s, axis, from, to));
}

double bw_section_shear_factor(const bw_section *s)
{
    if (s->kind != BW_SECTION_ROUND) {
        return 0.0;
    }
    if (bw_section_is_plain(s)) {
        return 4.0 / (3.0 * bw_section_area(s));
    }
    const double R = s->diameter / 2.0, r = s->bore / 2.0;
    const double I = bw_section_second_moment(s);
    if (s->flat_top == 0.0 && s->flat_bottom == 0.0) {
        return (R * R + R * r + r * r) / (3.0 * I); /* at the middle of a ring */
    }
    const double axis = centroid(s);
    return (r > 0.0 ? largest_hollow(s, axis) : largest_solid(s, axis)) / I;
}
