/* shear.c - shear along the grain of a round section, whole or cut.
 *
 *   f_v = V Q / (I b) <= F_v' = F_v C_D,   4 V / (3 A) for a full circle
 *   notched at an end on the tension side:  V <= V_r' = 2/3 F_v' A_n (d_n / d)^2,
 *   here as f_v,n = V / (2/3 A_n (d_n / d)^2) <= F_v'
 *
 *   and no deeper than a quarter there (4.4.3, of sawn beams), or it is over by that much
 *
 * ANSI/AWC NDS 2018, 3.4.2, 3.4.3.2(b) for circles, and Table 6.3.1 (MEMORY); the circle
 * is worked out from V Q / (I b). Loads near a support are not left out here: that is the
 * choice of whoever gives V. */
#include "us_asd.h"

#include <math.h>

static bool is_notched(const bw_check_input *in)
{
    return in->notch_left != 0.0 || in->notch_whole != 0.0;
}

/* What the stress of the notch rule is taken on, 2/3 A_n (d_n / d)^2 [m2]; a notch that
 * leaves more than there was is none. */
static double notched_area(const bw_check_input *in)
{
    const double left = bwi_positive(in->notch_left) / bwi_positive(in->notch_whole);
    const double share = left <= 1.0 ? left : (double)NAN;

    return 2.0 / 3.0 * bwi_section_area(in) * share * share;
}

/* How much deeper it is than may be cut; 0 if no such rule is asked for. */
static double too_deep(const bw_check_input *in)
{
    const double cut = 1.0 - in->notch_left / bwi_positive(in->notch_whole);

    return is_notched(in) && in->notch_most > 0.0 ? cut / in->notch_most : 0.0;
}

static void record_notch(bw_working *working, const bw_check_input *in, double stress)
{
    bwi_record(working, "d_n", "depth left over the notch", in->notch_left, BW_LENGTH);
    bwi_record(working, "d", "depth beside the notch", in->notch_whole, BW_LENGTH);
    bwi_record_from(working, &(bw_term){"f_v,n",
                                        "shear stress by the notch rule, V / (2/3 A_n "
                                        "(d_n / d)^2)",
                                        stress, BW_STRESS, BW_MARK_MEMORY,
                                        "ANSI/AWC NDS 2018, 3.4.3.2(b)"});
    if (in->notch_most > 0.0) {
        bwi_record_number(working, "q",
                          "depth of the notch over a quarter of the log: above 1 is over",
                          too_deep(in), BW_MARK_MEMORY, "ANSI/AWC NDS 2018, 4.4.3");
    }
}

static bw_ratio shear_ratio(const bw_check_input *in, bw_working *working)
{
    const double V = fabs(in->shear);
    const double A = bwi_section_area(in);
    const double f_v = V * bwi_section_shear_factor(in);
    const double f_vn = is_notched(in) ? V / bwi_positive(notched_area(in)) : 0.0;
    const double allowed =
        bwi_reference_value(in, BW_SHEAR_STRENGTH) * bwi_load_duration(in);

    bwi_record_section(working, in);
    bwi_record(working, "V", "shear force", V, BW_FORCE);
    bwi_record(working, "A", bwi_is_circle(in) ? "area, pi D^2 / 4" : "area that is left",
               A, BW_AREA);
    bwi_record(working, "f_v",
               bwi_is_circle(in) ? "largest shear stress, 4 V / (3 A)"
                                 : "largest shear stress, V Q / (I b)",
               f_v, BW_STRESS);
    if (is_notched(in)) {
        record_notch(working, in, f_vn);
    }
    bwi_record_reference(working, in, BW_SHEAR_STRENGTH);
    bwi_record_load_duration(working, in);
    bwi_record(working, "F_v'", "allowed shear stress, F_v C_D", allowed, BW_STRESS);
    bw_ratio ratio = bwi_ratio_of(bwi_larger(f_v, f_vn), allowed);
    if (too_deep(in) > 1.0) {
        ratio.utilisation = bwi_larger(ratio.utilisation, too_deep(in));
        ratio.capacity = 0.0; /* nothing is allowed */
    }
    return ratio;
}

const bw_check bwi_us_shear = {
    .kind = BW_CHECK_SHEAR,
    .id = "shear",
    .title = "Shear",
    .formula = "f_v = V Q / (I b) <= F_v' = F_v C_D; 4 V / (3 A) for a full circle",
    .source = "ANSI/AWC NDS 2018, 3.4.2, 3.4.3.2 and 6.3",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_STRESS,
    .ratio = shear_ratio,
};
