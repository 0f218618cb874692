/* Logs as they are: measured on the way, with flats, hollow and rot. */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include "bolewright/wood.h"

static const bw_species wood = {
    .green_density = {843.7, BW_MARK_COMPUTED, "of this test"}};

/* A swollen butt, a waist, and a tip. */
static const bw_station places[] = {
    {0.0, 0.3127}, {0.61, 0.2531}, {2.385, 0.2217}, {3.19, 0.2293}, {4.77, 0.1763}};
static const bw_log measured = {.species = &wood,
                                .butt_diameter = 0.3127,
                                .tip_diameter = 0.1763,
                                .length = 4.77,
                                .stations = places,
                                .n_stations = 5};

static void assert_near(double got, double expected, double tolerance)
{
    if (!(fabs(got - expected) <= tolerance)) {
        fail_msg("got %.15g, expected %.15g", got, expected);
    }
}

static void diameter_between_stations_runs_straight(void **state)
{
    (void)state;
    for (size_t k = 0; k < 5; k++) {
        assert_near(bw_log_diameter(&measured, 4.77, places[k].from_butt),
                    places[k].diameter, 1e-15);
    }
    assert_near(bw_log_diameter(&measured, 4.77, 0.305), (0.3127 + 0.2531) / 2.0, 1e-15);
    assert_near(bw_log_diameter(&measured, 4.77, 3.98), (0.2293 + 0.1763) / 2.0, 1e-15);
}

/* Nobody measured there: no thicker before the first, on with the taper beyond the last,
 * never thicker than the last. */
static void diameter_beyond_the_stations_is_cautious(void **state)
{
    (void)state;
    const bw_log inner = {
        .species = &wood, .length = 4.77, .stations = places + 1, .n_stations = 3};
    assert_near(bw_log_diameter(&inner, 4.77, 0.1), 0.2531, 0.0);
    assert_near(bw_log_diameter(&inner, 4.77, 4.0), 0.2293, 0.0); /* it grew before */
    const double slope = (0.1763 - 0.2293) / (4.77 - 3.19);
    assert_near(bw_log_diameter(&measured, 5.2, 5.2), 0.1763 + 0.43 * slope, 1e-15);
    assert_near(bw_log_diameter(&measured, 99.0, 99.0), 0.1763 / 2.0, 0.0);
}

static void taper_without_a_station_between_is_the_log_itself(void **state)
{
    (void)state;
    double d[2];
    bw_log_taper(&measured, 4.77, 0.9, 2.1, d);
    assert_near(d[0], bw_log_diameter(&measured, 4.77, 0.9), 1e-15);
    assert_near(d[1], bw_log_diameter(&measured, 4.77, 2.1), 1e-15);
    const bw_log cone = {.species = &wood, .butt_diameter = 0.3, .tip_diameter = 0.2};
    bw_log_taper(&cone, 5.0, 4.0, 1.5, d);
    assert_near(d[0], 0.22, 1e-15);
    assert_near(d[1], 0.27, 1e-15);
}

/* Wherever a piece lies, its straight taper stays inside the log and touches it. */
static void taper_is_nowhere_thicker_than_the_log(void **state)
{
    (void)state;
    enum { STEPS = 400 };
    for (int a = 0; a <= 12; a++) {
        for (int b = 0; b <= 12; b++) {
            const double from = 4.77 * a / 12.0, to = 4.77 * b / 12.0;
            double d[2], least = 1.0;
            bw_log_taper(&measured, 4.77, from, to, d);
            for (int k = 0; k <= STEPS; k++) {
                const double t = (double)k / STEPS;
                const double spare =
                    bw_log_diameter(&measured, 4.77, from + t * (to - from)) -
                    (d[0] + t * (d[1] - d[0]));
                assert_true(spare > -1e-12);
                least = fmin(least, spare);
            }
            assert_true(least < 2e-4);
        }
    }
}

static void taper_turned_round_is_the_same(void **state)
{
    (void)state;
    double forward[2], backward[2];
    bw_log_taper(&measured, 4.77, 0.2, 4.1, forward);
    bw_log_taper(&measured, 4.77, 4.1, 0.2, backward);
    assert_near(forward[0], backward[1], 1e-15);
    assert_near(forward[1], backward[0], 1e-15);
}

static void mass_between_stations_is_the_sum_of_its_cones(void **state)
{
    (void)state;
    const double pi = acos(-1.0);
    double volume = 0.0;
    for (size_t k = 0; k + 1 < 5; k++) {
        const double a = places[k].diameter, b = places[k + 1].diameter;
        volume += pi / 12.0 * (places[k + 1].from_butt - places[k].from_butt) *
                  (a * a + a * b + b * b);
    }
    assert_near(bw_log_mass(&measured, 4.77, 0.0, 4.77), 843.7 * volume, 1e-10);
}

