/* Fasteners by the yield-limit equations, US allowable stress. */
#include "joint_sample.h"

#include "checks/fasteners.h"
#include "checks/us_asd/dowel.h"

static const double pi = 3.14159265358979323846;

/* Every mode again, from the plastic equilibrium of the dowel in its two pieces of wood
 * (joint_sample.h), found by bisection. F_yb D^3 / 6 is the plastic moment of the round
 * bar; all reductions are 1. */
static void modes_are_those_of_plastic_equilibrium(void **state)
{
    (void)state;
    static const double sizes[][5] = {/* D, l_s, l_m [m], F_es, F_em [Pa] */
                                      {0.0097, 0.0383, 0.0789, 22.3e6, 37.9e6},
                                      {0.0123, 0.0371, 0.0411, 41.7e6, 23.3e6},
                                      {0.0081, 0.143, 0.0871, 19.1e6, 18.7e6}};

    for (int k = 0; k < 3; k++) {
        const double *s = sizes[k], F_yb = 317e6;
        const bwi_dowel dowel = {s[0], s[1], s[2], s[3], s[4], F_yb, {1.0, 1.0, 1.0}};
        const double M_y = F_yb * s[0] * s[0] * s[0] / 6.0;
        const piece side = {s[3] * s[0], s[1], M_y}, main = {s[4] * s[0], s[2], M_y};
        double mode[BWI_MODE_COUNT];
        bwi_dowel_modes(&dowel, 1, mode);
        assert_close(mode[BWI_MODE_I_M], main.q * main.t, 1e-12);
        assert_close(mode[BWI_MODE_I_S], side.q * side.t, 1e-12);
        assert_close(mode[BWI_MODE_II], equilibrium(&side, stiff, &main, stiff), 1e-9);
        assert_close(mode[BWI_MODE_III_M], equilibrium(&side, hinged, &main, stiff),
                     1e-9);
        assert_close(mode[BWI_MODE_III_S], equilibrium(&side, stiff, &main, hinged),
                     1e-9);
        assert_close(mode[BWI_MODE_IV], equilibrium(&side, hinged, &main, hinged), 1e-9);
        /* two planes: the middle piece is crushed by both */
        bwi_dowel_modes(&dowel, 2, mode);
        assert_close(mode[BWI_MODE_I_M], main.q * main.t, 1e-12);
        assert_close(mode[BWI_MODE_I_S], 2.0 * side.q * side.t, 1e-12);
        assert_close(mode[BWI_MODE_III_S], 2.0 * equilibrium(&side, stiff, &main, hinged),
                     1e-9);
        assert_close(mode[BWI_MODE_IV], 2.0 * equilibrium(&side, hinged, &main, hinged),
                     1e-9);
        assert_true(isinf(mode[BWI_MODE_II]) && isinf(mode[BWI_MODE_III_M]));
    }
}

/* The check by hand: 4 lags of 1/2 in by 9 in, through 3.1 in of wood. All steps of the
 * formulas as a person would do them (COMPUTED here, in pounds and inches). */
static void check_agrees_with_a_hand_calculation(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_joint joint = sample_joint();
    const bw_check_input in = joint_input(&reference, &joint);
    const double F_es = 6100.0 * pow(0.38, 1.45) / sqrt(0.5);
    const double F_em = 11200.0 * 0.43, D = 0.371, R_e = F_em / F_es;
    const double Z = D * D / (3.2 * 1.25) *
                     sqrt(2.0 * F_em * 45000.0 / (3.0 * (1.0 + R_e))); /* mode IV */
    const double n = 2.0, gamma = 180000.0 * pow(0.5, 1.5);
    const double u = 1.0 + gamma * 2.3 / 2.0 * (1.0 / 19.3e6 + 1.0 / 27.1e6);
    const double m = u - sqrt(u * u - 1.0), R = 19.3 / 27.1;
    const double C_g = m * (1.0 - pow(m, 2.0 * n)) /
                       (n * ((1.0 + R * pow(m, n)) * (1.0 + m) - 1.0 + pow(m, 2.0 * n))) *
                       (1.0 + R) / (1.0 - m);
    const double allowed = 4.0 * Z * 1.15 * 0.4 * C_g * (1.7 / 2.0);
    bw_working working = bw_working_new(bw_arena_new());
    const bw_ratio ratio = bwi_us_joint.ratio(&in, &working);

    assert_close(ratio.capacity, pound(allowed), 1e-8);
    assert_close(recorded(&working, "Z_IV"), pound(Z), 1e-9);
    assert_close(recorded(&working, "Z"), pound(Z), 1e-9);
    assert_true(C_g > 0.9 && C_g < 1.0);
    assert_close(ratio.utilisation, 413.0 / allowed, 1e-8);
    bw_arena_free(working.arena);
}

