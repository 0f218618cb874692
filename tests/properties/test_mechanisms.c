/* Free motions of random frames. A tree of members on just enough supports has as many
 * conditions as motions, all independent; so every condition taken away - a hinge, a
 * slide, a support - frees exactly one motion, whatever the stiffnesses are. */
#include "trial.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

enum { FRAMES = 300 };

static bool names_a_part(const bw_diags *d)
{
    for (size_t k = 0; k < d->count; k++) {
        if (d->items[k].severity == BW_ERROR &&
            (strstr(d->items[k].message, "node") != NULL ||
             strstr(d->items[k].message, "member") != NULL)) {
            return true;
        }
    }
    return false;
}

static void expect_motions(bwt_trial *t, const bwt_sketch *s, int motions)
{
    bw_diags d = bw_diags_new(t->arena, NULL);
    bw_frame *f = bwt_sketch_build(s, t->arena);
    bwt_holds(t, "there is memory", 0, f != NULL);
    if (f == NULL) {
        return;
    }
    const bw_status status = bw_frame_factor(f, &d);
    bwt_near(t, "free motions", 0, bw_frame_count_free_motions(f), motions, 0.5);
    if (motions > 0) {
        bwt_holds(t, "a mechanism is refused", 0, status == BW_E_MECHANISM);
        bwt_holds(t, "its part is named", 0, names_a_part(&d));
    } else {
        bwt_holds(t, "a sound frame is factored", 0, status == BW_OK);
    }
}

/* The tree alone, held at node 0. */
static void keep_the_tree(bwt_sketch *s)
{
    s->n_members = s->n_nodes - 1;
    s->n_supports = 1;
    s->supports[0] = (bw_support){.node = 0, .fix = {true, true, true}};
}

/* Takes away n conditions; the member ends keep no joint springs there. */
static int release(bwt_trial *t, int n)
{
    int taken = 0;
    for (int k = 0; k < n; k++) {
        bw_member *m =
            &t->sketch->members[bwt_random_below(&t->random, t->sketch->n_members)];
        const int which = bwt_random_below(&t->random, 4);
        bool *const at = which == 0   ? &m->hinge_i
                         : which == 1 ? &m->hinge_j
                         : which == 2 ? &m->slides
                                      : NULL;
        if (at != NULL && !*at) {
            *at = true;
            taken++;
        } else if (at == NULL) {
            bool *const fix =
                &t->sketch->supports[0].fix[bwt_random_below(&t->random, 3)];
            taken += *fix ? 1 : 0;
            *fix = false;
        }
        m->turn_spring_i = m->hinge_i ? 0.0 : m->turn_spring_i;
        m->turn_spring_j = m->hinge_j ? 0.0 : m->turn_spring_j;
    }
    return taken;
}

/* Joints that only hinges meet: their turn moves nothing, so it is no motion of the
 * frame. */
static int idle_joints(const bwt_sketch *s)
{
    int idle = 0;
    for (int node = 0; node < s->n_nodes; node++) {
        int ends = 0, hinges = 0;
        for (int k = 0; k < s->n_members; k++) {
            const bw_member *m = &s->members[k];
            ends += (m->node_i == node) + (m->node_j == node);
            hinges +=
                (m->node_i == node && m->hinge_i) + (m->node_j == node && m->hinge_j);
        }
        const bool held = node == 0 && s->supports[0].fix[2];
        idle += ends > 0 && ends == hinges && !held ? 1 : 0;
    }
    return idle;
}

static void every_release_frees_one_motion(bwt_trial *t)
{
    keep_the_tree(t->sketch);
    const int taken = release(t, bwt_random_below(&t->random, 4));
    expect_motions(t, t->sketch, taken - idle_joints(t->sketch));
}

static void stiffness_frees_nothing(bwt_trial *t)
{
    keep_the_tree(t->sketch);
    const int taken = release(t, bwt_random_below(&t->random, 3));
    for (int k = 0; k < t->sketch->n_members; k++) {
        t->sketch->members[k].modulus *=
            pow(10.0, bwt_random_between(&t->random, -2.5, 2.5));
    }
    expect_motions(t, t->sketch, taken - idle_joints(t->sketch));
}

static void without_supports_it_flies(bwt_trial *t)
{
    t->sketch->n_supports = 0;
    expect_motions(t, t->sketch, 3);
}

static void as_made_it_stands(bwt_trial *t)
{
    expect_motions(t, t->sketch, 0);
}

/* ---- two logs between pins, hinged together at mid-span: flat, the hinge is free to
 * start moving; with any rise it is held (Pellegrino and Calladine, Int. J. Solids
 * Structures 22, 1986, MEMORY) ---- */

static void build_arch(bwt_sketch *s, double rise)
{
    *s = (bwt_sketch){.n_nodes = 3, .n_members = 2, .n_supports = 2};
    s->nodes[1] = (bwt_point){2.385, rise};
    s->nodes[2] = (bwt_point){4.77, 0.0};
    for (int k = 0; k < 2; k++) {
        s->members[k] = (bw_member){.node_i = k,
                                    .node_j = k + 1,
                                    .section_i = bw_section_round(0.21),
                                    .section_j = bw_section_round(0.17),
                                    .modulus = 9.3e9,
                                    .hinge_i = k == 1};
        s->supports[k] = (bw_support){.node = 2 * k, .fix = {true, true, false}};
    }
}

static void flat_arch_moves_and_shallow_arch_stands(bwt_trial *t)
{
    build_arch(t->sketch, 0.0);
    expect_motions(t, t->sketch, 1);
    build_arch(t->sketch, 4.77 * pow(10.0, bwt_random_between(&t->random, -3.5, -0.5)));
    expect_motions(t, t->sketch, 0);
}

/* ---- run ---- */

static void any_rise_holds_an_arch(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("arches", 60, 5407, flat_arch_moves_and_shallow_arch_stands),
                     0);
}

static void a_frame_that_stands_is_factored(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("standing", FRAMES, 4817, as_made_it_stands), 0);
}

static void a_frame_without_supports_has_three_free_motions(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("flying", FRAMES, 1427, without_supports_it_flies), 0);
}

static void each_release_frees_one_motion(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("released", FRAMES, 7349, every_release_frees_one_motion),
                     0);
}

static void the_count_does_not_depend_on_stiffness(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("unlike moduli", FRAMES, 9437, stiffness_frees_nothing), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_frame_that_stands_is_factored),
        cmocka_unit_test(a_frame_without_supports_has_three_free_motions),
        cmocka_unit_test(each_release_frees_one_motion),
        cmocka_unit_test(any_rise_holds_an_arch),
        cmocka_unit_test(the_count_does_not_depend_on_stiffness),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