static void flats_and_hollow_follow_the_log(void **state)
{
    (void)state;
    const bw_log log = {.species = &wood,
                        .butt_diameter = 0.2385,
                        .tip_diameter = 0.1763,
                        .flat_top = 0.0254,
                        .flat_bottom = 0.0127,
                        .shell = 0.0713};
    const bw_log_shape s = bw_log_shape_at(&log, 4.0, 1.0);
    assert_near(s.diameter, 0.22295, 1e-15);
    assert_near(s.flat_top, 0.0254, 0.0);
    assert_near(s.flat_bottom, 0.0127, 0.0);
    assert_near(s.bore, 0.22295 - 0.1426, 1e-15);
    const bw_log solid = {.species = &wood,
                          .butt_diameter = 0.2385,
                          .tip_diameter = 0.1763,
                          .shell = 0.0913};
    assert_near(bw_log_shape_at(&solid, 4.0, 4.0).bore, 0.0, 0.0); /* none at the tip */
    assert_near(bw_log_shape_at(&solid, 4.0, 0.0).bore, 0.0559, 1e-15);
}

static void half_log_is_flat_at_half_its_diameter_everywhere(void **state)
{
    (void)state;
    const bw_log log = {
        .species = &wood, .butt_diameter = 0.2385, .tip_diameter = 0.1763, .half = true};
    for (int k = 0; k <= 4; k++) {
        const bw_log_shape s = bw_log_shape_at(&log, 4.0, k);
        assert_near(s.flat_top, s.diameter / 2.0, 0.0);
    }
    bw_log whole = log;
    whole.half = false;
    assert_near(bw_log_mass(&log, 4.0, 0.3, 3.1),
                bw_log_mass(&whole, 4.0, 0.3, 3.1) / 2.0, 1e-12);
}

/* What rot takes is still there, wet: it weighs, though it carries nothing. */
static void lost_and_hollow_wood_still_weighs(void **state)
{
    (void)state;
    const bw_log sound = {
        .species = &wood, .butt_diameter = 0.2385, .tip_diameter = 0.1763};
    bw_log rotten = sound;
    rotten.outer_loss = 0.0127;
    rotten.butt_diameter -= 0.0254;
    rotten.tip_diameter -= 0.0254;
    rotten.shell = 0.05;
    assert_near(bw_log_mass(&rotten, 4.0, 0.0, 4.0), bw_log_mass(&sound, 4.0, 0.0, 4.0),
                1e-11);
}

/* Every diameter, at every station, times the scale and less the rest; the log that it
 * came from keeps its own. */
static void a_shrunk_log_is_thinner_everywhere(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_log log = measured;
    double thinnest = 0.0;

    assert_true(bw_log_shrink(arena, &log, 0.97, 0.0123, &thinnest));
    assert_near(thinnest, 0.97 * 0.1763 - 0.0123, 1e-15);
    for (size_t k = 0; k < log.n_stations; k++) {
        assert_near(bw_log_diameter(&log, 4.77, places[k].from_butt),
                    0.97 * places[k].diameter - 0.0123, 1e-12);
        assert_true(measured.stations[k].diameter == places[k].diameter);
    }
    bw_log cone = {.butt_diameter = 0.2127, .tip_diameter = 0.2253}; /* turned round */
    assert_true(bw_log_shrink(arena, &cone, 1.0, 0.0117, &thinnest));
    assert_near(thinnest, 0.2010, 1e-15);
    assert_true(cone.stations == NULL);
    bw_log spare = measured;
    bw_arena_fail_after(1);
    assert_false(bw_log_shrink(arena, &spare, 0.5, 0.0, &thinnest));
    bw_arena_fail_after(0);
    assert_true(spare.butt_diameter == measured.butt_diameter);
    bw_arena_free(arena);
}

/* A line under all places would run out: the log counts as thick as its waist all along.
 */
static void a_deep_waist_has_no_taper(void **state)
{
    (void)state;
    static const bw_station waist[] = {{0.0, 0.4}, {1.0, 0.1}, {1.5, 0.1}, {4.0, 0.4}};
    const bw_log log = {.species = &wood,
                        .butt_diameter = 0.4,
                        .tip_diameter = 0.4,
                        .length = 4.0,
                        .stations = waist,
                        .n_stations = 4};
    double d[2];
    bw_log_taper(&log, 4.0, 0.0, 4.0, d);
    assert_near(d[0], 0.1, 1e-15);
    assert_near(d[1], 0.1, 1e-15);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(diameter_between_stations_runs_straight),
        cmocka_unit_test(diameter_beyond_the_stations_is_cautious),
        cmocka_unit_test(taper_without_a_station_between_is_the_log_itself),
        cmocka_unit_test(taper_is_nowhere_thicker_than_the_log),
        cmocka_unit_test(taper_turned_round_is_the_same),
        cmocka_unit_test(mass_between_stations_is_the_sum_of_its_cones),
        cmocka_unit_test(flats_and_hollow_follow_the_log),
        cmocka_unit_test(half_log_is_flat_at_half_its_diameter_everywhere),
        cmocka_unit_test(lost_and_hollow_wood_still_weighs),
        cmocka_unit_test(a_shrunk_log_is_thinner_everywhere),
        cmocka_unit_test(a_deep_waist_has_no_taper),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
