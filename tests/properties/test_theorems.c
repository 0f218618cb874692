/* Theorems of linear statics on random frames: Clapeyron, Maxwell and Betti,
 * superposition, and that a frame moved as a whole carries nothing (Timoshenko and Young,
 * Theory of Structures, MEMORY). */
#include "laws.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

enum { FRAMES = 250 };

/* ---- superposition ---- */

static void compare_states(bwt_trial *t, const bwt_solved *f, const bw_state *other,
                           const char *what)
{
    const double reach = f->moment + f->force;
    for (int k = 0; k < t->sketch->n_members; k++) {
        const double x =
            bw_frame_length(f->frame, k) * bwt_random_between(&t->random, 0.0, 1.0);
        const bw_action a = bw_state_action(f->state, k, x, false);
        const bw_action b = bw_state_action(other, k, x, false);
        bwt_near(t, what, k, b.moment, a.moment, 1e-9 * reach);
        bwt_near(t, what, k, b.shear, a.shear, 1e-9 * f->force);
        bwt_near(t, what, k, b.axial, a.axial, 1e-9 * f->force);
        bwt_near(t, what, k, bw_state_sag(other, k, x), bw_state_sag(f->state, k, x),
                 1e-9 * f->shift);
    }
    for (int n = 0; n < t->sketch->n_nodes; n++) {
        const bw_motion a = bw_state_reaction(f->state, n);
        const bw_motion b = bw_state_reaction(other, n);
        bwt_near(t, what, n, b.x, a.x, 1e-9 * f->force);
        bwt_near(t, what, n, b.y, a.y, 1e-9 * f->force);
        bwt_near(t, what, n, b.r, a.r, 1e-9 * reach);
    }
}

/* The factors put into the loads of the sketch itself. Settlements act in case 0. */
static void apply_factors(bwt_sketch *s, const bw_part *parts)
{
    for (int k = 0; k < s->n_loads; k++) {
        bwt_load *l = &s->loads[k];
        const double factor = parts[l->load_case].factor;
        l->load_case = 0;
        l->fx *= factor;
        l->fy *= factor;
        l->moment *= factor;
        l->factor *= factor;
        l->on_member.moment *= factor;
        for (int e = 0; e < 2; e++) {
            l->on_member.x[e] *= factor;
            l->on_member.y[e] *= factor;
        }
    }
    for (int k = 0; k < s->n_supports; k++) {
        for (int c = 0; c < 3; c++) {
            s->supports[k].settle[c] *= parts[0].factor;
        }
    }
}

static void load_three_cases(bwt_trial *t)
{
    bwt_sketch_load_random(&t->random, t->sketch, 0, true);
    bwt_sketch_load_random(&t->random, t->sketch, 1, false);
    bwt_sketch_load_random(&t->random, t->sketch, 2, true);
    bwt_sketch_settle_random(&t->random, t->sketch);
}

static void cases_add_up(bwt_trial *t)
{
    static const bw_part parts[3] = {{0, 1.385}, {1, -0.617}, {2, 2.041}};
    bwt_solved together;
    bwt_solved single;
    load_three_cases(t);
    if (!bwt_solve(t, t->sketch, parts, 3, &together)) {
        return;
    }
    bw_state *sum = bw_frame_state(together.frame, &parts[0], 1, t->arena);
    for (int k = 1; k < 3 && sum != NULL; k++) {
        const bw_part one = {k, 1.0};
        const bw_state *next = bw_frame_state(together.frame, &one, 1, t->arena);
        sum = next != NULL ? bw_state_add(sum, parts[k].factor, next, t->arena) : NULL;
    }
    bwt_holds(t, "states add", 0, sum != NULL);
    if (sum != NULL) {
        compare_states(t, &together, sum, "sum of states");
    }
    apply_factors(t->sketch, parts);
    if (bwt_solve_case(t, t->sketch, &single)) {
        compare_states(t, &together, single.state, "factors in the loads");
    }
}

