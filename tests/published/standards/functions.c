/* functions.c - from the inputs of a published row to a call of the checks. */
#include "functions.h"

#include <math.h>
#include <string.h>

#define INPUT(name, quantity)                                                            \
    {                                                                                    \
#name, quantity, offsetof(row_inputs, name)                                      \
    }
const row_input row_input_list[] = {
    INPUT(bending, BW_STRESS),
    INPUT(shear_strength, BW_STRESS),
    INPUT(compression, BW_STRESS),
    INPUT(bearing, BW_STRESS),
    INPUT(modulus_min, BW_STRESS),
    INPUT(euler, BW_STRESS),
    INPUT(crushing, BW_STRESS),
    INPUT(girth, BW_LENGTH),
    INPUT(diameter, BW_LENGTH),
    INPUT(small, BW_LENGTH),
    INPUT(large, BW_LENGTH),
    INPUT(depth, BW_LENGTH),
    INPUT(length, BW_LENGTH),
    INPUT(span, BW_LENGTH),
    INPUT(deflection, BW_LENGTH),
    INPUT(force, BW_FORCE),
    INPUT(shear, BW_FORCE),
    INPUT(axial, BW_FORCE),
    INPUT(moment, BW_MOMENT),
    INPUT(load_duration, BW_NUMBER),
    INPUT(effective_factor, BW_NUMBER),
    INPUT(share, BW_NUMBER),
    INPUT(limit, BW_NUMBER),
    INPUT(taper, BW_NUMBER),
    INPUT(height, BW_LENGTH),
    INPUT(width, BW_LENGTH),
    INPUT(lateral, BW_SUBGRADE_RATE),
    INPUT(lateral_factor, BW_NUMBER),
    INPUT(modulus, BW_STRESS),
    INPUT(modulus_05, BW_STRESS),
    INPUT(left, BW_LENGTH),
    INPUT(reach, BW_LENGTH),
    INPUT(deflection_dead, BW_LENGTH),
    INPUT(dead_load, BW_LINE_LOAD),
    INPUT(crowd_load, BW_LINE_LOAD),
    INPUT(slenderness, BW_NUMBER),
    INPUT(creep, BW_NUMBER),
    INPUT(angle, BW_ANGLE),
    INPUT(gravity, BW_NUMBER),
    INPUT(side, BW_LENGTH),
    INPUT(side_bearing, BW_STRESS),
    INPUT(side_angle, BW_ANGLE),
    INPUT(main_angle, BW_ANGLE),
    INPUT(scatter, BW_NUMBER),
    INPUT(people, BW_NUMBER),
};
const size_t row_input_count = sizeof row_input_list / sizeof row_input_list[0];

row_inputs row_inputs_unknown(void)
{
    row_inputs in;

    for (size_t i = 0; i < row_input_count; i++) {
        const double unknown = (double)NAN;
        memcpy((char *)&in + row_input_list[i].offset, &unknown, sizeof unknown);
    }
    return in;
}

static bw_reference reference_of(const row_inputs *in)
{
    bw_reference reference = {0};

    reference.value[BW_BENDING_STRENGTH] = in->bending;
    reference.value[BW_SHEAR_STRENGTH] = in->shear_strength;
    reference.value[BW_COMPRESSION] = in->compression;
    reference.value[BW_BEARING] = in->bearing;
    reference.value[BW_MODULUS_MIN] = in->modulus_min;
    return reference;
}

static bw_ratio bending_of(const row_inputs *in, double diameter, double moment)
{
    const bw_reference reference = reference_of(in);
    const bw_check_input check = {.reference = &reference,
                                  .diameter = diameter,
                                  .moment = moment,
                                  .load_duration = in->load_duration};

    return bwi_us_bending.ratio(&check, NULL);
}

/* The moment at which the bending check is just full. */
static double pole_moment(const row_inputs *in)
{
    const double trial = 1234.5; /* any: utilisation is proportional to it */

    return trial / bending_of(in, bw_diameter_from_girth(in->girth), trial).utilisation;
}

