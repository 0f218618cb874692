/* The stiffness of a tapered member against the inverse of its closed-form flexibility.
 */
#include "../base/arena_fixture.h"
#include "frame/internal.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

static const double pi = 3.14159265358979324;
static const double E = 9.37e9, G = 5.9e8, kappa = 0.9, L = 3.117;

static double relative(double found, double wanted)
{
    return fabs(found / wanted - 1.0);
}

typedef struct {
    double ii, ij, jj; /* turns a_i, a_j per end moment */
    double axial;
} flexibility;

/* Butt D at i, tip d at j; s from the tip; k = 64 / (pi E). int dx/EI = k L (D^2 + D d +
 * d^2) / (3 D^3 d^3), int s dx/EI = k L^2 (D + 2 d) / (6 d^2 D^3), int s^2 dx/EI = k L^3
 * / (3 d D^3), int dx/EA = 4 L / (pi E D d) and the like for shear (COMPUTED). */
static flexibility closed_form(double D, double d, double kappa_G)
{
    const double k = 64.0 / (pi * E);
    const double one = k * L * (D * D + D * d + d * d) / (3.0 * pow(D * d, 3.0));
    const double s = k * L * L * (D + 2.0 * d) / (6.0 * d * d * pow(D, 3.0));
    const double ss = k * pow(L, 3.0) / (3.0 * d * pow(D, 3.0));
    const double shear = kappa_G > 0.0 ? 4.0 * L / (pi * kappa_G * D * d) / (L * L) : 0.0;
    return (flexibility){.ii = ss / (L * L) + shear,
                         .ij = s / L - ss / (L * L) - shear,
                         .jj = one - 2.0 * s / L + ss / (L * L) + shear,
                         .axial = 4.0 * L / (pi * E * D * d)};
}

static bwi_member prepared(double D, double d, bool shear)
{
    bwi_member m = {.m = {.section_i = bw_section_round(D),
                          .section_j = bw_section_round(d),
                          .modulus = E,
                          .shear_modulus = shear ? G : 0.0,
                          .kappa = shear ? kappa : 0.0},
                    .length = L,
                    .cosine = 1.0};
    bwi_element_prepare(&m);
    return m;
}

static void expect_stiffness(const bwi_member *m, const flexibility *f)
{
    const double det = f->ii * f->jj - f->ij * f->ij;
    assert_true(relative(m->k11, f->jj / det) < 1e-12);
    assert_true(relative(m->k12, -f->ij / det) < 1e-12);
    assert_true(relative(m->k22, f->ii / det) < 1e-12);
    assert_true(relative(m->ka, 1.0 / f->axial) < 1e-13);
}

static void the_stiffness_is_the_inverse_of_the_closed_flexibility(void **state)
{
    (void)state;
    const double tips[] = {0.253, 0.251, 0.217, 0.151, 0.0913};
    for (int k = 0; k < 5; k++) {
        const flexibility bent = closed_form(0.253, tips[k], 0.0);
        const flexibility sheared = closed_form(0.253, tips[k], kappa * G);
        const bwi_member m = prepared(0.253, tips[k], false);
        const bwi_member n = prepared(0.253, tips[k], true);
        expect_stiffness(&m, &bent);
        expect_stiffness(&n, &sheared);
    }
}

/* 4EI/L, 2EI/L against 4 + phi and 2 - phi over 1 + phi, phi = 12 EI / (kappa G A L^2):
 * the prismatic Timoshenko member (MEMORY: Przemieniecki, 1968; derived here: 6 EI / L
 * times the inverse of the flexibility). */
static void without_taper_it_is_the_prismatic_member(void **state)
{
    (void)state;
    const double D = 0.217, EI = E * pi * pow(D, 4.0) / 64.0;
    const double phi = 12.0 * EI / (kappa * G * pi * D * D / 4.0 * L * L);
    const bwi_member m = prepared(D, D, true);
    assert_true(relative(m.k11, EI / L * (4.0 + phi) / (1.0 + phi)) < 1e-13);
    assert_true(relative(m.k22, EI / L * (4.0 + phi) / (1.0 + phi)) < 1e-13);
    /* in terms of the turns of sagging a_i, a_j the far moment has the other sign */
    assert_true(relative(fabs(m.k12), EI / L * (2.0 - phi) / (1.0 + phi)) < 1e-12);
}

static void a_hinge_leaves_three_for_one(void **state)
{
    (void)state;
    bwi_member m = prepared(0.253, 0.151, true);
    const flexibility f = closed_form(0.253, 0.151, kappa * G);
    m.m.hinge_i = true;
    bwi_element_prepare(&m);
    assert_true(m.k11 == 0.0 && m.k12 == 0.0);
    assert_true(relative(m.k22, 1.0 / f.jj) < 1e-12);
    m.m.hinge_j = true;
    bwi_element_prepare(&m);
    assert_true(m.k11 == 0.0 && m.k12 == 0.0 && m.k22 == 0.0);
}

static void a_joint_spring_adds_its_give(void **state)
{
    (void)state;
    bwi_member m = prepared(0.253, 0.151, true);
    flexibility f = closed_form(0.253, 0.151, kappa * G);
    m.m.turn_spring_i = 3.7e5;
    m.m.turn_spring_j = 9.1e4;
    bwi_element_prepare(&m);
    f.ii += 1.0 / 3.7e5;
    f.jj += 1.0 / 9.1e4;
    expect_stiffness(&m, &f);
}

