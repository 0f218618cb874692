/* eurocode.c - the table of the basis: one row for each kind of check. */
#include "eurocode.h"

#include "../ground/ground.h"

/* Whoever graded the log to a class has looked at what grading by eye asks. */
static bw_status reference(bw_arena *arena, const bw_log *log, bw_reference *out)
{
    BW_TRY(bw_characteristic_reference(arena, log->species, log->strength_class, out));
    return bw_reference_grade(out, &log->grade, log->strength_class == NULL);
}

static const bw_sourced_text notes[] = {
    {"all wood is wet: service class 3, logs in the open", BW_MARK_JUDGEMENT,
     "EN 1995-1-1:2004, 2.3.1.3"},
    {"people and snow count as medium-term; a rider presses hard for an instant (k_mod "
     "0.90) unless the case says else; slow, with at most 1.56 times the weight and the "
     "braking, for the short term (0.70)",
     BW_MARK_JUDGEMENT, "EN 1995-1-1:2004, 2.3.1.2, the cautious of what is usual"},
    {"strengths are not raised for thin logs, nor bearing for distant supports",
     BW_MARK_JUDGEMENT, "EN 1995-1-1:2004, k_h and k_c,90 = 1 on the cautious side"},
    {"deflection at once counts the lasting loads too; creep counts wood built in green, "
     "k_def = 3",
     BW_MARK_MEMORY, "EN 1995-1-1:2004, 2.2.3 and 3.2"},
    {"the ground is checked under unfactored loads, since its allowable values hold the "
     "whole safety; EN 1997 and its national annex are not",
     BW_MARK_JUDGEMENT, "IBC Table 1806.2 with EN 1990:2002, (6.14b)"},
    {"partial factors are the recommended ones: a national annex may differ",
     BW_MARK_READ, "EN 1990:2002, Table A1.2(B); EN 1995-1-1:2004, Table 2.3"},
    {NULL, BW_MARK_NONE, NULL},
};

const bw_basis bw_eurocode = {
    .id = "eurocode",
    .title = "limit states (EN 1990 / EN 1995-1-1)",
    .checks =
        {
            [BW_CHECK_BENDING] = &bwi_ec_bending,
            [BW_CHECK_SHEAR] = &bwi_ec_shear,
            [BW_CHECK_COMPRESSION] = &bwi_ec_compression,
            [BW_CHECK_COMBINED] = &bwi_ec_combined,
            [BW_CHECK_BEARING] = &bwi_ec_bearing,
            [BW_CHECK_END_BEARING] = &bwi_ec_end_bearing,
            [BW_CHECK_DEFLECTION] = &bwi_ec_deflection,
            [BW_CHECK_SAG] = &bwi_ec_sag,
            [BW_CHECK_SOIL_LATERAL] = &bwi_ground_lateral,
            [BW_CHECK_SOIL_BEARING] = &bwi_ground_bearing,
            [BW_CHECK_UPLIFT] = &bwi_ground_uplift,
            [BW_CHECK_BUCKLING] = &bwi_ec_buckling,
            [BW_CHECK_JOINT] = &bwi_ec_joint,
            [BW_CHECK_SPLIT] = &bwi_ec_split,
            [BW_CHECK_LIFT] = &bwi_ec_lift,
            [BW_CHECK_ANGLE] = &bwi_ec_angle,
        },
    .reference = reference,
    .sawn_reference = bw_characteristic_sawn,
    .least_frequency = {5.0, BW_MARK_MEMORY,
                        "EN 1990:2002, A2.4.3.2: a closer look below 5 Hz"},
    .person = {2000.0, BW_MARK_MEMORY,
               "EN 1991-1-1:2002, Table 6.2: Q_k of stairs and balconies; 4 kN and more "
               "where crowds gather"},
    .holding = {0.9, BW_MARK_MEMORY, "EN 1990:2002, Table A1.2(A)"},
    .combinations = bwi_ec_combinations,
    .duration_title = "modification factor k_mod",
    .duration_least = 0.50,
    .duration_most = 0.90,
    .knows_classes = true,
    .uses = bwi_ec_uses,
    .notes = notes,
};