static double pole_moment_without_size_factor(const row_inputs *in)
{
    return pole_moment(in) / bwi_size_factor(bw_diameter_from_girth(in->girth));
}

static double size_factor(const row_inputs *in)
{
    return bwi_size_factor(in->diameter);
}

static double bending_stress(const row_inputs *in)
{
    return bending_of(in, in->diameter, in->moment).demand;
}

static double bending_utilisation(const row_inputs *in)
{
    return bending_of(in, in->diameter, in->moment).utilisation;
}

static double shear_stress(const row_inputs *in)
{
    const bw_reference reference = reference_of(in);
    const bw_check_input check = {.reference = &reference,
                                  .diameter = in->diameter,
                                  .shear = in->shear,
                                  .load_duration = in->load_duration};

    return bwi_us_shear.ratio(&check, NULL).demand;
}

/* A cantilever with a load at its thin free end: the diameter at the worst bending check
 * over that at the load. */
static double worst_diameter_of_tapered_cantilever(const row_inputs *in)
{
    const int steps = 30000;
    double worst = -1.0, worst_diameter = (double)NAN;

    for (int i = 1; i <= steps; i++) {
        const double x = in->length * i / steps;
        const double diameter = in->small + in->taper * x;
        const double now = bending_of(in, diameter, in->force * x).utilisation;
        if (now > worst) {
            worst = now;
            worst_diameter = diameter;
        }
    }
    return worst_diameter / in->small;
}

/* The force at which the compression check of a very short pile is just full. */
static double pile_load(const row_inputs *in)
{
    const double trial = 1234.5;
    const bw_reference reference = reference_of(in);
    const bw_check_input check = {.reference = &reference,
                                  .axial = trial,
                                  .diameter_small = bw_diameter_from_girth(in->girth),
                                  .diameter_large = bw_diameter_from_girth(in->girth),
                                  .load_duration = in->load_duration,
                                  .length = 1e-5,
                                  .effective_factor = 1.0};

    return trial / bwi_us_compression.ratio(&check, NULL).utilisation;
}

static double column_euler(const row_inputs *in)
{
    return bwi_column_euler(in->modulus_min, in->length * in->effective_factor,
                            in->depth);
}

static double column_factor(const row_inputs *in)
{
    return bwi_column_factor(in->euler, in->crushing);
}

static double taper_rule(const row_inputs *in)
{
    return bwi_taper_rule(in->small, in->large, in->share);
}

static double column_diameter(const row_inputs *in)
{
    return bwi_column_diameter(in->small, in->large, in->effective_factor);
}

/* F_cE of the square of equal area over that of the depth which the column check takes.
 */
static double overshoot_of_equal_area(const row_inputs *in)
{
    const bw_reference reference = reference_of(in);
    const bw_check_input check = {.reference = &reference,
                                  .diameter_small = in->diameter,
                                  .diameter_large = in->diameter,
                                  .length = in->length,
                                  .load_duration = 1.0,
                                  .effective_factor = 1.0};
    const bwi_column column = bwi_column_of(&check, 0.0);
    const double side = sqrt(bwi_circle_area(in->diameter));

    return bwi_column_euler(in->modulus_min, in->length, side) / column.euler;
}

/* Eq. 3.9-3 of a straight round post, slenderness on the depth that the row gives. */
static double interaction_on_depth(const row_inputs *in)
{
    const double f_c = in->axial / bwi_circle_area(in->diameter);
    const double crushing = in->compression * in->load_duration;
    const double euler = column_euler(in);
    const double allowed = crushing * bwi_column_factor(euler, crushing);

    return bwi_interaction(f_c / allowed, bending_utilisation(in), f_c / euler);
}

static double bearing_factor(const row_inputs *in)
{
    return bwi_bearing_factor(in->length);
}

static double span_over_deflection(const row_inputs *in)
{
    const bw_check_input check = {
        .deflection = in->deflection, .span = in->span, .limit = in->limit};

    return in->limit / bwi_us_deflection.ratio(&check, NULL).utilisation;
}

/* ---- ground ---- */

