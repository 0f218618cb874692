/* footing.c - the ground under the end of a post, under its pad or under a sill.
 *
 *   q = N / A <= q_a
 *
 * Pressed beside its middle only what lies evenly round the force counts of it (Meyerhof,
 * The bearing capacity of foundations under eccentric and inclined loads, 1953, MEMORY):
 *
 *   A = A_0 (1 - 2 e / L)
 *
 * IBC Table 1806.2, READ: presumptive values of natural ground. Neither the depth of the
 * hole nor the short duration of a load raises them here. */
#include "ground.h"

static double pressed_area(const bw_check_input *in, bw_working *working)
{
    /* on less than that it turns over, which is for the check of uplift to say */
    static const double least = 0.01;
    if (!(in->foot_length > 0.0)) {
        return in->foot_area;
    }
    const double share = 1.0 - 2.0 * in->foot_off / in->foot_length;
    bwi_record(working, "A_0", "area that lies on the ground", in->foot_area, BW_AREA);
    bwi_record(working, "L", "its length", in->foot_length, BW_LENGTH);
    bwi_record(working, "e", "force beside its middle", in->foot_off, BW_LENGTH);
    return in->foot_area * (share < least ? least : share);
}

static bw_ratio bearing_ratio(const bw_check_input *in, bw_working *working)
{
    const bw_soil_values soil = bw_soil_find(in->soil);
    const double area = pressed_area(in, working);
    const double pressure = in->foot_force / bwi_positive(area);

    bwi_record(working, "N", "force on the ground, own weight included", in->foot_force,
               BW_FORCE);
    bwi_record(working, "A", "area on the ground", area, BW_AREA);
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
