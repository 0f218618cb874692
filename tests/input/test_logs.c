/* Logs of a case: what was measured on the way, cut off, lost. */
#include "support.h"

#include <math.h>

static const char frame_of_case[] =
    "{\"format\": 1, \"title\": \"t\", \"units\": \"imperial\", "
    "\"deck\": {\"width\": \"4 ft\"}, \"logs\": ["
    "{\"name\": \"beam\", \"species\": \"test pine\", %LOG%}, "
    "{\"name\": \"leg\", \"species\": \"test pine\", \"butt_diameter\": \"7 in\", "
    "\"tip_diameter\": \"6 in\", \"bark\": \"off\"}], "
    "\"rows\": [{\"name\": \"only\", \"across\": \"0 in\"}], "
    "\"every_bent\": {\"cap\": \"leg\", \"deck_height\": \"3 ft\", \"posts\": [{\"row\": "
    "\"only\", \"log\": \"leg\", \"hole_depth\": \"2 ft\", \"soil\": \"gravel\"}]}, "
    "\"bents\": [{\"name\": \"B1\", \"at\": \"0 ft\"}, {\"name\": \"B2\", \"at\": "
    "\"8 ft\"}], \"stringers\": [{\"row\": \"only\", \"log\": \"beam\", \"from\": "
    "\"B1\", \"to\": \"B2\"}]}";

/* The log "beam" of a case that describes it so. */
static const bw_log *read_log(bw_arena *arena, const char *description)
{
    const bw_species_table woods = test_woods(arena);
    bw_diags d = bw_diags_new(arena, "case.json");
    bw_case *deck = BW_NEW(arena, bw_case, 1);
    const char *text = replaced(arena, frame_of_case, "%LOG%", description);
    assert_status(arena, bw_input_case(arena, text, &woods, deck, &d), BW_OK, &d);
    return &deck->logs[0];
}

static double inch(double count)
{
    return count * bw_unit_size(BW_LENGTH, "in");
}

static void stations_are_kept_under_bark(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_log *log = read_log(
        arena,
        "\"stations\": [{\"at\": \"0 ft\", \"girth\": \"31 in\"}, {\"at\": \"4 ft\", "
        "\"diameter\": \"9 1/4 in\"}, {\"at\": \"9 ft 2 in\", \"girth\": \"27 in\"}], "
        "\"bark\": \"on\", \"bark_thickness\": \"1/4 in\"");
    const double pi = acos(-1.0);
    assert_int_equal(log->n_stations, 3);
    assert_near(log->stations[0].diameter, inch(31.0 / pi - 0.5), 1e-12);
    assert_near(log->stations[1].diameter, inch(8.75), 1e-12);
    assert_near(log->stations[1].from_butt, inch(48.0), 1e-12);
    assert_near(log->stations[2].diameter, inch(27.0 / pi - 0.5), 1e-12);
    assert_near(log->butt_diameter, log->stations[0].diameter, 1e-12);
    assert_near(log->tip_diameter, log->stations[2].diameter, 1e-12);
    assert_near(log->length, inch(110.0), 1e-12);
    bw_arena_free(arena);
}

static void length_beyond_the_last_station_tapers_on(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_log *log = read_log(
        arena,
        "\"stations\": [{\"at\": \"0 ft\", \"diameter\": \"10 in\"}, {\"at\": "
        "\"8 ft\", \"diameter\": \"8 in\"}], \"length\": \"9 ft\", \"bark\": \"off\"");
    assert_near(log->length, inch(108.0), 1e-12);
    assert_near(log->tip_diameter, inch(7.75), 1e-12);
    bw_arena_free(arena);
}

