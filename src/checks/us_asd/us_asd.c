/* us_asd.c - the table of the basis: one row for each kind of check. */
#include "us_asd.h"

static bw_status reference(bw_arena *arena, const bw_log *log, bw_reference *out)
{
    return bw_us_reference(arena, log->species, out);
}

const bw_basis bw_us_asd = {
    .id = "us_asd",
    .title = "allowable stress (NDS 2018 / ASCE 7)",
    .checks =
        {
            [BW_CHECK_BENDING] = &bwi_us_bending,
            [BW_CHECK_SHEAR] = &bwi_us_shear,
            [BW_CHECK_COMPRESSION] = &bwi_us_compression,
            [BW_CHECK_COMBINED] = &bwi_us_combined,
            [BW_CHECK_BEARING] = &bwi_us_bearing,
            [BW_CHECK_END_BEARING] = &bwi_us_end_bearing,
            [BW_CHECK_DEFLECTION] = &bwi_us_deflection,
            [BW_CHECK_SAG] = &bwi_us_sag,
        },
    .reference = reference,
    .combinations = bwi_us_combinations,
};
