/* What a frame may not be made of: every value out of range is refused, in words, before
 * anything is solved; and so is every load that lies nowhere. */
#include "../base/arena_fixture.h"
#include "bolewright/frame.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <string.h>

#include <cmocka.h>

static const double span = 2.385;

static bw_member log_between(int i, int j)
{
    return (bw_member){.node_i = i,
                       .node_j = j,
                       .section_i = bw_section_round(0.217),
                       .section_j = bw_section_round(0.193),
                       .modulus = 9.1e9,
                       .shear_modulus = 5.7e8,
                       .kappa = 0.9,
                       .density = 610.0,
                       .name = "the log",
                       .case_path = "/logs/0"};
}

static bw_member beam_between(int i, int j)
{
    bw_member m = log_between(i, j);
    m.section_i = m.section_j = bw_section_given(0.021, 3.71e-5, 3.1e-4);
    return m;
}

/* A beam on two supports. */
static bw_frame *frame_of(const bw_member *m, const bw_support *more, bw_arena *arena)
{
    bw_frame *f = bw_frame_new(arena);
    bw_frame_add_node(f, 0.0, 0.0, "left", NULL);
    bw_frame_add_node(f, span, 0.0, "right", NULL);
    for (int k = 0; k < 2; k++) {
        const bw_support s = {.node = k, .fix = {k == 0, true, false}};
        assert_int_equal(bw_frame_add_support(f, &s), BW_OK);
    }
    if (more != NULL) {
        assert_int_equal(bw_frame_add_support(f, more), BW_OK);
    }
    assert_int_equal(bw_frame_add_member(f, m), 0);
    return f;
}

/* One fault, of that id and path, with these words. */
static void expect_fault(const bw_diags *d, const char *id, const char *path,
                         const char *words)
{
    assert_int_equal(d->count, 1);
    assert_string_equal(d->items[0].id, id);
    if (strstr(d->items[0].message, words) == NULL) {
        fail_msg("\"%s\" lacks \"%s\"", d->items[0].message, words);
    }
    if (path != NULL) {
        assert_string_equal(d->items[0].path, path);
    }
}

typedef struct {
    size_t at; /* of a double in what is spoilt */
    double value;
    const char *words;
} spoilt;

static void refuse_member(const bw_member *m, const char *words, bw_arena *arena)
{
    bw_diags d = bw_diags_new(arena, NULL);
    assert_int_equal(bw_frame_factor(frame_of(m, NULL, arena), &d), BW_E_INPUT);
    expect_fault(&d, "frame.member", "/logs/0", words);
    assert_non_null(strstr(d.items[0].message, "the log "));
}

#define OF(field) offsetof(bw_member, field)

static void a_member_out_of_range_is_refused(void **state)
{
    static const char size[] = "needs a section with positive, finite size";
    static const char shape[] = "needs more wood";
    static const char shear[] = "needs a shear modulus of at least 0 and a kappa from 0";
    const double nan = (double)NAN;
    const spoilt faults[] = {
        {OF(section_i.diameter), 0.0, size},
        {OF(section_j.diameter), -0.2, size},
        {OF(section_j.diameter), HUGE_VAL, size},
        {OF(section_j.diameter), 1e90, size},
        {OF(section_i.diameter), 1e-90, size},
        {OF(section_i.diameter), nan, size},
        {OF(section_i.flat_top), -0.01, shape},
        {OF(section_j.flat_bottom), -0.01, shape},
        {OF(section_i.bore), -0.01, shape},
        {OF(section_i.flat_top), 0.21, shape},
        {OF(section_j.bore), 0.192, shape},
        {OF(section_j.bore), nan, shape},
        {OF(modulus), 0.0, "needs a positive modulus of elasticity"},
        {OF(modulus), HUGE_VAL, "needs a positive modulus of elasticity"},
        {OF(shear_modulus), -1.0, shear},
        {OF(shear_modulus), HUGE_VAL, shear},
        {OF(kappa), -0.1, shear},
        {OF(kappa), 1.01, shear},
        {OF(density), -1.0, "needs a density of at least 0"},
        {OF(density), HUGE_VAL, "needs a density of at least 0"},
        {OF(turn_spring_i), -1.0, "needs joint springs of at least 0"},
        {OF(turn_spring_j), nan, "needs joint springs of at least 0"},
    };
    for (size_t k = 0; k < sizeof faults / sizeof faults[0]; k++) {
        bw_member m = log_between(0, 1);
        memcpy((char *)&m + faults[k].at, &faults[k].value, sizeof faults[k].value);
        refuse_member(&m, faults[k].words, *state);
    }
    bw_member cut = log_between(0, 1); /* a hollow that reaches a flat */
    cut.section_i.flat_top = 0.06;
    cut.section_i.bore = 0.12;
    refuse_member(&cut, shape, *state);
}

