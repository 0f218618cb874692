/* A finding: the same numbers as the search, the whole working, and memory faults
 * reported. */
#include "sample.h"

static void search_and_record_agree(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_reference reference = sample_reference();

    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const bw_check_input in = sample_input_of(&reference, kind);
        const bw_check *check = bw_us_asd.checks[kind];
        const bw_ratio searched = check->ratio(&in, NULL);
        bw_finding finding = {0};
        assert_int_equal(bw_finding_make(arena, check, &in, &finding), BW_OK);
        assert_true(finding.ratio.demand == searched.demand);
        assert_true(finding.ratio.capacity == searched.capacity);
        assert_true(finding.ratio.utilisation == searched.utilisation);
        assert_int_equal(finding.verdict, BW_WITHIN);
        assert_ptr_equal(finding.check, check);
    }
    bw_arena_free(arena);
}

/* Demand and capacity of the result stand in the working, and factors name a source. */
static void working_holds_the_result_and_its_sources(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_reference reference = sample_reference();

    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const bw_check_input in = sample_input_of(&reference, kind);
        bw_finding finding = {0};
        bool has_demand = false,
             has_capacity = kind == BW_CHECK_COMBINED; /* there it is 1 */
        assert_int_equal(bw_finding_make(arena, bw_us_asd.checks[kind], &in, &finding),
                         BW_OK);
        assert_true(finding.working.count >= 4);
        for (size_t i = 0; i < finding.working.count; i++) {
            const bw_term *term = &finding.working.items[i];
            has_demand = has_demand || term->value == finding.ratio.demand;
            has_capacity = has_capacity || term->value == finding.ratio.capacity;
            assert_true(isfinite(term->value));
            assert_non_null(term->meaning);
            assert_true((term->mark == BW_MARK_NONE) == (term->source == NULL));
        }
        assert_true(has_demand && has_capacity);
    }
    bw_arena_free(arena);
}

static void place_fields_are_left_to_the_caller(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    const bw_reference reference = sample_reference();
    const bw_check_input in = sample_input(&reference);
    bw_finding finding = {.member = "stringer S2", .station = 1.37, .note = "a note"};

    assert_int_equal(bw_finding_make(arena, &bwi_us_shear, &in, &finding), BW_OK);
    assert_string_equal(finding.member, "stringer S2");
    assert_string_equal(finding.note, "a note");
    assert_true(finding.station == 1.37);
    bw_arena_free(arena);
}

static void lost_memory_is_reported_at_every_allocation(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input in = sample_input(&reference);
    bw_status status = BW_E_MEMORY;
    unsigned long n = 0;

    while (status != BW_OK && n < 100) {
        bw_arena *arena = bw_arena_new();
        bw_finding finding = {0};
        n++;
        bw_arena_fail_after(n);
        status = bw_finding_make(arena, &bwi_us_combined, &in, &finding);
        bw_arena_fail_after(0);
        assert_true(status == BW_OK || status == BW_E_MEMORY);
        bw_arena_free(arena);
    }
    assert_int_equal(status, BW_OK);
    assert_true(n > 1);
}

static void missing_wood_cannot_say(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_check_input in = sample_input(NULL);
    bw_finding finding = {0};

    for (int kind = BW_CHECK_BENDING; kind <= BW_CHECK_END_BEARING; kind++) {
        assert_int_equal(bw_finding_make(arena, bw_us_asd.checks[kind], &in, &finding),
                         BW_OK);
        assert_int_equal(finding.verdict, BW_CANNOT_SAY);
    }
    bw_arena_free(arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(search_and_record_agree),
        cmocka_unit_test(working_holds_the_result_and_its_sources),
        cmocka_unit_test(place_fields_are_left_to_the_caller),
        cmocka_unit_test(lost_memory_is_reported_at_every_allocation),
        cmocka_unit_test(missing_wood_cannot_say),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
