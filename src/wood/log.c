/* A log as measured: truncated cones between the girths at butt and tip, or between those
 * taken on the way; flats, hollow and rot take their part of it. */
#include "bolewright/wood.h"

#include <math.h>

static const double pi = 3.14159265358979323846;

double bw_diameter_from_girth(double girth)
{
    return girth / pi;
}

static double between(const bw_station *a, const bw_station *b, double at)
{
    const double share = (at - a->from_butt) / (b->from_butt - a->from_butt);
    return a->diameter + (b->diameter - a->diameter) * share;
}

/* Before the first station as thick as there; beyond the last on with the taper before
 * it, but no thicker, and no thinner than half. */
static double station_diameter(const bw_log *log, double at)
{
    const bw_station *s = log->stations;
    const size_t n = log->n_stations;
    size_t k = 1;
    while (k + 1 < n && s[k].from_butt < at) {
        k++;
    }
    if (at <= s[0].from_butt) {
        return s[0].diameter;
    }
    const double d = between(&s[k - 1], &s[k], at), last = s[n - 1].diameter;
    return at <= s[n - 1].from_butt ? d : fmax(fmin(d, last), last / 2.0);
}

/* d(x) = d_butt + (d_tip - d_butt) x / L */
double bw_log_diameter(const bw_log *log, double length, double from_butt)
{
    if (log->n_stations >= 2) {
        return station_diameter(log, from_butt);
    }
    if (!(length > 0.0)) { /* no place yet: the thinner end is the cautious answer */
        return log->tip_diameter < log->butt_diameter ? log->tip_diameter
                                                      : log->butt_diameter;
    }
    const double share = from_butt / length;
    return log->butt_diameter + (log->tip_diameter - log->butt_diameter) * share;
}

/* ---- the straight line under the stations ---- */

/* Corner k of the measured outline between two places: both ends, and what lies between.
 */
static bw_station corner(const bw_log *log, double length, const double place[2],
                         size_t k, size_t last)
{
    if (k > 0 && k < last) {
        return log->stations[k - 1];
    }
    const double at = place[k == 0 ? 0 : 1];
    return (bw_station){at, bw_log_diameter(log, length, at)};
}

typedef struct {
    bw_station left, right;
    double height, slope; /* at the middle */
} chord;

static chord chord_of(bw_station a, bw_station b, double middle)
{
    const double slope = (b.diameter - a.diameter) / (b.from_butt - a.from_butt);
    return (chord){a, b, between(&a, &b, middle), slope};
}

/* At a corner in the middle itself every chord from it is as low: then the flattest. */
static bool is_lower(const chord *a, const chord *b)
{
    const double slack = 1e-13;
    return a->height < b->height - slack ||
           (a->height < b->height + slack && a->slope < b->slope);
}

/* Every chord over the middle that joins two corners lies on or above the lower hull of
 * the corners, and the lowest of them is its edge: a line under all corners. */
void bw_log_taper(const bw_log *log, double length, double from, double to,
                  double diameter[2])
{
    const double place[2] = {from, to}, middle = (from + to) / 2.0;
    const double low = fmin(from, to), high = fmax(from, to);
    diameter[0] = bw_log_diameter(log, length, from);
    diameter[1] = bw_log_diameter(log, length, to);
    if (log->n_stations < 2 || !(high > low)) {
        return;
    }
    double least = (double)INFINITY;
    chord edge = {.height = (double)INFINITY};
    const size_t last = log->n_stations + 1;
    for (size_t i = 0; i <= last; i++) {
        const bw_station a = corner(log, length, place, i, last);
        const bool inside = a.from_butt >= low && a.from_butt <= high;
        least = inside ? fmin(least, a.diameter) : least;
        for (size_t j = 0; inside && a.from_butt <= middle && j <= last; j++) {
            const bw_station b = corner(log, length, place, j, last);
            if (b.from_butt > middle && b.from_butt <= high) {
                const chord c = chord_of(a, b, middle);
                edge = is_lower(&c, &edge) ? c : edge;
            }
        }
    }
    diameter[0] = between(&edge.left, &edge.right, from);
    diameter[1] = between(&edge.left, &edge.right, to);
    if (fmin(diameter[0], diameter[1]) < least / 2.0) { /* a waist: no taper at all */
        diameter[0] = diameter[1] = least;
    }
}

/* ---- shapes ---- */

bw_log_shape bw_log_shape_of(const bw_log *log, double diameter)
{
    return (bw_log_shape){
        .diameter = diameter,
        .flat_top = log->half ? diameter / 2.0 : log->flat_top,
        .flat_bottom = log->flat_bottom,
        .bore = log->shell > 0.0 ? fmax(0.0, diameter - 2.0 * log->shell) : 0.0,
    };
}

bw_log_shape bw_log_shape_at(const bw_log *log, double length, double from_butt)
{
    return bw_log_shape_of(log, bw_log_diameter(log, length, from_butt));
}

bool bw_log_shrink(bw_arena *arena, bw_log *log, double scale, double less,
                   double *thinnest)
{
    bw_station *stations = BW_NEW(arena, bw_station, log->n_stations);
    if (stations == NULL) {
        return false;
    }
    log->butt_diameter = scale * log->butt_diameter - less;
    log->tip_diameter = scale * log->tip_diameter - less;
    *thinnest = fmin(log->butt_diameter, log->tip_diameter);
    for (size_t k = 0; k < log->n_stations; k++) {
        stations[k] = log->stations[k];
        stations[k].diameter = scale * stations[k].diameter - less;
        *thinnest = fmin(*thinnest, stations[k].diameter);
    }
    log->stations = log->n_stations > 0 ? stations : NULL;
    return true;
}

/* ---- mass ---- */

/* V = pi/12 (x2 - x1) (d1^2 + d1 d2 + d2^2), a frustum of a cone */
static double frustum(const bw_log *log, double length, double from, double to)
{
    const double lost = 2.0 * log->outer_loss;
    const double d1 = bw_log_diameter(log, length, from) + lost;
    const double d2 = bw_log_diameter(log, length, to) + lost;
    return pi / 12.0 * (to - from) * (d1 * d1 + d1 * d2 + d2 * d2);
}

double bw_log_mass(const bw_log *log, double length, double from, double to)
{
    double volume = 0.0, at = from;
    for (size_t k = 0; k < log->n_stations; k++) {
        const double next = log->stations[k].from_butt;
        if (next > at && next < to) {
            volume += frustum(log, length, at, next);
            at = next;
        }
    }
    volume += frustum(log, length, at, to);
    return log->species->green_density.value * volume * (log->half ? 0.5 : 1.0);
}

double bw_shear_modulus(double modulus)
{
    static const double e_over_g = 16.0; /* EN 338:2016, all classes; softwoods */
    return modulus / e_over_g;
}
