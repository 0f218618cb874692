/* functions_eurocode.c - published rows of limit-state design. */
#include "bolewright/frame.h"
#include "checks/eurocode/eurocode.h"
#include "functions.h"

#include <math.h>
#include <string.h>

static bw_reference reference_of(const row_inputs *in)
{
    bw_reference reference = {0};

    reference.value[BW_BENDING_STRENGTH] = in->bending;
    reference.value[BW_SHEAR_STRENGTH] = in->shear_strength;
    reference.value[BW_COMPRESSION] = in->compression;
    reference.value[BW_MODULUS_MIN] = in->modulus_05;
    return reference;
}

static bw_check_input check_of(const row_inputs *in, const bw_reference *reference)
{
    return (bw_check_input){.reference = reference,
                            .diameter = in->diameter,
                            .diameter_small = in->diameter,
                            .diameter_large = in->diameter,
                            .length = in->length,
                            .effective_factor = in->effective_factor,
                            .axial = in->axial,
                            .shear = in->shear,
                            .moment = in->moment,
                            .load_duration = in->load_duration};
}

static bw_ratio ratio_of(const bw_check *check, const row_inputs *in)
{
    const bw_reference reference = reference_of(in);
    const bw_check_input input = check_of(in, &reference);

    return check->ratio(&input, NULL);
}

static double notch_factor(const row_inputs *in)
{
    return bwi_ec_notch_factor(
        &(bwi_ec_notch){.depth = in->depth, .left = in->left, .reach = in->reach});
}

static double stability_factor(const row_inputs *in)
{
    return bwi_ec_stability_factor(
        bwi_ec_relative_slenderness(in->slenderness, in->compression, in->modulus_05));
}

static double stability_factor_of_c24(const row_inputs *in)
{
    const bw_strength_class *c24 = bw_strength_class_find("C24");

    return bwi_ec_stability_factor(
        bwi_ec_relative_slenderness(in->slenderness, c24->compression, c24->modulus_05));
}

/* The largest sum over the combinations for strength. */
static double design_line_load(const row_inputs *in)
{
    const bw_actions_present present = {.crowd = true};
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = bw_eurocode.combinations(&present, list);
    double largest = 0.0;

    for (size_t i = 0; i < n; i++) {
        const double sum = list[i].dead * in->dead_load + list[i].crowd * in->crowd_load;
        largest = list[i].strength ? fmax(largest, sum) : largest;
    }
    return largest;
}

static double design_bending_stress(const row_inputs *in)
{
    return ratio_of(&bwi_ec_bending, in).demand;
}

static double design_bending_strength(const row_inputs *in)
{
    return ratio_of(&bwi_ec_bending, in).capacity;
}

static double design_bending_utilisation(const row_inputs *in)
{
    return ratio_of(&bwi_ec_bending, in).utilisation;
}

static double design_shear_stress(const row_inputs *in)
{
    return ratio_of(&bwi_ec_shear, in).demand;
}

static double design_shear_utilisation(const row_inputs *in)
{
    return ratio_of(&bwi_ec_shear, in).utilisation;
}

static double post_stability_factor(const row_inputs *in)
{
    const bw_reference reference = reference_of(in);
    const bw_check_input input = check_of(in, &reference);

    return bwi_ec_column_of(&input, in->axial).factor;
}

static double post_stress(const row_inputs *in)
{
    return ratio_of(&bwi_ec_compression, in).demand;
}

static double post_combined(const row_inputs *in)
{
    return ratio_of(&bwi_ec_combined, in).utilisation;
}

static double final_deflection(const row_inputs *in)
{
    return bwi_ec_final_deflection(in->deflection_dead, in->deflection, in->creep,
                                   in->share);
}

static double sawn_size_factor(const row_inputs *in)
{
    return bwi_ec_size_factor(in->depth);
}

static double angle_strength(const row_inputs *in)
{
    return bwi_ec_angle_strength(in->compression, in->bearing, in->angle);
}

/* A round beam on two supports under both loads, without shear strain as in the row. */
static double sag_of_beam(bw_arena *arena, const row_inputs *in)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    bw_frame *f = bw_frame_new(arena);
    const double q = in->dead_load + in->crowd_load;
    const bw_member log = {.node_i = bw_frame_add_node(f, 0.0, 0.0, "left", NULL),
                           .node_j = bw_frame_add_node(f, in->span, 0.0, "right", NULL),
                           .section_i = bw_section_round(in->diameter),
                           .section_j = bw_section_round(in->diameter),
                           .modulus = in->modulus,
                           .shear_modulus = bw_shear_modulus(in->modulus)};
    const int member = bw_frame_add_member(f, &log);
    const bw_support left = {.node = 0, .fix = {true, true, false}};
    const bw_support right = {.node = 1, .fix = {false, true, false}};
    const bw_member_load load = {
        .kind = BW_LOAD_LINE, .member = member, .b = in->span, .y = {-q, -q}};

    if (bw_frame_add_support(f, &left) != BW_OK ||
        bw_frame_add_support(f, &right) != BW_OK ||
        bw_frame_load_member(f, 0, &load) != BW_OK ||
        bw_frame_factor(f, &diags) != BW_OK || bw_frame_solve(f, &diags) != BW_OK) {
        return (double)NAN;
    }
    const bw_state *state = bw_frame_state(f, &(bw_part){0, 1.0}, 1, arena);
    const bw_line line = bw_state_line(state, member, arena);
    return fabs(bw_line_sag(&line, in->span / 2.0));
}

static double beam_deflection(const row_inputs *in)
{
    bw_arena *arena = bw_arena_new();
    const double sag = arena != NULL ? sag_of_beam(arena, in) : (double)NAN;

    bw_arena_free(arena);
    return sag;
}

const row_function *row_function_eurocode(const char *name)
{
    static const row_function functions[] = {
        {"notch_factor", BW_NUMBER, notch_factor},
        {"stability_factor", BW_NUMBER, stability_factor},
        {"stability_factor_of_c24", BW_NUMBER, stability_factor_of_c24},
        {"design_line_load", BW_LINE_LOAD, design_line_load},
        {"design_bending_stress", BW_STRESS, design_bending_stress},
        {"design_bending_strength", BW_STRESS, design_bending_strength},
        {"design_bending_utilisation", BW_NUMBER, design_bending_utilisation},
        {"design_shear_stress", BW_STRESS, design_shear_stress},
        {"design_shear_utilisation", BW_NUMBER, design_shear_utilisation},
        {"post_stability_factor", BW_NUMBER, post_stability_factor},
        {"post_stress", BW_STRESS, post_stress},
        {"post_combined", BW_NUMBER, post_combined},
        {"final_deflection", BW_LENGTH, final_deflection},
        {"sawn_size_factor", BW_NUMBER, sawn_size_factor},
        {"angle_strength", BW_STRESS, angle_strength},
        {"beam_deflection", BW_LENGTH, beam_deflection},
    };

    for (size_t i = 0; i < sizeof functions / sizeof functions[0]; i++) {
        if (strcmp(functions[i].name, name) == 0) {
            return &functions[i];
        }
    }
    return row_function_wood(name);
}
