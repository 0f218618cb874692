/* Fasteners in limit-state design: EN 1995-1-1 section 8 (MEMORY), against plastic
 * equilibrium and hand calculations. */
#include "joint_sample.h"

#include "checks/eurocode/eurocode.h"
#include "checks/eurocode/johansen.h"
#include "ec_sample.h"

static const double pi = 3.14159265358979323846;

/* A bolt of 16 mm through both logs, 2 in a row across a hanging log. */
static bw_joint bolts(void)
{
    return (bw_joint){.fasteners = {.kind = BW_FASTENER_BOLT,
                                    .count = 2,
                                    .rows = 1,
                                    .planes = 1,
                                    .diameter = 0.016,
                                    .head = 0.068,
                                    .end = 0.113,
                                    .edge = 0.061,
                                    .loaded_edge = 0.067,
                                    .spacing = 0.083},
                      .side_log = {.thickness = 0.187, .density = 331.0},
                      .main_log = {.thickness = 0.211, .density = 357.0}};
}

static bw_check_input hanging(const bw_reference *reference, const bw_joint *joint)
{
    bw_check_input in = ec_input(reference);

    in.joint = joint;
    in.side_angle = pi / 2.0;
    in.force = 7.3e3;
    return in;
}

/* (8.6) and (8.7) add 5 % to one hinge and 15 % to two, for the safety of the steel. */
static void modes_are_those_of_plastic_equilibrium(void **state)
{
    (void)state;
    static const double sizes[][5] = {/* d, t_1, t_2 [m], f_h,1, f_h,2 [Pa] */
                                      {0.0097, 0.0383, 0.0789, 22.3e6, 37.9e6},
                                      {0.0123, 0.0371, 0.0411, 41.7e6, 23.3e6},
                                      {0.0181, 0.143, 0.0871, 19.1e6, 18.7e6}};

    for (int k = 0; k < 3; k++) {
        const double *s = sizes[k], M_y = 97.3;
        const bwi_johansen one = {s[0], s[1], s[2], s[3], s[4], M_y, 0.0, 0.0};
        const piece side = {s[3] * s[0], s[1], M_y}, main = {s[4] * s[0], s[2], M_y};
        const double d = 1.05 * equilibrium(&side, stiff, &main, hinged);
        const double f = 1.15 * equilibrium(&side, hinged, &main, hinged);
        double mode[BWI_JOHANSEN_MODES];
        bwi_johansen_modes(&one, 1, mode);
        assert_close(mode[0], side.q * side.t, 1e-12);
        assert_close(mode[1], main.q * main.t, 1e-12);
        assert_close(mode[2], equilibrium(&side, stiff, &main, stiff), 1e-9);
        assert_close(mode[3], d, 1e-9);
        assert_close(mode[4], 1.05 * equilibrium(&side, hinged, &main, stiff), 1e-9);
        assert_close(mode[5], f, 1e-9);
        bwi_johansen_modes(&one, 2, mode);
        assert_close(mode[1], main.q * main.t / 2.0, 1e-12);
        assert_close(mode[3], d, 1e-9);
        assert_close(mode[5], f, 1e-9);
        assert_true(isinf(mode[2]) && isinf(mode[4]));
    }
}

/* A quarter of F_ax, not more than the share of the mode itself; nothing where the wood
 * is only crushed. */
static void rope_is_limited(void **state)
{
    (void)state;
    bwi_johansen one = {0.011, 0.061, 0.073, 21.1e6, 25.3e6, 71.3, 0.0, 0.15};
    double plain[BWI_JOHANSEN_MODES], mode[BWI_JOHANSEN_MODES];

    bwi_johansen_modes(&one, 1, plain);
    one.withdrawal = 317.0;
    bwi_johansen_modes(&one, 1, mode);
    assert_true(mode[0] == plain[0] && mode[1] == plain[1]);
    assert_close(mode[5], plain[5] + 317.0 / 4.0, 1e-12);
    one.withdrawal = 1e5;
    bwi_johansen_modes(&one, 1, mode);
    for (int k = 2; k < BWI_JOHANSEN_MODES; k++) {
        assert_close(mode[k], 1.15 * plain[k], 1e-12);
    }
}

/* (8.30) to (8.34) by hand: d 16 mm, rho 350: 0.082 0.84 350 = 24.108 MPa along; k_90 =
 * 1.59 across; M_y = 0.3 400 16^2.6. */
