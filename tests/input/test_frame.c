/* test_frame.c - frame files into frames. Faults are in test_bad.c. What was read is
 * looked at through the frame layer: solved, where only a solution shows it. */
#include "support.h"

#include <math.h>

typedef struct {
    bw_arena *arena;
    bw_diags d;
    bw_frame_input in;
} reading;

static int open_reading(void **state)
{
    reading *r = calloc(1, sizeof *r);
    assert_non_null(r);
    r->arena = bw_arena_new();
    r->d = bw_diags_new(r->arena, "frame.json");
    *state = r;
    return 0;
}

static int close_reading(void **state)
{
    reading *r = *state;
    bw_arena_free(r->arena);
    free(r);
    return 0;
}

static bw_state *solve(reading *r, const char *text)
{
    static const bw_part all = {0, 1.0};
    assert_status(r->arena, bw_input_frame(r->arena, text, &r->in, &r->d), BW_OK, &r->d);
    assert_status(r->arena, bw_frame_factor(r->in.frame, &r->d), BW_OK, &r->d);
    assert_status(r->arena, bw_frame_solve(r->in.frame, &r->d), BW_OK, &r->d);
    bw_state *state = bw_frame_state(r->in.frame, &all, 1, r->arena);
    assert_non_null(state);
    return state;
}

#define FRAME(nodes, members, supports, loads)                                           \
    "{\"format\": 1, \"nodes\": [" nodes "], \"members\": [" members "],"                \
    " \"supports\": [" supports "], \"loads\": [" loads "]}"
#define BEAM(loads)                                                                      \
    FRAME("[0, 0], [4, 0]",                                                              \
          "{\"i\": 0, \"j\": 1, \"d_i\": 0.2, \"d_j\": 0.2, \"E\": 1e10, \"G\": 6e8,"    \
          " \"density\": 513}",                                                          \
          "{\"node\": 0, \"fix\": [\"x\", \"y\"]}, {\"node\": 1, \"fix\": [\"y\"]}",     \
          loads)
static const double pi = 3.14159265358979323846;

/* Deflection under a point load on a simple beam: P a^2 b^2 / (3 E I l), AWC Design Aid
 * No. 6 (2007), Fig. 8: MEMORY. */
static void a_point_load_bends_a_simple_beam(void **state)
{
    reading *r = *state;
    bw_state *s =
        solve(r, BEAM("{\"type\": \"point\", \"member\": 0, \"a\": 2.6, \"Fy\": -1000}"));
    const double second_moment = pi * pow(0.2, 4) / 64.0;
    const double a = 2.6;
    const double b = 1.4;
    const double expected = -1000.0 * a * a * b * b / (3.0 * 1e10 * second_moment * 4.0);
    assert_near(bw_state_sag(s, 0, 2.6), expected, 1e-9);
    assert_string_equal(r->in.node_names[1], "node 1");
    assert_string_equal(r->in.member_names[0], "member 0");
    assert_int_equal(r->in.n_nodes, 2);
    assert_int_equal(r->in.n_members, 1);
    assert_int_equal(r->in.units, BW_METRIC);
    assert_null(r->in.title);
}

/* The same beam with names, and with every quantity in feet and pounds. */
static void names_and_units_describe_the_same_beam(void **state)
{
    reading *r = *state;
    bw_state *plain = solve(
        r,
        BEAM("{\"type\": \"point\", \"member\": 0, \"a\": 2.4384, \"Fy\": -1334.4666}"));
    const double expected = bw_state_sag(plain, 0, 2.4384);
    bw_state *named = solve(
        r,
        "{\"format\": 1, \"title\": \"Plank\", \"units\": \"imperial\", \"kappa\": null,"
        "\"nodes\": [{\"name\": \"A\", \"x\": \"0 m\", \"y\": \"0 ft\"},"
        "            {\"name\": \"B\", \"x\": \"4000 mm\", \"y\": 0}],"
        "\"members\": [{\"name\": \"log\", \"i\": \"A\", \"j\": \"B\","
        " \"d_i\": \"20 cm\", \"d_j\": \"0.2 m\", \"E\": \"10 GPa\"}],"
        "\"supports\": [{\"node\": \"A\", \"fix\": [\"y\", \"x\"]},"
        "               {\"node\": \"B\", \"fix\": [\"y\"]}],"
        "\"loads\": [{\"type\": \"point\", \"member\": \"log\", \"a\": \"8 ft\","
        " \"Fy\": \"-300 lb\"}]}");
    /* 300 lb of force are 1334.4666 N to eight digits: COMPUTED from the exact pound and
     * standard gravity. */
    assert_near(bw_state_sag(named, 0, 2.4384), expected, 1e-7);
    assert_string_equal(r->in.title, "Plank");
    assert_int_equal(r->in.units, BW_IMPERIAL);
    assert_string_equal(r->in.node_names[0], "A");
    assert_string_equal(r->in.member_names[0], "log");
}