/* Out of round: the smaller of two diameters across each other. */
static void smaller_of_two_diameters_counts(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_log *log = read_log(arena, "\"butt_diameter\": [\"9 1/2 in\", \"9 in\"], "
                                        "\"tip_diameter\": [\"7 3/4 in\", \"8 in\"], "
                                        "\"bark\": \"off\"");
    assert_near(log->butt_diameter, inch(9.0), 1e-12);
    assert_near(log->tip_diameter, inch(7.75), 1e-12);
    bw_arena_free(arena);
}

/* Outer loss that leaves 2/3 of the strength, (d/D)^3: 0.25, 0.38, 0.51 in on 4, 6, 8 in
 * and the girths 10.98, 16.47, 21.96 in (trade notes, COMPUTED). */
static void outer_loss_takes_twice_its_depth(void **state)
{
    (void)state;
    static const double rows[][3] = {
        {4, 0.25, 10.98}, {6, 0.38, 16.47}, {8, 0.51, 21.96}};
    const double pi = acos(-1.0);
    for (size_t k = 0; k < sizeof rows / sizeof rows[0]; k++) {
        bw_arena *arena = bw_arena_new();
        const char *text =
            bw_arena_print(arena,
                           "\"butt_diameter\": \"%g in\", \"tip_diameter\": \"%g in\", "
                           "\"bark\": \"off\", \"outer_loss\": \"%g in\"",
                           rows[k][0], rows[k][0], rows[k][1]);
        const bw_log *log = read_log(arena, text);
        assert_near(log->butt_diameter, inch(rows[k][0] - 2.0 * rows[k][1]), 1e-12);
        assert_near(log->outer_loss, inch(rows[k][1]), 1e-12);
        assert_near(pow(log->tip_diameter / inch(rows[k][0]), 3.0), 2.0 / 3.0, 0.01);
        assert_near(pi * log->tip_diameter, inch(rows[k][2]), 0.004); /* 0.005 in */
        bw_arena_free(arena);
    }
}

static void cuts_and_hollow_are_kept(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_log *log = read_log(
        arena,
        "\"butt_girth\": \"31 in\", \"tip_girth\": \"27 in\", \"bark\": \"off\", "
        "\"flat_top\": \"1 in\", \"flat_bottom\": \"3/4 in\", \"shell\": \"2 in\", "
        "\"sweep\": \"1 1/2 in\", \"notches\": [{\"at\": \"2 in\", \"depth\": "
        "\"7/8 in\", \"side\": \"bottom\"}, {\"at\": \"7 ft\", \"depth\": "
        "\"1/2 in\", \"side\": \"top\"}]");
    assert_near(log->flat_top, inch(1.0), 1e-12);
    assert_near(log->flat_bottom, inch(0.75), 1e-12);
    assert_near(log->shell, inch(2.0), 1e-12);
    assert_near(log->sweep, inch(1.5), 1e-12);
    assert_false(log->half);
    assert_int_equal(log->n_notches, 2);
    assert_near(log->notches[0].from_butt, inch(2.0), 1e-12);
    assert_near(log->notches[0].depth, inch(0.875), 1e-12);
    assert_int_equal(log->notches[0].side, BW_SIDE_BOTTOM);
    assert_int_equal(log->notches[1].side, BW_SIDE_TOP);
    assert_string_equal(log->notches[1].case_path, "/logs/0/notches/1");
    bw_arena_free(arena);
}

static void half_log_is_read(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_log *log = read_log(arena, "\"butt_girth\": \"31 in\", \"tip_girth\": "
                                        "\"27 in\", \"bark\": \"off\", \"half\": true");
    assert_true(log->half);
    assert_near(bw_log_shape_at(log, 3.0, 0.0).flat_top, log->butt_diameter / 2.0, 1e-15);
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(stations_are_kept_under_bark),
        cmocka_unit_test(length_beyond_the_last_station_tapers_on),
        cmocka_unit_test(smaller_of_two_diameters_counts),
        cmocka_unit_test(outer_loss_takes_twice_its_depth),
        cmocka_unit_test(cuts_and_hollow_are_kept),
        cmocka_unit_test(half_log_is_read),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
