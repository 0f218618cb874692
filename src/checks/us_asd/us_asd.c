/* us_asd.c - the table of the basis: one row for each kind of check. */
#include "us_asd.h"

#include "../ground/ground.h"

static bw_status reference(bw_arena *arena, const bw_log *log, bw_reference *out)
{
    BW_TRY(bw_us_reference(arena, log->species, out));
    return bw_reference_grade(out, &log->grade, true);
}

static const bw_sourced_text notes[] = {
    {"a rider presses hard for ten minutes in all (C_D 1.6) unless the case says else; "
     "slow, with at most 1.25 times the weight and the braking, as long as people do "
     "(C_D 1.0)",
     BW_MARK_JUDGEMENT, "NDS 2018, Table 2.3.2"},
    {NULL, BW_MARK_NONE, NULL},
};

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
            [BW_CHECK_SOIL_LATERAL] = &bwi_ground_lateral,
            [BW_CHECK_SOIL_BEARING] = &bwi_ground_bearing,
            [BW_CHECK_UPLIFT] = &bwi_ground_uplift,
            [BW_CHECK_BUCKLING] = &bwi_buckling,
            [BW_CHECK_JOINT] = &bwi_us_joint,
            [BW_CHECK_SPLIT] = &bwi_us_split,
            [BW_CHECK_LIFT] = &bwi_us_lift,
            [BW_CHECK_ANGLE] = &bwi_us_angle,
        },
    .reference = reference,
    .sawn_reference = bw_us_sawn,
    .least_frequency = {3.0, BW_MARK_MEMORY,
                        "AASHTO guide for pedestrian bridges, 2009: 3 Hz"},
    .person = {1334.4664845782, BW_MARK_READ, /* 300 lb */
               "WAC 51-51-0301: stair treads, 300 lb on 2 by 2 in"},
    .holding = {0.6, BW_MARK_MEMORY, "ASCE 7-16, 2.4.1"},
    .combinations = bwi_us_combinations,
    .duration_title = "load duration factor",
    .duration_least = 0.9, /* permanent to impact, NDS 2018 Table 2.3.2 */
    .duration_most = 2.0,
    .uses = bwi_us_uses,
    .notes = notes,
};
