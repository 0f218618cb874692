/* Second order against closed forms, with and without shear strain (Engesser), for posts
 * that lean, bow, and are pushed. k^2 = P / (EI (1 - P/S)). */
#include "../base/arena_fixture.h"
#include "bolewright/frame.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>

#include <cmocka.h>

static const double pi = 3.14159265358979323846;
static const double E = 9.13e9, G = 5.7e8, kappa = 0.9;
static const double L = 3.17, d = 0.193;

static void assert_near(double found, double wanted, double relative)
{
    if (!(fabs(found - wanted) <= relative * fabs(wanted))) {
        print_error("found %.15g, expected %.15g within %.1g\n", found, wanted, relative);
        fail();
    }
}

static double bending(void)
{
    return E * pi * d * d * d * d / 64.0;
}

static double shear_stiffness(void)
{
    return kappa * G * pi * d * d / 4.0;
}

typedef struct {
    double P;
    bool shear;
} pressed;

/* What multiplies the shear force: M' = g (...). */
static double g_of(pressed p)
{
    return p.shear ? 1.0 / (1.0 - p.P / shear_stiffness()) : 1.0;
}

static double k_of(pressed p)
{
    return sqrt(g_of(p) * p.P / bending());
}

/* Loads of a quarter, a half and nine tenths of what buckles, with and without shear. */
enum { LEVELS = 6 };
static pressed level(int n, double euler)
{
    static const double shares[] = {0.25, 0.5, 0.9};
    const bool shear = n % 2 == 1;
    const double most = shear ? euler / (1.0 + euler / shear_stiffness()) : euler;
    return (pressed){shares[n / 2] * most, shear};
}

/* Node 0 at (0, 0), node 1 at the distance L in the direction of the angle. */
static bw_frame *one_member(bw_arena *arena, double angle, const bw_member *shape,
                            bool shear)
{
    bw_frame *f = bw_frame_new(arena);
    bw_member m = *shape;
    bw_frame_add_node(f, 0.0, 0.0, "foot", NULL);
    bw_frame_add_node(f, L * cos(angle), L * sin(angle), "top", NULL);
    m.node_i = 0;
    m.node_j = 1;
    m.section_i = m.section_j = bw_section_round(d);
    m.modulus = E;
    m.shear_modulus = shear ? G : 0.0;
    m.kappa = shear ? kappa : 0.0;
    assert_int_equal(bw_frame_add_member(f, &m), 0);
    return f;
}

static void hold(bw_frame *f, int node, double angle, bool x, bool y, bool r)
{
    const bw_support s = {.node = node, .angle = angle, .fix = {x, y, r}};
    assert_int_equal(bw_frame_add_support(f, &s), BW_OK);
}

/* Along the member's direction, which is the angle. */
static void press(bw_frame *f, int node, double angle, double P)
{
    assert_int_equal(
        bw_frame_load_node(f, 0, node, -P * cos(angle), -P * sin(angle), 0.0), BW_OK);
}

static bw_status bend(bw_frame *f, double factor, bw_arena *arena, bw_state **out,
                      bw_diags *diags)
{
    const bw_part all = {0, factor};
    bw_status status = bw_frame_factor(f, diags);
    if (status == BW_OK) {
        status = bw_frame_solve(f, diags);
    }
    return status == BW_OK ? bw_frame_second_order(f, &all, 1, arena, out, diags)
                           : status;
}

static bw_state *bent(bw_frame *f, bw_arena *arena)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    bw_state *out = NULL;
    assert_int_equal(bend(f, 1.0, arena, &out, &diags), BW_OK);
    return out;
}

static double moment_at(const bw_state *s, double x)
{
    return bw_state_action(s, 0, x, false).moment;
}

/* ---- crooked posts ---- */

/* Bow v0 = 4 e x (L - x) / L^2 between pins:
 *   M'' + k^2 M = 8 P g e / L^2,  M = -8 EI e / L^2 (cos k(x - L/2) / cos(kL/2) - 1)
 * (COMPUTED), in any direction. Without P it is P times the bow. */