/* An endless modulus would make every stress nothing. */
static void a_given_section_out_of_range_is_refused(void **state)
{
    static const char size[] = "needs a section with positive, finite size";
    static const char same[] = "needs the same given section at both ends";
    const spoilt faults[] = {
        {OF(section_i.area), 0.0, size},
        {OF(section_i.area), HUGE_VAL, size},
        {OF(section_j.second_moment), -1e-5, size},
        {OF(section_j.second_moment), HUGE_VAL, size},
        {OF(section_i.modulus), -1e-4, size},
        {OF(section_i.modulus), HUGE_VAL, size},
        {OF(section_j.area), 0.02, same},
        {OF(section_j.second_moment), 3.7e-5, same},
        {OF(section_j.modulus), 3.2e-4, same},
    };
    for (size_t k = 0; k < sizeof faults / sizeof faults[0]; k++) {
        bw_member m = beam_between(0, 1);
        memcpy((char *)&m + faults[k].at, &faults[k].value, sizeof faults[k].value);
        refuse_member(&m, faults[k].words, *state);
    }
    bw_member mixed = beam_between(0, 1);
    mixed.section_j = bw_section_round(0.2);
    refuse_member(&mixed, "of one kind", *state);
}

static void a_member_joins_two_nodes(void **state)
{
    const int ends[][2] = {{-1, 1}, {2, 1}, {0, -1}, {0, 2}, {1, 1}};
    for (size_t k = 0; k < sizeof ends / sizeof ends[0]; k++) {
        const bw_member m = log_between(ends[k][0], ends[k][1]);
        refuse_member(&m, "must join two different nodes of the frame", *state);
    }
    const double places[] = {0.0, HUGE_VAL, (double)NAN, 1.5e308, 1e-120};
    for (int k = 0; k < 5; k++) {
        bw_frame *f = bw_frame_new(*state);
        bw_member m = log_between(0, 1);
        m.name = NULL;
        bw_diags d = bw_diags_new(*state, NULL);
        bw_frame_add_node(f, 0.0, 0.0, NULL, NULL);
        bw_frame_add_node(f, places[k], 0.0, NULL, NULL);
        bw_frame_add_member(f, &m);
        assert_int_equal(bw_frame_factor(f, &d), BW_E_INPUT);
        expect_fault(&d, "frame.member", "/logs/0",
                     "a member has no length, or its ends are not finite");
        assert_int_equal(bw_frame_count_free_motions(f), -1);
    }
}

static void an_empty_frame_is_refused(void **state)
{
    bw_frame *f = bw_frame_new(*state);
    bw_diags d = bw_diags_new(*state, NULL);
    bw_frame_add_node(f, 0.0, 0.0, NULL, NULL);
    assert_int_equal(bw_frame_factor(f, &d), BW_E_INPUT);
    expect_fault(&d, "frame.empty", NULL, "the frame has no members");
}

static void refuse_support(const bw_support *s, const char *words, bw_arena *arena)
{
    const bw_member m = log_between(0, 1);
    bw_diags d = bw_diags_new(arena, NULL);
    assert_int_equal(bw_frame_factor(frame_of(&m, s, arena), &d), BW_E_INPUT);
    expect_fault(&d, "frame.support", "/feet/2", words);
}

#define OF_SUPPORT(field) offsetof(bw_support, field)

static void a_support_out_of_range_is_refused(void **state)
{
    static const char springs[] = "needs springs of at least 0 and finite settlements";
    static const char coupled[] = "coupled springs of a support must resist every motion";
    const spoilt faults[] = {
        {OF_SUPPORT(spring[0]), -1.0, springs},
        {OF_SUPPORT(spring[2]), HUGE_VAL, springs},
        {OF_SUPPORT(settle[1]), (double)NAN, springs},
        {OF_SUPPORT(angle), HUGE_VAL, "needs a finite angle"},
        {OF_SUPPORT(angle), (double)NAN, "needs a finite angle"},
        {OF_SUPPORT(angle), 0.3, "two supports of one node need the same angle"},
        {OF_SUPPORT(angle), 3.14159265358979, "need the same angle"},
        {OF_SUPPORT(spring_xr), 1.0, coupled},
        {OF_SUPPORT(spring_xr), (double)NAN, coupled},
    };
    for (size_t k = 0; k < sizeof faults / sizeof faults[0]; k++) {
        bw_support s = {.node = 1, .case_path = "/feet/2"};
        memcpy((char *)&s + faults[k].at, &faults[k].value, sizeof faults[k].value);
        refuse_support(&s, faults[k].words, *state);
    }
    for (int node = -1; node < 3; node += 3) {
        const bw_support s = {.node = node, .case_path = "/feet/2"};
        refuse_support(&s, "must stand at a node of the frame", *state);
    }
}

