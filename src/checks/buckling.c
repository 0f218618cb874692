/* buckling.c - the frame as a whole.
 *
 *   1 <= lambda E_min / E
 *
 * lambda: lowest factor on all loads at which the frame, with the mean modulus, leans
 * over or bows out (linear buckling). E_min is the modulus for stability, which holds the
 * scatter of the wood and the safety that the basis wants (NDS 2018 Appendix D, MEMORY);
 * its share of E brings the factor to the basis. */
#include "ground/ground.h"

#include <math.h>

static bw_ratio buckling_ratio(const bw_check_input *in, bw_working *working)
{
    /* no equilibrium at all: over, by as much as a table can show */
    const double factor = in->buckling_factor == 0.0 ? 1e-6 : in->buckling_factor;
    const double share = in->stiffness_ratio;

    bwi_record_number(working, "lambda",
                      in->buckling_factor_beyond
                          ? "buckling factor on all loads, at least"
                          : "buckling factor on all loads, with mean stiffness",
                      factor, BW_MARK_NONE, NULL);
    bwi_record_number(working, "E_min/E",
                      "stiffness for stability, least share among the logs", share,
                      BW_MARK_COMPUTED, "reference values of the species");
    bwi_record_number(working, "lambda E_min/E",
                      "factor with the stiffness for stability", factor * share,
                      BW_MARK_NONE, NULL);
    bwi_record_number(working, "1", "needed", 1.0, BW_MARK_NONE, NULL);
    return bwi_ratio_of(1.0, bwi_positive(factor) * bwi_positive(share));
}

const bw_check bwi_buckling = {
    .kind = BW_CHECK_BUCKLING,
    .id = "buckling",
    .title = "Buckling of the frame",
    .formula = "1 <= lambda E_min / E",
    .source = "linear buckling; NDS 2018 Appendix D for E_min",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_NUMBER,
    .ratio = buckling_ratio,
};