/* A wheel load of its own and the same load in a load case. */
static void single_loads_are_cases(bwt_trial *t)
{
    bwt_solved f;
    bw_state *wheel = NULL;
    const bw_member_load w = bwt_single_load(t);
    t->sketch->loads[t->sketch->n_loads++] =
        (bwt_load){.kind = BWT_LOAD_MEMBER, .on_member = w};
    if (!bwt_solve_case(t, t->sketch, &f)) {
        return;
    }
    const bw_status status = bw_frame_solve_loads(f.frame, &w, 1, &wheel, t->arena);
    bwt_holds(t, "a single load is solved", 0, status == BW_OK && wheel != NULL);
    if (wheel != NULL) {
        compare_states(t, &f, wheel, "single load");
    }
}

/* ---- moved as a whole ---- */

static void move_as_a_whole(bwt_trial *t, bw_motion by)
{
    bwt_sketch *s = t->sketch;
    for (int k = 0; k < s->n_supports; k++) {
        bw_support *p = &s->supports[k];
        const bool nothing = !p->fix[0] && !p->fix[1] && !p->fix[2];
        const bwt_point at = s->nodes[p->node];
        const double x = by.x - by.r * at.y, y = by.y + by.r * at.x;
        const double c = cos(p->angle), e = sin(p->angle);
        const double motion[3] = {c * x + e * y, c * y - e * x, by.r};
        for (int j = 0; j < 3; j++) {
            p->spring[j] = 0.0;
            p->fix[j] = p->fix[j] || nothing;
            p->settle[j] = p->fix[j] ? motion[j] : 0.0;
        }
    }
}

/* The forces are to be nothing beside those of a member with one end turned as much. */
static void moved_frame_carries_nothing(bwt_trial *t)
{
    bwt_solved moved;
    const bw_motion by = {0.0271, -0.0183, 0.00347};
    move_as_a_whole(t, by);
    if (!bwt_solve_case(t, t->sketch, &moved)) {
        return;
    }
    double stiffest = 0.0;
    for (int k = 0; k < t->sketch->n_members; k++) {
        const bw_member *m = &t->sketch->members[k];
        stiffest = fmax(stiffest, m->modulus * bw_section_second_moment(&m->section_i) /
                                      bwt_member_length(t->sketch, k));
    }
    for (int k = 0; k < t->sketch->n_members; k++) {
        const bw_extremes e = bw_state_extremes(moved.state, k);
        const double allowance = 1e-8 * stiffest * by.r;
        bwt_near(t, "largest moment in member", k, e.moment_max.value, 0.0, allowance);
        bwt_near(t, "smallest moment in member", k, e.moment_min.value, 0.0, allowance);
        bwt_near(t, "shear in member", k, e.shear_max.value, 0.0, allowance);
        bwt_near(t, "axial force in member", k, e.axial_max.value, 0.0, allowance);
    }
    for (int n = 0; n < t->sketch->n_nodes; n++) {
        const bwt_point at = t->sketch->nodes[n];
        const bw_motion u = bw_state_displacement(moved.state, n);
        bwt_near(t, "x of node", n, u.x, by.x - by.r * at.y, 1e-10);
        bwt_near(t, "y of node", n, u.y, by.y + by.r * at.x, 1e-10);
        bwt_near(t, "turn of node", n, u.r, by.r, 1e-10);
    }
}

/* ---- run ---- */

static void clapeyron(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("Clapeyron", FRAMES, 3967, bwt_work_is_stored), 0);
}

static void maxwell_betti(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("Maxwell-Betti", FRAMES, 7193, bwt_works_are_mutual), 0);
}

static void superposition(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("superposition", FRAMES, 2749, cases_add_up), 0);
    assert_int_equal(bwt_try("single loads", FRAMES, 6143, single_loads_are_cases), 0);
}

static void a_frame_moved_as_a_whole_carries_nothing(void **state)
{
    (void)state;
    assert_int_equal(
        bwt_try("moved as a whole", FRAMES, 4253, moved_frame_carries_nothing), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(clapeyron),
        cmocka_unit_test(maxwell_betti),
        cmocka_unit_test(superposition),
        cmocka_unit_test(a_frame_moved_as_a_whole_carries_nothing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
