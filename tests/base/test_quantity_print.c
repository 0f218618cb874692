#include "arena_fixture.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <float.h>
#include <math.h>
#include <string.h>

typedef struct {
    double value;
    const char *imperial, *metric;
} row;

static void lengths_print_as_a_tape_reads(void **state)
{
    static const row rows[] = {
        {0.0, "0 in", "0 mm"},
        {1.9939, "6 ft 6 1/2 in", "1.99 m"},
        {0.18415, "7 1/4 in", "184 mm"},
        {-0.762, "-2 ft 6 in", "-762 mm"},
        {0.0127, "1/2 in", "13 mm"},
        {0.3048, "1 ft", "305 mm"},
        {0.3175, "1 ft 1/2 in", "318 mm"},
        {0.30400625, "1 ft", "304 mm"}, /* 11 31/32 in goes up a foot */
        {0.3031, "11 15/16 in", "303 mm"},
        {2.29, "7 ft 6 3/16 in", "2.29 m"},
        {0.64, "2 ft 1 3/16 in", "640 mm"},
        {0.9994, "3 ft 3 3/8 in", "999 mm"},
        {0.9996, "3 ft 3 3/8 in", "1.00 m"}, /* not 1000 mm */
        {12.345, "40 ft 6 in", "12.35 m"},
        {0.0004, "0 in", "0 mm"},
        {-0.0004, "0 in", "0 mm"}, /* no minus nothing */
        {1e300, "3.281e300 ft", "1e300 m"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_string_equal(
            bw_quantity_print(*state, BW_LENGTH, rows[i].value, BW_IMPERIAL),
            rows[i].imperial);
        assert_string_equal(
            bw_quantity_print(*state, BW_LENGTH, rows[i].value, BW_METRIC),
            rows[i].metric);
    }
}

static void sections_print_without_feet(void **state)
{
    static const row rows[] = {
        {0.20955, "8 1/4 in", "210 mm"},   {0.65405, "25 3/4 in", "654 mm"},
        {1.9812, "78 in", "1981 mm"},      {0.0, "0 in", "0 mm"},
        {-0.0047625, "-3/16 in", "-5 mm"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_string_equal(bw_length_print_small(*state, rows[i].value, BW_IMPERIAL),
                            rows[i].imperial);
        assert_string_equal(bw_length_print_small(*state, rows[i].value, BW_METRIC),
                            rows[i].metric);
    }
}

static void deflections_print_with_decimals(void **state)
{
    static const row rows[] = {
        {0.003, "0.12 in", "3.0 mm"},    {0.0, "0.00 in", "0.0 mm"},
        {-0.00001, "0.00 in", "0.0 mm"}, {-0.0127, "-0.50 in", "-12.7 mm"},
        {0.2385, "9.39 in", "238.5 mm"}, {1e300, "3.937e301 in", "1e303 mm"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_string_equal(bw_length_print_decimal(*state, rows[i].value, BW_IMPERIAL),
                            rows[i].imperial);
        assert_string_equal(bw_length_print_decimal(*state, rows[i].value, BW_METRIC),
                            rows[i].metric);
    }
}

/* By hand from the sizes of NIST SP 811, Appendix B.8 (MEMORY), four digits (COMPUTED).
 */
static void quantities_print_in_the_usual_unit(void **state)
{
    static const struct {
        bw_quantity quantity;
        row row;
    } rows[] = {
        {BW_NUMBER, {0.75, "0.75", "0.75"}},
        {BW_NUMBER, {2.38549, "2.385", "2.385"}},
        {BW_NUMBER, {123456.0, "123500", "123500"}},
        {BW_NUMBER, {999.96, "1000", "1000"}},
        {BW_NUMBER, {0.00012344, "0.0001234", "0.0001234"}},
        {BW_NUMBER, {0.000012344, "1.234e-5", "1.234e-5"}},
        {BW_NUMBER, {-7e9, "-7e9", "-7e9"}},
        {BW_NUMBER, {0.0, "0", "0"}},
        {BW_NUMBER, {-0.0, "0", "0"}},
        {BW_NUMBER, {(double)INFINITY, "not a finite number", "not a finite number"}},
        {BW_AREA, {0.00774192, "12 in2", "77.42 cm2"}},
        {BW_AREA, {0.4, "4.306 ft2", "0.4 m2"}},
        {BW_SECOND_MOMENT, {8.4e-5, "201.8 in4", "8400 cm4"}},
        {BW_SECTION_MODULUS, {8.5e-4, "51.87 in3", "850 cm3"}},
        {BW_FORCE, {1334.46648457815, "300 lb", "1.334 kN"}},
        {BW_FORCE, {850.0, "191.1 lb", "850 N"}},
        {BW_FORCE, {999.96, "224.8 lb", "1 kN"}},
        {BW_FORCE, {-1300.0, "-292.3 lb", "-1.3 kN"}},
        {BW_MASS, {115.21246198, "254 lb", "115.2 kg"}},
        {BW_PRESSURE, {2872.8155388, "60 psf", "2.873 kPa"}},
        {BW_STRESS, {7.4463378766e9, "1080000 psi", "7446 MPa"}},
        {BW_STRESS, {9.3e6, "1349 psi", "9.3 MPa"}},
        {BW_LINE_LOAD, {4086.2928, "280 lb/ft", "4.086 kN/m"}},
        {BW_MOMENT, {1626.98153799768, "1200 lb-ft", "1.627 kN-m"}},
        {BW_DENSITY, {640.0, "39.95 lb/ft3", "640 kg/m3"}},
        {BW_ANGLE, {0.5, "28.65 deg", "28.65 deg"}},
        {BW_SLOPE, {0.08, "8 %", "8 %"}},
        {BW_SPEED, {6.7056, "15 mph", "24.14 km/h"}},
        {BW_STIFFNESS, {2e5, "1142 lb/in", "200 kN/m"}},
        {BW_TURN_STIFFNESS, {2e4, "14750 lb-ft/rad", "20 kN-m/rad"}},
        {BW_SUBGRADE, {2e7, "73.68 lb/in3", "20 MN/m3"}},
        {BW_SUBGRADE_RATE, {23600.0, "150.2 psf/ft", "23.6 kPa/m"}},
        {BW_DURATION, {600.0, "10 min", "10 min"}},
        {BW_DURATION, {59.0, "59 s", "59 s"}},
        {BW_DURATION, {604800.0, "7 days", "7 days"}},
        {BW_DURATION, {86400.0, "1 day", "1 day"}},
        {BW_DURATION, {63115200.0, "2 years", "2 years"}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const row *r = &rows[i].row;
        assert_string_equal(
            bw_quantity_print(*state, rows[i].quantity, r->value, BW_IMPERIAL),
            r->imperial);
        assert_string_equal(
            bw_quantity_print(*state, rows[i].quantity, r->value, BW_METRIC), r->metric);
    }
}

static void values_that_are_not_finite_say_so(void **state)
{
    static const double values[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
    for (size_t i = 0; i < sizeof values / sizeof values[0]; i++) {
        for (int q = 0; q < BW_QUANTITY_COUNT; q++) {
            for (int units = BW_IMPERIAL; units <= BW_METRIC; units++) {
                const char *text =
                    bw_quantity_print(*state, (bw_quantity)q, values[i], (bw_units)units);
                assert_non_null(strstr(text, "not a finite number"));
            }
        }
        assert_non_null(
            strstr(bw_length_print_small(*state, values[i], BW_METRIC), "finite"));
        assert_non_null(
            strstr(bw_length_print_decimal(*state, values[i], BW_METRIC), "finite"));
    }
}

static double read_back(bw_quantity quantity, const char *text)
{
    double value = (double)NAN;
    if (bw_quantity_parse(quantity, text, &value) != BW_PARSE_OK) {
        fail_msg("\"%s\" is not read as %s", text, bw_quantity_name(quantity));
    }
    return value;
}

/* Every sixteenth up to 20 ft and every millimetre up to 1 m come back as they were. */
static void printed_lengths_read_back(void **state)
{
    for (int k = -3840; k <= 3840; k++) {
        const double value = k / 16.0 * 0.0254;
        const char *tape = bw_quantity_print(*state, BW_LENGTH, value, BW_IMPERIAL);
        assert_true(fabs(read_back(BW_LENGTH, tape) - value) <=
                    DBL_EPSILON * fabs(value));
        const char *small = bw_length_print_small(*state, value, BW_IMPERIAL);
        assert_true(fabs(read_back(BW_LENGTH, small) - value) <=
                    DBL_EPSILON * fabs(value));
    }
    for (int k = -999; k < 1000; k++) {
        const char *text = bw_quantity_print(*state, BW_LENGTH, k / 1000.0, BW_METRIC);
        assert_true(read_back(BW_LENGTH, text) == k / 1000.0);
    }
}

/* Any value, printed, read and printed again: the same text, and a value within half a
 * unit of the fourth digit. */
static void printed_quantities_read_back(void **state)
{
    for (int q = 0; q < BW_QUANTITY_COUNT; q++) {
        const bw_quantity quantity = (bw_quantity)q;
        if (quantity == BW_LENGTH) {
            continue;
        }
        for (double value = 2.385e-9; value < 1e13; value *= 1.0137) {
            for (int units = BW_IMPERIAL; units <= BW_METRIC; units++) {
                const bw_arena_mark mark = bw_arena_now(*state);
                const char *text =
                    bw_quantity_print(*state, quantity, -value, (bw_units)units);
                const double back = read_back(quantity, text);
                assert_true(fabs(back + value) <= 0.50001e-3 * value);
                assert_string_equal(
                    text, bw_quantity_print(*state, quantity, back, (bw_units)units));
                bw_arena_back(*state, mark);
            }
        }
    }
}

static void printing_without_memory_gives_null(void **state)
{
    static const bw_quantity some[] = {BW_NUMBER, BW_LENGTH, BW_FORCE};
    for (size_t i = 0; i < sizeof some / sizeof some[0]; i++) {
        for (int units = BW_IMPERIAL; units <= BW_METRIC; units++) {
            bw_arena_fail_after(1);
            assert_null(bw_quantity_print(*state, some[i], 0.2385, (bw_units)units));
            bw_arena_fail_after(0);
        }
    }
    bw_arena_fail_after(1);
    assert_null(bw_length_print_small(*state, 0.2, BW_IMPERIAL));
    assert_null(bw_length_print_decimal(*state, 0.2, BW_METRIC));
    bw_arena_fail_after(2);
    assert_null(bw_quantity_print(*state, BW_FORCE, 0.2385, BW_METRIC));
    bw_arena_fail_after(0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(lengths_print_as_a_tape_reads),
        WITH_ARENA(sections_print_without_feet),
        WITH_ARENA(deflections_print_with_decimals),
        WITH_ARENA(quantities_print_in_the_usual_unit),
        WITH_ARENA(values_that_are_not_finite_say_so),
        WITH_ARENA(printed_lengths_read_back),
        WITH_ARENA(printed_quantities_read_back),
        WITH_ARENA(printing_without_memory_gives_null),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
