/* Bearing across the grain. */
#include "sample.h"

/* COMPUTED by hand: 1130 lb on 17.9 in2 is 63.1285 psi; C_b = (3.3 + 0.375) / 3.3
 * = 1.113636, 240 psi become 267.273 psi. */
static void inside_a_piece_agrees_with_the_hand_calculation(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input in = sample_input(&reference);
    const bw_ratio ratio = bwi_us_bearing.ratio(&in, NULL);

    assert_close(ratio.demand, psi(63.1285), 1e-6);
    assert_close(ratio.capacity, psi(267.273), 2e-6);
}

static void near_an_end_nothing_is_added(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.bearing_inside = false;
    in.bearing_length = 0.0;
    assert_close(bwi_us_bearing.ratio(&in, NULL).capacity, psi(240.0), 1e-14);
}

static void load_duration_does_not_count(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);
    const double ten_minutes = utilisation_of(&bwi_us_bearing, &in);

    in.load_duration = 0.9;
    assert_true(utilisation_of(&bwi_us_bearing, &in) == ten_minutes);
}

static void lifting_cannot_say(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    in.force = -pound(213.0);
    assert_int_equal(bw_verdict_of(utilisation_of(&bwi_us_bearing, &in)), BW_CANNOT_SAY);
}

static void more_load_is_worse_and_more_area_better(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_monotonic(&bwi_us_bearing, &in, &in.force, 0.0, 9.7e4, true);
    assert_monotonic(&bwi_us_bearing, &in, &in.bearing_area, 0.001, 0.09, false);
}

static void senseless_input_is_never_within(void **state)
{
    (void)state;
    bw_reference reference = sample_reference();
    bw_check_input in = sample_input(&reference);

    assert_never_within(&bwi_us_bearing, &in, &in.bearing_area, BAD_SIZES);
    assert_never_within(&bwi_us_bearing, &in, &in.bearing_length, BAD_SIZES);
    assert_never_within(&bwi_us_bearing, &in, &in.force, BAD_LOADS);
    assert_never_within(&bwi_us_bearing, &in, &reference.value[BW_BEARING], BAD_SIZES);
}

/* (l_b + 3/8 in) / l_b below 5 5/8 in; from there to 6 in no more than 6 in of length
 * carries, and the working says which of them it was. */
static void bearing_length_rules_its_factor_and_its_words(void **state)
{
    (void)state;
    static const struct {
        double length, factor;
        const char *words;
    } of[] = {{0.4, 1.75, "(l_b + 3/8 in) / l_b below 6 in"},
              {5.6, 5.975 / 5.6, "(l_b + 3/8 in) / l_b below 6 in"},
              {5.7, 6.0 / 5.7, "6 in / l_b: no more"},
              {5.99, 6.0 / 5.99, "6 in / l_b: no more"},
              {6.1, 1.0, "else 1"}};
    const bw_reference reference = sample_reference();
    bw_arena *arena = bw_arena_new();
    for (size_t k = 0; k < sizeof of / sizeof of[0]; k++) {
        bw_check_input in = sample_input(&reference);
        bw_working working = bw_working_new(arena);
        in.bearing_length = inch(of[k].length);
        (void)bwi_us_bearing.ratio(&in, &working);
        assert_close(recorded(&working, "C_b"), of[k].factor, 1e-12);
        bool said = false;
        for (size_t i = 0; i < working.count; i++) {
            said = said || (strcmp(working.items[i].symbol, "C_b") == 0 &&
                            strstr(working.items[i].meaning, of[k].words) != NULL);
        }
        assert_true(said);
    }
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(inside_a_piece_agrees_with_the_hand_calculation),
        cmocka_unit_test(near_an_end_nothing_is_added),
        cmocka_unit_test(load_duration_does_not_count),
        cmocka_unit_test(lifting_cannot_say),
        cmocka_unit_test(more_load_is_worse_and_more_area_better),
        cmocka_unit_test(senseless_input_is_never_within),
        cmocka_unit_test(bearing_length_rules_its_factor_and_its_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
