/* bending.c - bending of a round section, whole or cut.
 *
 *   f_b = M / S <= F_b' = F_b C_D C_F C_f,   S = pi D^3 / 32 for a full circle
 *
 * ANSI/AWC NDS 2018, 3.3 and Table 6.3.1 (MEMORY); S is geometry. C_L = 1 because a
 * circle is not deeper than wide (3.3.3.1). No form factor on top: values of round timber
 * hold it; C_f takes it back from sections that are round no more (factors.c). */
#include "us_asd.h"

static bw_ratio bending_ratio(const bw_check_input *in, bw_working *working)
{
    bwi_record_bending(working, in);
    return bwi_ratio_of(bwi_bending_stress(in), bwi_bending_allowed(in));
}

const bw_check bwi_us_bending = {
    .kind = BW_CHECK_BENDING,
    .id = "bending",
    .title = "Bending",
    .formula = "f_b = M / S <= F_b' = F_b C_D C_F",
    .source = "ANSI/AWC NDS 2018, 3.3 and 6.3",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_STRESS,
    .ratio = bending_ratio,
};
