/* Influence lines and loads solved one by one are two ways to one answer. */
#include "trial.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

enum { FRAMES = 200, WHEELS = 2 };
static const double same = 1e-9;

typedef struct {
    int path[BWT_ROOM];
    size_t n_path;
    bw_wheel wheels[WHEELS];
    bw_state *state; /* of all wheels */
    bwt_solved base;
} case_of_wheels;

static bw_member_load load_of(const case_of_wheels *c, const bw_wheel *w)
{
    return (bw_member_load){.kind = BW_LOAD_POINT,
                            .member = c->path[w->at],
                            .a = w->a,
                            .b = w->a,
                            .x = {w->fx, 0.0},
                            .y = {w->fy, 0.0}};
}

static void choose_wheels(bwt_trial *t, case_of_wheels *c)
{
    const int n = t->sketch->n_members;
    const int first = bwt_random_below(&t->random, n);
    c->n_path = (size_t)(1 + bwt_random_below(&t->random, n));
    for (size_t k = 0; k < c->n_path; k++) {
        c->path[k] = (first + (int)k) % n;
    }
    for (int k = 0; k < WHEELS; k++) {
        bw_wheel *w = &c->wheels[k];
        w->at = (size_t)bwt_random_below(&t->random, (int)c->n_path);
        w->a = bwt_member_length(t->sketch, c->path[w->at]) *
               bwt_random_between(&t->random, 0.01, 0.99);
        w->fx = bwt_random_between(&t->random, -900.0, 900.0);
        w->fy = bwt_random_between(&t->random, -3000.0, 300.0);
    }
}

static bool solve_wheels(bwt_trial *t, case_of_wheels *c)
{
    bw_member_load loads[WHEELS];
    bw_state *states[WHEELS] = {0};
    for (int k = 0; k < WHEELS; k++) {
        loads[k] = load_of(c, &c->wheels[k]);
    }
    if (bw_frame_solve_loads(c->base.frame, loads, WHEELS, states, t->arena) != BW_OK) {
        return false;
    }
    c->state = states[0];
    for (int k = 1; k < WHEELS && c->state != NULL; k++) {
        c->state = bw_state_add(c->state, 1.0, states[k], t->arena);
    }
    return c->state != NULL;
}

/* What the forces of these wheels are to be measured against. */
static double size_of(const case_of_wheels *c)
{
    double size = 0.0;
    for (int k = 0; k < WHEELS; k++) {
        size += hypot(c->wheels[k].fx, c->wheels[k].fy);
    }
    return size;
}

static void compare_ends(bwt_trial *t, const case_of_wheels *c, const bw_influence *v,
                         int k)
{
    double end[6] = {0};
    const double L = bw_frame_length(c->base.frame, k);
    const bw_action i = bw_state_action(c->state, k, 0.0, false);
    const bw_action j = bw_state_action(c->state, k, L, true);
    const double wanted[6] = {i.axial, i.shear, i.moment, j.axial, j.shear, j.moment};
    bw_influence_ends(v, k, c->wheels, WHEELS, end);
    for (int e = 0; e < 6; e++) {
        const double reach = e % 3 == 2 ? 10.0 : 1.0; /* [m] of frames up to 10 members */
        bwt_near(t, "influence at the ends of member", k, end[e], wanted[e],
                 same * size_of(c) * reach);
    }
}

/* With the base state below. */
static void compare_along(bwt_trial *t, const case_of_wheels *c, const bw_influence *v,
                          int k)
{
    const double L = bw_frame_length(c->base.frame, k);
    const double x = L * bwt_random_between(&t->random, 0.0, 1.0);
    const bw_state *both = bw_state_add(c->base.state, 1.0, c->state, t->arena);
    const bw_line line =
        bw_influence_line(v, c->base.state, k, c->wheels, WHEELS, t->arena);
    bwt_holds(t, "there is memory", k, both != NULL && line.n > 0);
    if (both == NULL || line.n == 0) {
        return;
    }
    const double force = same * (size_of(c) + c->base.force);
    const double moment = same * (10.0 * size_of(c) + c->base.moment + c->base.force);
    const bw_action a = bw_line_action(&line, x, false);
    const bw_action b = bw_state_action(both, k, x, false);
    bwt_near(t, "N along member", k, a.axial, b.axial, force);
    bwt_near(t, "V along member", k, a.shear, b.shear, force);
    bwt_near(t, "M along member", k, a.moment, b.moment, moment);
    const bw_extremes e = bw_line_extremes(&line);
    const bw_extremes w = bw_state_extremes(both, k);
    bwt_near(t, "largest M of member", k, e.moment_max.value, w.moment_max.value, moment);
    bwt_near(t, "smallest M of member", k, e.moment_min.value, w.moment_min.value,
             moment);
    bwt_near(t, "largest V of member", k, e.shear_max.value, w.shear_max.value, force);
}

/* A wheel said not to reach a member leaves it alone. */
static void check_reach(bwt_trial *t, const case_of_wheels *c, const bw_influence *v,
                        int k)
{
    for (int w = 0; w < WHEELS; w++) {
        double end[6] = {0};
        bw_influence_ends(v, k, &c->wheels[w], 1, end);
        for (int e = 0; e < 6 && !bw_influence_reaches(v, k, c->wheels[w].at); e++) {
            bwt_near(t, "action of a wheel out of reach on member", k, end[e], 0.0,
                     1e-8 * size_of(c));
        }
    }
}

/* What was set for a wheel does not outlive a change of it. */
static void check_changed(bwt_trial *t, const case_of_wheels *c, const bw_influence *v,
                          int k)
{
    double before[6], after[6], moved[6], wanted[6];
    bw_wheel w = c->wheels[0];
    bw_influence_set(v, &w);
    bw_influence_ends(v, k, &w, 1, before);
    w.fx *= 2.385;
    w.fy *= 2.385;
    bw_influence_ends(v, k, &w, 1, after);
    for (int e = 0; e < 6; e++) {
        bwt_near(t, "a wheel made heavier, on member", k, after[e], 2.385 * before[e],
                 1e-8 * size_of(c));
    }
    w.a *= 0.713;
    bw_wheel fresh = {.at = w.at, .a = w.a, .fx = w.fx, .fy = w.fy};
    bw_influence_ends(v, k, &w, 1, moved);
    bw_influence_ends(v, k, &fresh, 1, wanted);
    for (int e = 0; e < 6; e++) {
        bwt_near(t, "a wheel moved, on member", k, moved[e], wanted[e],
                 1e-12 * size_of(c));
    }
}

static void wheels_agree(bwt_trial *t)
{
    case_of_wheels c = {0};
    bw_influence *v = NULL;
    bwt_sketch_load_random(&t->random, t->sketch, 0, true);
    bwt_sketch_settle_random(&t->random, t->sketch);
    choose_wheels(t, &c);
    if (!bwt_solve_case(t, t->sketch, &c.base)) {
        return;
    }
    const bool made =
        solve_wheels(t, &c) &&
        bw_influence_new(c.base.frame, c.path, c.n_path, t->arena, &v) == BW_OK;
    bwt_holds(t, "influence lines are made", 0, made);
    for (int k = 0; k < t->sketch->n_members && made; k++) {
        compare_ends(t, &c, v, k);
        compare_along(t, &c, v, k);
        check_reach(t, &c, v, k);
        check_changed(t, &c, v, k);
    }
}

static void influence_lines_agree_with_single_loads(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("influence", FRAMES, 3779, wheels_agree), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(influence_lines_agree_with_single_loads),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