/* M = w l^2 / 8 at mid-span under a uniform load, R = w l / 2: AWC Design Aid No. 6
 * (2007), Fig. 1: MEMORY. */
static void a_load_without_ends_covers_the_member(void **state)
{
    reading *r = *state;
    bw_state *s = solve(
        r,
        BEAM("{\"type\": \"dist\", \"member\": 0, \"b\": null, \"wy\": [-1000, -1000]}"));
    assert_near(bw_state_action(s, 0, 2.0, false).moment, 2000.0, 1e-9);
    assert_near(bw_state_reaction(s, 0).y, 2000.0, 1e-9);
}

/* Statics: a line load from 0.6 to 2.2 m, growing from 300 to 900 N/m. Its parts are 480
 * N at 1.4 m and 480 N at 0.6 + 2/3 * 1.6 m. */
static void a_part_load_keeps_its_ends_and_slope(void **state)
{
    reading *r = *state;
    bw_state *s =
        solve(r, BEAM("{\"type\": \"dist\", \"member\": 0, \"a\": 0.6, \"b\": 2.2,"
                      " \"wy\": [-300, -900]}"));
    const double right = (480.0 * 1.4 + 480.0 * (0.6 + 1.6 * 2.0 / 3.0)) / 4.0;
    assert_near(bw_state_reaction(s, 1).y, right, 1e-9);
    assert_near(bw_state_reaction(s, 0).y, 960.0 - right, 1e-9);
}

/* Weight = density * g * volume; half of it at each end. */
static void self_weight_uses_the_density(void **state)
{
    reading *r = *state;
    bw_state *s = solve(r, BEAM("{\"type\": \"self\"}"));
    const double weight = 513.0 * 9.80665 * pi * 0.2 * 0.2 / 4.0 * 4.0;
    assert_near(bw_state_reaction(s, 0).y, weight / 2.0, 1e-9);
    assert_int_equal(r->d.count, 0);
}

static void node_loads_act_in_three_directions(void **state)
{
    reading *r = *state;
    bw_state *s =
        solve(r, BEAM("{\"type\": \"node\", \"node\": 1, \"Fx\": 238.5, \"M\": 400}"));
    assert_near(bw_state_reaction(s, 0).x, -238.5, 1e-9);
    assert_near(bw_state_reaction(s, 1).y, -100.0, 1e-9);
}

/* A slope of 3 in 4 over 4 m carries 1000 N/m of plan: 4000 N in all, not 5000. */
static void plan_loads_count_per_horizontal_metre(void **state)
{
    reading *r = *state;
    bw_state *s = solve(
        r,
        FRAME("[0, 0], [4, 3]",
              "{\"i\": 0, \"j\": 1, \"d_i\": 0.2, \"d_j\": 0.2, \"E\": 1e10}",
              "{\"node\": 0, \"fix\": [\"x\", \"y\"]}, {\"node\": 1, \"fix\": [\"y\"]}",
              "{\"type\": \"dist\", \"member\": 0, \"wy\": [-1000, -1000],"
              " \"per\": \"horizontal\"}"));
    assert_near(bw_state_reaction(s, 0).y + bw_state_reaction(s, 1).y, 4000.0, 1e-9);
}

#define CANTILEVER(member, supports, loads)                                              \
    FRAME("[0, 0], [3, 0]", "{\"i\": 0, \"j\": 1, \"E\": 1e10, " member "}", supports,   \
          loads)
#define CLAMP    "{\"node\": 0, \"fix\": [\"x\", \"y\", \"r\"]}"
#define TIP_LOAD "{\"type\": \"node\", \"node\": 1, \"Fy\": -238.5}"

