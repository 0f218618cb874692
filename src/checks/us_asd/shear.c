/* shear.c - shear along the grain of a round section.
 *
 *   f_v = V Q / (I b) = 4 V / (3 A) <= F_v' = F_v C_D
 *
 * ANSI/AWC NDS 2018, 3.4.2 and Table 6.3.1 (MEMORY); the circle is worked out from V Q /
 * (I b). Loads near a support are not left out here: that is the choice of whoever gives
 * V. */
#include "us_asd.h"

#include <math.h>

static bw_ratio shear_ratio(const bw_check_input *in, bw_working *working)
{
    const double V = fabs(in->shear);
    const double A = bwi_circle_area(in->diameter);
    const double f_v = 4.0 * V / (3.0 * bwi_positive(A));
    const double allowed =
        bwi_reference_value(in, BW_SHEAR_STRENGTH) * bwi_load_duration(in);

    bwi_record(working, "D", "diameter at the place", in->diameter, BW_LENGTH);
    bwi_record(working, "V", "shear force", V, BW_FORCE);
    bwi_record(working, "A", "area, pi D^2 / 4", A, BW_AREA);
    bwi_record(working, "f_v", "largest shear stress, 4 V / (3 A)", f_v, BW_STRESS);
    bwi_record_reference(working, in, BW_SHEAR_STRENGTH);
    bwi_record_load_duration(working, in);
    bwi_record(working, "F_v'", "allowed shear stress, F_v C_D", allowed, BW_STRESS);
    return bwi_ratio_of(f_v, allowed);
}

const bw_check bwi_us_shear = {
    .kind = BW_CHECK_SHEAR,
    .id = "shear",
    .title = "Shear",
    .formula = "f_v = 4 V / (3 A) <= F_v' = F_v C_D",
    .source = "ANSI/AWC NDS 2018, 3.4.2 and 6.3",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_STRESS,
    .ratio = shear_ratio,
};
