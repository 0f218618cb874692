/* The deflected shape and the action diagrams of random frames belong together:
 *
 *   dN/dx = -qx,  dV/dx = qy,  dM/dx = V,
 *   u' = N/EA,  v' = theta - V/(kappa G A),  theta' = M/EI
 *
 * and the ends of a member follow its nodes. Derivatives by central differences that are
 * exact up to the fourth power, as the diagrams are. */
#include "trial.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

enum { FRAMES = 200, PLACES = 3 };

typedef struct {
    double N, V, M, u, v, theta;
} values;

static values values_at(const bwt_solved *f, int member, double x)
{
    const bw_action a = bw_state_action(f->state, member, x, false);
    const bw_motion m = bw_state_local(f->state, member, x);
    return (values){a.axial, a.shear, a.moment, m.x, m.y, m.r};
}

#define SLOPE(part)                                                                      \
    ((-p[3].part + 8.0 * p[2].part - 8.0 * p[1].part + p[0].part) / (12.0 * h))

static values slopes(const bwt_solved *f, int member, double x, double h)
{
    const values p[4] = {values_at(f, member, x - 2.0 * h), values_at(f, member, x - h),
                         values_at(f, member, x + h), values_at(f, member, x + 2.0 * h)};
    return (values){SLOPE(N), SLOPE(V), SLOPE(M), SLOPE(u), SLOPE(v), SLOPE(theta)};
}

/* Loads per length at x in the member's axes. */
static bwt_point load_at(const bwt_sketch *s, int member, double x)
{
    const bwt_point e = bwt_member_direction(s, member);
    const bw_section section = bwt_member_section(s, member, x);
    const double weight =
        s->members[member].density * 9.80665 * bw_section_area(&section);
    bwt_point q = {0};
    for (int k = 0; k < s->n_loads; k++) {
        const bw_member_load *w = &s->loads[k].on_member;
        if (s->loads[k].kind == BWT_LOAD_SELF) {
            q.x -= s->loads[k].factor * weight * e.y;
            q.y -= s->loads[k].factor * weight * e.x;
        } else if (s->loads[k].kind == BWT_LOAD_MEMBER && w->kind == BW_LOAD_LINE &&
                   w->member == member && w->a <= x && x <= w->b) {
            const double t = (x - w->a) / (w->b - w->a);
            const double px = w->x[0] + t * (w->x[1] - w->x[0]);
            const double py = w->y[0] + t * (w->y[1] - w->y[0]);
            const double plan = w->per_plan_length ? fabs(e.x) : 1.0;
            q.x += w->local ? px : plan * (e.x * px + e.y * py);
            q.y += w->local ? py : plan * (e.x * py - e.y * px);
        }
    }
    return q;
}

static void compare_slopes(bwt_trial *t, const bwt_solved *f, int k, double x,
                           double room)
{
    const bw_member *m = &t->sketch->members[k];
    const double L = bw_frame_length(f->frame, k);
    const double h = fmin(0.003 * L, 0.4 * room);
    const values at = values_at(f, k, x);
    const values slope = slopes(f, k, x, h);
    const bw_section s = bwt_member_section(t->sketch, k, x);
    const double area = bw_section_area(&s);
    const double EA = m->modulus * area;
    const double EI = m->modulus * bw_section_second_moment(&s);
    const double GA = m->kappa * m->shear_modulus * area;
    const double shear = GA > 0.0 ? at.V / GA : 0.0;
    const bwt_point q = load_at(t->sketch, k, x);
    bwt_near(t, "dN/dx in member", k, slope.N, -q.x,
             1e-12 * f->force / h + 1e-9 * f->force);
    bwt_near(t, "dV/dx in member", k, slope.V, q.y,
             1e-12 * f->force / h + 1e-9 * f->force);
    bwt_near(t, "dM/dx in member", k, slope.M, at.V,
             1e-12 * f->moment / h + 1e-9 * f->force);
    bwt_near(t, "du/dx in member", k, slope.u, at.N / EA,
             1e-7 * f->force / EA + 1e-12 * f->shift / h);
    bwt_near(t, "dv/dx in member", k, slope.v, at.theta - shear,
             1e-7 * (fabs(at.theta) + f->moment * L / EI + f->shift / L) +
                 1e-12 * f->shift / h);
    bwt_near(t, "dtheta/dx in member", k, slope.theta, at.M / EI,
             1e-6 * f->moment / EI + 1e-12 * f->turn / h);
}

