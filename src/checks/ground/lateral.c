/* lateral.c - a post pushed sideways in its hole.
 *
 *   V + 1.09 M / d <= S1 b d / 2.34
 *
 * IBC 1807.3.2.1, READ, solved for the push (see hole.c). Nothing holds a post at the
 * ground line in the woods, so the milder rule for a post held there is not used. V and M
 * are taken as pushing the same way, whatever their signs: the cautious reading. */
#include "ground.h"

#include <math.h>

static const char rule[] = "IBC, 2009 and later, 1807.3.2.1";

static void record_push(const bw_check_input *in, bw_working *working)
{
    const double V = fabs(in->push), M = fabs(in->push_moment);

    bwi_record(working, "V", "push at the ground line", V, BW_FORCE);
    bwi_record(working, "M", "moment at the ground line", M, BW_MOMENT);
    if (V > 0.0) {
        bwi_record(working, "h", "height of the push above ground, M / V", M / V,
                   BW_LENGTH);
    }
}

static void record_hole(const bw_check_input *in, bw_working *working)
{
    const bw_soil_values soil = bw_soil_find(in->soil);

    bwi_record(working, "d", "depth of the hole", in->hole_depth, BW_LENGTH);
    bwi_record(working, "b", "width that pushes on the soil", in->embedded_width,
               BW_LENGTH);
    bwi_record_soil(working, "p", bw_soil_name(in->soil), &soil.lateral,
                    BW_SUBGRADE_RATE);
    bwi_record_number(working, "k",
                      in->half_inch_movement_ok
                          ? "two: a movement of 1/2 in at the ground is harmless"
                          : "one: a movement of 1/2 in at the ground is not accepted",
                      in->half_inch_movement_ok ? 2.0 : 1.0, BW_MARK_READ,
                      "IBC, 2009 and later, 1806.3.4");
}

/* What a builder asks next: how much would it take, how deep should it be. */
static void record_answers(const bw_check_input *in, const bw_hole *hole,
                           bw_working *working)
{
    if (working == NULL) {
        return;
    }
    const double V = fabs(in->push), M = fabs(in->push_moment);

    if (V > 0.0) {
        bwi_record(working, "P", "allowed push at the height h",
                   bw_hole_push_allowed(hole, in->hole_depth, M / V), BW_FORCE);
    }
    bwi_record(working, "d_0", "depth at which this post would be at its limit",
               bw_hole_depth_free(hole, V, M), BW_LENGTH);
}

static bw_ratio lateral_ratio(const bw_check_input *in, bw_working *working)
{
    const bw_hole hole =
        bw_hole_of(in->soil, in->embedded_width, in->half_inch_movement_ok);
    const double demand = bwi_hole_demand(in->hole_depth, in->push, in->push_moment);
    const double capacity = bwi_hole_capacity(&hole, in->hole_depth);

    if (working != NULL) {
        record_push(in, working);
        record_hole(in, working);
        bwi_record(working, "S1",
                   "allowed pressure at a third of d, k p d / 3 (d <= 12 ft)",
                   bwi_hole_pressure(&hole, in->hole_depth), BW_PRESSURE);
        bwi_record_number(working, "2.34", "factor of the rule", 2.34, BW_MARK_READ,
                          rule);
        bwi_record_number(working, "1.09", "4.36 / 4 of the rule", 1.09, BW_MARK_READ,
                          rule);
        bwi_record(working, "P_d",
                   "push at the ground line of the same effect, V + 1.09 M / d", demand,
                   BW_FORCE);
        bwi_record(working, "P_0", "allowed push at the ground line, S1 b d / 2.34",
                   capacity, BW_FORCE);
        record_answers(in, &hole, working);
    }
    return bwi_ratio_of(demand, capacity);
}

const bw_check bwi_ground_lateral = {
    .kind = BW_CHECK_SOIL_LATERAL,
    .id = "hole",
    .title = "Hole against sideways push",
    .formula =
        "V + 1.09 M / d <= S1 b d / 2.34, which is d >= A/2 (1 + (1 + 4.36 h/A)^0.5) "
        "with A = 2.34 V / (S1 b), h = M / V",
    .source = rule,
    .mark = BW_MARK_READ,
    .quantity = BW_FORCE,
    .ratio = lateral_ratio,
};