static void a_slide_carries_no_axial_force(void **state)
{
    (void)state;
    bwi_member m = prepared(0.253, 0.151, true);
    m.m.slides = true;
    bwi_element_prepare(&m);
    assert_true(m.ka == 0.0);
}

/* Both ends held, a load P at a, no taper, no shear: P a b^2 / L^2, P a^2 b / L^2
 * (handbook values of every text, MEMORY; sagging positive here). */
static void held_ends_take_the_handbook_moments(void **state)
{
    bwi_member m = prepared(0.217, 0.217, false);
    const double a = 1.093, b = L - a, P = 1371.3;
    const bwi_extra load = {.piece = {.a = a, .b = a, .is_point = true, .qy = {-P}},
                            .factor = 1.0};
    double basic[3];
    assert_true(bwi_element_fixed(&m, &load, 1, *state, basic));
    assert_true(relative(basic[1], -P * a * b * b / (L * L)) < 1e-12);
    assert_true(relative(basic[2], -P * a * a * b / (L * L)) < 1e-12);
    assert_true(fabs(basic[0]) < 1e-9);
}

/* On either side of the middle, and close to the ends, where hardly anything is left. */
static const double wheel_places[] = {1e-6, 0.031, 0.713, 1.5584, 1.5586, 2.385, 3.1169};
enum { WHEEL_PLACES = sizeof wheel_places / sizeof wheel_places[0] };

/* What is integrated on one side of the wheel alone is what is integrated on both. */
static void a_wheel_does_what_a_load_of_its_size_does(void **state)
{
    bwi_member m = prepared(0.253, 0.151, true);
    m.m.turn_spring_j = 9.1e4;
    bwi_element_prepare(&m);
    for (int k = 0; k < WHEEL_PLACES; k++) {
        double unit[2][3], basic[3];
        bwi_element_fixed_unit(&m, wheel_places[k], unit);
        for (int way = 0; way < 2; way++) {
            bwi_extra load = {
                .piece = {.a = wheel_places[k], .b = wheel_places[k], .is_point = true},
                .factor = 1.0};
            load.piece.qx[0] = way == 0 ? 1.0 : 0.0;
            load.piece.qy[0] = way == 1 ? 1.0 : 0.0;
            assert_true(bwi_element_fixed(&m, &load, 1, *state, basic));
            for (int i = 0; i < 3; i++) { /* of 1 N, and of 1 N on this length */
                assert_true(fabs(unit[way][i] - basic[i]) < 1e-14 * (i == 0 ? 1.0 : L));
            }
        }
    }
}

/* The member turned round, and the wheel with it. */
static void a_wheel_does_the_same_in_a_mirror(void **state)
{
    (void)state;
    const bwi_member m = prepared(0.253, 0.151, true),
                     turned = prepared(0.151, 0.253, true);
    for (int k = 0; k < WHEEL_PLACES; k++) {
        double unit[2][3], mirrored[2][3];
        bwi_element_fixed_unit(&m, wheel_places[k], unit);
        bwi_element_fixed_unit(&turned, L - wheel_places[k], mirrored);
        assert_true(fabs(unit[1][1] - mirrored[1][2]) < 1e-14 * L);
        assert_true(fabs(unit[1][2] - mirrored[1][1]) < 1e-14 * L);
    }
}

/* Whatever the taper: the ends and the loads on the member are in balance. */
static void end_actions_balance_the_loads(void **state)
{
    bwi_member m = prepared(0.253, 0.151, true);
    const bwi_extra loads[] = {
        {.piece = {.a = 0.713,
                   .b = 0.713,
                   .is_point = true,
                   .qx = {217.0},
                   .qy = {-1371.3},
                   .moment = 91.7},
         .factor = 1.3},
        {.piece = {.a = 0.4, .b = 2.9, .qx = {31.0, 4.0}, .qy = {-210.0, -37.0, 11.0}},
         .factor = 1.0}};
    double basic[3], end[6];
    assert_true(bwi_element_fixed(&m, loads, 2, *state, basic));
    bwi_element_ends(&m, basic[0], basic[1], basic[2], loads, 2, end);
    const double h = 2.5;
    const double along = 1.3 * 217.0 + 31.0 * h + 4.0 * h * h / 2.0;
    const double across =
        -1.3 * 1371.3 - 210.0 * h - 37.0 * h * h / 2.0 + 11.0 * h * h * h / 3.0;
    assert_true(fabs(end[0] - end[3] - along) < 1e-9);
    assert_true(fabs(end[4] - end[1] - across) < 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_stiffness_is_the_inverse_of_the_closed_flexibility),
        cmocka_unit_test(without_taper_it_is_the_prismatic_member),
        cmocka_unit_test(a_hinge_leaves_three_for_one),
        cmocka_unit_test(a_joint_spring_adds_its_give),
        cmocka_unit_test(a_slide_carries_no_axial_force),
        WITH_ARENA(held_ends_take_the_handbook_moments),
        WITH_ARENA(a_wheel_does_what_a_load_of_its_size_does),
        cmocka_unit_test(a_wheel_does_the_same_in_a_mirror),
        WITH_ARENA(end_actions_balance_the_loads),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
