/* end_bearing.c - the end grain of a post.
 *
 *   f_c = R / A_b <= 0.75 F_c*,   F_c* = F_c C_D (no C_P: the end cannot buckle)
 *
 * ANSI/AWC NDS 2018, 3.10.1 (READ): above 0.75 F_c* a metal plate must spread the force.
 * There is none between logs, so 0.75 F_c* is the capacity. */
#include "us_asd.h"

static bw_ratio end_bearing_ratio(const bw_check_input *in, bw_working *working)
{
    static const double without_plate = 0.75;
    const double stress = in->force / bwi_positive(in->bearing_area);
    const double crushing =
        bwi_reference_value(in, BW_COMPRESSION) * bwi_load_duration(in);
    const double allowed = without_plate * crushing;

    bwi_record(working, "R", "force on the end grain", in->force, BW_FORCE);
    bwi_record(working, "A_b", "bearing area", in->bearing_area, BW_AREA);
    bwi_record(working, "f_c", "end bearing stress, R / A_b", stress, BW_STRESS);
    bwi_record_reference(working, in, BW_COMPRESSION);
    bwi_record_load_duration(working, in);
    bwi_record(working, "F_c*", "end-grain bearing with a plate, F_c C_D", crushing,
               BW_STRESS);
    bwi_record_number(working, "p", "share of F_c* without a metal plate", without_plate,
                      BW_MARK_READ, "ANSI/AWC NDS 2018, 3.10.1.3");
    bwi_record(working, "p F_c*", "allowed end bearing stress", allowed, BW_STRESS);
    return bwi_ratio_of(stress, allowed);
}

const bw_check bwi_us_end_bearing = {
    .kind = BW_CHECK_END_BEARING,
    .id = "end_bearing",
    .title = "End bearing of a post",
    .formula = "f_c = R / A_b <= 0.75 F_c*, F_c* = F_c C_D",
    .source = "ANSI/AWC NDS 2018, 3.10.1",
    .mark = BW_MARK_READ,
    .quantity = BW_STRESS,
    .ratio = end_bearing_ratio,
};
