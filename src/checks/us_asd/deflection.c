/* deflection.c - how far a log gives under the moving load alone.
 *
 *   Delta <= L / limit
 *
 * A limit of use, not of strength, chosen by the case; the span of a cantilever is twice
 * its length, as is usual in the building codes (MEMORY). */
#include "us_asd.h"

#include <math.h>

static bw_ratio deflection_ratio(const bw_check_input *in, bw_working *working)
{
    const double allowed = bwi_positive(in->span) / bwi_positive(in->limit);
    const double deflection = fabs(in->deflection);

    bwi_record(working, "Delta", "deflection under the moving load", deflection,
               BW_LENGTH);
    bwi_record(working, "L", "span, twice the length of a cantilever", in->span,
               BW_LENGTH);
    bwi_record(working, "limit", "least span over deflection", in->limit, BW_NUMBER);
    bwi_record(working, "Delta'", "allowed deflection, L / limit", allowed, BW_LENGTH);
    return bwi_ratio_of(deflection, allowed);
}

const bw_check bwi_us_deflection = {
    .kind = BW_CHECK_DEFLECTION,
    .id = "deflection",
    .title = "Deflection under the moving load",
    .formula = "Delta <= L / limit",
    .source = "a limit of use set by the case",
    .mark = BW_MARK_PRACTICE,
    .quantity = BW_LENGTH,
    .ratio = deflection_ratio,
};
