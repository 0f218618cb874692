/* sag.c - long-term deflection, with creep.
 *
 *   Delta_T = K_cr Delta_LT + Delta_ST <= L / limit,   K_cr = 2.0
 *
 * ANSI/AWC NDS 2018, 3.5.2 (MEMORY): 2.0 for wood installed green or used wet. Delta_LT
 * is the immediate deflection of the loads that last, Delta_ST that of the loads that
 * pass. Both count as downward: a passing load that lifts does not undo what creeps.
 * Whoever gives the deflection of all loads as Delta_ST counts the lasting part three
 * times, which is too much, never too little. */
#include "us_asd.h"

#include <math.h>

static bw_ratio sag_ratio(const bw_check_input *in, bw_working *working)
{
    static const double creep = 2.0;
    const double lasting = fabs(in->deflection_dead);
    const double passing = fabs(in->deflection);
    const double sag = creep * lasting + passing;
    const double allowed = bwi_positive(in->span) / bwi_positive(in->limit);

    bwi_record(working, "Delta_LT", "immediate deflection of the loads that last",
               lasting, BW_LENGTH);
    bwi_record(working, "Delta_ST", "deflection of the loads that pass", passing,
               BW_LENGTH);
    bwi_record_number(working, "K_cr", "creep factor of green or wet wood", creep,
                      BW_MARK_MEMORY, "ANSI/AWC NDS 2018, 3.5.2");
    bwi_record(working, "Delta_T", "long-term deflection, K_cr Delta_LT + Delta_ST", sag,
               BW_LENGTH);
    bwi_record(working, "L", "span, twice the length of a cantilever", in->span,
               BW_LENGTH);
    bwi_record(working, "limit", "least span over long-term deflection", in->limit,
               BW_NUMBER);
    bwi_record(working, "Delta'", "allowed deflection, L / limit", allowed, BW_LENGTH);
    return bwi_ratio_of(sag, allowed);
}

const bw_check bwi_us_sag = {
    .kind = BW_CHECK_SAG,
    .id = "sag",
    .title = "Long-term sag",
    .formula = "Delta_T = K_cr Delta_LT + Delta_ST <= L / limit",
    .source = "ANSI/AWC NDS 2018, 3.5.2",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_LENGTH,
    .ratio = sag_ratio,
};
