#include "bolewright/base.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct {
    bw_quantity quantity;
    const char *unit;
    const char *size; /* SI, as printed in the source */
} published;

/* "Guide for the Use of the International System of Units", NIST SP 811, 2008 edition,
 * Appendix B.8 (MEMORY); seven digits as printed there. */
static const published nist[] = {
    {BW_LENGTH, "in", "2.540000E-02"},
    {BW_LENGTH, "ft", "3.048000E-01"},
    {BW_LENGTH, "yd", "9.144000E-01"},
    {BW_LENGTH, "mile", "1.609344E+03"},
    {BW_AREA, "in2", "6.451600E-04"},
    {BW_AREA, "ft2", "9.290304E-02"},
    {BW_SECTION_MODULUS, "in3", "1.638706E-05"},
    {BW_SECTION_MODULUS, "ft3", "2.831685E-02"},
    {BW_SECOND_MOMENT, "in4", "4.162314E-07"},
    {BW_SECOND_MOMENT, "ft4", "8.630975E-03"},
    {BW_MASS, "lb", "4.535924E-01"},
    {BW_MASS, "tonne", "1.000000E+03"},
    {BW_FORCE, "lb", "4.448222E+00"},
    {BW_FORCE, "lbf", "4.448222E+00"},
    {BW_FORCE, "kip", "4.448222E+03"},
    {BW_FORCE, "kgf", "9.806650E+00"},
    {BW_STRESS, "psi", "6.894757E+03"},
    {BW_STRESS, "ksi", "6.894757E+06"},
    {BW_PRESSURE, "psf", "4.788026E+01"},
    {BW_PRESSURE, "kgf/m2", "9.806650E+00"},
    {BW_LINE_LOAD, "lb/ft", "1.459390E+01"},
    {BW_STIFFNESS, "lb/in", "1.751268E+02"},
    {BW_MOMENT, "lb-ft", "1.355818E+00"},
    {BW_MOMENT, "lb-in", "1.129848E-01"},
    {BW_DENSITY, "lb/ft3", "1.601846E+01"},
    {BW_DENSITY, "lb/in3", "2.767990E+04"},
    {BW_DENSITY, "g/cm3", "1.000000E+03"},
    {BW_ANGLE, "deg", "1.745329E-02"},
    {BW_SPEED, "mph", "4.470400E-01"},
    {BW_SPEED, "km/h", "2.777778E-01"},
    {BW_SPEED, "ft/s", "3.048000E-01"},
    {BW_DURATION, "min", "6.000000E+01"},
    {BW_DURATION, "h", "3.600000E+03"},
    {BW_DURATION, "day", "8.640000E+04"},
};

/* Worked out in rational arithmetic from the inch, the pound and standard gravity
 * (COMPUTED); the year is the Julian year of the IAU style manual, 31 557 600 s (MEMORY).
 */
static const published computed[] = {
    {BW_PRESSURE, "ksf", "4.788026E+04"},
    {BW_LINE_LOAD, "klf", "1.459390E+04"},
    {BW_MOMENT, "kip-in", "1.129848E+02"},
    {BW_MOMENT, "kip-ft", "1.355818E+03"},
    {BW_SUBGRADE_RATE, "psf/ft", "1.570875E+02"},
    {BW_SUBGRADE, "lb/in3", "2.714471E+05"},
    {BW_TURN_STIFFNESS, "lb-ft/deg", "7.768265E+01"},
    {BW_DURATION, "week", "6.048000E+05"},
    {BW_DURATION, "year", "3.155760E+07"},
    {BW_DURATION, "month", "2.629800E+06"},
};

