/* compression.c - a post under axial compression, column stability included.
 *
 *   f_c <= F_c' = F_c C_D C_P;   f_c at the small end <= F_c* = F_c C_D;   l_e / d <= 50
 *
 * ANSI/AWC NDS 2018, 3.6 and 3.7 (see column.c). The worst of the three is the
 * utilisation; a post that is too slender has no capacity, and l_e/d over its limit is
 * the least it reports. Under tension there is nothing to compress: that is the combined
 * check. */
#include "us_asd.h"

static bw_ratio compression_ratio(const bw_check_input *in, bw_working *working)
{
    const double N = in->axial < 0.0 ? 0.0 : in->axial;
    const bwi_column col = bwi_column_of(in, N);
    const double stable = col.stress / bwi_positive(col.allowed);
    bw_ratio ratio = {col.stress, col.allowed, col.utilisation};

    bwi_record(working, "N", "axial force, compression positive", in->axial, BW_FORCE);
    bwi_record_column(working, in, &col);
    if (bwi_column_too_slender(&col)) {
        ratio.capacity = 0.0;
    } else if (col.utilisation > stable) {
        ratio.demand = col.stress_small;
        ratio.capacity = col.crushing;
    }
    return ratio;
}

const bw_check bwi_us_compression = {
    .kind = BW_CHECK_COMPRESSION,
    .id = "compression",
    .title = "Compression of a post",
    .formula = "f_c <= F_c' = F_c C_D C_P; f_c,small <= F_c*; l_e/d <= 50",
    .source = "ANSI/AWC NDS 2018, 3.6, 3.7 and 6.3",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_STRESS,
    .ratio = compression_ratio,
};