static bw_hole hole_of(const row_inputs *in)
{
    return (bw_hole){in->lateral * in->lateral_factor, in->width};
}

static double hole_scale(const row_inputs *in)
{
    const bw_hole hole = hole_of(in);

    return bwi_hole_scale(in->force, bwi_hole_pressure(&hole, in->depth), hole.width);
}

static double hole_depth_free(const row_inputs *in)
{
    const bw_hole hole = hole_of(in);

    return bw_hole_depth_free(&hole, in->force, in->force * in->height);
}

static double hole_depth_held(const row_inputs *in)
{
    const bw_hole hole = hole_of(in);

    return bw_hole_depth_held(&hole, in->force * in->height);
}

/* The push at which the check of a hole is just full. */
static double hole_push(bw_soil soil, const row_inputs *in)
{
    const double trial = 1234.5; /* any: utilisation is proportional to it */
    const bw_check_input check = {.soil = soil,
                                  .hole_depth = in->depth,
                                  .embedded_width = in->width,
                                  .push = trial,
                                  .push_moment = trial * in->height,
                                  .half_inch_movement_ok = in->lateral_factor > 1.5};

    return trial / bwi_ground_lateral.ratio(&check, NULL).utilisation;
}

static double hole_push_in_clay(const row_inputs *in)
{
    return hole_push(BW_SOIL_CLAY, in);
}

static double hole_push_in_sand(const row_inputs *in)
{
    return hole_push(BW_SOIL_SAND, in);
}

static double hole_push_in_gravel(const row_inputs *in)
{
    return hole_push(BW_SOIL_GRAVEL, in);
}

/* The force at which a round pad on clay is just full. */
static double pad_load_on_clay(const row_inputs *in)
{
    const double trial = 1234.5;
    const bw_check_input check = {.soil = BW_SOIL_CLAY,
                                  .foot_force = trial,
                                  .foot_area = bwi_circle_area(in->diameter)};

    return trial / bwi_ground_bearing.ratio(&check, NULL).utilisation;
}

const row_function *row_function_find(const char *name)
{
    static const row_function functions[] = {
        {"pole_moment", BW_MOMENT, pole_moment},
        {"pole_moment_without_size_factor", BW_MOMENT, pole_moment_without_size_factor},
        {"size_factor", BW_NUMBER, size_factor},
        {"bending_stress", BW_STRESS, bending_stress},
        {"bending_utilisation", BW_NUMBER, bending_utilisation},
        {"shear_stress", BW_STRESS, shear_stress},
        {"worst_diameter_of_tapered_cantilever", BW_NUMBER,
         worst_diameter_of_tapered_cantilever},
        {"pile_load", BW_FORCE, pile_load},
        {"column_euler", BW_STRESS, column_euler},
        {"column_factor", BW_NUMBER, column_factor},
        {"taper_rule", BW_LENGTH, taper_rule},
        {"column_diameter", BW_LENGTH, column_diameter},
        {"overshoot_of_equal_area", BW_NUMBER, overshoot_of_equal_area},
        {"interaction_on_depth", BW_NUMBER, interaction_on_depth},
        {"bearing_factor", BW_NUMBER, bearing_factor},
        {"span_over_deflection", BW_NUMBER, span_over_deflection},
        {"hole_scale", BW_LENGTH, hole_scale},
        {"hole_depth_free", BW_LENGTH, hole_depth_free},
        {"hole_depth_held", BW_LENGTH, hole_depth_held},
        {"hole_push_in_clay", BW_FORCE, hole_push_in_clay},
        {"hole_push_in_sand", BW_FORCE, hole_push_in_sand},
        {"hole_push_in_gravel", BW_FORCE, hole_push_in_gravel},
        {"pad_load_on_clay", BW_FORCE, pad_load_on_clay},
    };

    for (size_t i = 0; i < sizeof functions / sizeof functions[0]; i++) {
        if (strcmp(functions[i].name, name) == 0) {
            return &functions[i];
        }
    }
    const row_function *of_joints = row_function_joints(name);
    return of_joints != NULL ? of_joints : row_function_eurocode(name);
}
