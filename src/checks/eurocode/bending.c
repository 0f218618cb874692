/* bending.c - bending of a log.
 *
 *   sigma_m,d = M_d / W <= f_m,d
 *
 * 6.1.6: (6.11) and (6.12) with k_m = 1, since a round log has one bending moment, the
 * vector of both. No lateral buckling of what is not deeper than wide (6.3.3), no k_h. */
#include "eurocode.h"

static bw_ratio bending_ratio(const bw_check_input *in, bw_working *working)
{
    bwi_ec_record_bending(working, in);
    return bwi_ratio_of(bwi_ec_bending_stress(in), bwi_ec_bending_strength(in));
}

const bw_check bwi_ec_bending = {
    .kind = BW_CHECK_BENDING,
    .id = "bending",
    .title = "Bending",
    .formula = "sigma_m,d = M_d / W <= f_m,d = k_mod f_m,k / gamma_M",
    .source = "EN 1995-1-1:2004, 6.1.6",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_STRESS,
    .ratio = bending_ratio,
};