/* Tip deflection P l^3 / (3 E I), with P l / (kappa G A) of shear strain: Timoshenko beam
 * theory, MEMORY. */
static void given_sections_and_shear_are_used(void **state)
{
    reading *r = *state;
    bw_state *s = solve(r, CANTILEVER("\"A\": 0.021, \"I\": 4.7e-5, \"G\": 6.3e8,"
                                      " \"kappa\": 0.83",
                                      CLAMP, TIP_LOAD));
    const double bending = 238.5 * 27.0 / (3.0 * 1e10 * 4.7e-5);
    const double shear = 238.5 * 3.0 / (0.83 * 6.3e8 * 0.021);
    assert_near(bw_state_displacement(s, 1).y, -(bending + shear), 1e-9);
}

static void a_member_may_leave_the_shear_of_the_file_out(void **state)
{
    reading *r = *state;
    const char *text = CANTILEVER("\"A\": 0.021, \"I\": 4.7e-5, \"G\": 6.3e8,"
                                  " \"kappa\": null",
                                  CLAMP, TIP_LOAD);
    text = replaced(r->arena, text, "\"format\": 1,", "\"format\": 1, \"kappa\": 0.83,");
    bw_state *s = solve(r, text);
    const double bending = 238.5 * 27.0 / (3.0 * 1e10 * 4.7e-5);
    assert_near(bw_state_displacement(s, 1).y, -bending, 1e-9);
    text = replaced(r->arena, text, ", \"kappa\": null", "");
    s = solve(r, text);
    const double shear = 238.5 * 3.0 / (0.83 * 6.3e8 * 0.021);
    assert_near(bw_state_displacement(s, 1).y, -(bending + shear), 1e-9);
}

/* A spring k at the clamped end turns by P l / k, which moves the tip by P l^2 / k. */
static void end_springs_and_their_units_are_read(void **state)
{
    reading *r = *state;
    bw_state *s = solve(r, CANTILEVER("\"A\": 0.021, \"I\": 4.7e-5,"
                                      " \"spring_i\": \"23.85 kN-m/rad\"",
                                      CLAMP, TIP_LOAD));
    const double bending = 238.5 * 27.0 / (3.0 * 1e10 * 4.7e-5);
    assert_near(bw_state_displacement(s, 1).y, -(bending + 238.5 * 9.0 / 23850.0), 1e-9);
}

static void supports_settle_and_give_way(void **state)
{
    reading *r = *state;
    bw_state *s = solve(r, CANTILEVER("\"A\": 0.021, \"I\": 4.7e-5",
                                      "{\"node\": 0, \"fix\": [\"x\", \"y\", \"r\"],"
                                      " \"disp\": {\"y\": \"-12 mm\", \"r\": 0.004}}",
                                      ""));
    assert_true(fabs(bw_state_displacement(s, 1).y - (-0.012 + 3.0 * 0.004)) < 1e-12);
    s = solve(r, FRAME("[0, 0], [4, 0]",
                       "{\"i\": 0, \"j\": 1, \"E\": 1e10, \"A\": 0.021, \"I\": 4.7e-5}",
                       "{\"node\": 0, \"fix\": [\"x\", \"y\"]},"
                       " {\"node\": 1, \"spring\": {\"y\": \"50 kN/m\"}}",
                       "{\"type\": \"point\", \"member\": 0, \"a\": 1, \"Fy\": -1000}"));
    assert_near(bw_state_displacement(s, 1).y, -250.0 / 50000.0, 1e-9);
}

/* A roller on a slope of 30 degrees can only push along its normal. */
static void angles_are_degrees(void **state)
{
    reading *r = *state;
    bw_state *s =
        solve(r, FRAME("[0, 0], [4, 0]",
                       "{\"i\": 0, \"j\": 1, \"E\": 1e10, \"A\": 0.021, \"I\": 4.7e-5}",
                       "{\"node\": 0, \"fix\": [\"x\", \"y\"]},"
                       " {\"node\": 1, \"fix\": [\"y\"], \"angle_deg\": 30}",
                       "{\"type\": \"point\", \"member\": 0, \"a\": 2, \"Fy\": -1000}"));
    const bw_motion force = bw_state_reaction(s, 1);
    assert_near(force.y, 500.0, 1e-9);
    assert_near(force.x, -500.0 * tan(pi / 6.0), 1e-9);
}

