/* johansen.c - one fastener by the theory of Johansen.
 *
 *   beta = f_h,2 / f_h,1
 *   (a) f_h1 t1 d     (b) f_h2 t2 d
 *   (c) f_h1 t1 d / (1 + beta) [sqrt(beta + 2 beta^2 (1 + r + r^2) + beta^3 r^2) -
 *       beta (1 + r)] + F_ax / 4,   r = t2 / t1
 *   (d) 1.05 f_h1 t1 d / (2 + beta) [sqrt(2 beta (1 + beta) + 4 beta (2 + beta) M_y /
 *       (f_h1 d t1^2)) - beta] + F_ax / 4
 *   (e) 1.05 f_h1 t2 d / (1 + 2 beta) [sqrt(2 beta^2 (1 + beta) + 4 beta (1 + 2 beta) M_y
 *       / (f_h1 d t2^2)) - beta] + F_ax / 4
 *   (f) 1.15 sqrt(2 beta / (1 + beta)) sqrt(2 M_y f_h1 d) + F_ax / 4
 *   two planes: (g) = (a), (h) = (b) / 2, (j) = (d), (k) = (f)
 *   f_h,0,k = 0.082 (1 - 0.01 d) rho_k,  f_h,a,k = f_h,0,k / (k_90 sin^2 + cos^2),
 *   k_90 = 1.35 + 0.015 d in softwood, 0.90 + 0.015 d in hardwood;  up to 6 mm
 *   0.082 rho_k d^-0.3, not bored;  M_y = 0.3 f_u d^2.6   [N, mm]
 *   n_ef = n^0.9 (a_1 / (13 d))^0.25 along the grain, n across it
 *
 * EN 1995-1-1:2004+A1, (8.6), (8.7), (8.14) to (8.17), (8.30) to (8.34) (MEMORY). The
 * quarter of F_ax adds at most 15 % with nails and 100 % with screws; with bolts, spikes
 * and in end grain it is not counted. Threaded fasteners: d = 1.1 times the root (8.7.1).
 */
#include "johansen.h"

#include "eurocode.h"

#include <math.h>

static double mm(double length)
{
    return bwi_positive(length) / bw_unit_size(BW_LENGTH, "mm");
}

static double mpa(double count)
{
    return count * bw_unit_size(BW_STRESS, "MPa");
}

static double mode_c(const bwi_johansen *d, double beta)
{
    const double r = d->main_length / d->side_length;

    return d->side_bearing * d->side_length * d->diameter / (1.0 + beta) *
           (sqrt(beta + 2.0 * beta * beta * (1.0 + r + r * r) +
                 beta * beta * beta * r * r) -
            beta * (1.0 + r));
}

static double mode_d(const bwi_johansen *d, double beta)
{
    const double t = d->side_length;
    const double bent = d->yield_moment / (d->side_bearing * d->diameter * t * t);

    return 1.05 * d->side_bearing * t * d->diameter / (2.0 + beta) *
           (sqrt(2.0 * beta * (1.0 + beta) + 4.0 * beta * (2.0 + beta) * bent) - beta);
}

static double mode_e(const bwi_johansen *d, double beta)
{
    const double t = d->main_length;
    const double bent = d->yield_moment / (d->side_bearing * d->diameter * t * t);

    return 1.05 * d->side_bearing * t * d->diameter / (1.0 + 2.0 * beta) *
           (sqrt(2.0 * beta * beta * (1.0 + beta) +
                 4.0 * beta * (1.0 + 2.0 * beta) * bent) -
            beta);
}

static double mode_f(const bwi_johansen *d, double beta)
{
    return 1.15 * sqrt(2.0 * beta / (1.0 + beta)) *
           sqrt(2.0 * d->yield_moment * d->side_bearing * d->diameter);
}

/* A mode with what the rope adds. */
static double roped(const bwi_johansen *d, double mode)
{
    return mode + bwi_smaller(bwi_not_negative(d->withdrawal) / 4.0,
                              bwi_not_negative(d->rope_share) * mode);
}