/* Rows that shrink apart, in end grain, brief loads. */
static void factors_follow_their_rules(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_joint joint = sample_joint();
    bw_check_input in = joint_input(&reference, &joint);

    assert_true(bwi_joint_wet(&in) == 0.4);
    joint.fasteners.count = joint.fasteners.rows = 1;
    assert_true(bwi_joint_wet(&in) == 0.7);
    in.load_duration = 2.0; /* impact is not for connections */
    assert_true(bwi_joint_duration(&in) == 1.6);
    const double side_grain = bwi_us_joint.ratio(&in, NULL).capacity;
    joint.end_grain = true;
    assert_true(bwi_us_joint.ratio(&in, NULL).capacity < 0.671 * side_grain);
    in.main_angle = pi / 2.0; /* the same bearing strength as in end grain */
    const double in_end = bwi_us_joint.ratio(&in, NULL).capacity;
    joint.end_grain = false;
    assert_close(in_end, 0.67 * bwi_us_joint.ratio(&in, NULL).capacity, 1e-12);
}

/* NDS 12.5.4 (MEMORY): 0.83 sideways and 0.67 drawn out, of nails and spikes only. */
static void driven_aslant_holds_less(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_joint joint = sample_joint();
    bw_check_input in = joint_input(&reference, &joint);

    joint.fasteners.kind = BW_FASTENER_SPIKE;
    joint.fasteners.head = inch(2.9);
    const double across = bwi_us_joint.ratio(&in, NULL).capacity;
    const double out = bwi_us_lift.ratio(&in, NULL).capacity;
    joint.fasteners.toe = true;
    assert_close(bwi_us_joint.ratio(&in, NULL).capacity, 0.83 * across, 1e-12);
    assert_close(bwi_us_lift.ratio(&in, NULL).capacity, 0.67 * out, 1e-12);
    joint.fasteners.kind = BW_FASTENER_LAG; /* no rule */
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_joint, &in)), BW_CANNOT_SAY);
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_lift, &in)), BW_CANNOT_SAY);
}

/* 8 D holds all, 4 D half, and less than that is over under any force. */
static void short_penetration_costs_and_then_forbids(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_joint joint = sample_joint();
    bw_check_input in = joint_input(&reference, &joint);

    joint.fasteners.penetration = inch(4.0);
    const double whole = bwi_dowel_value(&in);
    joint.fasteners.penetration = inch(3.1);
    assert_close(bwi_dowel_value(&in), whole * 3.1 / 4.0, 1e-12);
    joint.fasteners.penetration = inch(1.99);
    in.force = 1.0;
    assert_close(utilisation_of(&bwi_us_joint, &in), 2.0 / 1.99, 1e-6);
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_joint, &in)), BW_OVER);
}

static void too_near_to_the_end_or_the_edge_is_over(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_joint joint = sample_joint();
    bw_check_input in = joint_input(&reference, &joint);
    double *const distance[] = {&joint.fasteners.end, &joint.fasteners.edge,
                                &joint.fasteners.loaded_edge, &joint.fasteners.spacing,
                                &joint.fasteners.row_spacing};
    /* the edge: half the distance of the rows, which is more than 1.5 D here */
    const double least[] = {1.0, 1.35, 2.0, 1.5, 2.5};

    in.force = 1.0;
    for (int k = 0; k < 5; k++) {
        const double kept = *distance[k];
        *distance[k] = inch(least[k] * 1.001);
        joint.fasteners.edge = k == 4 ? inch(3.0) : joint.fasteners.edge;
        assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_joint, &in)), BW_WITHIN);
        *distance[k] = inch(least[k] * 0.97);
        assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_joint, &in)), BW_OVER);
        *distance[k] = 0.0; /* nobody measured it */
        assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_joint, &in)),
                         BW_CANNOT_SAY);
        *distance[k] = kept;
    }
    in.side_angle = 0.0;
    in.to_end = true; /* 3.5 D of softwood at least, 7 D for all */
    joint.fasteners.end = inch(1.74);
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_joint, &in)), BW_OVER);
    joint.fasteners.end = inch(1.76);
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_joint, &in)), BW_WITHIN);
}

