/* The worst is kept, whatever its kind. */
#include "../base/arena_fixture.h"
#include "planned.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>

#include <cmocka.h>

typedef struct {
    const bw_case *deck;
    bw_assessment result;
    bwi_plan plan;
    bwi_tracker tracker;
    bw_check_input in;
    bwi_event event;
} tracked;

static void prepare(bw_arena *arena, tracked *out)
{
    const bwt_deck d = bwt_deck_plain();
    assert_int_equal(bwt_deck_plan(&d, arena, &out->deck, &out->result, &out->plan),
                     BW_OK);
    assert_int_equal(bwi_tracker_make(&out->plan, &out->tracker), BW_OK);
    out->in = (bw_check_input){
        .reference = &out->result.references[0], .diameter = 0.193, .moment = 713.0};
    out->event = (bwi_event){.combination = "dead", .load_duration = 0.9};
}

static void members_are_stringers_then_caps_then_posts(void **state)
{
    tracked t;
    prepare(*state, &t);
    assert_int_equal(t.tracker.first_cap, 4);
    assert_int_equal(t.tracker.first_post, 4 + 3);
    assert_int_equal(t.tracker.post_first[2], 4 + 3 + 4);
    assert_int_equal(t.tracker.n_members, 4 + 3 + 6);
}

static void only_what_is_worse_replaces_the_worst(void **state)
{
    tracked t;
    prepare(*state, &t);
    bwi_tracker *k = &t.tracker;
    assert_true(bwi_track(k, 2, BW_CHECK_BENDING, &t.in, 0.31, &t.event));
    const bwi_worst *worst = bwi_tracked(k, 2, BW_CHECK_BENDING);
    const double first = worst->ratio.utilisation;
    t.in.moment = 531.0;
    assert_false(bwi_track(k, 2, BW_CHECK_BENDING, &t.in, 0.77, &t.event));
    assert_true(worst->ratio.utilisation == first && worst->station == 0.31);
    t.in.moment = 911.0;
    assert_true(bwi_track(k, 2, BW_CHECK_BENDING, &t.in, 0.77, &t.event));
    assert_true(fabs(worst->ratio.utilisation / first - 911.0 / 713.0) < 1e-14);
    assert_true(worst->station == 0.77);
    assert_false(bwi_tracked(k, 1, BW_CHECK_BENDING)->has);
    assert_false(bwi_tracked(k, 2, BW_CHECK_SHEAR)->has);
}

static void the_shortest_load_lends_its_duration(void **state)
{
    tracked t;
    prepare(*state, &t);
    assert_true(bwi_track(&t.tracker, 0, BW_CHECK_BENDING, &t.in, 0.0, &t.event));
    assert_true(bwi_tracked(&t.tracker, 0, BW_CHECK_BENDING)->input.load_duration == 0.9);
}

/* What cannot be worked out must not be hidden by a smaller worry that can. */
static void what_is_not_a_number_stays_the_worst(void **state)
{
    tracked t;
    prepare(*state, &t);
    bwi_tracker *k = &t.tracker;
    assert_true(bwi_track(k, 3, BW_CHECK_BENDING, &t.in, 0.1, &t.event));
    t.in.moment = (double)NAN;
    assert_true(bwi_track(k, 3, BW_CHECK_BENDING, &t.in, 0.2, &t.event));
    t.in.moment = 1e9;
    assert_false(bwi_track(k, 3, BW_CHECK_BENDING, &t.in, 0.3, &t.event));
    assert_true(isnan(bwi_tracked(k, 3, BW_CHECK_BENDING)->ratio.utilisation));
}

/* Factored actions are not for the ground, unfactored ones beside them for it alone; how
 * far things give is always kept. */
static void ground_is_asked_under_its_own_combinations(void **state)
{
    tracked t;
    prepare(*state, &t);
    bwi_tracker *k = &t.tracker;
    t.in.soil = BW_SOIL_SAND;
    t.in.foot_force = 2385.0;
    t.in.foot_area = 0.0713;
    t.in.deflection = 0.0031;
    t.in.span = 2.713;
    t.in.limit = 360.0;
    t.event.not_ground = true;
    assert_true(bwi_track(k, 8, BW_CHECK_BENDING, &t.in, 0.0, &t.event));
    assert_false(bwi_track(k, 8, BW_CHECK_SOIL_BEARING, &t.in, 0.0, &t.event));
    t.event.not_ground = false;
    t.event.only_ground = true;
    t.in.moment *= 2.0;
    assert_false(bwi_track(k, 8, BW_CHECK_BENDING, &t.in, 0.0, &t.event));
    assert_true(bwi_track(k, 8, BW_CHECK_SOIL_BEARING, &t.in, 0.0, &t.event));
    assert_true(bwi_track(k, 8, BW_CHECK_DEFLECTION, &t.in, 0.0, &t.event));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(members_are_stringers_then_caps_then_posts),
        WITH_ARENA(only_what_is_worse_replaces_the_worst),
        WITH_ARENA(the_shortest_load_lends_its_duration),
        WITH_ARENA(what_is_not_a_number_stays_the_worst),
        WITH_ARENA(ground_is_asked_under_its_own_combinations),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
