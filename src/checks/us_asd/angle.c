/* angle.c - bearing at an angle to the grain.
 *
 *   f_th = R / A <= F_th' = F_c* F_cperp / (F_c* sin^2 + F_cperp cos^2),  F_c* = F_c C_D
 *
 * ANSI/AWC NDS 2018, 3.10.3 and Appendix J (form READ). C_b is left out. */
#include "us_asd.h"

#include <math.h>

double bwi_angle_stress(double along, double across, double angle)
{
    const double s = sin(angle), c = cos(angle);
    const double P = bwi_positive(along), Q = bwi_positive(across);

    return P * Q / (P * s * s + Q * c * c);
}

static bw_ratio angle_ratio(const bw_check_input *in, bw_working *working)
{
    const double stress = in->force / bwi_positive(in->bearing_area);
    const double along = bwi_reference_value(in, BW_COMPRESSION) * bwi_load_duration(in);
    const double allowed = bwi_angle_stress(along, bwi_reference_value(in, BW_BEARING),
                                            bwi_not_negative(in->grain_angle));

    bwi_record(working, "R", "force on the contact", in->force, BW_FORCE);
    bwi_record(working, "A", "contact area", in->bearing_area, BW_AREA);
    bwi_record(working, "th", "force to the grain of the log that bears", in->grain_angle,
               BW_ANGLE);
    bwi_record(working, "f_th", "bearing stress, R / A", stress, BW_STRESS);
    bwi_record_reference(working, in, BW_COMPRESSION);
    bwi_record_load_duration(working, in);
    bwi_record(working, "F_c*", "along the grain, F_c C_D", along, BW_STRESS);
    bwi_record_reference(working, in, BW_BEARING);
    bwi_record_from(working,
                    &(bw_term){"F_th'", "allowed at the angle, by Hankinson", allowed,
                               BW_STRESS, BW_MARK_READ, "ANSI/AWC NDS 2018, 3.10.3"});
    return bwi_ratio_of(stress, allowed);
}

const bw_check bwi_us_angle = {
    .kind = BW_CHECK_ANGLE,
    .id = "angle_bearing",
    .title = "Bearing at an angle to the grain",
    .formula = "f_th = R / A <= F_c* F_cperp / (F_c* sin^2 th + F_cperp cos^2 th)",
    .source = "ANSI/AWC NDS 2018, 3.10.3",
    .mark = BW_MARK_READ,
    .quantity = BW_STRESS,
    .ratio = angle_ratio,
};
