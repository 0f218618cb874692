/* What a person reads when a frame is loose: the part, the way, what would hold it. */
#include "../base/arena_fixture.h"
#include "row.h"

#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

static const char *faults_of(bw_frame *f, bw_arena *arena)
{
    bw_diags d = bw_diags_new(arena, NULL);
    bw_text text = bw_text_new(arena);
    assert_int_equal(bw_frame_factor(f, &d), BW_E_MECHANISM);
    bw_diags_print(&d, &text);
    return bw_text_string(&text);
}

static void expect(const char *text, const char *part)
{
    if (strstr(text, part) == NULL) {
        fail_msg("\"%s\" lacks \"%s\"", text, part);
    }
}

static int count(const char *text, const char *part)
{
    int n = 0;
    for (const char *at = text; (at = strstr(at, part)) != NULL; at += strlen(part)) {
        n++;
    }
    return n;
}

static void a_row_on_hinged_feet_sways(void **state)
{
    const bwt_row r = bwt_row_make(*state, 3, BWT_FEET_HINGED, false, NULL);
    bw_frame_name_directions(r.frame, "along the deck", "up and down");
    const char *text = faults_of(r.frame, *state);
    expect(text, "can move along the deck without resistance");
    expect(text, "moving with it: post 0, post 1, post 2, stringer 0 and 1 more");
    expect(text, "a brace, a foot that cannot turn, or a support in that direction would "
                 "hold it");
    expect(text, "/bents");
    assert_int_equal(bw_frame_count_free_motions(r.frame), 1);
}

static void without_words_the_axes_are_named(void **state)
{
    const bwt_row r = bwt_row_make(*state, 2, BWT_FEET_HINGED, false, NULL);
    expect(faults_of(r.frame, *state), "can move along x without resistance");
}

/* A log with a hinge in its middle hangs through. */
static bw_frame *hinged_beam(bw_arena *arena)
{
    bw_frame *f = bw_frame_new(arena);
    static const char *const names[] = {"left end", "hinge", "right end"};
    for (int k = 0; k < 3; k++) {
        bw_frame_add_node(f, 2.385 * k, 0.0, names[k], "/nodes");
    }
    for (int k = 0; k < 2; k++) {
        const bw_member log = {.node_i = k,
                               .node_j = k + 1,
                               .section_i = bw_section_round(0.2),
                               .section_j = bw_section_round(0.2),
                               .modulus = 9e9,
                               .hinge_j = k == 0,
                               .name = k == 0 ? "first half" : "second half"};
        const bw_support held = {.node = 2 * k, .fix = {true, true, false}};
        bw_frame_add_member(f, &log);
        bw_frame_add_support(f, &held);
    }
    return f;
}

static void a_beam_with_a_hinge_falls_through(void **state)
{
    const char *text = faults_of(hinged_beam(*state), *state);
    expect(text, "hinge can move along y without resistance");
    expect(text, "moving with it: first half, second half");
    expect(text, "a post or another support under it would hold it");
}

static void every_loose_part_is_named(void **state)
{
    bw_frame *f = bw_frame_new(*state);
    static const char *const names[] = {"one", "two"};
    for (int k = 0; k < 2; k++) {
        const int foot = bw_frame_add_node(f, 3.1 * k, 0.0, NULL, NULL);
        const int head = bw_frame_add_node(f, 3.1 * k, 1.7, names[k], NULL);
        const bw_support held = {.node = foot, .fix = {true, true, false}};
        const bw_member post = {.node_i = foot,
                                .node_j = head,
                                .section_i = bw_section_round(0.2),
                                .section_j = bw_section_round(0.17),
                                .modulus = 9e9};
        bw_frame_add_support(f, &held);
        bw_frame_add_member(f, &post);
    }
    const char *text = faults_of(f, *state);
    assert_int_equal(count(text, "without resistance"), 2);
    expect(text, "one can move");
    expect(text, "two can move");
    assert_int_equal(bw_frame_count_free_motions(f), 2);
}

static void many_loose_parts_are_counted(void **state)
{
    bw_frame *f = bw_frame_new(*state);
    for (int k = 0; k < 7; k++) {
        const int foot = bw_frame_add_node(f, 1.3 * k, 0.0, NULL, NULL);
        const int head = bw_frame_add_node(f, 1.3 * k, 1.7, NULL, NULL);
        const bw_support held = {.node = foot, .fix = {true, true, false}};
        const bw_member post = {.node_i = foot,
                                .node_j = head,
                                .section_i = bw_section_round(0.2),
                                .section_j = bw_section_round(0.17),
                                .modulus = 9e9};
        bw_frame_add_support(f, &held);
        bw_frame_add_member(f, &post);
    }
    expect(faults_of(f, *state), "and 3 more loose motions");
}

/* Too many joints to name them: it is said all the same, never passed. */
static void a_very_long_loose_row_is_refused_too(void **state)
{
    const bwt_row r = bwt_row_make(*state, 402, BWT_FEET_HINGED, false, NULL);
    expect(faults_of(r.frame, *state),
           "a part of this frame of 804 joints can move without resistance");
    assert_int_equal(bw_frame_count_free_motions(r.frame), -1);
}

static void a_frame_that_stands_has_no_free_motion(void **state)
{
    const bwt_row r = bwt_row_make(*state, 5, BWT_FEET_FIXED, false, NULL);
    bw_diags d = bw_diags_new(*state, NULL);
    assert_int_equal(bw_frame_count_free_motions(r.frame), 0);
    assert_int_equal(bw_frame_factor(r.frame, &d), BW_OK);
    assert_int_equal(d.count, 0);
}

static void the_names_of_both_axes_are_used(void **state)
{
    bw_frame *f = hinged_beam(*state);
    bw_frame_name_directions(f, "along the deck", "up and down");
    expect(faults_of(f, *state), "hinge can move up and down without resistance");
}

/* Nothing is joined to it: no member moves with it. */
static void a_joint_of_nothing_is_loose(void **state)
{
    const bwt_row r = bwt_row_make(*state, 2, BWT_FEET_FIXED, false, NULL);
    bw_frame_add_node(r.frame, 3.17, 2.385, NULL, NULL);
    const char *text = faults_of(r.frame, *state);
    expect(text, "a node can move along x without resistance\n");
    assert_int_equal(bw_frame_count_free_motions(r.frame), 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_row_on_hinged_feet_sways),
        WITH_ARENA(without_words_the_axes_are_named),
        WITH_ARENA(a_beam_with_a_hinge_falls_through),
        WITH_ARENA(every_loose_part_is_named),
        WITH_ARENA(many_loose_parts_are_counted),
        WITH_ARENA(a_very_long_loose_row_is_refused_too),
        WITH_ARENA(a_frame_that_stands_has_no_free_motion),
        WITH_ARENA(the_names_of_both_axes_are_used),
        WITH_ARENA(a_joint_of_nothing_is_loose),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
