/* group.c - what fasteners lose in a group, near ends and edges, in wet and in end grain.
 *
 *   C_g = m (1 - m^2n) / (n ((1 + R m^n)(1 + m) - 1 + m^2n)) (1 + R) / (1 - m)
 *   m = u - sqrt(u^2 - 1),  u = 1 + gamma s/2 (1 / (E A)_m + 1 / (E A)_s),
 *   R: the smaller of both E A over the larger, gamma = 180000 D^1.5 lb/in
 *   C_delta = min(end / full end, spacing / full spacing), none below the least
 *   C_M = 0.7 wet in use (facts of this basis); 0.4 where logs put up green shrink
 * between fasteners of 1/4 in and more; C_eg = 0.67 sideways in end grain; C_D <= 1.6
 *
 * ANSI/AWC NDS 2018, 11.3.2, 11.3.3, 11.3.6, 12.5.1 and 12.5.2 (MEMORY; that impact
 * factors are not for connections was READ). */
#include "dowel.h"

#include "us_asd.h"

#include <math.h>

double bwi_load_slip(double diameter)
{
    const double D = bwi_positive(diameter) / bw_inch;

    return 180000.0 * pow(D, 1.5) * bw_unit_size(BW_STIFFNESS, "lb/in");
}

double bwi_group_factor(double n, double spacing, double slip, const double stiffness[2])
{
    const double a = bwi_positive(stiffness[0]), b = bwi_positive(stiffness[1]);
    const double u =
        1.0 + bwi_positive(slip) * bwi_positive(spacing) / 2.0 * (1.0 / a + 1.0 / b);
    const double m = u - sqrt(u * u - 1.0);
    const double R = bwi_smaller(a, b) / bwi_larger(a, b), m_2n = pow(m, 2.0 * n);

    if (n == 1.0) {
        return 1.0;
    }
    return m * (1.0 - m_2n) / (n * ((1.0 + R * pow(m, n)) * (1.0 + m) - 1.0 + m_2n)) *
           (1.0 + R) / (1.0 - m);
}

double bwi_joint_duration(const bw_check_input *in)
{
    static const double most = 1.6;

    return bwi_smaller(most, bwi_load_duration(in));
}

double bwi_joint_wet(const bw_check_input *in)
{
    static const double wet = 0.7, held_apart = 0.4;
    const bw_joint *j = bwi_joint_of(in);
    const bw_fasteners *f = &j->fasteners;
    const double across = bwi_larger(bwi_fasteners_across(f, in->side_angle),
                                     bwi_fasteners_across(f, in->main_angle));
    const bool thick = f->diameter >= 0.25 * bw_inch * (1.0 - 1e-9);

    return isnan(across) ? (double)NAN : across > 1.0 && thick ? held_apart : wet;
}

double bwi_joint_end_grain(const bw_joint *j)
{
    return j->end_grain ? 0.67 : 1.0;
}

/* ---- distances ---- */

/* Least distance between rows across the grain: 2.5 D of stout bolts to 5 D of slender
 * ones. */
static double row_distance(const bw_joint *j)
{
    const double D = j->fasteners.diameter;
    const double l = bwi_smaller(bwi_joint_side(j), bwi_joint_penetration(j)) / D;

    return l >= 6.0 ? 5.0 * D : l <= 2.0 ? 2.5 * D : (5.0 * l + 10.0) / 8.0 * D;
}

static void place_thick(const bw_check_input *in, double angle, bw_wood_group group,
                        bwi_placing *p)
{
    const bw_joint *j = bwi_joint_of(in);
    const bw_fasteners *f = &j->fasteners;
    const double D = f->diameter, in_row = bwi_fasteners_in_row(f);
    const double toward = group == BW_SOFTWOOD ? 7.0 : 5.0;
    const bool along = bwi_is_along(angle), across = bwi_is_across(angle);
    const double end = along && in->to_end ? toward : 4.0;

    bwi_place(p, f->end, end / 2.0 * D, end * D);
    bwi_place(p, f->edge, 1.5 * D, 1.5 * D);
    if (across) {
        bwi_place(p, f->loaded_edge, 4.0 * D, 4.0 * D);
    }
    if (!(in_row <= 1.0)) {
        bwi_place(p, f->spacing, 3.0 * D, 4.0 * D);
    }
    if (f->rows > 1) {
        const double least = across ? row_distance(j) : 1.5 * D;
        bwi_place(p, f->row_spacing, least, least);
        bwi_place(p, f->edge, f->row_spacing / 2.0, f->row_spacing / 2.0);
    }
}

/* Thinner than 1/4 in, bored: recommended, not required (commentary, MEMORY). */
static void place_thin(const bw_check_input *in, bwi_placing *p)
{
    const bw_fasteners *f = &bwi_joint_of(in)->fasteners;
    const double D = f->diameter;

    bwi_place(p, f->end, 10.0 * D, 10.0 * D);
    bwi_place(p, f->edge, 2.5 * D, 2.5 * D);
    if (!(bwi_fasteners_in_row(f) <= 1.0)) {
        bwi_place(p, f->spacing, 10.0 * D, 10.0 * D);
    }
    if (f->rows > 1) {
        bwi_place(p, f->row_spacing, 5.0 * D, 5.0 * D);
    }
}

bwi_placing bwi_us_placing(const bw_check_input *in)
{
    const bw_joint *j = bwi_joint_of(in);
    const bw_fasteners *f = &j->fasteners;
    bwi_placing p = {1.0, 0.0};

    if (f->kind != BW_FASTENER_BOLT) {
        const double least = bwi_least_penetration(f);
        bwi_place(&p, bwi_joint_penetration(j), least, least);
    }
    if (f->diameter < 0.25 * bw_inch * (1.0 - 1e-9)) {
        place_thin(in, &p);
        return p;
    }
    place_thick(in, in->side_angle, j->side_log.group, &p);
    if (!j->end_grain) {
        place_thick(in, in->main_angle, j->main_log.group, &p);
    }
    return p;
}
