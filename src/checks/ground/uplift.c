/* uplift.c - a post pulled up, or the end of a sill.
 *
 *   T + max(-D, 0) <= 0.6 (max(D, 0) + W)
 *
 * Only weight holds a post down: a peeled log is drawn out of its packing, so friction
 * counts nothing. 0.6: the share of dead load that ASCE 7-16, 2.4.1, lets work against
 * uplift (MEMORY). A dead load that itself lifts stands on the other side, in full. */
#include "ground.h"

const bw_sourced bw_uplift_share = {0.6, BW_MARK_MEMORY, "ASCE 7-16, 2.4.1"};

static bw_ratio uplift_ratio(const bw_check_input *in, bw_working *working)
{
    const double share = bw_uplift_share.value;
    const double lifting = bwi_larger(-in->foot_dead, 0.0);
    const double holding =
        bwi_larger(in->foot_dead, 0.0) + bwi_not_negative(in->buried_weight);
    const double demand = bwi_not_negative(in->pull) + lifting;
    const double capacity = share * holding;

    bwi_record(working, "T", "pull at the ground line", in->pull, BW_FORCE);
    bwi_record(working, "D", "dead load at the ground line, down positive", in->foot_dead,
               BW_FORCE);
    bwi_record(working, "W", "weight of the post in the ground", in->buried_weight,
               BW_FORCE);
    bwi_record_number(working, "s", "share of the weight that counts", share,
                      bw_uplift_share.mark, bw_uplift_share.source);
    bwi_record_number(working, "f", "share of friction on the post that counts", 0.0,
                      BW_MARK_JUDGEMENT, "a smooth post is drawn out of its packing");
    bwi_record(working, "U", "T, and D where it lifts", demand, BW_FORCE);
    bwi_record(working, "H", "weight that holds the post down, s (D + W)", capacity,
               BW_FORCE);
    return bwi_ratio_of(demand, capacity);
}

const bw_check bwi_ground_uplift = {
    .kind = BW_CHECK_UPLIFT,
    .id = "uplift",
    .title = "Pulled up",
    .formula = "T + max(-D, 0) <= 0.6 (max(D, 0) + W)",
    .source = "ASCE 7-16, 2.4.1",
    .mark = BW_MARK_MEMORY,
    .quantity = BW_FORCE,
    .ratio = uplift_ratio,
};
