/* What a case starts from; every one of these is printed as an assumption. */
#include "internal.h"

/* People moving together push with 12 psf of plan (full-size deck tests, READ in part:
 * facts of the trade); a rider brakes or corners with 0.6 of the weight (MEMORY); posts
 * set by eye stand out of plumb by 1 in 50 at most (JUDGEMENT). Rider 100 kg with kit on
 * a 15 kg bike; factor for rolling and small steps. */
const bw_loads bw_loads_default = {.mass = 115.0,
                                   .factor = 3.0,
                                   .riders = 1,
                                   .rider_spacing = 3.0,
                                   .sway = 574.6, /* 12 psf */
                                   .rider_push = 0.6,
                                   .lean = 0.02};

/* Span/360 under the moving load and span/240 in the long run: floor limits of IBC Table
 * 1604.3 (MEMORY). The seat: half an inch cut flat on each log. */
const bw_limits bw_limits_default = {
    .live = 360.0, .long_term = 240.0, .seat_depth = 0.0127};

size_t bwi_combinations(const bw_case *deck, bw_combination out[BW_COMBINATIONS_MAX])
{
    const bw_loads *l = &deck->loads;
    const bw_actions_present present = {.crowd = l->crowd > 0.0,
                                        .snow = l->snow > 0.0,
                                        .rider = l->mass > 0.0,
                                        .rider_factor = l->factor,
                                        .rider_duration = l->load_duration};
    return deck->basis->combinations(&present, out);
}
