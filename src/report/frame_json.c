/* frame_json.c - a solved free frame for other programs: SI, 15 digits. */
#include "internal.h"

enum { FORMAT = 1 };

static const char *name_of(const char *const *names, size_t i)
{
    return names == NULL ? NULL : names[i];
}

static void write_motion(bwi_json *json, const char *key, bw_motion m,
                         const char *const *keys)
{
    bwi_json_begin(json, key, '{');
    bwi_json_real(json, keys[0], m.x);
    bwi_json_real(json, keys[1], m.y);
    bwi_json_real(json, keys[2], m.r);
    bwi_json_end(json, '}');
}

static void write_node(bwi_json *json, const bw_frame_result *result, size_t i)
{
    static const char *const displacement[] = {"x_m", "y_m", "r_rad"};
    static const char *const reaction[] = {"x_N", "y_N", "r_Nm"};
    const int node = (int)i;
    bwi_json_begin(json, NULL, '{');
    bwi_json_whole(json, "node", node);
    bwi_json_text(json, "name", name_of(result->node_names, i));
    write_motion(json, "displacement", bw_state_displacement(result->state, node),
                 displacement);
    write_motion(json, "reaction", bw_state_reaction(result->state, node), reaction);
    bwi_json_end(json, '}');
}

static void write_action(bwi_json *json, const char *key, bw_action action)
{
    bwi_json_begin(json, key, '{');
    bwi_json_real(json, "axial_N", action.axial);
    bwi_json_real(json, "shear_N", action.shear);
    bwi_json_real(json, "moment_Nm", action.moment);
    bwi_json_end(json, '}');
}

static void write_extreme(bwi_json *json, const char *key, bw_extreme extreme)
{
    bwi_json_begin(json, key, '{');
    bwi_json_real(json, "value", extreme.value);
    bwi_json_real(json, "x_m", extreme.x);
    bwi_json_end(json, '}');
}

static void write_extremes(bwi_json *json, const bw_frame_result *result, int member)
{
    const bw_extremes e = bw_state_extremes(result->state, member);
    bw_extreme sag_max = {0}, sag_min = {0};
    bw_state_sag_extremes(result->state, member, &sag_max, &sag_min);
    bwi_json_begin(json, "extremes", '{');
    write_extreme(json, "moment_max_Nm", e.moment_max);
    write_extreme(json, "moment_min_Nm", e.moment_min);
    write_extreme(json, "shear_max_N", e.shear_max);
    write_extreme(json, "shear_min_N", e.shear_min);
    write_extreme(json, "axial_max_N", e.axial_max);
    write_extreme(json, "axial_min_N", e.axial_min);
    write_extreme(json, "stress_max_Pa", e.stress_max);
    write_extreme(json, "stress_min_Pa", e.stress_min);
    write_extreme(json, "sag_max_m", sag_max);
    write_extreme(json, "sag_min_m", sag_min);
    bwi_json_end(json, '}');
}

static void write_member(bwi_json *json, const bw_frame_result *result, size_t i)
{
    const int member = (int)i;
    const double length = bw_frame_length(result->frame, member);
    bwi_json_begin(json, NULL, '{');
    bwi_json_whole(json, "member", member);
    bwi_json_text(json, "name", name_of(result->member_names, i));
    bwi_json_real(json, "length_m", length);
    write_action(json, "end_i", bw_state_action(result->state, member, 0.0, false));
    write_action(json, "end_j", bw_state_action(result->state, member, length, true));
    write_extremes(json, result, member);
    bwi_json_end(json, '}');
}

static void write_health(bwi_json *json, const bw_frame_result *result)
{
    const bw_frame_facts facts = bw_frame_describe(result->frame);
    bwi_json_begin(json, "numerical_health", '{');
    bwi_json_whole(json, "unknowns", facts.unknowns);
    bwi_json_real(json, "residual", bw_state_residual(result->state));
    bwi_json_real(json, "rcond", facts.rcond);
    bwi_json_real(json, "work_J", bw_state_work(result->state));
    bwi_json_real(json, "energy_J", bw_state_energy(result->state));
    bwi_json_end(json, '}');
}

void bw_report_frame_json(const bw_frame_result *result, bw_text *out)
{
    bwi_json json = bwi_json_new(out);
    bwi_json_begin(&json, NULL, '{');
    bwi_json_whole(&json, "format", FORMAT);
    bwi_json_text(&json, "program", "bolewright");
    bwi_json_text(&json, "version", bw_version);
    bwi_json_text(&json, "title", result->title);
    bwi_json_begin(&json, "nodes", '[');
    for (size_t i = 0; i < result->n_nodes; i++) {
        write_node(&json, result, i);
    }
    bwi_json_end(&json, ']');
    bwi_json_begin(&json, "members", '[');
    for (size_t i = 0; i < result->n_members; i++) {
        write_member(&json, result, i);
    }
    bwi_json_end(&json, ']');
    write_health(&json, result);
    bwi_json_end(&json, '}');
}
