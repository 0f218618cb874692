/* functions_joints.c - rows about fasteners. */
#include "functions.h"

#include "checks/us_asd/dowel.h"

#include <math.h>
#include <string.h>

/* A joint of two logs with one fastener that goes 8 diameters into the holding one. */
static bw_joint joint_of(const row_inputs *in, bw_fastener_kind kind)
{
    return (bw_joint){.fasteners = {.kind = kind,
                                    .count = 1,
                                    .rows = 1,
                                    .planes = 1,
                                    .diameter = in->diameter,
                                    .penetration = 8.0 * in->diameter},
                      .side_log = {.thickness = in->side, .gravity = in->gravity},
                      .main_log = {.thickness = 1.0, .gravity = in->gravity}};
}

static double withdrawal(const row_inputs *in, bw_fastener_kind kind)
{
    const bw_joint joint = joint_of(in, kind);

    return bwi_withdrawal_per_length(&joint.fasteners, in->gravity);
}

static double lag_withdrawal(const row_inputs *in)
{
    return withdrawal(in, BW_FASTENER_LAG);
}

/* The screw counts as the weaker of lag and wood screw: the latter for thin ones. */
static double screw_withdrawal(const row_inputs *in)
{
    return withdrawal(in, BW_FASTENER_SCREW);
}

static double lag_wood(const row_inputs *in)
{
    const bw_joint joint = joint_of(in, BW_FASTENER_LAG);
    const bw_check_input check = {
        .joint = &joint, .side_angle = in->side_angle, .main_angle = in->main_angle};

    return bwi_dowel_value(&check);
}

/* A steel side plate: the bearing strength of the side member as given, no angle to its
 * grain. */
static double lag_steel(const row_inputs *in)
{
    const bw_joint joint = joint_of(in, BW_FASTENER_LAG);
    const bw_check_input check = {.joint = &joint, .main_angle = in->main_angle};
    bwi_dowel dowel = bwi_dowel_of(&check, bwi_joint_penetration(&joint));
    double mode[BWI_MODE_COUNT];

    dowel.side_bearing = in->side_bearing;
    bwi_dowel_modes(&dowel, 1, mode);
    return bwi_dowel_least(mode);
}

const row_function *row_function_joints(const char *name)
{
    static const row_function functions[] = {
        {"lag_withdrawal", BW_LINE_LOAD, lag_withdrawal},
        {"screw_withdrawal", BW_LINE_LOAD, screw_withdrawal},
        {"lag_wood", BW_FORCE, lag_wood},
        {"lag_steel", BW_FORCE, lag_steel},
    };

    for (size_t i = 0; i < sizeof functions / sizeof functions[0]; i++) {
        if (strcmp(functions[i].name, name) == 0) {
            return &functions[i];
        }
    }
    return NULL;
}