/* Decimal prefixes: the SI brochure, 9th edition, table 7 (MEMORY). */
static const published prefixes[] = {
    {BW_LENGTH, "m", "1.000000E+00"},
    {BW_LENGTH, "cm", "1.000000E-02"},
    {BW_LENGTH, "mm", "1.000000E-03"},
    {BW_LENGTH, "km", "1.000000E+03"},
    {BW_AREA, "mm2", "1.000000E-06"},
    {BW_AREA, "cm2", "1.000000E-04"},
    {BW_SECOND_MOMENT, "mm4", "1.000000E-12"},
    {BW_SECOND_MOMENT, "cm4", "1.000000E-08"},
    {BW_SECTION_MODULUS, "mm3", "1.000000E-09"},
    {BW_SECTION_MODULUS, "cm3", "1.000000E-06"},
    {BW_MASS, "kg", "1.000000E+00"},
    {BW_MASS, "g", "1.000000E-03"},
    {BW_FORCE, "N", "1.000000E+00"},
    {BW_FORCE, "kN", "1.000000E+03"},
    {BW_FORCE, "MN", "1.000000E+06"},
    {BW_STRESS, "Pa", "1.000000E+00"},
    {BW_STRESS, "kPa", "1.000000E+03"},
    {BW_STRESS, "MPa", "1.000000E+06"},
    {BW_STRESS, "GPa", "1.000000E+09"},
    {BW_STRESS, "N/mm2", "1.000000E+06"},
    {BW_STRESS, "kN/mm2", "1.000000E+09"},
    {BW_PRESSURE, "kN/m2", "1.000000E+03"},
    {BW_LINE_LOAD, "N/m", "1.000000E+00"},
    {BW_LINE_LOAD, "kN/m", "1.000000E+03"},
    {BW_LINE_LOAD, "N/mm", "1.000000E+03"},
    {BW_MOMENT, "N-m", "1.000000E+00"},
    {BW_MOMENT, "kN-m", "1.000000E+03"},
    {BW_MOMENT, "N-mm", "1.000000E-03"},
    {BW_DENSITY, "kg/m3", "1.000000E+00"},
    {BW_ANGLE, "rad", "1.000000E+00"},
    {BW_SLOPE, "%", "1.000000E-02"},
    {BW_SPEED, "m/s", "1.000000E+00"},
    {BW_STIFFNESS, "kN/mm", "1.000000E+06"},
    {BW_TURN_STIFFNESS, "kN-m/rad", "1.000000E+03"},
    {BW_SUBGRADE, "MN/m3", "1.000000E+06"},
    {BW_SUBGRADE, "kN/m3", "1.000000E+03"},
    {BW_SUBGRADE_RATE, "kPa/m", "1.000000E+03"},
    {BW_DURATION, "s", "1.000000E+00"},
};

static void check_all(const published *rows, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        char size[40];
        snprintf(size, sizeof size, "%.6E", bw_unit_size(rows[i].quantity, rows[i].unit));
        if (strcmp(size, rows[i].size) != 0) {
            fail_msg("%s of %s: %s, not %s", rows[i].unit,
                     bw_quantity_name(rows[i].quantity), size, rows[i].size);
        }
    }
}

static void units_have_their_published_sizes(void **state)
{
    (void)state;
    check_all(nist, sizeof nist / sizeof nist[0]);
}

static void derived_units_follow_from_the_defined_ones(void **state)
{
    (void)state;
    check_all(computed, sizeof computed / sizeof computed[0]);
}

static void prefixes_are_powers_of_ten(void **state)
{
    (void)state;
    check_all(prefixes, sizeof prefixes / sizeof prefixes[0]);
}

/* International Yard and Pound Agreement, 1959; 3rd CGPM, 1901 (MEMORY). */
static void defined_units_are_exact(void **state)
{
    (void)state;
    assert_true(bw_unit_size(BW_LENGTH, "in") == 0.0254);
    assert_true(bw_unit_size(BW_LENGTH, "ft") == 0.3048);
    assert_true(bw_unit_size(BW_LENGTH, "yd") == 0.9144);
    assert_true(bw_unit_size(BW_MASS, "lb") == 0.45359237);
    assert_true(bw_unit_size(BW_FORCE, "lbf") == 4.4482216152605);
    assert_true(bw_unit_size(BW_SPEED, "mph") == 0.44704);
}