static void a_bow_grows_by_its_closed_form(void **state)
{
    const double e = 0.0231;
    for (int n = 0; n < LEVELS; n++) {
        const pressed p = level(n, pi * pi * bending() / (L * L));
        const double k = k_of(p), angle = 0.3 * n;
        const bw_member shape = {.bow = e};
        bw_frame *f = one_member(*state, angle, &shape, p.shear);
        hold(f, 0, angle, true, true, false);
        hold(f, 1, angle, false, true, false);
        press(f, 1, angle, p.P);
        const bw_state *s = bent(f, *state);
        for (double share = 0.1; share < 1.0; share += 0.2) {
            const double x = share * L;
            const double grown = cos(k * (x - L / 2.0)) / cos(k * L / 2.0) - 1.0;
            assert_near(moment_at(s, x), -8.0 * bending() * e / (L * L) * grown, 1e-8);
        }
        /* v = -M/P - v0 (balance of the bent half) */
        assert_near(bw_state_local(s, 0, L / 2.0).y, -moment_at(s, L / 2.0) / p.P - e,
                    1e-7);
        assert_near(bw_state_action(s, 0, L / 3.0, false).axial, -p.P, 1e-12);
    }
}

/* A sine would grow by 1 / (1 - P/P_Euler) exactly; the parabola is within some percent.
 */
static void a_bow_grows_nearly_like_a_sine(void **state)
{
    const double euler = pi * pi * bending() / (L * L), e = 0.017;
    for (double share = 0.1; share < 0.95; share += 0.2) {
        const bw_member shape = {.bow = e};
        bw_frame *f = one_member(*state, 0.0, &shape, false);
        hold(f, 0, 0.0, true, true, false);
        hold(f, 1, 0.0, false, true, false);
        press(f, 1, 0.0, share * euler);
        const double nearly = share * euler * e / (1.0 - share);
        assert_near(-moment_at(bent(f, *state), L / 2.0), nearly, 0.035);
    }
}

/* Lean phi of a post fixed below, free above: the moment at its foot is
 * g P phi tan(kL) / k (COMPUTED), as under a push P phi at the top. */
static void a_lean_is_a_push(void **state)
{
    const double phi = 0.0173;
    for (int n = 0; n < LEVELS; n++) {
        const pressed p = level(n, pi * pi * bending() / (4.0 * L * L));
        const double k = k_of(p);
        const double wanted = g_of(p) * p.P * phi * tan(k * L) / k;
        const bw_member lean = {.lean = phi}, straight = {0};
        bw_frame *f = one_member(*state, pi / 2.0, &lean, p.shear);
        bw_frame *pushed = one_member(*state, pi / 2.0, &straight, p.shear);
        hold(f, 0, 0.0, true, true, true);
        hold(pushed, 0, 0.0, true, true, true);
        press(f, 1, pi / 2.0, p.P);
        press(pushed, 1, pi / 2.0, p.P);
        /* local y of a post points to -x: it leans to the left */
        assert_int_equal(bw_frame_load_node(pushed, 0, 1, -p.P * phi, 0.0, 0.0), BW_OK);
        const bw_state *a = bent(f, *state), *b = bent(pushed, *state);
        assert_near(fabs(moment_at(a, 0.0)), wanted, 1e-9);
        assert_near(moment_at(b, 0.0), moment_at(a, 0.0), 1e-9);
        assert_near(bw_state_displacement(a, 1).x, bw_state_displacement(b, 1).x, 1e-9);
        assert_true(bw_state_displacement(a, 1).x < 0.0);
        /* the post pulled up straight: moment at the foot = P (delta + phi L) */
        assert_near(wanted, p.P * (phi * L - bw_state_displacement(a, 1).x), 1e-9);
    }
}

/* ---- pushed posts ---- */

