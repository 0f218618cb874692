/* deflection.c - how far a log gives at once.
 *
 *   w_inst = w_G + w_Q <= L / limit
 *
 * 2.2.3 and 7.2: the characteristic combination, the lasting loads included (MEMORY);
 * Table 7.2 gives l/300 to l/500 (READ), the case chooses. The span of a cantilever is
 * twice its length. */
#include "eurocode.h"

#include <math.h>

static bw_ratio deflection_ratio(const bw_check_input *in, bw_working *working)
{
    const double allowed = bwi_positive(in->span) / bwi_positive(in->limit);
    const double dead = fabs(in->deflection_dead), live = fabs(in->deflection);

    bwi_record(working, "w_inst,G", "deflection under the loads that last", dead,
               BW_LENGTH);
    bwi_record(working, "w_inst,Q", "deflection under the moving load", live, BW_LENGTH);
    bwi_record(working, "w_inst", "deflection at once, the sum", dead + live, BW_LENGTH);
    bwi_record(working, "L", "span, twice the length of a cantilever", in->span,
               BW_LENGTH);
    bwi_record(working, "limit", "least span over deflection", in->limit, BW_NUMBER);
    bwi_record(working, "w_max", "allowed deflection, L / limit", allowed, BW_LENGTH);
    return bwi_ratio_of(dead + live, allowed);
}

const bw_check bwi_ec_deflection = {
    .kind = BW_CHECK_DEFLECTION,
    .id = "deflection",
    .title = "Deflection at once",
    .formula = "w_inst = w_inst,G + w_inst,Q <= L / limit",
    .source = "EN 1995-1-1:2004, 7.2; the limit is set by the case",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_LENGTH,
    .ratio = deflection_ratio,
};