static void more_of_everything_holds_more(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_joint joint = sample_joint();
    bw_check_input in = joint_input(&reference, &joint);
    bw_fasteners *f = &joint.fasteners;

    assert_monotonic(&bwi_us_joint, &in, &in.force, 0.0, 4e4, true);
    f->yield = psi(45000.0); /* the same steel for all sizes */
    f->end = f->edge = f->loaded_edge = inch(12.0);
    f->spacing = f->row_spacing = inch(4.0);
    f->count = f->rows = 1; /* and no group that shares */
    f->root = 0.0;
    assert_monotonic(&bwi_us_joint, &in, &f->penetration, inch(2.0), inch(9.0), false);
    f->penetration = inch(9.0);
    f->kind = BW_FASTENER_BOLT;
    assert_monotonic(&bwi_us_joint, &in, &f->diameter, inch(0.25), inch(1.1), false);
    assert_monotonic(&bwi_us_joint, &in, &joint.side_log.gravity, 0.29, 0.71, false);
    assert_monotonic(&bwi_us_joint, &in, &joint.main_log.gravity, 0.29, 0.71, false);
    double before = 0.0;
    for (int n = 1; n <= 6; n++) {
        f->count = f->rows = n; /* one row across: all share alike */
        const double now = bwi_us_joint.ratio(&in, NULL).capacity;
        /* the second shrinks apart from the first: 0.4 / 0.7, still more than one */
        assert_true(now > before);
        before = now;
    }
}

/* A row in a line with the force gains less and less by each one more, but gains. */
static void rows_share_unevenly(void **state)
{
    (void)state;
    const double stiffness[] = {1.1e8, 0.7e8};
    double before = 1.0;

    for (int n = 2; n < 12; n++) {
        const double now = bwi_group_factor(n, 0.051, bwi_load_slip(0.0127), stiffness);
        assert_true(now < before && now * n > before * (n - 1));
        before = now;
    }
    /* one in a row, and endlessly stiff logs, lose nothing */
    const double endless[] = {1e15, 1e15};
    assert_close(bwi_group_factor(5.0, 0.051, bwi_load_slip(0.0127), endless), 1.0, 1e-2);
    assert_true(bwi_group_factor(1.0, 0.051, bwi_load_slip(0.0127), stiffness) == 1.0);
}

/* A chain of springs between two bars, solved by elimination (COMPUTED here): the share
 * of the most loaded fastener over the mean. */
static double chain_factor(int n, double spacing, double slip, double EA_1, double EA_2)
{
    enum { MOST = 12 };
    double a[MOST][MOST + 1] = {{0.0}};
    const double k = 1.0 / EA_1 + 1.0 / EA_2;

    /* forces x_i with unit sum; slip_i - slip_(i+1) = s (T1 / EA1 - T2 / EA2), T1 what is
     * still in bar 1 after i, T2 what is in bar 2 */
    for (int i = 0; i + 1 < n; i++) {
        a[i][i] += 1.0 / slip;
        a[i][i + 1] -= 1.0 / slip;
        for (int j = 0; j <= i; j++) {
            a[i][j] += spacing * k;
        }
        a[i][n] = spacing / EA_1;
    }
    for (int j = 0; j < n; j++) {
        a[n - 1][j] = 1.0;
    }
    a[n - 1][n] = 1.0;
    for (int i = 0; i < n; i++) {
        for (int r = 0; r < n; r++) {
            const double share = r == i ? 0.0 : a[r][i] / a[i][i];
            for (int c = i; c <= n; c++) {
                a[r][c] -= share * a[i][c];
            }
        }
    }
    double most = 0.0;
    for (int i = 0; i < n; i++) {
        most = fmax(most, a[i][n] / a[i][i]);
    }
    return 1.0 / (n * most);
}