/* Foot fixed, top free, push H: M = g H tan(kL) / k and the top goes
 * H / P (g tan(kL) / k - L) (COMPUTED); pulled instead of pressed, tanh. */
static void a_push_at_the_top_grows(void **state)
{
    const double H = 873.0;
    for (int n = 0; n < LEVELS; n++) {
        const pressed p = level(n, pi * pi * bending() / (4.0 * L * L));
        const double k = k_of(p), M = g_of(p) * H * tan(k * L) / k;
        const bw_member straight = {0};
        bw_frame *f = one_member(*state, pi / 2.0, &straight, p.shear);
        hold(f, 0, 0.0, true, true, true);
        press(f, 1, pi / 2.0, p.P);
        assert_int_equal(bw_frame_load_node(f, 0, 1, H, 0.0, 0.0), BW_OK);
        const bw_state *s = bent(f, *state);
        assert_near(fabs(bw_state_reaction(s, 0).r), M, 1e-9);
        assert_near(bw_state_displacement(s, 1).x, (M - H * L) / p.P, 1e-8);
        assert_near(bw_state_reaction(s, 0).x, -H, 1e-9);
    }
    const pressed p = {2.3e5, false};
    const bw_member straight = {0};
    bw_frame *f = one_member(*state, pi / 2.0, &straight, false);
    hold(f, 0, 0.0, true, true, true);
    press(f, 1, pi / 2.0, -p.P);
    assert_int_equal(bw_frame_load_node(f, 0, 1, H, 0.0, 0.0), BW_OK);
    assert_near(fabs(bw_state_reaction(bent(f, *state), 0).r),
                H * tanh(k_of(p) * L) / k_of(p), 1e-9);
}

/* Point load Q at the middle between pins: M = g Q tan(kL/2) / (2k); uniform load w: M =
 * w g / k^2 (sec(kL/2) - 1) (Timoshenko and Gere 1.2, 1.3, MEMORY; with g COMPUTED). */
static void loads_across_a_pressed_member_grow(void **state)
{
    const double Q = 613.0, w = 431.0;
    for (int n = 0; n < LEVELS; n++) {
        const pressed p = level(n, pi * pi * bending() / (L * L));
        const double k = k_of(p), g = g_of(p);
        const bw_member straight = {0};
        for (int line = 0; line <= 1; line++) {
            bw_frame *f = one_member(*state, 0.0, &straight, p.shear);
            hold(f, 0, 0.0, true, true, false);
            hold(f, 1, 0.0, false, true, false);
            press(f, 1, 0.0, p.P);
            const bw_member_load load = {.kind = line ? BW_LOAD_LINE : BW_LOAD_POINT,
                                         .member = 0,
                                         .a = line ? 0.0 : L / 2.0,
                                         .b = line ? L : L / 2.0,
                                         .y = {line ? -w : -Q, -w}};
            assert_int_equal(bw_frame_load_member(f, 0, &load), BW_OK);
            const double wanted = line ? w * g / (k * k) * (1.0 / cos(k * L / 2.0) - 1.0)
                                       : g * Q * tan(k * L / 2.0) / (2.0 * k);
            const bw_state *s = bent(f, *state);
            assert_near(moment_at(s, L / 2.0), wanted, 1e-8);
            const bw_extremes e = bw_state_extremes(s, 0);
            assert_near(e.moment_max.value, wanted, 1e-8);
            assert_near(e.moment_max.x, L / 2.0, 1e-6);
        }
    }
}

/* A moment and a force right at a hinged end act on the member, inside the hinge: secant
 * formula M = M0 / cos(kL/2) from both ends (Timoshenko and Gere 1.4, MEMORY). */
