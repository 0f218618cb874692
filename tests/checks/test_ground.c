/* The ground: the table of soils, holes against sideways pushes, footings, uplift. */
#include "sample.h"

static double foot(double count)
{
    return in_unit(BW_LENGTH, count, "ft");
}

static double psf(double count)
{
    return in_unit(BW_PRESSURE, count, "psf");
}

static double psf_per_foot(double count)
{
    return in_unit(BW_SUBGRADE_RATE, count, "psf/ft");
}

/* ---- a second way to the depths: the formulas as printed, iterated in feet and pounds
 *
 * IBC 1807.3.2.1, Eq. 18-1 and 1807.3.2.2, Eq. 18-2 (READ). The program solves them for
 * the push instead, so only the printed form is shared. ---- */

static double shallower(double feet)
{
    return fmin(feet, 12.0);
}

static double printed_depth_free(double lb, double height, double lateral, double width)
{
    double d = 1.0;
    for (int i = 0; i < 600; i++) {
        const double S1 = lateral * shallower(d) / 3.0;
        const double A = 2.34 * lb / (S1 * width);
        d = 0.5 * d + 0.5 * (A / 2.0 * (1.0 + sqrt(1.0 + 4.36 * height / A)));
    }
    return d;
}

static double printed_depth_held(double lb, double height, double lateral, double width)
{
    double d = 1.0;
    for (int i = 0; i < 600; i++) {
        const double S3 = lateral * shallower(d);
        d = 0.5 * d + 0.5 * sqrt(4.25 * lb * height / (S3 * width));
    }
    return d;
}

static const double pushes[] = {7.3, 61.0, 233.0, 1870.0, 41300.0};   /* lb */
static const double heights[] = {0.13, 1.9, 6.2, 23.0};               /* ft */
static const double laterals[] = {100.0, 150.0, 200.0, 300.0, 400.0}; /* psf/ft */
static const double widths[] = {0.41, 0.667, 1.13};                   /* ft */
#define EACH(i, list) (size_t i = 0; i < sizeof list / sizeof list[0]; i++)

static void depths_are_those_of_the_printed_formulas(void **state)
{
    (void)state;
    int beyond_twelve_feet = 0;
    for
        EACH(p, pushes)
        {
        for
            EACH(h, heights)
            {
            for
                EACH(s, laterals)
                {
                for
                    EACH(w, widths)
                    {
                        const bw_hole hole = {psf_per_foot(laterals[s]), foot(widths[w])};
                        const double P = pound(pushes[p]), M = P * foot(heights[h]);
                        const double free = printed_depth_free(pushes[p], heights[h],
                                                               laterals[s], widths[w]);
                        const double held = printed_depth_held(pushes[p], heights[h],
                                                               laterals[s], widths[w]);
                        assert_close(bw_hole_depth_free(&hole, P, M), foot(free), 1e-9);
                        assert_close(bw_hole_depth_held(&hole, M), foot(held), 1e-9);
                        beyond_twelve_feet += held > 12.0;
                    }
                }
            }
        }
    assert_true(beyond_twelve_feet > 5); /* so the limit of depth has been at work */
}

/* The allowed push, found a second time: the push whose printed depth is the depth. */
static void allowed_push_is_the_one_whose_depth_is_the_depth_there(void **state)
{
    (void)state;
    const double depths[] = {1.63, 2.0, 3.41, 7.7, 14.3}; /* ft */
    for
        EACH(k, depths)
        {
        for
            EACH(h, heights)
            {
                double low = 0.0, high = 1e7;
                for (int i = 0; i < 90; i++) {
                    const double P = (low + high) / 2.0;
                    const bool deeper =
                        printed_depth_free(P, heights[h], 150.0, 0.713) > depths[k];
                    *(deeper ? &high : &low) = P;
                }
                const bw_hole hole = {psf_per_foot(150.0), foot(0.713)};
                assert_close(
                    bw_hole_push_allowed(&hole, foot(depths[k]), foot(heights[h])),
                    pound(low), 1e-8);
            }
        }
}

