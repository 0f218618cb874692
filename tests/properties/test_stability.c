/* Second order and buckling of random frames.
 *
 * Under vanishing loads second order is first order; reactions balance the loads; and the
 * buckling factor is the lowest: the frame stands just below it, and just above it
 * exactly the critical factors counted by an elimination of our own (negative pivots, by
 * Sylvester's law of inertia, of the stiffness of members cut into many parts) lie below.
 */
#include "frame/stability.h"
#include "trial.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

enum { FRAMES = 120, CUTS = 16 };

static bw_status bend(bwt_trial *t, const bwt_solved *f, double factor, bw_state **out)
{
    const bw_part part = {0, factor};
    bw_diags d = bw_diags_new(t->arena, NULL);
    return bw_frame_second_order(f->frame, &part, 1, t->arena, out, &d);
}

static bool factor_of(bwt_trial *t, const bwt_solved *f, bw_buckling *out)
{
    bw_diags d = bw_diags_new(t->arena, NULL);
    const bw_status status = bw_frame_buckling(f->frame, f->state, t->arena, out, &d);
    bwt_holds(t, "a buckling factor is found", 0, status == BW_OK);
    return status == BW_OK;
}

/* ---- vanishing loads ---- */

static void compare_member(bwt_trial *t, const bwt_solved *a, const bw_state *b,
                           double scale, int k)
{
    const double same = 1e-7, L = bw_frame_length(a->frame, k);
    for (int place = 0; place <= 4; place++) {
        const double x = place == 4 ? L : L * place / 4.0;
        const bw_action p = bw_state_action(a->state, k, x, place == 4);
        const bw_action q = bw_state_action(b, k, x, place == 4);
        bwt_near(t, "N of member", k, q.axial / scale, p.axial, same * a->force);
        bwt_near(t, "V of member", k, q.shear / scale, p.shear, same * a->force);
        bwt_near(t, "M of member", k, q.moment / scale, p.moment,
                 same * (a->moment + a->force));
        bwt_near(t, "sag of member", k, bw_state_sag(b, k, x) / scale,
                 bw_state_sag(a->state, k, x), same * a->shift);
    }
}

/* Loads are made so small that N adds 1e-9 of the stiffness at most. */
static void small_loads_are_first_order(bwt_trial *t)
{
    bwt_solved f;
    bw_buckling buckling;
    bw_state *second = NULL;
    bwt_sketch_load_random(&t->random, t->sketch, 0, true);
    if (!bwt_solve_case(t, t->sketch, &f) || !factor_of(t, &f, &buckling)) {
        return;
    }
    const double scale = 1e-9 * fmin(buckling.factor, 1.0 / f.turn);
    const bw_status status = bend(t, &f, scale, &second);
    bwt_holds(t, "second order is solved", 0, status == BW_OK);
    for (int n = 0; n < t->sketch->n_nodes && second != NULL; n++) {
        const bw_motion p = bw_state_displacement(f.state, n);
        const bw_motion q = bw_state_displacement(second, n);
        bwt_near(t, "shift along x of node", n, q.x / scale, p.x, 1e-7 * f.shift);
        bwt_near(t, "shift along y of node", n, q.y / scale, p.y, 1e-7 * f.shift);
        bwt_near(t, "turn of node", n, q.r / scale, p.r, 1e-7 * f.turn);
    }
    for (int k = 0; k < t->sketch->n_members && second != NULL; k++) {
        compare_member(t, &f, second, scale, k);
    }
}

/* ---- balance in the bent shape ---- */

/* Forces do not turn with the shape, so their sums are those of first order. */
static void reactions_balance_the_loads(bwt_trial *t)
{
    bwt_solved f;
    bw_buckling buckling;
    bw_state *second = NULL;
    bwt_sketch_load_random(&t->random, t->sketch, 0, true);
    bwt_sketch_lean_random(&t->random, t->sketch);
    if (!bwt_solve_case(t, t->sketch, &f) || !factor_of(t, &f, &buckling)) {
        return;
    }
    const double factor = fmin(buckling.factor / 3.0, 0.02 / f.turn);
    const bw_status status = bend(t, &f, factor, &second);
    bwt_holds(t, "second order is solved", 0, status == BW_OK);
    double x = 0.0, y = 0.0;
    for (int n = 0; n < t->sketch->n_nodes && second != NULL; n++) {
        const bw_motion a = bw_state_reaction(second, n);
        const bw_motion b = bw_state_reaction(f.state, n);
        x += a.x - factor * b.x;
        y += a.y - factor * b.y;
    }
    bwt_near(t, "sum of forces along x", 0, x, 0.0, 1e-8 * factor * f.force);
    bwt_near(t, "sum of forces along y", 0, y, 0.0, 1e-8 * factor * f.force);
}