static void loads_right_at_the_ends_count(void **state)
{
    const double M0 = 707.0;
    const pressed p = {0.6 * pi * pi * bending() / (L * L), false};
    const bw_member hinged = {.hinge_i = true, .hinge_j = true};
    bw_frame *f = one_member(*state, 0.0, &hinged, false);
    hold(f, 0, 0.0, true, true, true);
    hold(f, 1, 0.0, false, true, true);
    for (int end = 0; end <= 1; end++) {
        const bw_member_load moment = {.kind = BW_LOAD_POINT,
                                       .member = 0,
                                       .a = end * L,
                                       .b = end * L,
                                       .y = {-211.0, 0.0},
                                       .moment = end == 0 ? -M0 : M0};
        assert_int_equal(bw_frame_load_member(f, 0, &moment), BW_OK);
    }
    press(f, 1, 0.0, p.P);
    const bw_state *s = bent(f, *state);
    assert_near(moment_at(s, L / 2.0), M0 / cos(k_of(p) * L / 2.0), 1e-9);
    assert_near(moment_at(s, 0.0), M0, 1e-9);
    assert_near(bw_state_reaction(s, 0).y, 211.0, 1e-9);
    assert_near(bw_state_reaction(s, 1).y, 211.0, 1e-9);
}

/* ---- near and beyond the buckling load ---- */

static bw_frame *portal(bw_arena *arena)
{
    bw_frame *f = bw_frame_new(arena);
    for (int n = 0; n < 4; n++) {
        bw_frame_add_node(f, n < 2 ? 0.0 : 2.7, n % 3 == 0 ? 0.0 : 2.3, NULL, NULL);
    }
    for (int k = 0; k < 3; k++) {
        const bw_member m = {.node_i = k,
                             .node_j = k + 1,
                             .section_i = bw_section_round(0.16),
                             .section_j = bw_section_round(0.13),
                             .modulus = E,
                             .shear_modulus = G,
                             .kappa = kappa};
        bw_frame_add_member(f, &m);
    }
    hold(f, 0, 0.0, true, true, false);
    hold(f, 3, 0.0, true, true, false);
    for (int n = 1; n <= 2; n++) {
        assert_int_equal(bw_frame_load_node(f, 0, n, n == 1 ? 0.37 : 0.0, -9100.0, 0.0),
                         BW_OK);
    }
    return f;
}

static double sway(bw_frame *f, double factor, bw_arena *arena)
{
    bw_diags diags = bw_diags_new(arena, NULL);
    bw_state *out = NULL;
    assert_int_equal(bend(f, factor, arena, &out, &diags), BW_OK);
    return bw_state_displacement(out, 1).x;
}

/* Sway grows nearly by 1 / (1 - 1/lambda), without bound towards lambda = 1. */
static void sway_grows_towards_the_buckling_load(void **state)
{
    bw_frame *f = portal(*state);
    bw_diags diags = bw_diags_new(*state, NULL);
    const double small = 1e-7, first = sway(f, small, *state) / small;
    const bw_part all = {0, 1.0};
    const bw_state *s = bw_frame_state(f, &all, 1, *state);
    bw_buckling buckling;
    assert_int_equal(bw_frame_buckling(f, s, *state, &buckling, &diags), BW_OK);
    assert_near(first, bw_state_displacement(s, 1).x, 1e-5);
    for (double share = 0.1; share < 0.95; share += 0.2) {
        const double grown = sway(f, share * buckling.factor, *state);
        assert_near(grown / (share * buckling.factor) / first, 1.0 / (1.0 - share), 0.02);
    }
    const double near = sway(f, 0.99 * buckling.factor, *state);
    assert_true(fabs(near) > 95.0 * fabs(first) * buckling.factor);
}

/* Above it there is no equilibrium to report, however far above. */
static void nothing_is_found_beyond_the_buckling_load(void **state)
{
    bw_frame *f = portal(*state);
    bw_diags diags = bw_diags_new(*state, NULL);
    bw_buckling buckling;
    sway(f, 0.1, *state);
    const bw_part all = {0, 1.0};
    assert_int_equal(bw_frame_buckling(f, bw_frame_state(f, &all, 1, *state), *state,
                                       &buckling, &diags),
                     BW_OK);
    for (double times = 1.01; times < 400.0; times *= 1.7) {
        bw_state *out = NULL;
        bw_diags said = bw_diags_new(*state, NULL);
        assert_int_equal(bend(f, times * buckling.factor, *state, &out, &said),
                         BW_E_MECHANISM);
        assert_null(out);
        assert_true(said.errors == 1);
        assert_string_equal(said.items[0].id, "frame.unstable");
    }
}

