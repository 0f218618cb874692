/* Forces in random frames balance: as a whole, at every node, at hinges, slides and
 * springs. */
#include "laws.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

static const double balance = 1e-10; /* of the largest force or moment of the frame */

enum { FRAMES = 300 };

/* ---- properties ---- */

/* Point load moments at a = 0 or a = length of a member, which hinges leave on it. */
static double end_moment(const bwt_sketch *s, int member, bool at_j)
{
    double sum = 0.0;
    for (int k = 0; k < s->n_loads; k++) {
        const bw_member_load *w = &s->loads[k].on_member;
        if (s->loads[k].kind == BWT_LOAD_MEMBER && w->kind == BW_LOAD_POINT &&
            w->member == member &&
            (at_j ? w->a >= bwt_member_length(s, member) : w->a <= 0.0)) {
            sum += w->moment;
        }
    }
    return sum;
}

static void hinges_carry_no_moment(bwt_trial *t)
{
    bwt_solved f;
    if (!bwt_solve_loaded(t, &f)) {
        return;
    }
    for (int k = 0; k < t->sketch->n_members; k++) {
        const bw_member *m = &t->sketch->members[k];
        const double L = bw_frame_length(f.frame, k);
        const double near_i = bw_state_action(f.state, k, 0.0, false).moment;
        const double near_j = bw_state_action(f.state, k, L, true).moment;
        const double allowance = balance * bwt_moment_size(t->sketch, &f);
        if (m->hinge_i) {
            bwt_near(t, "moment at hinge i of member", k,
                     near_i + end_moment(t->sketch, k, false), 0.0, allowance);
        }
        if (m->hinge_j) {
            bwt_near(t, "moment at hinge j of member", k,
                     near_j - end_moment(t->sketch, k, true), 0.0, allowance);
        }
    }
}

/* Total of the reactions to own weight alone = weight of the frustums. */
static void own_weight_is_the_weight_of_the_logs(bwt_trial *t)
{
    bwt_solved f;
    t->sketch->loads[t->sketch->n_loads++] =
        (bwt_load){.kind = BWT_LOAD_SELF, .factor = 1.0};
    if (!bwt_solve_case(t, t->sketch, &f)) {
        return;
    }
    double weight = 0.0;
    double carried = 0.0;
    for (int k = 0; k < t->sketch->n_members; k++) {
        double centre = 0.0;
        weight += bwt_member_weight(t->sketch, k, &centre);
    }
    for (int n = 0; n < t->sketch->n_nodes; n++) {
        carried += bw_state_reaction(f.state, n).y;
    }
    bwt_near(t, "weight", 0, carried, weight, balance * fmax(weight, f.force));
}

static void supports_do_what_they_are_given(bwt_trial *t)
{
    bwt_solved f;
    if (!bwt_solve_loaded(t, &f)) {
        return;
    }
    for (int k = 0; k < t->sketch->n_supports; k++) {
        const bw_support *p = &t->sketch->supports[k];
        const bw_motion u = bw_state_displacement(f.state, p->node);
        const bw_motion r = bw_state_reaction(f.state, p->node);
        const double c = cos(p->angle), s = sin(p->angle);
        const double motion[3] = {c * u.x + s * u.y, c * u.y - s * u.x, u.r};
        const double held[3] = {c * r.x + s * r.y, c * r.y - s * r.x, r.r};
        for (int j = 0; j < 3; j++) {
            const double size = j < 2 ? f.shift : f.turn;
            const double force = j < 2 ? f.force : bwt_moment_size(t->sketch, &f);
            if (p->fix[j]) {
                bwt_near(t, "motion of the fixed node", p->node, motion[j], p->settle[j],
                         1e-12 * size);
            } else {
                bwt_near(t, "force of the spring at node", p->node, held[j],
                         -p->spring[j] * motion[j], balance * force);
            }
        }
    }
}

/* ---- run ---- */

static void loads_and_reactions_balance(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("balance", FRAMES, 2385, bwt_reactions_carry_the_loads), 0);
}

static void members_and_nodes_balance(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("nodes", FRAMES, 7717, bwt_every_node_is_in_balance), 0);
}

static void hinged_ends_carry_no_moment(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("hinges", FRAMES, 4519, hinges_carry_no_moment), 0);
}

static void own_weight_is_exact(void **state)
{
    (void)state;
    assert_int_equal(
        bwt_try("own weight", FRAMES, 6229, own_weight_is_the_weight_of_the_logs), 0);
}

static void supports_hold_or_spring(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("supports", FRAMES, 1861, supports_do_what_they_are_given),
                     0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(loads_and_reactions_balance),
        cmocka_unit_test(members_and_nodes_balance),
        cmocka_unit_test(hinged_ends_carry_no_moment),
        cmocka_unit_test(own_weight_is_exact),
        cmocka_unit_test(supports_hold_or_spring),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