/* ---- loads ---- */

static bw_frame *sound(bw_arena *arena)
{
    const bw_member m = log_between(0, 1);
    bw_frame *f = frame_of(&m, NULL, arena);
    bw_diags d = bw_diags_new(arena, NULL);
    assert_int_equal(bw_frame_factor(f, &d), BW_OK);
    return f;
}

static void a_load_nowhere_is_refused(void **state)
{
    const bw_member_load point = {.kind = BW_LOAD_POINT, .a = 0.7, .y = {-913.0, 0.0}};
    bw_member_load loads[9];
    for (int k = 0; k < 9; k++) {
        loads[k] = point;
        loads[k].kind = k < 5 ? BW_LOAD_POINT : BW_LOAD_LINE;
        loads[k].b = 1.9;
    }
    loads[0].member = -1;
    loads[1].member = 1;
    loads[2].a = -0.01;
    loads[3].a = (double)NAN;
    loads[4].moment = HUGE_VAL;
    loads[5].b = 0.7; /* a line load on no length */
    loads[6].b = 2.39;
    loads[7].a = 2.0;
    loads[8].x[1] = (double)NAN;
    for (int k = 0; k < 9; k++) {
        bw_frame *f = sound(*state);
        bw_diags d = bw_diags_new(*state, NULL);
        bw_state *answer = NULL;
        assert_int_equal(bw_frame_load_member(f, 0, &loads[k]), BW_OK);
        assert_int_equal(bw_frame_solve(f, &d), BW_E_INPUT);
        expect_fault(&d, "frame.load", NULL, "a load lies on no part of a member");
        assert_int_equal(bw_frame_solve_loads(f, &loads[k], 1, &answer, *state),
                         BW_E_INTERNAL);
    }
}

/* Such a load would come out as NaN everywhere, with nobody told why. */
static void a_load_at_no_node_or_without_end_is_refused(void **state)
{
    const struct {
        int node;
        double force[3];
    } loads[] = {{-1, {0.0, -913.0, 0.0}},
                 {2, {0.0, -913.0, 0.0}},
                 {1, {(double)NAN, 0.0, 0.0}},
                 {1, {0.0, -HUGE_VAL, 0.0}},
                 {0, {0.0, 0.0, HUGE_VAL}}};
    for (size_t k = 0; k < sizeof loads / sizeof loads[0]; k++) {
        bw_frame *f = sound(*state);
        bw_diags d = bw_diags_new(*state, NULL);
        const double *force = loads[k].force;
        assert_int_equal(
            bw_frame_load_node(f, 0, loads[k].node, force[0], force[1], force[2]), BW_OK);
        assert_int_equal(bw_frame_solve(f, &d), BW_E_INPUT);
        expect_fault(&d, "frame.load", NULL, "a load acts at no node of the frame");
    }
}

static void a_load_case_has_a_number_from_0(void **state)
{
    bw_frame *f = sound(*state);
    bw_diags d = bw_diags_new(*state, NULL);
    const bw_member_load w = {.kind = BW_LOAD_POINT, .a = 0.7, .y = {-913.0, 0.0}};
    assert_int_equal(bw_frame_load_member(f, -1, &w), BW_E_INTERNAL);
    assert_int_equal(bw_frame_load_node(f, -1, 1, 0.0, -913.0, 0.0), BW_E_INTERNAL);
    assert_int_equal(bw_frame_load_self_weight(f, -1, 1.0), BW_E_INTERNAL);
    assert_int_equal(bw_frame_load_member(f, 0, &w), BW_OK);
    assert_int_equal(bw_frame_solve(f, &d), BW_OK);
    assert_int_equal(bw_frame_load_self_weight(f, 1, 1.0), BW_OK); /* not solved yet */
    for (int load_case = -1; load_case < 3; load_case++) {
        const bw_part part = {load_case, 1.0};
        bw_state *s = bw_frame_state(f, &part, 1, *state);
        assert_int_equal(s != NULL, load_case == 0);
    }
}

static void nothing_is_solved_before_it_is_factored(void **state)
{
    const bw_member m = log_between(0, 1);
    bw_frame *f = frame_of(&m, NULL, *state);
    const bw_member_load w = {.kind = BW_LOAD_POINT, .a = 0.7, .y = {-913.0, 0.0}};
    bw_diags d = bw_diags_new(*state, NULL);
    bw_state *answer = NULL;
    assert_int_equal(bw_frame_solve(f, &d), BW_E_INTERNAL);
    assert_int_equal(bw_frame_solve_loads(f, &w, 1, &answer, *state), BW_E_INTERNAL);
}

/* Rounding of a place counts as the end of the member: M = 0 there, and half of nothing
 * is carried anywhere else. */