static void spellings_mean_the_same(void **state)
{
    (void)state;
    static const struct {
        bw_quantity quantity;
        const char *usual, *others[12];
    } rows[] = {
        {BW_LENGTH, "ft", {"FT", "foot", "feet", "'", "ft.", "\xE2\x80\xB2"}},
        {BW_LENGTH, "in", {"IN", "inch", "inches", "\"", "in.", "''", "\xE2\x80\xB3"}},
        {BW_LENGTH, "m", {"M", "metre", "metres", "meter", "meters"}},
        {BW_LENGTH,
         "mm",
         {"MM", "millimetre", "millimetres", "millimeter", "millimeters"}},
        {BW_LENGTH, "cm", {"centimetre", "centimetres", "centimeter", "centimeters"}},
        {BW_LENGTH, "km", {"kilometre", "kilometres", "kilometer", "kilometers"}},
        {BW_LENGTH, "yd", {"yard", "yards"}},
        {BW_LENGTH, "mile", {"mi", "miles"}},
        {BW_MASS, "lb", {"lbs", "lbs.", "pound", "pounds", "lbm", "LB"}},
        {BW_MASS, "kg", {"KG", "kgs", "kilogram", "kilograms"}},
        {BW_MASS, "g", {"gram", "grams"}},
        {BW_MASS, "tonne", {"tonnes"}},
        {BW_FORCE, "lb", {"lbs", "pound", "pounds", "lbf"}},
        {BW_FORCE, "N", {"newton", "newtons", "n"}},
        {BW_FORCE, "kN", {"KN", "kilonewton", "kilonewtons"}},
        {BW_FORCE, "kip", {"kips"}},
        {BW_STRESS, "psi", {"lb/in2", "lbf/in^2", "lb/sq in", "lb per square inch"}},
        {BW_STRESS, "Pa", {"pascal", "pascals", "N/m2"}},
        {BW_STRESS, "MPa", {"N/mm2", "N/mm\xC2\xB2", "N/mm^2", "MN/m2"}},
        {BW_PRESSURE, "psf", {"lb/ft2", "lb/sq ft", "lb per sq. ft.", "lb/ft\xC2\xB2"}},
        {BW_PRESSURE, "kPa", {"kN/m2", "KN / M2"}},
        {BW_LINE_LOAD, "lb/ft", {"plf", "lbs/foot", "lb per ft", "pounds per foot"}},
        {BW_MOMENT, "lb-ft", {"ft-lb", "lb ft", "ft-lbf", "lb*ft", "ft.-lb.", "lbs-ft"}},
        {BW_MOMENT, "lb-in", {"in-lb", "in-lbs", "lb in"}},
        {BW_MOMENT, "kip-in", {"in-kip", "kip-inch"}},
        {BW_MOMENT, "kN-m", {"kNm", "kN m", "kN*m", "kN\xC2\xB7m", "kN\xE2\x8B\x85m"}},
        {BW_MOMENT, "N-m", {"Nm", "N m"}},
        {BW_DENSITY, "lb/ft3", {"pcf", "lb/cu ft", "lb/cubic foot", "lb/ft\xC2\xB3"}},
        {BW_DENSITY, "kg/m3", {"kg/m^3", "kg/m\xC2\xB3", "kg per cubic metre"}},
        {BW_SUBGRADE, "lb/in3", {"pci", "psi/in"}},
        {BW_SUBGRADE_RATE, "psf/ft", {"pcf", "lb/ft3"}},
        {BW_SUBGRADE_RATE, "kPa/m", {"kN/m3"}},
        {BW_ANGLE, "deg", {"degs", "degree", "degrees", "\xC2\xB0"}},
        {BW_ANGLE, "rad", {"radian", "radians"}},
        {BW_SPEED, "mph", {"MPH", "mile/h", "miles per hour"}},
        {BW_SPEED, "km/h", {"kph", "kmh", "km per hour", "km/hr"}},
        {BW_SPEED, "ft/s", {"fps", "feet per second", "ft/sec"}},
        {BW_DURATION, "s", {"sec", "second", "seconds"}},
        {BW_DURATION, "min", {"mins", "minute", "minutes"}},
        {BW_DURATION, "h", {"hr", "hrs", "hour", "hours"}},
        {BW_DURATION, "day", {"d", "days"}},
        {BW_DURATION, "week", {"weeks"}},
        {BW_DURATION, "month", {"months"}},
        {BW_DURATION, "year", {"yr", "yrs", "years"}},
        {BW_SECOND_MOMENT, "mm4", {"mm^4", "mm\xE2\x81\xB4"}},
        {BW_AREA, "in2", {"sq in", "sq. in.", "square inches", "in\xC2\xB2"}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const double usual = bw_unit_size(rows[i].quantity, rows[i].usual);
        assert_true(usual > 0.0);
        for (size_t k = 0; k < 12 && rows[i].others[k] != NULL; k++) {
            const double other = bw_unit_size(rows[i].quantity, rows[i].others[k]);
            if (!(fabs(other / usual - 1.0) < 1e-15)) {
                fail_msg("%s is not %s", rows[i].others[k], rows[i].usual);
            }
        }
    }
}

static void units_of_other_quantities_have_no_size(void **state)
{
    (void)state;
    static const published wrong[] = {
        {BW_LENGTH, "kg", ""},      {BW_LENGTH, "m2", ""},
        {BW_LENGTH, "ft/s", ""},    {BW_FORCE, "kg", ""},
        {BW_FORCE, "lbm", ""},      {BW_MASS, "N", ""},
        {BW_MASS, "lbf", ""},       {BW_MASS, "kip", ""},
        {BW_PRESSURE, "kg/m2", ""}, {BW_PRESSURE, "lb/ft", ""},
        {BW_PRESSURE, "kN", ""},    {BW_LINE_LOAD, "psf", ""},
        {BW_MOMENT, "lb/ft", ""},   {BW_MOMENT, "kN-m/rad", ""},
        {BW_DENSITY, "kN/m3", ""},  {BW_TURN_STIFFNESS, "kN-m", ""},
        {BW_SPEED, "m", ""},        {BW_DURATION, "m", ""},
        {BW_ANGLE, "%", ""},        {BW_AREA, "ft", ""},
        {BW_SUBGRADE, "kN/m2", ""}, {BW_SLOPE, "deg", ""},
        {BW_NUMBER, "m", ""},       {BW_NUMBER, "", ""},
        {BW_STRESS, "psi psi", ""}, {BW_QUANTITY_COUNT, "m", ""},
    };
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        if (bw_unit_size(wrong[i].quantity, wrong[i].unit) != 0.0) {
            fail_msg("%s measures no %s", wrong[i].unit,
                     bw_quantity_name(wrong[i].quantity));
        }
    }
}