/* Hinged at i, a member clamped at both ends is a propped beam: 3/16 P l at the clamp and
 * none at the hinge (AWC Design Aid No. 6 (2007), Fig. 13: MEMORY). */
static void a_released_end_carries_no_moment(void **state)
{
    reading *r = *state;
    bw_state *s =
        solve(r, FRAME("[0, 0], [4, 0]",
                       "{\"i\": 0, \"j\": 1, \"E\": 1e10, \"A\": 0.021, \"I\": 4.7e-5,"
                       " \"releases\": {\"i\": [\"M\"], \"j\": []}}",
                       CLAMP ", {\"node\": 1, \"fix\": [\"x\", \"y\", \"r\"]}",
                       "{\"type\": \"point\", \"member\": 0, \"a\": 2, \"Fy\": -1000}"));
    assert_true(fabs(bw_state_action(s, 0, 0.0, false).moment) < 1e-6);
    assert_near(bw_state_action(s, 0, 4.0, true).moment, -750.0, 1e-9);
}

/* Released along its axis, a member between two walls pushes at neither. */
static void a_sliding_member_carries_no_axial_force(void **state)
{
    reading *r = *state;
    bw_state *s =
        solve(r, FRAME("[0, 0], [4, 0]",
                       "{\"i\": 0, \"j\": 1, \"E\": 1e10, \"A\": 0.021, \"I\": 4.7e-5,"
                       " \"releases\": {\"j\": [\"N\"]}}",
                       CLAMP ", {\"node\": 1, \"fix\": [\"x\", \"y\", \"r\"],"
                             " \"disp\": {\"x\": -0.01}}",
                       ""));
    assert_true(fabs(bw_state_action(s, 0, 2.0, false).axial) < 1e-6);
}

/* Distances that miss the end by a rounding error are taken as the end. */
static void a_load_at_the_very_end_is_taken(void **state)
{
    reading *r = *state;
    bw_state *s =
        solve(r, FRAME("[0, 0], [0.1, 0], [0.3, 0]",
                       "{\"i\": 1, \"j\": 2, \"E\": 1e10, \"A\": 0.021, \"I\": 4.7e-5},"
                       "{\"i\": 0, \"j\": 1, \"E\": 1e10, \"A\": 0.021, \"I\": 4.7e-5}",
                       CLAMP,
                       "{\"type\": \"point\", \"member\": 0, \"a\": 0.2000000000000001,"
                       " \"Fy\": -238.5}"));
    assert_near(bw_state_reaction(s, 0).y, 238.5, 1e-9);
}

static void running_out_of_memory_is_reported(void **state)
{
    (void)state;
    unsigned long n = 1;
    for (;; n++) {
        bw_arena *arena = bw_arena_new();
        bw_diags d = bw_diags_new(arena, NULL);
        bw_frame_input in;
        bw_arena_fail_after(n);
        const bw_status status = bw_input_frame(
            arena,
            BEAM("{\"type\": \"self\"}, {\"type\": \"dist\", \"member\": 0,"
                 " \"wy\": [1, 2]}, {\"type\": \"node\", \"node\": 1}"),
            &in, &d);
        bw_arena_fail_after(0);
        bw_arena_free(arena);
        if (status == BW_OK) {
            break;
        }
        assert_int_equal(status, BW_E_MEMORY);
    }
    assert_true(n > 20);
}

#define READING(test) cmocka_unit_test_setup_teardown(test, open_reading, close_reading)

int main(void)
{
    const struct CMUnitTest tests[] = {
        READING(a_point_load_bends_a_simple_beam),
        READING(names_and_units_describe_the_same_beam),
        READING(a_load_without_ends_covers_the_member),
        READING(a_part_load_keeps_its_ends_and_slope),
        READING(self_weight_uses_the_density),
        READING(node_loads_act_in_three_directions),
        READING(plan_loads_count_per_horizontal_metre),
        READING(given_sections_and_shear_are_used),
        READING(a_member_may_leave_the_shear_of_the_file_out),
        READING(end_springs_and_their_units_are_read),
        READING(supports_settle_and_give_way),
        READING(angles_are_degrees),
        READING(a_released_end_carries_no_moment),
        READING(a_sliding_member_carries_no_axial_force),
        READING(a_load_at_the_very_end_is_taken),
        READING(running_out_of_memory_is_reported),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