static void a_place_beyond_the_end_by_rounding_is_the_end(void **state)
{
    const bw_member_load loads[] = {
        {.kind = BW_LOAD_LINE, .a = -3e-10 * span, .b = -1e-10 * span, .y = {-1e3, -1e3}},
        {.kind = BW_LOAD_LINE,
         .a = span * (1.0 + 1e-10),
         .b = span * (1.0 + 3e-10),
         .y = {-1e3, -1e3}},
        {.kind = BW_LOAD_POINT, .a = span * (1.0 + 5e-10), .y = {-913.0, 0.0}},
    };
    for (int k = 0; k < 3; k++) {
        bw_frame *f = sound(*state);
        bw_state *s = NULL;
        assert_int_equal(bw_frame_solve_loads(f, &loads[k], 1, &s, *state), BW_OK);
        const bw_extremes e = bw_state_extremes(s, 0);
        assert_true(fabs(e.moment_max.value) < 1e-5 && fabs(e.moment_min.value) < 1e-5);
        const double carried = bw_state_reaction(s, 1).y + bw_state_reaction(s, 0).y;
        assert_true(fabs(carried - (k < 2 ? 0.0 : 913.0)) < 1e-5);
    }
}

/* A post on a foot whose shift and turn act on each other: H at its top comes down as H
 * and -H L, and [k c; c t] of the foot says how far it goes (two equations by hand). */
static void coupled_springs_give_way_together(void **state)
{
    const double k = 3.1e6, t = 2.7e5, c = -4.3e5, H = 713.0, height = 1.73;
    const double det = k * t - c * c;
    bw_frame *f = bw_frame_new(*state);
    const bw_member post = log_between(0, 1);
    const bw_support foot = {
        .node = 0, .spring = {k, 0.0, t}, .spring_xr = c, .fix = {false, true, false}};
    bw_diags d = bw_diags_new(*state, NULL);
    bw_frame_add_node(f, 0.0, 0.0, NULL, NULL);
    bw_frame_add_node(f, 0.0, height, NULL, NULL);
    assert_int_equal(bw_frame_add_member(f, &post), 0);
    assert_int_equal(bw_frame_add_support(f, &foot), BW_OK);
    assert_int_equal(bw_frame_load_node(f, 0, 1, H, 0.0, 0.0), BW_OK);
    assert_int_equal(bw_frame_factor(f, &d), BW_OK);
    assert_int_equal(bw_frame_solve(f, &d), BW_OK);
    const bw_state *s = bw_frame_state(f, &(bw_part){0, 1.0}, 1, *state);
    const bw_motion u = bw_state_displacement(s, 0);
    assert_true(fabs(u.x / ((t * H + c * H * height) / det) - 1.0) < 1e-10);
    assert_true(fabs(u.r / ((-k * H * height - c * H) / det) - 1.0) < 1e-10);
    assert_true(fabs(bw_state_reaction(s, 0).x / -H - 1.0) < 1e-10);
    assert_true(fabs(bw_state_reaction(s, 0).r / (H * height) - 1.0) < 1e-10);
}

/* Axes that are each other's mirror image have the same cosine. */
static void mirrored_supports_of_one_node_are_refused(void **state)
{
    const bw_member m = log_between(0, 1);
    bw_frame *f = bw_frame_new(*state);
    bw_diags d = bw_diags_new(*state, NULL);
    bw_frame_add_node(f, 0.0, 0.0, NULL, NULL);
    bw_frame_add_node(f, span, 0.0, NULL, NULL);
    for (int k = 0; k < 2; k++) {
        const bw_support s = {
            .node = 0, .angle = k == 0 ? 0.3 : -0.3, .fix = {true, true}};
        assert_int_equal(bw_frame_add_support(f, &s), BW_OK);
    }
    assert_int_equal(bw_frame_add_member(f, &m), 0);
    assert_int_equal(bw_frame_factor(f, &d), BW_E_INPUT);
    expect_fault(&d, "frame.support", NULL,
                 "two supports of one node need the same angle");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_member_out_of_range_is_refused),
        WITH_ARENA(a_given_section_out_of_range_is_refused),
        WITH_ARENA(a_member_joins_two_nodes),
        WITH_ARENA(an_empty_frame_is_refused),
        WITH_ARENA(a_support_out_of_range_is_refused),
        WITH_ARENA(a_load_nowhere_is_refused),
        WITH_ARENA(a_load_at_no_node_or_without_end_is_refused),
        WITH_ARENA(a_load_case_has_a_number_from_0),
        WITH_ARENA(nothing_is_solved_before_it_is_factored),
        WITH_ARENA(a_place_beyond_the_end_by_rounding_is_the_end),
        WITH_ARENA(coupled_springs_give_way_together),
        WITH_ARENA(mirrored_supports_of_one_node_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