/* A hinged post between held nodes, which feel nothing of its buckling. */
static void a_hinged_post_has_no_state_beyond_its_load(void **state)
{
    const double euler = pi * pi * bending() / (L * L);
    for (double times = 0.97; times < 300.0; times *= 1.6) {
        const bw_member hinged = {.hinge_i = true, .hinge_j = true, .bow = 0.001};
        bw_frame *f = one_member(*state, pi / 2.0, &hinged, false);
        bw_diags diags = bw_diags_new(*state, NULL);
        bw_state *out = NULL;
        hold(f, 0, 0.0, true, true, true);
        hold(f, 1, 0.0, true, false, true);
        press(f, 1, pi / 2.0, times * euler);
        assert_int_equal(bend(f, 1.0, *state, &out, &diags),
                         times < 1.0 ? BW_OK : BW_E_MECHANISM);
    }
}

/* Both ends fixed, so that no joint moves, a push P in the middle along it (half of it
 * presses the first half, half pulls the other) and q across. With P growing small the
 * moments are q L^2 / 24 and q L^2 / 12; with more of it the pressed half bends more than
 * the other. */
static void a_fixed_log_bends_between_still_joints(void **state)
{
    const double q = -1713.0;
    double skew = 0.0;
    for (double share = 1e-9; share < 1.0; share = share < 1e-3 ? 0.2 : share + 0.2) {
        const bw_member straight = {0};
        bw_frame *f = one_member(*state, 0.0, &straight, false);
        const bw_member_load line = {.kind = BW_LOAD_LINE, .b = L, .y = {q, q}};
        const double P = -share * 4.0 * pi * pi * bending() / (L * L);
        const bw_member_load push = {.kind = BW_LOAD_POINT, .a = L / 2.0, .x = {P, 0.0}};
        hold(f, 0, 0.0, true, true, true);
        hold(f, 1, 0.0, true, true, true);
        assert_int_equal(bw_frame_load_member(f, 0, &line), BW_OK);
        assert_int_equal(bw_frame_load_member(f, 0, &push), BW_OK);
        const bw_state *s = bent(f, *state);
        const double first = moment_at(s, 0.0), last = moment_at(s, L);
        assert_int_equal(bw_frame_describe(f).unknowns, 0);
        assert_near(bw_state_action(s, 0, 0.1 * L, false).axial, P / 2.0, 1e-12);
        if (share < 1e-3) {
            assert_near(first, q * L * L / 12.0, 1e-8);
            assert_near(moment_at(s, L / 2.0), -q * L * L / 24.0, 1e-8);
        }
        assert_true(share < 1e-3 || last - first > skew);
        skew = last - first;
    }
}

static bw_frame *tie(bw_arena *arena, double kL, double q)
{
    const bw_member straight = {0};
    const bw_member_load line = {.kind = BW_LOAD_LINE, .b = L, .y = {q, q}};
    bw_frame *f = one_member(arena, 0.0, &straight, false);
    hold(f, 0, 0.0, true, true, false);
    hold(f, 1, 0.0, false, true, false);
    press(f, 1, 0.0, -kL * kL * bending() / (L * L));
    assert_int_equal(bw_frame_load_member(f, 0, &line), BW_OK);
    return f;
}

/* A rope of a log, nearly all of its load carried by the pull:
 * M = q / k^2 (1 - 1 / cosh(kL/2)) in the middle (COMPUTED). */
