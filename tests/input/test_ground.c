/* test_ground.c - the ground of a case and what its posts stand in or on. Faults are in
 * test_bad.c. */
#include "support.h"

#include <math.h>

/* The one with the place's ground and two posts put in. */
static bw_case read_with(bw_arena *arena, const char *ground, const char *left,
                         const char *right)
{
    bw_diags d = bw_diags_new(arena, "case.json");
    bw_species_table *woods = BW_NEW(arena, bw_species_table, 1);
    bw_case deck;
    assert_non_null(woods);
    *woods = test_woods(arena);
    const char *text = bw_arena_print(
        arena,
        "{\"format\": 1, \"title\": \"Ford\", \"units\": \"imperial\",\n"
        "\"deck\": {\"width\": \"4 ft\"}, %s\n"
        "\"logs\": [{\"name\": \"beam\", \"species\": \"test pine\", \"bark\": \"off\","
        " \"butt_girth\": \"29 in\", \"tip_girth\": \"25 in\"}],\n"
        "\"rows\": [{\"name\": \"left\", \"across\": \"-18 in\"},"
        " {\"name\": \"right\", \"across\": \"18 in\"}],\n"
        "\"every_bent\": {\"deck_height\": \"3 ft\", \"cap\": \"beam\", \"posts\": [\n"
        " {\"row\": \"left\", \"log\": \"beam\", %s},\n"
        " {\"row\": \"right\", \"log\": \"beam\", %s}]},\n"
        "\"bents\": [{\"name\": \"B1\", \"at\": \"0 ft\"},"
        " {\"name\": \"B2\", \"at\": \"8 ft\"}],\n"
        "\"stringers\": [\n"
        " {\"row\": \"left\", \"log\": \"beam\", \"from\": \"B1\", \"to\": \"B2\"},\n"
        " {\"row\": \"right\", \"log\": \"beam\", \"from\": \"B1\", \"to\": \"B2\"}]}\n",
        ground, left, right);
    assert_non_null(text);
    assert_status(arena, bw_input_case(arena, text, woods, &deck, &d), BW_OK, &d);
    assert_int_equal(d.count, 0);
    return deck;
}

static void ground_of_the_place_is_optional(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_case deck = read_with(
        arena, "", "\"hole_depth\": \"27 in\", \"soil\": \"clay\"", "\"foot\": \"pad\"");

    assert_int_equal(deck.ground.soil, BW_SOIL_UNKNOWN);
    assert_true(deck.ground.frost_depth == 0.0);
    assert_false(deck.ground.half_inch_movement_ok);
    assert_int_equal(deck.bents[1].posts[0].soil, BW_SOIL_CLAY);
    assert_int_equal(deck.bents[1].posts[1].soil, BW_SOIL_UNKNOWN);
    assert_true(deck.bents[1].posts[1].pad_area == 0.0);
    bw_arena_free(arena);
}

static void posts_fall_back_on_the_soil_of_the_place(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_case deck =
        read_with(arena,
                  "\"ground\": {\"soil\": \"sand\", \"frost_depth\": \"31 in\","
                  " \"half_inch_movement_ok\": true},",
                  "\"hole_depth\": \"27 in\", \"hole_width\": \"19 in\"",
                  "\"foot\": \"pad\", \"soil\": \"gravel\"");

    assert_int_equal(deck.ground.soil, BW_SOIL_SAND);
    assert_near(deck.ground.frost_depth, 31.0 * 0.0254, 1e-14);
    assert_true(deck.ground.half_inch_movement_ok);
    assert_int_equal(deck.bents[0].posts[0].soil, BW_SOIL_SAND);
    assert_near(deck.bents[0].posts[0].hole_width, 19.0 * 0.0254, 1e-14);
    assert_int_equal(deck.bents[0].posts[1].soil, BW_SOIL_GRAVEL);
    bw_arena_free(arena);
}

static void pads_are_round_or_square(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_case deck =
        read_with(arena, "", "\"foot\": \"pad\", \"pad\": {\"diameter\": \"410 mm\"}",
                  "\"foot\": \"pad\", \"pad\": {\"width\": \"410 mm\"}");

    assert_near(deck.bents[0].posts[0].pad_area, acos(-1.0) * 0.205 * 0.205, 1e-14);
    assert_near(deck.bents[0].posts[1].pad_area, 0.41 * 0.41, 1e-14);
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ground_of_the_place_is_optional),
        cmocka_unit_test(posts_fall_back_on_the_soil_of_the_place),
        cmocka_unit_test(pads_are_round_or_square),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
