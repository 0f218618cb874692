/* The table of the basis: complete, in order, and each row says what it is. */
#include "sample.h"

static void basis_is_found_by_its_id_only(void **state)
{
    (void)state;
    assert_ptr_equal(bw_basis_find("us_asd"), &bw_us_asd);
    assert_null(bw_basis_find("us_as"));
    assert_null(bw_basis_find(""));
    assert_null(bw_basis_find(NULL));
}

static void every_kind_has_a_row_of_its_own(void **state)
{
    (void)state;
    assert_non_null(bw_us_asd.reference);
    assert_non_null(bw_us_asd.combinations);
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const bw_check *check = bw_us_asd.checks[kind];
        assert_non_null(check);
        assert_int_equal(check->kind, kind);
        assert_non_null(check->ratio);
        assert_true(check->mark != BW_MARK_NONE);
        assert_true(strlen(check->title) > 0 && strlen(check->source) > 0);
        for (int other = 0; other < kind; other++) {
            assert_string_not_equal(check->id, bw_us_asd.checks[other]->id);
        }
    }
}

static void formulas_are_plain_ascii(void **state)
{
    (void)state;
    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        for (const char *c = bw_us_asd.checks[kind]->formula; *c != '\0'; c++) {
            assert_true(*c >= ' ' && *c <= '~');
        }
    }
}

static void nothing_given_is_never_within(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input nothing = {0};
    const bw_check_input only_wood = {.reference = &reference};

    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const bw_check *check = bw_us_asd.checks[kind];
        assert_int_equal(bw_verdict_of(utilisation_of(check, &nothing)), BW_CANNOT_SAY);
        assert_int_equal(bw_verdict_of(utilisation_of(check, &only_wood)), BW_CANNOT_SAY);
    }
}

/* The reference governs every strength check in proportion, whatever the unit of stress.
 */
static void all_in_another_system_gives_the_same_utilisation(void **state)
{
    (void)state;
    const bw_reference reference = sample_reference();
    const bw_check_input in = sample_input(&reference);
    /* The same sample worked in newtons and millimetres, rounded as a person would
     * measure. */
    const bw_reference metric = {.value = {[BW_BENDING_STRENGTH] = 9.307923e6,
                                           [BW_SHEAR_STRENGTH] = 0.5860544e6,
                                           [BW_BEARING] = 1.654742e6,
                                           [BW_COMPRESSION] = 4.826330e6,
                                           [BW_MODULUS] = 7.446339e9,
                                           [BW_MODULUS_MIN] = 2.964746e9}};
    const bw_check_input same = {.reference = &metric,
                                 .diameter = 0.16002,
                                 .axial = 14100.86,
                                 .shear = 1926.080,
                                 .moment = 482.4452,
                                 .load_duration = 1.15,
                                 .diameter_small = 0.14478,
                                 .diameter_large = 0.17526,
                                 .length = 2.2098,
                                 .effective_factor = 1.0,
                                 .force = 5026.490,
                                 .bearing_area = 0.011548364,
                                 .bearing_length = 0.08382,
                                 .bearing_inside = true,
                                 .deflection = 0.0034798,
                                 .deflection_dead = 0.0007874,
                                 .span = 2.5654,
                                 .limit = 360.0,
                                 .soil = BW_SOIL_SAND,
                                 .hole_depth = 0.8636,
                                 .embedded_width = 0.18034,
                                 .push = 164.58420,
                                 .push_moment = 103.15515,
                                 .foot_force = 2357.5575,
                                 .foot_area = 0.033096708,
                                 .pull = 271.34152,
                                 .foot_dead = 1730.3582,
                                 .buried_weight = 191.27353,
                                 .buckling_factor = 3.7,
                                 .stiffness_ratio = 0.41,
                                 .joint = &lag_joint,
                                 .side_angle = 1.5707963267948966,
                                 .grain_angle = 0.73};

    for (int kind = 0; kind < BW_CHECK_KIND_COUNT; kind++) {
        const bw_check *check = bw_us_asd.checks[kind];
        bw_check_input a = in, b = same;
        if (kind == BW_CHECK_SPLIT) { /* others would read this as a notch */
            a.notch_left = inch(5.0), b.notch_left = 0.127;
            a.notch_whole = inch(6.3), b.notch_whole = 0.16002;
            a.section.area = in_unit(BW_AREA, 25.0, "in2"), b.section.area = 0.016129;
        }
        assert_close(utilisation_of(check, &a), utilisation_of(check, &b), 1e-6);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(basis_is_found_by_its_id_only),
        cmocka_unit_test(every_kind_has_a_row_of_its_own),
        cmocka_unit_test(formulas_are_plain_ascii),
        cmocka_unit_test(nothing_given_is_never_within),
        cmocka_unit_test(all_in_another_system_gives_the_same_utilisation),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
