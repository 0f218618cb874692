/* shear.c - shear along the grain, with cracks and with a notch at the support.
 *
 *   tau_d = V_d S / (I b) / k_cr <= k_v f_v,d
 *   round: V_d S / (I b) = 4 V_d / (3 A),   k_cr = 0.67
 *
 * 6.1.7 with (6.13a) b_ef = k_cr b (k_cr READ in a public summary); 6.5.2 for the notch
 * (notch.c), where S, I and b are those of the section that it leaves. Loads near a
 * support are not left out here: that is the choice of whoever gives V_d. Where it is not
 * known how far the reaction lies from the notch's corner, a whole depth is taken. */
#include "eurocode.h"

#include <math.h>

static const double cracks = 0.67; /* k_cr of solid timber */

static bool is_notched(const bw_check_input *in)
{
    return in->notch_left != 0.0 || in->notch_whole != 0.0;
}

/* The clause takes 1.5 V / (b h_ef), the parabola of a rectangle: not less over a notch.
 */
static double shear_factor(const bw_check_input *in)
{
    const double own = bwi_section_shear_factor(in);

    return is_notched(in) ? bwi_larger(own, 1.5 / bwi_positive(bwi_section_area(in)))
                          : own;
}

static double reach_of(const bw_check_input *in)
{
    return in->notch_reach != 0.0 ? in->notch_reach : in->notch_whole;
}

static double notch_factor(const bw_check_input *in)
{
    if (!is_notched(in)) {
        return 1.0;
    }
    return bwi_ec_notch_factor(&(bwi_ec_notch){
        .depth = in->notch_whole, .left = in->notch_left, .reach = reach_of(in)});
}

static void record_notch(bw_working *working, const bw_check_input *in)
{
    if (!is_notched(in)) {
        return;
    }
    bwi_record(working, "h_ef", "depth left over the notch", in->notch_left, BW_LENGTH);
    bwi_record(working, "h_0", "depth beside the notch", in->notch_whole, BW_LENGTH);
    bwi_record_from(working,
                    &(bw_term){"x",
                               in->notch_reach != 0.0
                                   ? "reaction to corner: from the middle of the seat"
                                   : "reaction to corner: not known, a whole depth taken",
                               reach_of(in), BW_LENGTH, BW_MARK_JUDGEMENT,
                               "the cautious side of EN 1995-1-1:2004, 6.5.2"});
    bwi_record_number(working, "k_v", "notch factor, k_n = 5 of solid timber",
                      notch_factor(in), BW_MARK_READ, "EN 1995-1-1:2004, 6.5.2");
}

static bw_ratio shear_ratio(const bw_check_input *in, bw_working *working)
{
    const double V = fabs(in->shear);
    const double stress = V * shear_factor(in) / cracks;
    const double allowed = notch_factor(in) * bwi_ec_design(in, BW_SHEAR_STRENGTH);

    bwi_record_section(working, in);
    bwi_record(working, "V_d", "design shear force", V, BW_FORCE);
    bwi_record(working, "A", "area", bwi_section_area(in), BW_AREA);
    bwi_record_number(working, "k_cr", "part of the width that cracks leave", cracks,
                      BW_MARK_READ, "EN 1995-1-1:2004+A1, 6.1.7 (2)");
    bwi_record(working, "tau_d",
               bwi_is_circle(in) ? "largest shear stress, 4 V_d / (3 A k_cr)"
                                 : "largest shear stress of what is left, V_d S / (I b "
                                   "k_cr); 1.5 V_d / (A k_cr) over a notch",
               stress, BW_STRESS);
    bwi_ec_record_design(working, in, BW_SHEAR_STRENGTH);
    record_notch(working, in);
    return bwi_ratio_of(stress, allowed);
}

const bw_check bwi_ec_shear = {
    .kind = BW_CHECK_SHEAR,
    .id = "shear",
    .title = "Shear",
    .formula = "tau_d = V_d S / (I b k_cr) <= k_v f_v,d = k_v k_mod f_v,k / gamma_M",
    .source = "EN 1995-1-1:2004+A1, 6.1.7 and 6.5.2",
    .mark = BW_MARK_READ,
    .quantity = BW_STRESS,
    .ratio = shear_ratio,
};
