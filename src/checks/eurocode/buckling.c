/* buckling.c - the frame as a whole.
 *
 *   1 <= lambda E_0,05 / (gamma_M E)
 *
 * lambda: lowest factor on the design loads at which the frame, with the mean modulus,
 * leans over or bows out (linear buckling). 2.2.2 and (2.15) (MEMORY) would take the mean
 * modulus over gamma_M for the forces of a bent frame; the 5 % modulus is the cautious
 * one for stability, as in 6.3.2. */
#include "eurocode.h"

static bw_ratio buckling_ratio(const bw_check_input *in, bw_working *working)
{
    /* no equilibrium at all: over, by as much as a table can show */
    const double factor = in->buckling_factor == 0.0 ? 1e-6 : in->buckling_factor;
    const double share = bwi_positive(in->stiffness_ratio) / bwi_ec_gamma_m;

    bwi_record_number(working, "lambda",
                      in->buckling_factor_beyond
                          ? "buckling factor on all design loads, at least"
                          : "buckling factor on all design loads, with mean stiffness",
                      factor, BW_MARK_NONE, NULL);
    bwi_record_number(working, "E_0,05/E", "5 % stiffness, least share among the logs",
                      in->stiffness_ratio, BW_MARK_COMPUTED,
                      "reference values of the species");
    bwi_record_number(working, "gamma_M", "partial factor of solid timber",
                      bwi_ec_gamma_m, BW_MARK_READ, "EN 1995-1-1:2004, Table 2.3");
    bwi_record_number(working, "lambda_d", "factor with the design stiffness",
                      factor * share, BW_MARK_NONE, NULL);
    return bwi_ratio_of(1.0, bwi_positive(factor) * share);
}

const bw_check bwi_ec_buckling = {
    .kind = BW_CHECK_BUCKLING,
    .id = "buckling",
    .title = "Buckling of the frame",
    .formula = "1 <= lambda E_0,05 / (gamma_M E)",
    .source = "linear buckling; EN 1995-1-1:2004, 2.2.2 and 2.4.1",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_NUMBER,
    .ratio = buckling_ratio,
};