/* By dimensions alone: a force is pressure per depth, times length, times area. */
static void allowed_push_scales_as_lengths_and_pressures_do(void **state)
{
    (void)state;
    const bw_hole hole = {psf_per_foot(137.0), inch(7.9)};
    const bw_hole wider = {hole.lateral, 2.7 * hole.width};
    const bw_hole firmer = {2.7 * hole.lateral, hole.width};
    const bw_hole larger = {hole.lateral, 1.7 * hole.width};
    const double d = inch(31.0), h = inch(67.0);
    const double P = bw_hole_push_allowed(&hole, d, h);

    assert_close(bw_hole_push_allowed(&wider, d, h), 2.7 * P, 1e-14);
    assert_close(bw_hole_push_allowed(&firmer, d, h), 2.7 * P, 1e-14);
    assert_close(bw_hole_push_allowed(&larger, 1.7 * d, 1.7 * h), pow(1.7, 3.0) * P,
                 1e-13);
}

static void moment_without_push_is_the_limit_of_a_high_push(void **state)
{
    (void)state;
    const bw_hole hole = {psf_per_foot(150.0), inch(8.3)};
    const double d = inch(41.0), high = inch(1e9);
    const double M = bw_hole_moment_allowed(&hole, d);

    assert_close(bw_hole_push_allowed(&hole, d, high) * high, M, 1e-6);
    assert_close(bw_hole_depth_free(&hole, 0.0, M), d, 1e-12);
    assert_true(bw_hole_depth_free(&hole, 0.0, 0.0) == 0.0);
    assert_true(bw_hole_depth_held(&hole, 0.0) == 0.0);
    /* held at the ground, the same moment needs less: the whole depth pushes one way */
    assert_true(bw_hole_depth_held(&hole, M) < d);
}

static void depths_of_senseless_holes_are_not_numbers(void **state)
{
    (void)state;
    for
        EACH(i, bad_sizes)
        {
            const bw_hole soft = {bad_sizes[i], 0.2}, thin = {2e4, bad_sizes[i]};
            const bw_hole hole = {2e4, 0.2};
            assert_true(isnan(bw_hole_depth_free(&soft, 130.0, 70.0)));
            assert_true(isnan(bw_hole_depth_free(&thin, 130.0, 70.0)));
            assert_true(isnan(bw_hole_depth_free(&thin, 0.0, 0.0)));
            assert_true(isnan(bw_hole_depth_held(&soft, 70.0)));
            assert_true(isnan(bw_hole_depth_held(&thin, 70.0)));
            assert_true(isnan(bw_hole_push_allowed(&hole, bad_sizes[i], 1.0)));
            assert_true(isnan(bw_hole_moment_allowed(&hole, bad_sizes[i])));
        }
    for
        EACH(i, bad_loads)
        {
            const bw_hole hole = {2e4, 0.2};
            assert_true(isnan(bw_hole_depth_free(&hole, bad_loads[i], 70.0)));
            assert_true(isnan(bw_hole_depth_free(&hole, 130.0, bad_loads[i])));
            assert_true(isnan(bw_hole_depth_held(&hole, bad_loads[i])));
        }
}

/* ---- the check of a hole ---- */

static void utilisation_is_the_push_over_the_allowed_push_at_its_height(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);
    const double h = in.push_moment / in.push;
    const bw_hole hole = bw_hole_of(in.soil, in.embedded_width, false);
    const double allowed = bw_hole_push_allowed(&hole, in.hole_depth, h);

    assert_close(utilisation_of(&bwi_ground_lateral, &in), in.push / allowed, 1e-14);
    in.push = allowed;
    in.push_moment = allowed * h;
    assert_close(utilisation_of(&bwi_ground_lateral, &in), 1.0, 1e-14);
    assert_close(bw_hole_depth_free(&hole, in.push, in.push_moment), in.hole_depth,
                 1e-12);
}

