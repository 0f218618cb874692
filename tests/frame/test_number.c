/* However its nodes are numbered, a row keeps a narrow band. */
#include "../base/arena_fixture.h"
#include "row.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

enum { BENTS = 300 };

static void shuffle(int *order, int n, uint64_t seed)
{
    for (int k = 0; k < n; k++) {
        order[k] = k;
    }
    for (int k = n - 1; k > 0; k--) {
        const int j = (int)(bwt_chance(&seed) * (k + 1));
        const int keep = order[k];
        order[k] = order[j];
        order[j] = keep;
    }
}

/* A bent touches the bents beside it: three bents of a post top (3) and a held foot (0),
 * so two tops apart at most, 8; with the feet's own unknowns not much more. */
static void a_long_row_keeps_a_narrow_band(void **state)
{
    int order[2 * BENTS];
    for (uint64_t seed = 1; seed <= 5; seed++) {
        shuffle(order, 2 * BENTS, seed);
        const bwt_row r = bwt_row_make(*state, BENTS, BWT_FEET_FIXED, true, order);
        bw_diags d = bw_diags_new(*state, NULL);
        assert_int_equal(bw_frame_factor(r.frame, &d), BW_OK);
        const bw_frame_facts f = bw_frame_describe(r.frame);
        assert_int_equal(f.unknowns, 3 * BENTS);
        assert_true(f.half_band <= 8);
    }
}

static void the_numbering_does_not_change_the_answer(void **state)
{
    int order[2 * 9];
    double first = 0.0;
    for (uint64_t seed = 1; seed <= 6; seed++) {
        shuffle(order, 2 * 9, seed);
        const bwt_row r = bwt_row_make(*state, 9, BWT_FEET_FIXED, true, order);
        bw_diags d = bw_diags_new(*state, NULL);
        assert_int_equal(bw_frame_load_self_weight(r.frame, 0, 1.0), BW_OK);
        assert_int_equal(bw_frame_load_node(r.frame, 0, r.top[3], 217.0, -931.0, 41.0),
                         BW_OK);
        assert_int_equal(bw_frame_factor(r.frame, &d), BW_OK);
        assert_int_equal(bw_frame_solve(r.frame, &d), BW_OK);
        const bw_state *s = bw_frame_state(r.frame, &(bw_part){0, 1.0}, 1, *state);
        const double moved = bw_state_displacement(s, r.top[7]).x;
        first = seed == 1 ? moved : first;
        assert_true(fabs(moved / first - 1.0) < 1e-10);
    }
}

/* Parts without any connection are numbered one after the other. */
static void separate_parts_do_not_widen_the_band(void **state)
{
    bw_frame *f = bw_frame_new(*state);
    bw_diags d = bw_diags_new(*state, NULL);
    for (int k = 0; k < 40; k++) { /* all feet first, then all heads */
        assert_int_equal(bw_frame_add_node(f, k, 0.0, NULL, NULL), k);
    }
    for (int k = 0; k < 40; k++) {
        const int head = bw_frame_add_node(f, k, 1.3, NULL, NULL);
        const bw_support held = {.node = k, .fix = {true, true, true}};
        const bw_member post = {.node_i = k,
                                .node_j = head,
                                .section_i = bw_section_round(0.2),
                                .section_j = bw_section_round(0.17),
                                .modulus = 9e9};
        assert_int_equal(bw_frame_add_support(f, &held), BW_OK);
        assert_true(bw_frame_add_member(f, &post) >= 0);
    }
    assert_int_equal(bw_frame_factor(f, &d), BW_OK);
    assert_true(bw_frame_describe(f).half_band <= 2);
}

/* A joint where only hinges meet feels no turn: it is no unknown, and no mechanism. */
static void a_joint_of_hinges_only_has_no_turn(void **state)
{
    bw_frame *f = bw_frame_new(*state);
    bw_diags d = bw_diags_new(*state, NULL);
    const double at[3][2] = {{0.0, 0.0}, {2.1, 0.0}, {0.9, 1.7}};
    for (int k = 0; k < 3; k++) {
        bw_frame_add_node(f, at[k][0], at[k][1], NULL, NULL);
    }
    for (int k = 0; k < 2; k++) {
        const bw_support held = {.node = k, .fix = {true, true, false}};
        const bw_member rod = {.node_i = k,
                               .node_j = 2,
                               .section_i = bw_section_round(0.1),
                               .section_j = bw_section_round(0.1),
                               .modulus = 9e9,
                               .hinge_i = true,
                               .hinge_j = true};
        bw_frame_add_support(f, &held);
        bw_frame_add_member(f, &rod);
    }
    assert_int_equal(bw_frame_factor(f, &d), BW_OK);
    assert_int_equal(bw_frame_describe(f).unknowns, 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_long_row_keeps_a_narrow_band),
        WITH_ARENA(the_numbering_does_not_change_the_answer),
        WITH_ARENA(separate_parts_do_not_widen_the_band),
        WITH_ARENA(a_joint_of_hinges_only_has_no_turn),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