static void a_hard_pulled_tie_keeps_its_digits(void **state)
{
    const double q = -1713.0;
    for (double kL = 3.0; kL < 12.0; kL *= 1.7) {
        const double k = kL / L;
        const bw_state *s = bent(tie(*state, kL, q), *state);
        const double wanted = -q / (k * k) * (1.0 - 1.0 / cosh(kL / 2.0));
        assert_near(moment_at(s, L / 2.0), wanted, 1e-8);
        assert_near(bw_state_extremes(s, 0).moment_max.value, wanted, 1e-8);
    }
}

/* From some kL = 13 on (no log is pulled like that) the digits run out, exp(kL) of them:
 * then it is refused, or right; never given out wrong. */
static void a_tie_pulled_beyond_all_digits_is_right_or_refused(void **state)
{
    int refused = 0;
    for (double kL = 12.0; kL < 200.0; kL *= 1.13) {
        const double q = -1713.0, k = kL / L;
        const double wanted = -q / (k * k) * (1.0 - 1.0 / cosh(kL / 2.0));
        bw_diags diags = bw_diags_new(*state, NULL);
        bw_state *out = NULL;
        if (bend(tie(*state, kL, q), 1.0, *state, &out, &diags) == BW_OK) {
            assert_near(moment_at(out, L / 2.0), wanted, 1e-6);
        } else {
            assert_null(out);
            assert_int_equal(diags.errors, 1);
            refused++;
        }
    }
    assert_true(refused > 5);
}

static void without_loads_nothing_bends(void **state)
{
    const bw_member crooked = {.bow = 0.0231, .lean = 0.0173};
    bw_frame *f = one_member(*state, 0.0, &crooked, true);
    hold(f, 0, 0.0, true, true, true);
    press(f, 1, 0.0, 913.0);
    bw_diags diags = bw_diags_new(*state, NULL);
    bw_state *out = NULL;
    assert_int_equal(bend(f, 0.0, *state, &out, &diags), BW_OK);
    assert_true(moment_at(out, 0.0) == 0.0 && bw_state_residual(out) == 0.0);
}

static void what_is_not_solved_has_no_bent_shape(void **state)
{
    const bw_member straight = {0};
    bw_diags diags = bw_diags_new(*state, NULL);
    const bw_part other = {7, 1.0};
    bw_state *out = NULL;
    bw_frame *f = one_member(*state, 0.0, &straight, false);
    assert_int_equal(bw_frame_second_order(f, &other, 1, *state, &out, &diags),
                     BW_E_MECHANISM); /* nothing holds it yet */
    hold(f, 0, 0.0, true, true, true);
    press(f, 1, 0.0, 913.0);
    assert_int_equal(bw_frame_factor(f, &diags), BW_OK);
    assert_int_equal(bw_frame_solve(f, &diags), BW_OK);
    assert_int_equal(bw_frame_second_order(f, &other, 1, *state, &out, &diags),
                     BW_E_INTERNAL);
    assert_false(bw_arena_failed(*state));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_bow_grows_by_its_closed_form),
        WITH_ARENA(a_bow_grows_nearly_like_a_sine),
        WITH_ARENA(a_lean_is_a_push),
        WITH_ARENA(a_push_at_the_top_grows),
        WITH_ARENA(loads_across_a_pressed_member_grow),
        WITH_ARENA(loads_right_at_the_ends_count),
        WITH_ARENA(sway_grows_towards_the_buckling_load),
        WITH_ARENA(nothing_is_found_beyond_the_buckling_load),
        WITH_ARENA(a_hinged_post_has_no_state_beyond_its_load),
        WITH_ARENA(a_fixed_log_bends_between_still_joints),
        WITH_ARENA(a_hard_pulled_tie_keeps_its_digits),
        WITH_ARENA(a_tie_pulled_beyond_all_digits_is_right_or_refused),
        WITH_ARENA(without_loads_nothing_bends),
        WITH_ARENA(what_is_not_solved_has_no_bent_shape),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