/* Over the limit exactly where the printed depth is deeper than the hole. */
static void verdict_agrees_with_the_printed_depth(void **state)
{
    (void)state;
    int over = 0, within = 0;
    for
        EACH(p, pushes)
        {
        for
            EACH(h, heights)
            {
                for (int depth = 18; depth <= 90; depth += 9) {
                    bw_check_input in = sample_input(NULL);
                    in.push = pound(pushes[p]);
                    in.push_moment = in.push * foot(heights[h]);
                    in.hole_depth = inch(depth);
                    const double needed =
                        printed_depth_free(pushes[p], heights[h], 150.0, 7.1 / 12.0);
                    const bool enough = bw_verdict_of(utilisation_of(&bwi_ground_lateral,
                                                                     &in)) == BW_WITHIN;
                    assert_true(enough == (needed <= depth / 12.0));
                    over += !enough;
                    within += enough;
                }
            }
        }
    assert_true(over > 20 && within > 20);
}

static void accepted_movement_halves_the_utilisation(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);
    const double once = utilisation_of(&bwi_ground_lateral, &in);

    in.half_inch_movement_ok = true;
    assert_close(utilisation_of(&bwi_ground_lateral, &in), once / 2.0, 1e-14);
}

/* Signs come from the frame's axes; a push and a moment that would help each other are
 * not trusted to. */
static void signs_of_push_and_moment_do_not_count(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);
    const double u = utilisation_of(&bwi_ground_lateral, &in);

    in.push = -in.push;
    assert_true(utilisation_of(&bwi_ground_lateral, &in) == u);
    in.push_moment = -in.push_moment;
    assert_true(utilisation_of(&bwi_ground_lateral, &in) == u);
}

static void deeper_wider_and_firmer_never_hurts(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);

    assert_monotonic(&bwi_ground_lateral, &in, &in.hole_depth, 0.1, 5.3, false);
    in = sample_input(NULL);
    assert_monotonic(&bwi_ground_lateral, &in, &in.embedded_width, 0.07, 0.6, false);
    in = sample_input(NULL);
    assert_monotonic(&bwi_ground_lateral, &in, &in.push, 0.0, 5.1e3, true);
    in = sample_input(NULL);
    assert_monotonic(&bwi_ground_lateral, &in, &in.push_moment, 0.0, 5.1e3, true);
    in = sample_input(NULL);
    const double sand = utilisation_of(&bwi_ground_lateral, &in);
    in.soil = BW_SOIL_CLAY;
    assert_true(utilisation_of(&bwi_ground_lateral, &in) > sand);
    in.soil = BW_SOIL_GRAVEL;
    assert_true(utilisation_of(&bwi_ground_lateral, &in) < sand);
}

/* The working says what would do: at that depth the check is at its limit. */
static void depth_in_the_working_would_just_do(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_check_input in = sample_input(NULL);
    in.push *= 4.3;
    bw_finding finding = {0};

    assert_int_equal(bw_finding_make(arena, &bwi_ground_lateral, &in, &finding), BW_OK);
    assert_int_equal(finding.verdict, BW_OVER);
    assert_close(recorded(&finding.working, "P"), in.push / finding.ratio.utilisation,
                 1e-13);
    in.hole_depth = recorded(&finding.working, "d_0");
    assert_close(utilisation_of(&bwi_ground_lateral, &in), 1.0, 1e-12);
    bw_arena_free(arena);
}

static void working_of_a_moment_alone_names_no_height(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_check_input in = sample_input(NULL);
    in.push = 0.0;
    bw_finding finding = {0};

    assert_int_equal(bw_finding_make(arena, &bwi_ground_lateral, &in, &finding), BW_OK);
    assert_true(isnan(recorded(&finding.working, "h")));
    assert_true(finding.ratio.utilisation > 0.0);
    assert_int_equal(finding.verdict, BW_WITHIN);
    bw_arena_free(arena);
}

/* ---- footings ---- */

