/* sag.c - final deflection, with creep.
 *
 *   w_fin = w_G (1 + k_def) + w_Q (1 + psi_2 k_def) <= L / limit
 *
 * 2.2.3 (MEMORY). k_def = 2.0 in service class 3, and 1.0 more for wood that is built in
 * near fibre saturation and dries under its load (3.2 (4), Table 3.2, MEMORY): logs are
 * built in green. Both deflections count as downward: a passing load that lifts does not
 * undo what creeps. */
#include "eurocode.h"

#include <math.h>

double bwi_ec_final_deflection(double dead, double live, double creep, double share)
{
    const double psi_2 = share <= 1.0 ? bwi_not_negative(share) : (double)NAN;

    return fabs(dead) * (1.0 + bwi_not_negative(creep)) +
           fabs(live) * (1.0 + psi_2 * creep);
}

static bw_ratio sag_ratio(const bw_check_input *in, bw_working *working)
{
    static const double wet = 2.0, green = 1.0;
    const double creep = wet + green;
    const double sag = bwi_ec_final_deflection(in->deflection_dead, in->deflection, creep,
                                               in->lasting_share);
    const double allowed = bwi_positive(in->span) / bwi_positive(in->limit);

    bwi_record(working, "w_inst,G", "immediate deflection of the loads that last",
               fabs(in->deflection_dead), BW_LENGTH);
    bwi_record(working, "w_inst,Q", "deflection of the loads that pass",
               fabs(in->deflection), BW_LENGTH);
    bwi_record_number(working, "k_def", "creep in service class 3, logs built in green",
                      creep, BW_MARK_MEMORY,
                      "EN 1995-1-1:2004, Table 3.2 (2.0) and 3.2 (4) (+1.0)");
    bwi_record_number(working, "psi_2", "part of the passing loads that counts for creep",
                      in->lasting_share, BW_MARK_MEMORY, "EN 1990:2002, Table A1.1");
    bwi_record(working, "w_fin",
               "final deflection, w_G (1 + k_def) + w_Q (1 + psi_2 k_def)", sag,
               BW_LENGTH);
    bwi_record(working, "L", "span, twice the length of a cantilever", in->span,
               BW_LENGTH);
    bwi_record(working, "limit", "least span over final deflection", in->limit,
               BW_NUMBER);
    bwi_record(working, "w_max", "allowed deflection, L / limit", allowed, BW_LENGTH);
    return bwi_ratio_of(sag, allowed);
}

const bw_check bwi_ec_sag = {
    .kind = BW_CHECK_SAG,
    .id = "sag",
    .title = "Final deflection",
    .formula = "w_fin = w_G (1 + k_def) + w_Q (1 + psi_2 k_def) <= L / limit",
    .source = "EN 1995-1-1:2004, 2.2.3 and 7.2; the limit is set by the case",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_LENGTH,
    .ratio = sag_ratio,
};
