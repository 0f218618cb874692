/* angle.c - bearing at an angle to the grain.
 *
 *   sigma_c,a,d = F_d / A <= f_c,a,d of (6.16), k_c,90 = 1 (MEMORY; see contact.c)
 */
#include "eurocode.h"

static bw_ratio angle_ratio(const bw_check_input *in, bw_working *working)
{
    const double stress = in->force / bwi_positive(in->bearing_area);
    const double allowed = bwi_ec_angle_strength(bwi_ec_design(in, BW_COMPRESSION),
                                                 bwi_ec_design(in, BW_BEARING),
                                                 bwi_not_negative(in->grain_angle));

    bwi_record(working, "F_d", "design force on the contact", in->force, BW_FORCE);
    bwi_record(working, "A", "contact area", in->bearing_area, BW_AREA);
    bwi_record(working, "alpha", "force to the grain of the log that bears",
               in->grain_angle, BW_ANGLE);
    bwi_record(working, "sigma_c,a,d", "bearing stress, F_d / A", stress, BW_STRESS);
    bwi_ec_record_design(working, in, BW_COMPRESSION);
    bwi_ec_record_design(working, in, BW_BEARING);
    bwi_record_from(working,
                    &(bw_term){"f_c,a,d", "design strength at the angle", allowed,
                               BW_STRESS, BW_MARK_MEMORY, "EN 1995-1-1:2004, (6.16)"});
    return bwi_ratio_of(stress, allowed);
}

const bw_check bwi_ec_angle = {
    .kind = BW_CHECK_ANGLE,
    .id = "angle_bearing",
    .title = "Bearing at an angle to the grain",
    .formula = "sigma_c,a,d = F_d / A <= f_c,a,d of (6.16)",
    .source = "EN 1995-1-1:2004, 6.2.2",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_STRESS,
    .ratio = angle_ratio,
};