static void malformed_units_have_no_size(void **state)
{
    (void)state;
    static const char *const texts[] = {"",
                                        " ",
                                        "lb//ft2",
                                        "/ft",
                                        "lb/",
                                        "psf-",
                                        "lb/ft2/",
                                        "lb/ft5",
                                        "lb/ft22",
                                        "lb/ft^",
                                        "lb/2",
                                        "per ft2",
                                        "lb/ft-ft",
                                        "lb/sq ft2",
                                        "lb/sq",
                                        "sq",
                                        "furlong",
                                        "psf 2",
                                        "lb/ft\xC2\xB2\xC2\xB2",
                                        "?",
                                        "Pa/m/m/m/m/m-m-m-m-m-m",
                                        "gpa4 gpa4 gpa4 gpa4 gpa4 gpa4",
                                        "psfpsf"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        assert_true(bw_unit_size(BW_PRESSURE, texts[i]) == 0.0);
    }
}

/* What a hint tells a person to write must be readable. */
static void every_example_can_be_read(void **state)
{
    (void)state;
    for (int q = 0; q < BW_QUANTITY_COUNT; q++) {
        const char *at = strchr(bw_quantity_example((bw_quantity)q), '"');
        int found = 0;
        while (at != NULL) {
            const char *end = strchr(at + 1, '"');
            char text[64] = {0};
            assert_non_null(end);
            memcpy(text, at + 1, (size_t)(end - at - 1));
            double value = 0.0;
            assert_int_equal(bw_quantity_parse((bw_quantity)q, text, &value),
                             BW_PARSE_OK);
            assert_true(value > 0.0);
            found++;
            at = strchr(end + 1, '"');
        }
        assert_int_equal(found, q == BW_NUMBER ? 1 : 2);
    }
}

static void every_quantity_has_its_own_name(void **state)
{
    (void)state;
    for (int a = 0; a < BW_QUANTITY_COUNT; a++) {
        assert_true(strlen(bw_quantity_name((bw_quantity)a)) > 3);
        for (int b = a + 1; b < BW_QUANTITY_COUNT; b++) {
            assert_string_not_equal(bw_quantity_name((bw_quantity)a),
                                    bw_quantity_name((bw_quantity)b));
        }
    }
    assert_string_equal(bw_quantity_name(BW_QUANTITY_COUNT), "quantity");
    assert_string_equal(bw_quantity_example(BW_QUANTITY_COUNT), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(units_have_their_published_sizes),
        cmocka_unit_test(derived_units_follow_from_the_defined_ones),
        cmocka_unit_test(prefixes_are_powers_of_ten),
        cmocka_unit_test(defined_units_are_exact),
        cmocka_unit_test(spellings_mean_the_same),
        cmocka_unit_test(units_of_other_quantities_have_no_size),
        cmocka_unit_test(malformed_units_have_no_size),
        cmocka_unit_test(every_example_can_be_read),
        cmocka_unit_test(every_quantity_has_its_own_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
