/* Places in words. */
#include "../base/arena_fixture.h"
#include "planned.h"

#include <setjmp.h>
#include <stdarg.h>
#include <string.h>

#include <cmocka.h>

typedef struct {
    const bw_case *deck;
    bw_assessment result;
    bwi_plan plan;
    bwi_tracker tracker;
} placed;

static void prepare(bw_arena *arena, placed *out)
{
    const bwt_deck d = bwt_deck_plain();
    assert_int_equal(bwt_deck_plan(&d, arena, &out->deck, &out->result, &out->plan),
                     BW_OK);
    assert_int_equal(bwi_tracker_make(&out->plan, &out->tracker), BW_OK);
}

static void a_stringer_is_measured_from_the_nearer_bent(void **state)
{
    placed p;
    prepare(*state, &p);
    assert_string_equal(bwi_place_text(&p.tracker, 0, 0.0), "at bent b0");
    assert_string_equal(bwi_place_text(&p.tracker, 0, 0.713), "713 mm from bent b0");
    assert_string_equal(bwi_place_text(&p.tracker, 0, 2.0), "713 mm from bent b1");
    assert_string_equal(bwi_place_text(&p.tracker, 1, 2.476), "at bent b2");
}

static void a_cap_is_measured_from_the_centre_line(void **state)
{
    placed p;
    prepare(*state, &p);
    assert_string_equal(bwi_place_text(&p.tracker, p.tracker.first_cap, -0.437),
                        "437 mm left of the centre line");
    assert_string_equal(bwi_place_text(&p.tracker, p.tracker.first_cap, 0.213),
                        "213 mm right of the centre line");
    assert_string_equal(bwi_place_text(&p.tracker, p.tracker.first_cap, 0.0),
                        "on the centre line");
}

static void a_post_is_measured_from_the_ground(void **state)
{
    placed p;
    prepare(*state, &p);
    const size_t post = p.tracker.first_post;
    assert_string_equal(bwi_place_text(&p.tracker, post, -0.317),
                        "317 mm below the ground");
    assert_string_equal(bwi_place_text(&p.tracker, post, 0.413),
                        "413 mm above the ground");
    assert_string_equal(bwi_place_text(&p.tracker, post, 0.0), "at the ground");
}

static void a_rider_is_where_a_builder_can_find_the_place(void **state)
{
    placed p;
    prepare(*state, &p);
    const bwi_event edge = {.rider = {true, 1, 0.613, 0, 0.0, false, false}};
    assert_string_equal(bwi_rider_text(&p.plan, &edge),
                        "rider 613 mm past bent b1, at the edge beyond row r0");
    const bwi_event across = {.rider = {true, 1, 2.476, -1, -0.217, false, false}};
    assert_string_equal(bwi_rider_text(&p.plan, &across),
                        "rider at bent b2, 217 mm left of the centre line");
    const bwi_event crowd = {.pattern = "people on all bays"};
    assert_string_equal(bwi_rider_text(&p.plan, &crowd), "people on all bays");
    const bwi_event nobody = {.combination = "dead"};
    assert_null(bwi_rider_text(&p.plan, &nobody));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(a_stringer_is_measured_from_the_nearer_bent),
        WITH_ARENA(a_cap_is_measured_from_the_centre_line),
        WITH_ARENA(a_post_is_measured_from_the_ground),
        WITH_ARENA(a_rider_is_where_a_builder_can_find_the_place),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
