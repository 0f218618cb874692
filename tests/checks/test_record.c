/* Ratios and comparisons let no NaN through; reference values bring their source. */
#include "sample.h"

static const double nan_value = (double)NAN;

static void comparisons_keep_nan(void **state)
{
    (void)state;
    assert_true(isnan(bwi_larger(nan_value, 2.4)));
    assert_true(isnan(bwi_larger(2.4, nan_value)));
    assert_true(isnan(bwi_smaller(nan_value, 2.4)));
    assert_true(isnan(bwi_smaller(2.4, nan_value)));
    assert_true(bwi_larger(2.4, 3.7) == 3.7 && bwi_larger(3.7, 2.4) == 3.7);
    assert_true(bwi_smaller(2.4, 3.7) == 2.4 && bwi_smaller(3.7, 2.4) == 2.4);
}

static void ratio_of_sound_numbers_is_their_quotient(void **state)
{
    (void)state;
    const bw_ratio ratio = bwi_ratio_of(3.5, 2.8);

    assert_close(ratio.utilisation, 1.25, 1e-15);
    assert_true(ratio.demand == 3.5 && ratio.capacity == 2.8);
    assert_true(bwi_ratio_of(0.0, 2.8).utilisation == 0.0);
}

static void ratio_with_a_senseless_part_is_nan(void **state)
{
    (void)state;
    const double senseless[] = {nan_value, (double)INFINITY, -(double)INFINITY, -2.4};

    for (size_t i = 0; i < sizeof senseless / sizeof senseless[0]; i++) {
        assert_true(isnan(bwi_ratio_of(senseless[i], 2.8).utilisation));
        assert_true(isnan(bwi_ratio_of(3.5, senseless[i]).utilisation));
    }
    assert_true(isnan(bwi_ratio_of(3.5, 0.0).utilisation));
    assert_true(isnan(bwi_ratio_of(0.0, 0.0).utilisation));
}

static void reference_value_without_a_reference_is_nan(void **state)
{
    (void)state;
    bw_reference reference = sample_reference();
    bw_check_input in = {.reference = &reference};

    assert_close(bwi_reference_value(&in, BW_BEARING), psi(240.0), 1e-15);
    reference.value[BW_BEARING] = 0.0;
    assert_true(isnan(bwi_reference_value(&in, BW_BEARING)));
    in.reference = NULL;
    assert_true(isnan(bwi_reference_value(&in, BW_SHEAR_STRENGTH)));
}

static void reference_line_names_the_source_of_its_ladder(void **state)
{
    (void)state;
    bw_arena *arena = bw_arena_new();
    bw_reference reference = sample_reference();
    const bw_check_input in = {.reference = &reference};
    bw_working working = bw_working_new(arena);

    reference.ladder[BW_SHEAR_STRENGTH] = bw_working_new(arena);
    bw_working_add(
        &reference.ladder[BW_SHEAR_STRENGTH],
        (bw_term){"F_v", "value", psi(85.0), BW_STRESS, BW_MARK_MEMORY, "a table"});
    bwi_record_reference(&working, &in, BW_SHEAR_STRENGTH);
    bwi_record_reference(&working, &in, BW_BENDING_STRENGTH);
    assert_int_equal(working.count, 2);
    assert_string_equal(working.items[0].symbol, "F_v");
    assert_string_equal(working.items[0].source, "a table");
    assert_int_equal(working.items[0].mark, BW_MARK_MEMORY);
    assert_string_equal(working.items[1].symbol, "F_b");
    assert_non_null(working.items[1].source);
    bw_arena_free(arena);
}

static void recording_into_nothing_is_allowed(void **state)
{
    (void)state;
    const bw_check_input in = {0};

    bwi_record(NULL, "x", "nothing", 1.7, BW_LENGTH);
    bwi_record_number(NULL, "x", "nothing", 1.7, BW_MARK_READ, "none");
    bwi_record_reference(NULL, &in, BW_MODULUS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(comparisons_keep_nan),
        cmocka_unit_test(ratio_of_sound_numbers_is_their_quotient),
        cmocka_unit_test(ratio_with_a_senseless_part_is_nan),
        cmocka_unit_test(reference_value_without_a_reference_is_nan),
        cmocka_unit_test(reference_line_names_the_source_of_its_ladder),
        cmocka_unit_test(recording_into_nothing_is_allowed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
