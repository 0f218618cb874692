/* end_bearing.c - the end grain of a post.
 *
 *   sigma_c,0,d = F_d / A <= f_c,0,d    (no k_c: the end cannot buckle)
 *
 * 6.1.4 (MEMORY). */
#include "eurocode.h"

static bw_ratio end_bearing_ratio(const bw_check_input *in, bw_working *working)
{
    const double stress = in->force / bwi_positive(in->bearing_area);

    bwi_record(working, "F_d", "design force on the end grain", in->force, BW_FORCE);
    bwi_record(working, "A", "contact area", in->bearing_area, BW_AREA);
    bwi_record(working, "sigma_c,0,d", "end bearing stress, F_d / A", stress, BW_STRESS);
    bwi_ec_record_design(working, in, BW_COMPRESSION);
    return bwi_ratio_of(stress, bwi_ec_design(in, BW_COMPRESSION));
}

const bw_check bwi_ec_end_bearing = {
    .kind = BW_CHECK_END_BEARING,
    .id = "end_bearing",
    .title = "End bearing of a post",
    .formula = "sigma_c,0,d = F_d / A <= f_c,0,d",
    .source = "EN 1995-1-1:2004, 6.1.4",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_STRESS,
    .ratio = end_bearing_ratio,
};
