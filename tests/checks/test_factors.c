/* Factors of NDS 2018 against other routes to the same numbers. */
#include "sample.h"

/* Second moment of a circle by strips, so that S does not test itself. */
static double modulus_by_strips(double diameter)
{
    const int n = 200000;
    const double R = diameter / 2.0;
    double I = 0.0;

    for (int i = 0; i < n; i++) {
        const double y = -R + (i + 0.5) * diameter / n;
        I += y * y * 2.0 * sqrt(R * R - y * y) * diameter / n;
    }
    return I / R;
}

static void circle_agrees_with_strips(void **state)
{
    (void)state;
    assert_close(bwi_circle_modulus(0.2385), modulus_by_strips(0.2385), 1e-7);
    /* A from S: I = A R^2 / 4 for a circle, so S = A R / 4. */
    assert_close(bwi_circle_modulus(0.2385), bwi_circle_area(0.2385) * 0.2385 / 8.0,
                 1e-14);
}

/* COMPUTED: side = (area)^(1/2); 12 in over the side of a 16.7 in circle, ninth root. */
static void size_factor_is_that_of_the_equal_square(void **state)
{
    (void)state;
    const double side = sqrt(bwi_circle_area(inch(16.7)));

    assert_close(pow(bwi_size_factor(inch(16.7)), 9.0), inch(12.0) / side, 1e-12);
    assert_true(bwi_size_factor(inch(16.7)) < 1.0);
}

static void size_factor_never_exceeds_one_nor_grows(void **state)
{
    (void)state;
    double before = 1.0;

    assert_true(bwi_size_factor(inch(4.1)) == 1.0);
    assert_true(bwi_size_factor(inch(13.5)) == 1.0);
    assert_true(bwi_size_factor(inch(13.51)) ==
                1.0); /* the power alone would give 1.0002 */
    for (double D = 13.4; D < 40.0; D += 0.01) {
        const double now = bwi_size_factor(inch(D));
        assert_true(now <= before);
        before = now;
    }
}

/* NDS Table 3.10.4 (MEMORY): 0.5 in 1.75, 1 in 1.38, 1.5 in 1.25, 2 in 1.19, 3 in 1.13, 4
 * in 1.10 (formula 1.094), 6 in and more 1.00; two printed decimals. */
static void bearing_factor_agrees_with_its_table(void **state)
{
    (void)state;
    static const struct {
        double length, printed, half_digit;
    } rows[] = {{0.5, 1.75, 0.005}, {1.0, 1.38, 0.0051}, {1.5, 1.25, 0.005},
                {2.0, 1.19, 0.005}, {3.0, 1.13, 0.0051}, {6.0, 1.00, 0.0}};

    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const double C_b = bwi_bearing_factor(inch(rows[i].length));
        assert_true(fabs(C_b - rows[i].printed) <= rows[i].half_digit);
    }
    assert_true(bwi_bearing_factor(inch(0.2)) ==
                1.75); /* below the table no more is granted */
    assert_true(bwi_bearing_factor(inch(11.0)) == 1.0);
    assert_true(isnan(bwi_bearing_factor(0.0)) && isnan(bwi_bearing_factor((double)NAN)));
}

/* Force allowed on a contact of the length, over that of 6 in. */
static double carries(double length)
{
    return bwi_bearing_factor(inch(length)) * length / 6.0;
}

static void a_longer_contact_never_carries_less(void **state)
{
    (void)state;
    for (double length = 0.01; length < 7.0; length += 0.01) {
        assert_true(carries(length + 0.01) >= carries(length) * (1.0 - 1e-12));
    }
    assert_true(fabs(carries(5.625) - 1.0) <= 1e-12); /* 5.625 + 0.375 */
    assert_true(fabs(carries(5.9) - 1.0) <= 1e-12);   /* not 6.275 / 6 */
}

static void load_duration_beyond_impact_is_refused(void **state)
{
    (void)state;
    bw_check_input in = {.load_duration = 2.0};

    assert_true(bwi_load_duration(&in) == 2.0);
    in.load_duration = 2.01;
    assert_true(isnan(bwi_load_duration(&in)));
    in.load_duration = 0.0;
    assert_true(isnan(bwi_load_duration(&in)));
    in.load_duration = (double)NAN;
    assert_true(isnan(bwi_load_duration(&in)));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(circle_agrees_with_strips),
        cmocka_unit_test(size_factor_is_that_of_the_equal_square),
        cmocka_unit_test(size_factor_never_exceeds_one_nor_grows),
        cmocka_unit_test(bearing_factor_agrees_with_its_table),
        cmocka_unit_test(a_longer_contact_never_carries_less),
        cmocka_unit_test(load_duration_beyond_impact_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