void bwi_johansen_modes(const bwi_johansen *d, int planes,
                        double mode[BWI_JOHANSEN_MODES])
{
    const double f_1 = bwi_positive(d->side_bearing), f_2 = bwi_positive(d->main_bearing);
    const double beta = f_2 / f_1;

    mode[0] = f_1 * bwi_positive(d->side_length) * bwi_positive(d->diameter);
    mode[1] = f_2 * bwi_positive(d->main_length) * d->diameter;
    mode[2] = roped(d, mode_c(d, beta));
    mode[3] = roped(d, mode_d(d, beta));
    mode[4] = roped(d, mode_e(d, beta));
    mode[5] = roped(d, mode_f(d, beta));
    if (planes == 2) {
        mode[1] /= 2.0;
        mode[2] = mode[4] = (double)INFINITY;
    }
}

double bwi_johansen_least(const double mode[BWI_JOHANSEN_MODES])
{
    double least = mode[0];

    for (int k = 1; k < BWI_JOHANSEN_MODES; k++) {
        least = bwi_smaller(least, mode[k]);
    }
    return least;
}

/* Mass at 12 % moisture over green volume, 5 % exclusion with a coefficient of variation
 * of 0.10 (ASTM D2555, MEMORY): 1.12 (1 - 1.645 0.10) 1000 G. The wood shrinks as it
 * dries, so that it is denser than that. */
double bwi_ec_density(const bw_joint_log *log)
{
    static const double water = 1000.0;

    return log->density != 0.0
               ? bwi_positive(log->density)
               : 1.12 * (1.0 - 1.645 * 0.10) * water * bwi_positive(log->gravity);
}

double bwi_ec_bearing_strength(double density, double diameter, double angle,
                               bw_wood_group group)
{
    const double d = mm(diameter), rho = bwi_positive(density);
    const double k_90 = (group == BW_SOFTWOOD ? 1.35 : 0.90) + 0.015 * d;
    const double s = sin(angle), c = cos(angle);

    if (d <= 6.0) {
        return mpa(0.082 * rho * pow(d, -0.3));
    }
    return mpa(0.082 * bwi_positive(1.0 - 0.01 * d) * rho / (k_90 * s * s + c * c));
}

double bwi_ec_yield_moment(double strength, double diameter)
{
    const double f_u = bwi_positive(strength) / mpa(1.0);

    return 0.3 * f_u * pow(mm(diameter), 2.6) * bw_unit_size(BW_LENGTH, "mm");
}

double bwi_ec_effective_number(double n, double spacing, double diameter, double angle)
{
    if (n == 1.0) {
        return 1.0;
    }
    const double close = bwi_positive(spacing) / (13.0 * bwi_positive(diameter));
    const double along = bwi_smaller(n, pow(n, 0.9) * pow(close, 0.25));
    const double share = bwi_not_negative(angle) / (0.5 * 3.14159265358979323846);

    return along + (n - along) * bwi_smaller(share, 1.0);
}

/* ---- of a joint ---- */

static bool is_threaded(const bw_fasteners *f)
{
    return f->kind == BW_FASTENER_LAG || f->kind == BW_FASTENER_SCREW;
}

/* f_u,k: as given (a yield strength is never more), else 600 MPa of wire nails and 400
 * MPa of mild steel. */
static double tensile(const bw_fasteners *f)
{
    return f->yield != 0.0               ? bwi_positive(f->yield)
           : f->kind == BW_FASTENER_NAIL ? mpa(600.0)
                                         : mpa(400.0);
}

static double rope_share(const bw_joint *j)
{
    if (j->end_grain) {
        return 0.0;
    }
    return is_threaded(&j->fasteners)              ? 1.0
           : j->fasteners.kind == BW_FASTENER_NAIL ? 0.15
                                                   : 0.0;
}

