/* The table of limit-state design, its combinations and what it takes for granted. */
#include "ec_sample.h"

static void basis_is_found_by_its_id(void **state)
{
    (void)state;
    assert_ptr_equal(bw_basis_find("eurocode"), &bw_eurocode);
    assert_null(bw_basis_at(2));
}

static void every_kind_has_a_row_of_its_own(void **state)
{
    (void)state;
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const bw_check *check = bw_eurocode.checks[kind];
        assert_non_null(check);
        assert_int_equal(check->kind, kind);
        assert_non_null(check->ratio);
        assert_true(check->mark != BW_MARK_NONE);
        assert_string_equal(check->id, bw_us_asd.checks[kind]->id);
        for (const char *c = check->formula; *c != '\0'; c++) {
            assert_true(*c >= ' ' && *c <= '~');
        }
    }
}

static void nothing_given_is_never_within(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    const bw_check_input nothing = {0};
    const bw_check_input only_wood = {.reference = &reference};

    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const bw_check *check = bw_eurocode.checks[kind];
        assert_int_equal(bw_verdict_of(utilisation_of(check, &nothing)), BW_CANNOT_SAY);
        assert_int_equal(bw_verdict_of(utilisation_of(check, &only_wood)), BW_CANNOT_SAY);
    }
}

/* The working ends where the ratio came from: what is recorded gives it again. */
static void working_tells_what_was_calculated(void **state)
{
    (void)state;
    const bw_reference reference = ec_reference();
    const bw_check_input in = ec_input(&reference);
    bw_arena *arena = bw_arena_new();
    bw_working working = bw_working_new(arena);

    const bw_ratio ratio = bwi_ec_combined.ratio(&in, &working);
    assert_close(recorded(&working, "u"), ratio.utilisation, 1e-12);
    assert_close(recorded(&working, "u_c") +
                     recorded(&working, "sigma_m,d") / recorded(&working, "f_m,d"),
                 ratio.utilisation, 1e-12);
    assert_close(recorded(&working, "k_mod") * recorded(&working, "f_c,0,k") /
                     recorded(&working, "gamma_M"),
                 recorded(&working, "f_c,0,d"), 1e-12);
    assert_false(working.failed);
    bw_arena_free(arena);
}

static size_t list_of(bool crowd, bool snow, bool rider, bw_combination *list)
{
    const bw_actions_present present = {.crowd = crowd, .snow = snow, .rider = rider};
    return bw_eurocode.combinations(&present, list);
}

/* EN 1990 (6.10): 1.35 and 1.5 (READ); the accompanying action with psi_0 = 0.7, and 1.0
 * for the weight where it holds down what others lift (MEMORY). */
static void each_action_leads_once(void **state)
{
    (void)state;
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = list_of(true, true, true, list);
    int leads_crowd = 0, leads_snow = 0, rider = 0, light = 0;

    assert_int_equal(n, 19);
    for (size_t i = 0; i < n; i++) {
        assert_true(list[i].strength || list[i].service);
        if (list[i].strength && list[i].slow == 0.0) {
            assert_true(list[i].dead == 1.35 || list[i].dead == 1.0);
            light += list[i].dead == 1.0 && list[i].crowd + list[i].rider == 1.5;
            assert_true(list[i].rider == 0.0 || list[i].crowd == 0.0);
            leads_crowd += list[i].crowd == 1.5 && list[i].snow == 1.5 * 0.7;
            leads_snow += list[i].snow == 1.5 && list[i].crowd == 1.5 * 0.7;
            rider +=
                list[i].rider == 1.5 && list[i].dead == 1.35; /* alone and with snow */
        }
    }
    assert_true(leads_crowd == 1 && leads_snow == 1 && rider == 2 && light == 2);
}

static void what_is_not_there_is_in_no_combination(void **state)
{
    (void)state;
    bw_combination list[BW_COMBINATIONS_MAX];

    for (int bits = 0; bits < 8; bits++) {
        const bool crowd = (bits & 1) != 0, snow = (bits & 2) != 0;
        const bool rider = (bits & 4) != 0;
        const size_t n = list_of(crowd, snow, rider, list);
        bool strength = false, service = false;
        for (size_t i = 0; i < n; i++) {
            assert_true(crowd || list[i].crowd == 0.0);
            assert_true(snow || list[i].snow == 0.0);
            assert_true(rider || list[i].rider == 0.0);
            strength = strength || list[i].strength;
            service = service || list[i].service;
            for (size_t j = 0; j < i; j++) {
                assert_string_not_equal(list[i].title, list[j].title);
            }
        }
        assert_true(strength && service);
    }
}

/* Deflection has no partial factors; 1.35 G of the first row is never read for it. */
static void service_is_not_factored(void **state)
{
    (void)state;
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = list_of(true, true, true, list);

    for (size_t i = 0; i < n; i++) {
        if (list[i].service) {
            assert_true(list[i].crowd <= 1.0 && list[i].snow <= 1.0);
            assert_true(list[i].rider == 0.0 || list[i].rider == 1.0);
            assert_true(list[i].lasting_share >= 0.0 && list[i].lasting_share <= 0.6);
        }
    }
}