static void group_factor_is_that_of_a_chain_of_springs(void **state)
{
    (void)state;
    for (int n = 2; n < 10; n++) {
        const double stiffness[] = {1.73e8, 0.41e8};
        assert_close(bwi_group_factor(n, 0.067, 1.9e7, stiffness),
                     chain_factor(n, 0.067, 1.9e7, stiffness[0], stiffness[1]), 1e-9);
    }
}

/* W from the printed formulas; the head governs without a washer. */
static void lift_agrees_with_a_hand_calculation(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_joint joint = sample_joint();
    bw_check_input in = joint_input(&reference, &joint);
    const double W = 1800.0 * pow(0.43, 1.5) * pow(0.5, 0.75) * 4.3;
    const double head = 1725.0 * pi * 0.75 * 0.75 * 0.38 * 0.38;

    joint.fasteners.head = 0.0;
    joint.fasteners.thread = inch(4.3);
    joint.fasteners.penetration = inch(5.1);
    assert_true(head < W);
    assert_close(bwi_us_lift.ratio(&in, NULL).capacity, pound(4.0 * head * 0.7 * 1.15),
                 1e-9);
    joint.fasteners.head = inch(1.4); /* a washer */
    const double held = fmin(W, 1725.0 * pi * 1.4 * 1.4 * 0.38 * 0.38);
    assert_close(bwi_us_lift.ratio(&in, NULL).capacity, pound(4.0 * held * 0.7 * 1.15),
                 1e-9);
    /* six tenths of the weight help; a weight that lifts counts in full */
    assert_close(bwi_us_lift.ratio(&in, NULL).demand, pound(203.0 - 0.6 * 71.0), 1e-9);
    in.foot_dead = -pound(71.0);
    assert_close(bwi_us_lift.ratio(&in, NULL).demand, pound(203.0 + 71.0), 1e-9);
    in.foot_dead = pound(71.0);
    joint.end_grain = true;
    assert_close(
        bwi_us_lift.ratio(&in, NULL).capacity,
        pound(4.0 * fmin(0.75 * W, 1725.0 * pi * 1.4 * 1.4 * 0.38 * 0.38) * 0.7 * 1.15),
        1e-9);
    joint.fasteners.kind = BW_FASTENER_SPIKE; /* no rule in end grain */
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_lift, &in)), BW_CANNOT_SAY);
}

/* Half the depth left over: (2/3 A_e / 4) instead of 3/4 A. */
static void hanging_near_the_top_splits(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_joint joint = sample_joint();
    bw_check_input in = joint_input(&reference, &joint);
    const double A_e = in.section.area;

    assert_close(bwi_us_split.ratio(&in, NULL).demand,
                 in.force / (2.0 / 3.0 * A_e * pow(4.9 / 7.3, 2.0)), 1e-12);
    assert_close(bwi_us_split.ratio(&in, NULL).capacity, psi(85.0) * 1.15, 1e-12);
    assert_monotonic(&bwi_us_split, &in, &in.notch_left, inch(1.0), inch(7.3), false);
    in.notch_left = inch(7.4); /* more than there is */
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_split, &in)), BW_CANNOT_SAY);
}

/* D38: F_c* 1000, F_cp 300, 45 degrees: 461.54 psi (NDS 3.10.3, COMPUTED, form READ). */
static void strength_at_an_angle_is_that_of_hankinson(void **state)
{
    (void)state;
    assert_close(bwi_angle_stress(psi(1000.0), psi(300.0), pi / 4.0), psi(461.538), 1e-5);
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.grain_angle = 0.0;
    assert_close(bwi_us_angle.ratio(&in, NULL).capacity, psi(700.0) * 1.15, 1e-12);
    in.grain_angle = pi / 2.0;
    assert_close(bwi_us_angle.ratio(&in, NULL).capacity, psi(240.0), 1e-12);
    assert_monotonic(&bwi_us_angle, &in, &in.grain_angle, 0.0, pi / 2.0, true);
    assert_never_within(&bwi_us_angle, &in, &in.bearing_area, BAD_SIZES);
    assert_never_within(&bwi_us_angle, &in, &in.force, BAD_LOADS);
}