bwi_johansen bwi_johansen_of(const bw_check_input *in)
{
    const bw_joint *j = bwi_joint_of(in);
    const bw_fasteners *f = &j->fasteners;
    const double d = is_threaded(f) ? bwi_smaller(1.1 * bwi_fastener_root(f), f->diameter)
                                    : bwi_fastener_root(f);
    const double rope = rope_share(j), axial = rope > 0.0 ? bwi_ec_axial(in) : 0.0;

    return (bwi_johansen){
        .diameter = bwi_positive(d),
        .side_length = bwi_joint_side(j),
        .main_length = bwi_joint_penetration(j),
        .side_bearing = bwi_ec_bearing_strength(bwi_ec_density(&j->side_log), d,
                                                in->side_angle, j->side_log.group),
        .main_bearing = bwi_ec_bearing_strength(bwi_ec_density(&j->main_log), d,
                                                in->main_angle, j->main_log.group),
        .yield_moment = bwi_ec_yield_moment(tensile(f), d),
        .withdrawal = isnan(axial) ? 0.0 : axial, /* not known: not counted */
        .rope_share = rope};
}

/* ---- along their length ---- */

/* f_ax,k = 0.52 d^-0.5 l_ef^-0.1 rho_k^0.8 (8.39), times d; for 6 to 12 mm and l_ef >= 6
 * d, which is why others get no number. */
double bwi_ec_screw_withdrawal(double density, double diameter, double length)
{
    const double d = mm(diameter), l = mm(length);
    const double f_ax = 0.52 * pow(d, -0.5) * pow(l, -0.1) * pow(density, 0.8);

    if (!(d >= 6.0 - 1e-9 && d <= 12.0 + 1e-9 && l >= 6.0 * d * (1.0 - 1e-9))) {
        return (double)NAN;
    }
    return mpa(f_ax) * bwi_smaller(1.0, d / 8.0) * bwi_positive(diameter);
}

static double screw_axial(const bw_check_input *in)
{
    const bw_joint *j = bwi_joint_of(in);
    const double l = bwi_joint_thread(j);

    return bwi_ec_screw_withdrawal(bwi_ec_density(&j->main_log), j->fasteners.diameter,
                                   l) *
           l;
}

/* Washer or head on the wood: 3 f_c,90,k (8.5.2 (2)). */
static double washer(const bw_check_input *in)
{
    const bw_fasteners *f = &bwi_joint_of(in)->fasteners;
    const double head = bwi_fastener_head(f);
    const double area = bwi_circle_area(head) - bwi_circle_area(f->diameter);

    return 3.0 * bwi_reference_value(in, BW_BEARING) * bwi_positive(area);
}

/* Smooth nails hold nothing that lasts (8.3.2 (1)), and in green wood two thirds of 20e-6
 * rho^2 d t (8.25), (8.3.2 (10)); less than 12 d deep it is reduced to nothing at 8 d. */
static double nail_axial(const bw_check_input *in)
{
    const bw_joint *j = bwi_joint_of(in);
    const double rho = bwi_ec_density(&j->main_log), d = j->fasteners.diameter;
    const double t = bwi_joint_penetration(j), deep = t / (4.0 * bwi_positive(d)) - 2.0;
    const double f_ax = 2.0 / 3.0 * mpa(20e-6 * rho * rho);

    if (in->foot_dead < 0.0) {
        return (double)NAN;
    }
    return f_ax * d * t * bwi_smaller(1.0, bwi_larger(deep, 0.0));
}

double bwi_ec_axial(const bw_check_input *in)
{
    const bw_joint *j = bwi_joint_of(in);

    if (j->end_grain || j->fasteners.toe) {
        return (double)NAN; /* no rule */
    }
    switch (j->fasteners.kind) {
    case BW_FASTENER_LAG:
    case BW_FASTENER_SCREW:
        return bwi_smaller(screw_axial(in), washer(in));
    case BW_FASTENER_BOLT:
        return washer(in);
    case BW_FASTENER_SPIKE:
    case BW_FASTENER_NAIL:
        return nail_axial(in);
    default:
        return (double)NAN;
    }
}