static void diagrams_and_shape_belong_together(bwt_trial *t)
{
    bwt_solved f;
    bwt_sketch_load_random(&t->random, t->sketch, 0, bwt_sketch_is_alike(t->sketch));
    if (!bwt_solve_case(t, t->sketch, &f)) {
        return;
    }
    for (int k = 0; k < t->sketch->n_members; k++) {
        double stations[64];
        const size_t n = bw_state_stations(f.state, k, stations, 64);
        for (int place = 0; place < PLACES && n > 1; place++) {
            const int between = bwt_random_below(&t->random, (int)n - 1);
            const double gap = stations[between + 1] - stations[between];
            if (gap > 1e-2) {
                const double middle = stations[between] + gap / 2.0;
                compare_slopes(t, &f, k, middle, gap / 2.0);
            }
        }
    }
}

/* A joint spring k lets the end of a member turn by M/k against its node. */
static double joint_turn(double moment, double spring)
{
    return spring > 0.0 ? moment / spring : 0.0;
}

static void compare_ends(bwt_trial *t, const bwt_solved *f, int k)
{
    const bw_member *m = &t->sketch->members[k];
    const double L = bw_frame_length(f->frame, k);
    const bw_motion i =
        bwt_member_to_global(t->sketch, k, bw_state_local(f->state, k, 0.0));
    const bw_motion j =
        bwt_member_to_global(t->sketch, k, bw_state_local(f->state, k, L));
    const bw_motion ui = bw_state_displacement(f->state, m->node_i);
    const bw_motion uj = bw_state_displacement(f->state, m->node_j);
    const double M_i = bw_state_action(f->state, k, 0.0, false).moment;
    const double M_j = bw_state_action(f->state, k, L, true).moment;
    const double shift = 1e-9 * f->shift, turn = 1e-8 * (f->turn + f->shift / L);
    bwt_near(t, "x of end i of member", k, i.x, ui.x, shift);
    bwt_near(t, "y of end i of member", k, i.y, ui.y, shift);
    if (!m->slides) {
        bwt_near(t, "x of end j of member", k, j.x, uj.x, shift);
        bwt_near(t, "y of end j of member", k, j.y, uj.y, shift);
    }
    if (!m->hinge_i) {
        bwt_near(t, "turn of end i of member", k, i.r - ui.r,
                 joint_turn(M_i, m->turn_spring_i), turn);
    }
    if (!m->hinge_j) {
        bwt_near(t, "turn of end j of member", k, j.r - uj.r,
                 -joint_turn(M_j, m->turn_spring_j), turn);
    }
}

/* No moments at the very ends of members: just inside is the end. */
static void drop_end_loads(bwt_sketch *s)
{
    for (int k = 0; k < s->n_loads; k++) {
        bw_member_load *w = &s->loads[k].on_member;
        if (s->loads[k].kind == BWT_LOAD_MEMBER && w->kind == BW_LOAD_POINT) {
            const double L = bwt_member_length(s, w->member);
            w->moment = w->a <= 0.0 || w->a >= L ? 0.0 : w->moment;
        }
    }
}

static void ends_follow_their_nodes(bwt_trial *t)
{
    bwt_solved f;
    bwt_sketch_load_random(&t->random, t->sketch, 0, true);
    bwt_sketch_settle_random(&t->random, t->sketch);
    drop_end_loads(t->sketch);
    if (!bwt_solve_case(t, t->sketch, &f)) {
        return;
    }
    for (int k = 0; k < t->sketch->n_members; k++) {
        compare_ends(t, &f, k);
    }
}

/* ---- run ---- */

static void derivatives_agree(void **state)
{
    (void)state;
    assert_int_equal(
        bwt_try("derivatives", FRAMES, 3571, diagrams_and_shape_belong_together), 0);
}

static void ends_of_members_follow_nodes(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("ends", FRAMES, 9973, ends_follow_their_nodes), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(derivatives_agree),
        cmocka_unit_test(ends_of_members_follow_nodes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
