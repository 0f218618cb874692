/* bearing.c - bearing across the grain.
 *
 *   f_cperp = R / A_b <= F_cperp' = F_cperp C_b
 *
 * ANSI/AWC NDS 2018, 3.10.2 and 3.10.4 (formula of C_b READ). No C_D: this is a limit on
 * crushing that stays (2.3.2, READ). C_b only where the bearing is at least 3 in from the
 * end of the piece. A negative force lifts; it is no bearing, and this check cannot say.
 */
#include "us_asd.h"

static const char *factor_meaning(const bw_check_input *in)
{
    const double inch = bw_inch;

    if (!in->bearing_inside) {
        return "bearing area factor: 1 within 3 in of an end";
    }
    return in->bearing_length > 5.625 * inch && in->bearing_length < 6.0 * inch
               ? "bearing area factor, 6 in / l_b: no more than a length of 6 in carries"
               : "bearing area factor, (l_b + 3/8 in) / l_b below 6 in, at most 1.75; "
                 "else 1";
}

static bw_ratio bearing_ratio(const bw_check_input *in, bw_working *working)
{
    const double C_b = in->bearing_inside ? bwi_bearing_factor(in->bearing_length) : 1.0;
    const double stress = in->force / bwi_positive(in->bearing_area);
    const double allowed = bwi_reference_value(in, BW_BEARING) * C_b;

    bwi_record(working, "R", "force across the grain", in->force, BW_FORCE);
    bwi_record(working, "A_b", "bearing area", in->bearing_area, BW_AREA);
    bwi_record(working, "f_cperp", "bearing stress, R / A_b", stress, BW_STRESS);
    bwi_record_reference(working, in, BW_BEARING);
    if (in->bearing_inside) {
        bwi_record(working, "l_b", "bearing length along the grain", in->bearing_length,
                   BW_LENGTH);
    }
    bwi_record_number(working, "C_b", factor_meaning(in), C_b, BW_MARK_READ,
                      "ANSI/AWC NDS 2018, 3.10.4");
    bwi_record(working, "F_cperp'", "allowed bearing stress, F_cperp C_b", allowed,
               BW_STRESS);
    return bwi_ratio_of(stress, allowed);
}

const bw_check bwi_us_bearing = {
    .kind = BW_CHECK_BEARING,
    .id = "bearing",
    .title = "Bearing across the grain",
    .formula = "f_cperp = R / A_b <= F_cperp' = F_cperp C_b",
    .source = "ANSI/AWC NDS 2018, 3.10.2 and 3.10.4",
    .mark = BW_MARK_READ,
    .quantity = BW_STRESS,
    .ratio = bearing_ratio,
};
