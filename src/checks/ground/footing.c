/* footing.c - the ground under the end of a post, under its pad or under a sill.
 *
 *   q = N / A <= q_a
 *
 * IBC Table 1806.2, READ: presumptive values of natural ground. Neither the depth of the
 * hole nor the short duration of a load raises them here. */
#include "ground.h"

static bw_ratio bearing_ratio(const bw_check_input *in, bw_working *working)
{
    const bw_soil_values soil = bw_soil_find(in->soil);
    const double pressure = in->foot_force / bwi_positive(in->foot_area);

    bwi_record(working, "N", "force on the ground, weight of the post included",
               in->foot_force, BW_FORCE);
    bwi_record(working, "A", "area on the ground", in->foot_area, BW_AREA);
    bwi_record(working, "q", "pressure on the ground, N / A", pressure, BW_PRESSURE);
    bwi_record_soil(working, "q_a", bw_soil_name(in->soil), &soil.bearing, BW_PRESSURE);
    return bwi_ratio_of(pressure, soil.bearing.value);
}

const bw_check bwi_ground_bearing = {
    .kind = BW_CHECK_SOIL_BEARING,
    .id = "footing",
    .title = "Ground under the foot",
    .formula = "q = N / A <= q_a",
    .source = "IBC, 2009 and later, Table 1806.2",
    .mark = BW_MARK_READ,
    .quantity = BW_PRESSURE,
    .ratio = bearing_ratio,
};