static void strengths_by_hand(void **state)
{
    (void)state;
    assert_close(bwi_ec_bearing_strength(350.0, 0.016, 0.0, BW_SOFTWOOD), 24.108e6, 1e-9);
    assert_close(bwi_ec_bearing_strength(350.0, 0.016, pi / 2.0, BW_SOFTWOOD),
                 24.108e6 / 1.59, 1e-9);
    assert_close(bwi_ec_bearing_strength(350.0, 0.016, pi / 2.0, BW_HARDWOOD),
                 24.108e6 / 1.14, 1e-9);
    assert_close(bwi_ec_bearing_strength(350.0, 0.004, 0.3, BW_SOFTWOOD),
                 0.082e6 * 350.0 * pow(4.0, -0.3), 1e-9);
    assert_close(bwi_ec_yield_moment(400e6, 0.016), 0.12 * pow(16.0, 2.6), 1e-9);
    assert_close(bwi_ec_effective_number(3.0, 0.09, 0.016, 0.0),
                 pow(3.0, 0.9) * pow(0.09 / 0.208, 0.25), 1e-12);
    assert_true(bwi_ec_effective_number(3.0, 0.09, 0.016, pi / 2.0) == 3.0);
    assert_true(bwi_ec_effective_number(1.0, 0.0, 0.016, 0.0) == 1.0);
    assert_true(bwi_ec_effective_number(2.0, 9.0, 0.016, 0.0) == 2.0);
    const bw_joint_log ungraded = {.gravity = 0.37};
    assert_close(bwi_ec_density(&ungraded), 0.37 * 1000.0 * 1.12 * 0.8355, 1e-12);
}

/* Two bolts: mode (f) governs in thick logs; all of it worked by hand in N and mm. */
static void check_agrees_with_a_hand_calculation(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    const bw_joint joint = bolts();
    const bw_check_input in = hanging(&reference, &joint);
    const double f_1 = 0.082 * 0.84 * 331.0 / 1.59, f_2 = 0.082 * 0.84 * 357.0;
    const double beta = f_2 / f_1, M_y = 0.3 * 400.0 * pow(16.0, 2.6);
    const double F =
        1.15 * sqrt(2.0 * beta / (1.0 + beta)) * sqrt(2.0 * M_y * f_1 * 16.0);
    /* a row of two along the grain of the holding log counts as so many */
    const double n_ef = fmin(2.0, pow(2.0, 0.9) * pow(83.0 / 208.0, 0.25));
    const bw_ratio ratio = bwi_ec_joint.ratio(&in, NULL);

    assert_close(ratio.capacity, 0.70 * n_ef * F / 1.3, 1e-9);
    assert_close(ratio.utilisation, 7.3e3 * 1.3 / (0.70 * n_ef * F), 1e-9);
}

/* 8.1.4 by hand: b 151, h 187, h_e 126: 14 151 sqrt(126 / (1 - 126/187)) N. */
static void splitting_by_hand(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    const bw_joint joint = bolts();
    bw_check_input in = hanging(&reference, &joint);
    const double F = 14.0 * 151.0 * sqrt(126.0 / (1.0 - 126.0 / 187.0));

    in.notch_left = 0.126;
    in.notch_whole = 0.187;
    in.section.area = 0.126 * 0.151;
    assert_close(bwi_ec_split.ratio(&in, NULL).capacity, 0.70 * F / 1.3, 1e-9);
    assert_monotonic(&bwi_ec_split, &in, &in.force, 0.0, 3e4, true);
    in.notch_left = 0.188;
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_split, &in)), BW_CANNOT_SAY);
    assert_true(bwi_ec_splitting(0.1, 0.2, 0.19) > bwi_ec_splitting(0.1, 0.2, 0.1));
}

/* (8.39): d 10, l_ef 93, rho 331: 0.52 10^-0.5 93^-0.1 331^0.8 MPa; 3 f_c,90 under heads.
 */
static void drawing_out_by_hand(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_joint joint = bolts();
    bw_check_input in = hanging(&reference, &joint);
    const double washer = 3.0 * 2.2e6 * pi / 4.0 * (0.068 * 0.068 - 0.016 * 0.016);

    in.pull = 1.9e3;
    in.foot_dead = 0.7e3;
    assert_close(bwi_ec_lift.ratio(&in, NULL).demand, 1.9e3 - 0.9 * 0.7e3, 1e-12);
    assert_close(bwi_ec_lift.ratio(&in, NULL).capacity,
                 0.70 / 1.3 * pow(2.0, 0.9) * washer, 1e-9);
    joint.fasteners.kind = BW_FASTENER_SCREW;
    joint.fasteners.diameter = 0.010;
    joint.fasteners.root = 0.0063;
    joint.fasteners.penetration = 0.101;
    joint.fasteners.thread = 0.093;
    const double f_ax = 0.52e6 * pow(10.0, -0.5) * pow(93.0, -0.1) * pow(357.0, 0.8);
    const double one = f_ax * 0.010 * 0.093;
    assert_true(one < washer);
    assert_close(bwi_ec_lift.ratio(&in, NULL).capacity, 0.70 / 1.3 * pow(2.0, 0.9) * one,
                 1e-9);
    joint.fasteners.diameter = 0.013; /* beyond what (8.39) is for */
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_lift, &in)), BW_CANNOT_SAY);
    joint.fasteners.kind = BW_FASTENER_NAIL; /* nothing that lasts hangs on a nail */
    joint.fasteners.diameter = 0.005;
    assert_true(isfinite(utilisation_of(&bwi_ec_lift, &in)));
    in.foot_dead = -1.0;
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_lift, &in)), BW_CANNOT_SAY);
}

/* Table 8.4 for 16 mm across the grain: a1 4 d, end max(7 d, 4 d), loaded edge 4 d, edge
 * 3 d; along: a1 5 d. */
