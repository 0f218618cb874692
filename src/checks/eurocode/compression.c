/* compression.c - a post under axial compression, column stability included.
 *
 *   sigma_c,d <= k_c f_c,0,d;   at the small end sigma_c,d <= f_c,0,d;   lambda <= 173
 *
 * 6.1.4 and 6.3.2 (see stability.c). The worst of the three is the utilisation; a post
 * that is too slender has no capacity. Under tension there is nothing to compress: that
 * is the combined check. */
#include "eurocode.h"

#include <math.h>

static bw_ratio compression_ratio(const bw_check_input *in, bw_working *working)
{
    const double N = in->axial < 0.0 && isfinite(in->axial) ? 0.0 : in->axial;
    const bwi_ec_column col = bwi_ec_column_of(in, N);
    const double stable = col.stress / bwi_positive(col.allowed);
    bw_ratio ratio = {col.stress, col.allowed, col.utilisation};

    bwi_record(working, "N_d", "design axial force, compression positive", in->axial,
               BW_FORCE);
    bwi_ec_record_column(working, in, &col);
    if (bwi_ec_too_slender(&col)) {
        ratio.capacity = 0.0;
    } else if (col.utilisation > stable) {
        ratio.demand = col.stress_small;
        ratio.capacity = col.strength;
    }
    return ratio;
}

const bw_check bwi_ec_compression = {
    .kind = BW_CHECK_COMPRESSION,
    .id = "compression",
    .title = "Compression of a post",
    .formula = "sigma_c,d <= k_c f_c,0,d; sigma_c,small <= f_c,0,d; lambda <= 173",
    .source = "EN 1995-1-1:2004, 6.1.4 and 6.3.2",
    .mark = BW_MARK_READ,
    .quantity = BW_STRESS,
    .ratio = compression_ratio,
};