/* COMPUTED by hand: 530 lb on 51.3 in2 is 530 x 144 / 51.3 = 1487.719 psf. */
static void footing_compares_pressure_with_the_table(void **state)
{
    (void)state;
    const bw_check_input in = sample_input(NULL);
    const bw_ratio ratio = bwi_ground_bearing.ratio(&in, NULL);

    assert_close(ratio.demand, psf(1487.719298), 1e-9);
    assert_close(ratio.capacity, psf(2000.0), 1e-14);
}

static void more_weight_is_worse_and_more_area_better(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);

    assert_monotonic(&bwi_ground_bearing, &in, &in.foot_force, 0.0, 3.1e4, true);
    in = sample_input(NULL);
    assert_monotonic(&bwi_ground_bearing, &in, &in.foot_area, 0.003, 0.4, false);
}

/* ---- uplift ---- */

/* COMPUTED by hand: 0.6 x (389 + 43) = 259.2 lb hold 61 lb. */
static void six_tenths_of_the_weight_hold_a_post_down(void **state)
{
    (void)state;
    const bw_check_input in = sample_input(NULL);
    const bw_ratio ratio = bwi_ground_uplift.ratio(&in, NULL);

    assert_close(ratio.demand, pound(61.0), 1e-14);
    assert_close(ratio.capacity, pound(259.2), 1e-14);
}

/* COMPUTED by hand: 61 + 17 = 78 lb against 0.6 x 43 = 25.8 lb. */
static void dead_load_that_lifts_counts_in_full_against(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);
    in.foot_dead = pound(-17.0);
    const bw_ratio ratio = bwi_ground_uplift.ratio(&in, NULL);

    assert_close(ratio.demand, pound(78.0), 1e-13);
    assert_close(ratio.capacity, pound(25.8), 1e-13);
    assert_int_equal(bw_verdict_of(ratio.utilisation), BW_OVER);
    in.pull = pound(-17.0); /* must not make up for it */
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ground_uplift, &in)),
                     BW_CANNOT_SAY);
}

static void uplift_grows_with_the_pull_and_falls_with_the_weight(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);

    assert_monotonic(&bwi_ground_uplift, &in, &in.pull, 0.0, 7.3e3, true);
    in = sample_input(NULL);
    assert_monotonic(&bwi_ground_uplift, &in, &in.foot_dead, -900.0, 9e3, false);
    in = sample_input(NULL);
    assert_monotonic(&bwi_ground_uplift, &in, &in.buried_weight, 0.0, 9e3, false);
}

/* ---- all of them ---- */

/* IBC Table 1806.2 (READ): bearing psf, lateral psf per ft, friction, cohesion psf. */
static void soils_have_the_values_of_the_table(void **state)
{
    (void)state;
    const struct {
        bw_soil soil;
        double bearing, lateral, friction, cohesion;
    } rows[] = {{BW_SOIL_GRAVEL, 3000.0, 200.0, 0.35, 0.0},
                {BW_SOIL_SAND, 2000.0, 150.0, 0.25, 0.0},
                {BW_SOIL_CLAY, 1500.0, 100.0, 0.0, 130.0}};
    for
        EACH(i, rows)
        {
            const bw_soil_values v = bw_soil_find(rows[i].soil);
            assert_close(v.bearing.value, psf(rows[i].bearing), 1e-14);
            assert_close(v.lateral.value, psf_per_foot(rows[i].lateral), 1e-14);
            assert_true(v.friction.value == rows[i].friction);
            assert_close(v.cohesion.value, psf(rows[i].cohesion), 1e-14);
            assert_true((v.modulus.value > 0.0) != (v.modulus_growth.value > 0.0));
            assert_true(v.bearing.mark == BW_MARK_READ && v.bearing.source != NULL);
        }
}

/* Terzaghi 1955, in the short tons per cubic foot of the paper (MEMORY): 7 for loose and
 * 21 for medium dense dry sand; stiff clay 50 tons per square foot, a third of it here.
 */