static void too_near_to_the_end_or_the_edge_is_over(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_joint joint = bolts();
    bw_check_input in = hanging(&reference, &joint);
    double *const distance[] = {&joint.fasteners.end, &joint.fasteners.edge,
                                &joint.fasteners.loaded_edge, &joint.fasteners.spacing};
    const double least[] = {0.112, 0.048, 0.064, 0.080};

    in.force = 1.0;
    for (int k = 0; k < 4; k++) {
        const double kept = *distance[k];
        *distance[k] = least[k] * 1.001;
        assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_joint, &in)), BW_WITHIN);
        *distance[k] = least[k] * 0.97;
        assert_close(utilisation_of(&bwi_ec_joint, &in), 1.0 / 0.97, 1e-6);
        *distance[k] = 0.0;
        assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_joint, &in)),
                         BW_CANNOT_SAY);
        *distance[k] = kept;
    }
    in.side_angle = 0.0;
    in.to_end = true; /* a3,t: max(7 d, 80 mm) */
    joint.fasteners.end = 0.1123;
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_joint, &in)), BW_WITHIN);
}

static void more_of_everything_holds_more(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_joint joint = bolts();
    bw_check_input in = hanging(&reference, &joint);
    bw_fasteners *f = &joint.fasteners;

    f->end = f->edge = f->loaded_edge = f->spacing = f->row_spacing = 0.3;
    f->count = f->rows = 1;
    assert_monotonic(&bwi_ec_joint, &in, &in.force, 0.0, 3e4, true);
    assert_monotonic(&bwi_ec_joint, &in, &f->diameter, 0.0065, 0.030, false);
    assert_monotonic(&bwi_ec_joint, &in, &joint.side_log.density, 250.0, 520.0, false);
    double shallow = 0.0, first = 0.0;
    for (int k = 1; k <= 40; k++) {
        const bwi_johansen one = {0.012,  0.187, 0.003 * k, 15.6e6,
                                  25.7e6, 97.3,  0.0,       0.0};
        double mode[BWI_JOHANSEN_MODES];
        bwi_johansen_modes(&one, 1, mode);
        assert_true(bwi_johansen_least(mode) >= shallow);
        shallow = bwi_johansen_least(mode);
        first = k == 1 ? shallow : first;
    }
    assert_true(shallow > 2.0 * first);
    double before = 0.0;
    for (int n = 1; n <= 5; n++) {
        f->count = n;
        const double now = bwi_ec_joint.ratio(&in, NULL).capacity;
        assert_true(now > before);
        before = now;
    }
}

static void strength_at_an_angle(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_check_input in = ec_input(&reference);
    const double along = 0.7 * 18e6 / 1.3, across = 0.7 * 2.2e6 / 1.3;

    in.grain_angle = 0.61;
    assert_close(bwi_ec_angle.ratio(&in, NULL).capacity,
                 bwi_ec_angle_strength(along, across, 0.61), 1e-12);
    assert_close(bwi_ec_angle.ratio(&in, NULL).demand, 6.1e3 / 0.0087, 1e-12);
}

static void what_is_not_known_is_never_within(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    bw_joint joint = bolts();
    bw_check_input in = hanging(&reference, &joint);
    const bw_check *const checks[] = {&bwi_ec_joint, &bwi_ec_lift};

    in.force = in.pull = 1.3e3;
    for (int k = 0; k < 2; k++) {
        assert_never_within(checks[k], &in, &joint.fasteners.diameter, BAD_SIZES);
        assert_never_within(checks[k], &in, &joint.fasteners.end, BAD_SIZES);
        assert_never_within(checks[k], &in, &joint.fasteners.edge, BAD_SIZES);
        assert_never_within(checks[k], &in, &in.load_duration, BAD_SIZES);
    }
    assert_never_within(&bwi_ec_joint, &in, &joint.main_log.thickness, BAD_SIZES);
    assert_never_within(&bwi_ec_joint, &in, &joint.side_log.density, BAD_SIZES);
    assert_never_within(&bwi_ec_joint, &in, &in.force, BAD_LOADS);
    assert_never_within(&bwi_ec_lift, &in, &in.pull, BAD_LOADS);
    joint.end_grain = true; /* no rule */
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_joint, &in)), BW_CANNOT_SAY);
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_lift, &in)), BW_CANNOT_SAY);
    joint.end_grain = false;
    joint.fasteners.kind = BW_FASTENER_NONE;
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_joint, &in)), BW_CANNOT_SAY);
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ec_lift, &in)), BW_CANNOT_SAY);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(modes_are_those_of_plastic_equilibrium),
        cmocka_unit_test(rope_is_limited),
        cmocka_unit_test(strengths_by_hand),
        cmocka_unit_test(check_agrees_with_a_hand_calculation),
        cmocka_unit_test(splitting_by_hand),
        cmocka_unit_test(drawing_out_by_hand),
        cmocka_unit_test(too_near_to_the_end_or_the_edge_is_over),
        cmocka_unit_test(more_of_everything_holds_more),
        cmocka_unit_test(strength_at_an_angle),
        cmocka_unit_test(what_is_not_known_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