/* Allowable soil values hold the whole safety: what is factored is not for the ground,
 * and every action that is there stands in a combination that is. */
static void ground_has_combinations_of_its_own(void **state)
{
    (void)state;
    bw_combination list[BW_COMBINATIONS_MAX];
    for (int bits = 0; bits < 8; bits++) {
        const bool crowd = (bits & 1) != 0, snow = (bits & 2) != 0;
        const bool rider = (bits & 4) != 0;
        const size_t n = list_of(crowd, snow, rider, list);
        bool has_crowd = false, has_snow = false, has_rider = false, has_both = false;
        for (size_t i = 0; i < n; i++) {
            assert_true(list[i].factored == list[i].strength);
            if (!list[i].factored) {
                assert_true(list[i].dead == 1.0);
                has_crowd = has_crowd || list[i].crowd == 1.0;
                has_snow = has_snow || list[i].snow == 1.0;
                has_rider = has_rider || list[i].rider == 1.0;
                has_both = has_both || (list[i].rider == 1.0 && list[i].snow == 0.7);
            }
        }
        assert_true(has_crowd == crowd && has_snow == snow && has_rider == rider);
        assert_true(has_both == (rider && snow));
    }
}

/* k_mod of Table 3.1, service class 3 (READ). */
static void shortest_action_gives_the_duration(void **state)
{
    (void)state;
    bw_combination list[BW_COMBINATIONS_MAX];
    const size_t n = list_of(true, true, true, list);

    for (size_t i = 0; i < n; i++) {
        if (list[i].strength) {
            const bool people = list[i].crowd > 0.0 || list[i].snow > 0.0;
            assert_true(list[i].duration == (list[i].slow > 0.0    ? 0.70
                                             : list[i].rider > 0.0 ? 0.90
                                             : people              ? 0.65
                                                                   : 0.50));
        }
    }
    const bw_actions_present own = {.rider = true, .rider_duration = 0.55};
    bw_eurocode.combinations(&own, list);
    assert_true(list[1].duration == 0.55);
}

static void what_is_taken_for_granted_is_told(void **state)
{
    (void)state;
    size_t n = 0;
    for (const bw_sourced_text *note = bw_eurocode.notes; note->text != NULL; note++) {
        assert_true(note->mark != BW_MARK_NONE && note->source != NULL);
        n++;
    }
    assert_true(n > 0);
}

/* A log whose species alone is known gives the characteristic values, lowered by what
 * nobody looked at; one graded to a class its class's, and silence costs nothing. */
static void reference_values_are_those_of_the_wood_and_its_grade(void **state)
{
    (void)state;
    static const bw_species wood = {
        .id = "of_this_test",
        .region = "North America",
        .group = BW_SOFTWOOD,
        .rupture = {41.3e6, BW_MARK_COMPUTED, "of this test"},
        .modulus = {8.1e9, BW_MARK_COMPUTED, "of this test"},
        .shear = {5.3e6, BW_MARK_COMPUTED, "of this test"},
        .compression = {19.7e6, BW_MARK_COMPUTED, "of this test"},
        .bearing = {2.9e6, BW_MARK_COMPUTED, "of this test"},
        .specific_gravity = {0.41, BW_MARK_COMPUTED, "of this test"},
    };
    const bw_log plain = {.species = &wood};
    bw_arena *arena = bw_arena_new();
    bw_reference bare = {0}, got = {0};
    assert_int_equal(bw_characteristic_reference(arena, &wood, NULL, &bare), BW_OK);
    assert_int_equal(bw_eurocode.reference(arena, &plain, &got), BW_OK);
    for (int i = 0; i < BW_PROPERTY_COUNT; i++) {
        const double silence = bw_grade_factor(&plain.grade, (bw_property)i, NULL);
        assert_close(got.value[i], bare.value[i] * silence, 1e-12);
    }
    assert_true(got.value[BW_BENDING_STRENGTH] < bare.value[BW_BENDING_STRENGTH]);
    const bw_log classed = {.species = &wood,
                            .strength_class = bw_strength_class_find("C18")};
    assert_non_null(classed.strength_class);
    assert_int_equal(bw_eurocode.reference(arena, &classed, &got), BW_OK);
    assert_close(got.value[BW_BENDING_STRENGTH], 18e6, 1e-12); /* EN 338:2016, READ */
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(basis_is_found_by_its_id),
        cmocka_unit_test(every_kind_has_a_row_of_its_own),
        cmocka_unit_test(nothing_given_is_never_within),
        cmocka_unit_test(working_tells_what_was_calculated),
        cmocka_unit_test(each_action_leads_once),
        cmocka_unit_test(what_is_not_there_is_in_no_combination),
        cmocka_unit_test(service_is_not_factored),
        cmocka_unit_test(ground_has_combinations_of_its_own),
        cmocka_unit_test(shortest_action_gives_the_duration),
        cmocka_unit_test(what_is_taken_for_granted_is_told),
        cmocka_unit_test(reference_values_are_those_of_the_wood_and_its_grade),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