static void springs_are_those_of_the_paper(void **state)
{
    (void)state;
    const double ton = pound(2000.0), ft = foot(1.0);

    assert_close(bw_soil_find(BW_SOIL_SAND).modulus_growth.value,
                 7.0 * ton / pow(ft, 3.0), 0.01);
    assert_close(bw_soil_find(BW_SOIL_GRAVEL).modulus_growth.value,
                 21.0 * ton / pow(ft, 3.0), 0.01);
    assert_close(bw_soil_find(BW_SOIL_CLAY).modulus.value, 50.0 / 3.0 * ton / (ft * ft),
                 0.01);
}

static void unknown_soil_has_no_values_and_no_verdict(void **state)
{
    (void)state;
    const bw_soil unknown[] = {BW_SOIL_UNKNOWN, BW_SOIL_COUNT, (bw_soil)977};
    for
        EACH(i, unknown)
        {
            bw_check_input in = sample_input(NULL);
            in.soil = unknown[i];
            assert_string_equal(bw_soil_name(unknown[i]), "unknown soil");
            assert_true(bw_soil_find(unknown[i]).bearing.value == 0.0);
            assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ground_lateral, &in)),
                             BW_CANNOT_SAY);
            assert_int_equal(bw_verdict_of(utilisation_of(&bwi_ground_bearing, &in)),
                             BW_CANNOT_SAY);
        }
    assert_string_equal(bw_soil_name(BW_SOIL_CLAY), "clay");
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_check_input in = sample_input(NULL);
    const double lifting[] = {-0.37, (double)NAN, (double)INFINITY};

    assert_never_within(&bwi_ground_lateral, &in, &in.hole_depth, BAD_SIZES);
    assert_never_within(&bwi_ground_lateral, &in, &in.embedded_width, BAD_SIZES);
    assert_never_within(&bwi_ground_lateral, &in, &in.push, BAD_LOADS);
    assert_never_within(&bwi_ground_lateral, &in, &in.push_moment, BAD_LOADS);
    assert_never_within(&bwi_ground_bearing, &in, &in.foot_area, BAD_SIZES);
    assert_never_within(&bwi_ground_bearing, &in, &in.foot_force, BAD_LOADS);
    assert_never_within(&bwi_ground_uplift, &in, &in.pull, lifting, 3);
    assert_never_within(&bwi_ground_uplift, &in, &in.foot_dead, BAD_LOADS);
    assert_never_within(&bwi_ground_uplift, &in, &in.buried_weight, lifting, 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(depths_are_those_of_the_printed_formulas),
        cmocka_unit_test(allowed_push_is_the_one_whose_depth_is_the_depth_there),
        cmocka_unit_test(allowed_push_scales_as_lengths_and_pressures_do),
        cmocka_unit_test(moment_without_push_is_the_limit_of_a_high_push),
        cmocka_unit_test(depths_of_senseless_holes_are_not_numbers),
        cmocka_unit_test(utilisation_is_the_push_over_the_allowed_push_at_its_height),
        cmocka_unit_test(verdict_agrees_with_the_printed_depth),
        cmocka_unit_test(accepted_movement_halves_the_utilisation),
        cmocka_unit_test(signs_of_push_and_moment_do_not_count),
        cmocka_unit_test(deeper_wider_and_firmer_never_hurts),
        cmocka_unit_test(depth_in_the_working_would_just_do),
        cmocka_unit_test(working_of_a_moment_alone_names_no_height),
        cmocka_unit_test(footing_compares_pressure_with_the_table),
        cmocka_unit_test(more_weight_is_worse_and_more_area_better),
        cmocka_unit_test(six_tenths_of_the_weight_hold_a_post_down),
        cmocka_unit_test(dead_load_that_lifts_counts_in_full_against),
        cmocka_unit_test(uplift_grows_with_the_pull_and_falls_with_the_weight),
        cmocka_unit_test(soils_have_the_values_of_the_table),
        cmocka_unit_test(springs_are_those_of_the_paper),
        cmocka_unit_test(unknown_soil_has_no_values_and_no_verdict),
        cmocka_unit_test(senseless_input_is_never_within),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