static void what_is_not_known_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = sample_reference();
    bw_joint joint = sample_joint();
    bw_check_input in = joint_input(&reference, &joint);
    const bw_check *const checks[] = {&bwi_us_joint, &bwi_us_lift};

    in.force = pound(213.0);
    joint.fasteners.head = inch(1.7);
    joint.fasteners.thread = inch(4.4);
    for (int k = 0; k < 2; k++) {
        assert_never_within(checks[k], &in, &joint.fasteners.diameter, BAD_SIZES);
        assert_never_within(checks[k], &in, &joint.fasteners.end, BAD_SIZES);
        assert_never_within(checks[k], &in, &joint.fasteners.edge, BAD_SIZES);
        assert_never_within(checks[k], &in, &joint.main_log.gravity, BAD_SIZES);
        assert_never_within(checks[k], &in, &joint.side_log.gravity, BAD_SIZES);
        assert_never_within(checks[k], &in, &joint.main_log.thickness, BAD_SIZES);
        assert_never_within(checks[k], &in, &in.load_duration, BAD_SIZES);
    }
    assert_never_within(&bwi_us_joint, &in, &in.force, BAD_LOADS);
    assert_never_within(&bwi_us_lift, &in, &in.pull, BAD_LOADS);
    assert_never_within(&bwi_us_lift, &in, &in.foot_dead, BAD_LOADS);
    assert_never_within(&bwi_us_joint, &in, &joint.side_log.stiffness, BAD_SIZES);
    joint.fasteners.kind = BW_FASTENER_SCREW; /* whose root nobody gave */
    joint.fasteners.root = 0.0;
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_joint, &in)), BW_CANNOT_SAY);
    joint.fasteners.kind = BW_FASTENER_NONE;
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_joint, &in)), BW_CANNOT_SAY);
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_lift, &in)), BW_CANNOT_SAY);
    joint = sample_joint();
    joint.fasteners.count = 3; /* not shared evenly by two rows */
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_joint, &in)), BW_CANNOT_SAY);
}

/* What the point takes off the penetration: D of a lag screw, 2 D of what is driven or
 * turned in, nothing of a bolt. */
static void points_take_off_what_does_not_hold(void **state)
{
    (void)state;
    static const struct {
        bw_fastener_kind kind;
        double diameters;
    } of[] = {{BW_FASTENER_BOLT, 0.0},
              {BW_FASTENER_LAG, 1.0},
              {BW_FASTENER_SCREW, 2.0},
              {BW_FASTENER_SPIKE, 2.0},
              {BW_FASTENER_NAIL, 2.0}};
    for (size_t k = 0; k < sizeof of / sizeof of[0]; k++) {
        const bw_fasteners f = {.kind = of[k].kind, .diameter = 0.0097};
        assert_close(bwi_fastener_point(&f), of[k].diameters * 0.0097, 1e-14);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(modes_are_those_of_plastic_equilibrium),
        cmocka_unit_test(check_agrees_with_a_hand_calculation),
        cmocka_unit_test(factors_follow_their_rules),
        cmocka_unit_test(driven_aslant_holds_less),
        cmocka_unit_test(short_penetration_costs_and_then_forbids),
        cmocka_unit_test(too_near_to_the_end_or_the_edge_is_over),
        cmocka_unit_test(more_of_everything_holds_more),
        cmocka_unit_test(rows_share_unevenly),
        cmocka_unit_test(group_factor_is_that_of_a_chain_of_springs),
        cmocka_unit_test(lift_agrees_with_a_hand_calculation),
        cmocka_unit_test(hanging_near_the_top_splits),
        cmocka_unit_test(strength_at_an_angle_is_that_of_hankinson),
        cmocka_unit_test(what_is_not_known_is_never_within),
        cmocka_unit_test(points_take_off_what_does_not_hold),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