/* ---- the lowest factor ---- */

static double *entry(const bwi_system *s, double *band, int column, int below)
{
    return band + (size_t)column * ((size_t)s->half_band + 1) + (size_t)below;
}

/* Negative pivots of K(factor); -1 if a pivot is no number. */
static int count_negative(const bwi_columns *c, double factor)
{
    const bwi_system *s = &c->system;
    int n = 0;
    bwi_columns_assemble(c, factor, s->band);
    for (int j = 0; j < s->n; j++) {
        const double pivot = *entry(s, s->band, j, 0);
        if (!isfinite(pivot) || pivot == 0.0) {
            return -1;
        }
        n += pivot < 0.0 ? 1 : 0;
        for (int i = 1; i <= s->half_band && j + i < s->n; i++) {
            const double share = *entry(s, s->band, j, i) / pivot;
            for (int k = i; k <= s->half_band && j + k < s->n; k++) {
                *entry(s, s->band, j + i, k - i) -= share * *entry(s, s->band, j, k);
            }
        }
    }
    return n;
}

/* Where shear alone fails, or a member is mostly pulled and pressed in a corner, the
 * factor is found too small rather than exactly. */
static bool is_ordinary(const bwt_solved *f, const bwt_sketch *s, double factor)
{
    bool ordinary = true;
    for (int k = 0; k < s->n_members; k++) {
        const bw_member *m = &s->members[k];
        const bw_extremes e = bw_state_extremes(f->state, k);
        const double press = fmax(0.0, -e.axial_min.value) * factor;
        const double pull = fmax(0.0, e.axial_max.value) * factor;
        const double area =
            fmin(bw_section_area(&m->section_i), bw_section_area(&m->section_j));
        const double I = fmin(bw_section_second_moment(&m->section_i),
                              bw_section_second_moment(&m->section_j));
        const double L = bwt_member_length(s, k);
        const double shear = m->kappa * m->shear_modulus * area;
        ordinary = ordinary && (shear == 0.0 || press < 0.8 * shear) &&
                   (press + pull) * L * L < 400.0 * m->modulus * I;
    }
    return ordinary;
}

static void check_stands(bwt_trial *t, const bwt_solved *f, double factor, bool wanted)
{
    bw_diags d = bw_diags_new(t->arena, NULL);
    bool stands = !wanted;
    const bw_status status =
        bw_frame_stands(f->frame, f->state, factor, t->arena, &stands, &d);
    bwt_holds(t, wanted ? "it stands below the factor" : "it does not stand above", 0,
              status == BW_OK && stands == wanted);
}

static void the_factor_is_the_lowest(bwt_trial *t)
{
    bwt_solved f;
    bw_buckling buckling;
    bwi_columns c;
    bwt_sketch_load_random(&t->random, t->sketch, 0, true);
    if (!bwt_solve_case(t, t->sketch, &f) || !factor_of(t, &f, &buckling)) {
        return;
    }
    if (isinf(buckling.factor)) {
        for (int k = 0; k < t->sketch->n_members; k++) {
            const double least = bw_state_extremes(f.state, k).axial_min.value;
            bwt_holds(t, "nothing is pressed", k, least > -1e-9 * f.force);
        }
        return;
    }
    check_stands(t, &f, 0.999999 * buckling.factor, true);
    const bool ordinary = is_ordinary(&f, t->sketch, buckling.factor);
    for (double times = ordinary ? 1.000001 : 1.03; times < 1e4; times *= 2.7) {
        check_stands(t, &f, times * buckling.factor, false);
    }
    const bw_status made = bwi_columns_make(f.frame, f.state, CUTS, t->arena, &c);
    bwt_holds(t, "there is memory", 0, made == BW_OK);
    if (made == BW_OK && ordinary) {
        bwt_holds(t, "no factor lies below", 0,
                  count_negative(&c, 0.999999 * buckling.factor) == 0);
        bwt_holds(t, "one lies at the factor", 0,
                  count_negative(&c, 1.000001 * buckling.factor) == 1);
    }
}

/* ---- run ---- */

static void vanishing_loads_act_as_in_first_order(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("vanishing", FRAMES, 7121, small_loads_are_first_order), 0);
}

static void bent_frames_are_in_balance(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("balance", FRAMES, 3191, reactions_balance_the_loads), 0);
}

static void buckling_factors_are_the_lowest(void **state)
{
    (void)state;
    assert_int_equal(bwt_try("lowest", FRAMES, 2963, the_factor_is_the_lowest), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(vanishing_loads_act_as_in_first_order),
        cmocka_unit_test(bent_frames_are_in_balance),
        cmocka_unit_test(buckling_factors_are_the_lowest),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
