#include "arena_fixture.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <math.h>
#include <string.h>

typedef struct {
    const char *text;
    double value;
} reading;

/* One rounding of count * above / below, so a last digit at most. */
static void assert_reads(bw_quantity quantity, const reading *rows, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        double value = (double)NAN;
        const bw_parse fault = bw_quantity_parse(quantity, rows[i].text, &value);
        if (fault != BW_PARSE_OK ||
            !(fabs(value - rows[i].value) <= 3e-16 * fabs(value))) {
            fail_msg("\"%s\" reads as %.17g (fault %d), not %.17g", rows[i].text, value,
                     (int)fault, rows[i].value);
        }
    }
}

/* Feet and inches worked out by hand with 0.0254 m an inch (COMPUTED). */
static void lengths_are_read_as_people_write_them(void **state)
{
    (void)state;
    static const reading rows[] = {
        {"6 ft 6 in", 1.9812},
        {"6ft6in", 1.9812},
        {"6 FT 6 IN", 1.9812},
        {"6 ft. 6 in.", 1.9812},
        {"6 feet 6 inches", 1.9812},
        {"1 foot 1 inch", 0.3302},
        {"6 ft 6", 1.9812},
        {"6' 6\"", 1.9812},
        {"6'6\"", 1.9812},
        {"6'6''", 1.9812},
        {"6\xE2\x80\xB2 6\xE2\x80\xB3", 1.9812},
        {"6\xE2\x80\x99 6\xE2\x80\x9D", 1.9812},
        {"7'6", 2.286},
        {"7' 6", 2.286},
        {"7-6", 2.286},
        {"7\xE2\x80\x93"
         "6",
         2.286},
        {"7'-6\"", 2.286},
        {"7' - 6\"", 2.286},
        {"7 ft-6 in", 2.286},
        {"7-0", 2.1336},
        {"7-6 1/2", 2.2987},
        {"7-6.5", 2.2987},
        {"7'6 1/2\"", 2.2987},
        {"7'-6 1/2\"", 2.2987},
        {"7'6-1/2\"", 2.2987},
        {"7' 6\xC2\xBD\"", 2.2987},
        {"7'\xC2\xBD\"", 2.1463},
        {"7' 1/2\"", 2.1463},
        {"0' 11 15/16\"", 0.3032125},
        {"25 1/2 in", 0.6477},
        {"25-1/2 in", 0.6477},
        {"25 1/2\"", 0.6477},
        {"25\xC2\xBD in", 0.6477},
        {"1/2 in", 0.0127},
        {"\xC2\xBC in", 0.00635},
        {"\xC2\xBE\"", 0.01905},
        {"2 1/2 ft", 0.762},
        {"6.5 ft", 1.9812},
        {"78 in", 1.9812},
        {".5 in", 0.0127},
        {"2.29 m", 2.29},
        {"150 mm", 0.15},
        {"150mm", 0.15},
        {"15 cm", 0.15},
        {"  15\tcm ", 0.15},
        {"2.385e3 mm", 2.385},
        {"+3 m", 3.0},
        {"- 3 m", -3.0},
        {"-18 in", -0.4572},
        {"-2 ft 6 in", -0.762},
        {"\xE2\x88\x92"
         "2' 6\"",
         -0.762},
        {"-7-6", -2.286},
        {"0 ft", 0.0},
    };
    assert_reads(BW_LENGTH, rows, sizeof rows / sizeof rows[0]);
}

static void minus_nothing_is_nothing(void **state)
{
    (void)state;
    double value = (double)NAN;
    assert_int_equal(bw_quantity_parse(BW_LENGTH, "-0 in", &value), BW_PARSE_OK);
    assert_true(value == 0.0 && !signbit(value));
}

/* Sizes of the units are checked one by one in test_quantity.c; here 4.4482216152605 N a
 * pound-force (1959 and 1901 definitions, MEMORY) and what follows by hand (COMPUTED). */
static void other_quantities_are_read_with_their_units(void **state)
{
    (void)state;
    static const struct {
        bw_quantity quantity;
        reading row;
    } rows[] = {
        {BW_NUMBER, {"2.385", 2.385}},
        {BW_NUMBER, {"-1/2", -0.5}},
        {BW_NUMBER, {"1e-3", 0.001}},
        {BW_MASS, {"254 lb", 115.21246198}},
        {BW_MASS, {"115 kg", 115.0}},
        {BW_FORCE, {"300 lb", 1334.46648457815}},
        {BW_FORCE, {"1.3 kN", 1300.0}},
        {BW_FORCE, {"2 kip", 8896.443230521}},
        {BW_FORCE, {"-5 N", -5.0}},
        {BW_PRESSURE, {"2.9 kPa", 2900.0}},
        {BW_PRESSURE, {"5 kN/m2", 5000.0}},
        {BW_STRESS, {"1.08e6 Pa", 1.08e6}},
        {BW_STRESS, {"9.3 N/mm2", 9.3e6}},
        {BW_LINE_LOAD, {"4 kN/m", 4000.0}},
        {BW_MOMENT, {"3 kN-m", 3000.0}},
        {BW_DENSITY, {"640 kg/m3", 640.0}},
        {BW_DENSITY, {"0.64 g/cm3", 640.0}},
        {BW_SUBGRADE, {"20 MN/m3", 2e7}},
        {BW_SUBGRADE_RATE, {"23.6 kPa/m", 23600.0}},
        {BW_STIFFNESS, {"200 kN/m", 2e5}},
        {BW_TURN_STIFFNESS, {"20 kN-m/rad", 2e4}},
        {BW_SPEED, {"15 mph", 6.7056}},
        {BW_SPEED, {"18 km/h", 5.0}},
        {BW_DURATION, {"10 min", 600.0}},
        {BW_DURATION, {"2 years", 63115200.0}},
        {BW_AREA, {"12 in2", 0.00774192}},
        {BW_AREA, {"12 sq in", 0.00774192}},
        {BW_SECOND_MOMENT, {"8400 cm4", 8.4e-5}},
        {BW_SECTION_MODULUS, {"850 cm3", 8.5e-4}},
        {BW_ANGLE, {"0.5 rad", 0.5}},
        {BW_ANGLE, {"180 deg", 3.14159265358979323846}},
        {BW_ANGLE, {"-90\xC2\xB0", -1.57079632679489661923}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_reads(rows[i].quantity, &rows[i].row, 1);
    }
}

/* tan 5 deg = 0.087488663525924 (COMPUTED by the series in rational arithmetic). */
static void slopes_are_read_in_four_ways(void **state)
{
    (void)state;
    static const reading rows[] = {
        {"1 in 12", 1.0 / 12.0},
        {"1 IN 12", 1.0 / 12.0},
        {"1:12", 1.0 / 12.0},
        {"1 : 12", 1.0 / 12.0},
        {"3:8", 0.375},
        {"8 %", 0.08},
        {"8%", 0.08},
        {"8 percent", 0.08},
        {"-1 in 12", -1.0 / 12.0},
        {"2 1/2 in 10", 0.25},
        {"5 deg", 0.0874886635259240052},
        {"0 %", 0.0},
    };
    assert_reads(BW_SLOPE, rows, sizeof rows / sizeof rows[0]);
}

typedef struct {
    bw_quantity quantity;
    bw_parse fault;
    const char *text;
} refusal;

static const refusal refusals[] = {
    {BW_LENGTH, BW_PARSE_EMPTY, ""},
    {BW_LENGTH, BW_PARSE_EMPTY, " \t "},
    {BW_FORCE, BW_PARSE_EMPTY, ""},
    {BW_LENGTH, BW_PARSE_NUMBER, "ft"},
    {BW_LENGTH, BW_PARSE_NUMBER, "about 6 ft"},
    {BW_LENGTH, BW_PARSE_NUMBER, "-"},
    {BW_LENGTH, BW_PARSE_NUMBER, "--6 ft"},
    {BW_LENGTH, BW_PARSE_NUMBER, "+-6 ft"},
    {BW_LENGTH, BW_PARSE_NUMBER, "1,5 m"},
    {BW_FORCE, BW_PARSE_NUMBER, "1,200 lb"},
    {BW_FORCE, BW_PARSE_NUMBER, "1 200 lb"},
    {BW_LENGTH, BW_PARSE_NUMBER, "1.2.3 m"},
    {BW_LENGTH, BW_PARSE_NUMBER, "1/0 in"},
    {BW_LENGTH, BW_PARSE_NUMBER, "5.5 1/2 in"},
    {BW_LENGTH, BW_PARSE_NUMBER, "25 3/2 in"},
    {BW_LENGTH, BW_PARSE_NUMBER,
     "\xC2\xBD"
     "4 in"},
    {BW_LENGTH, BW_PARSE_NUMBER, "7' 6 3/2\""},
    {BW_LENGTH, BW_PARSE_NUMBER, "6.5-6"},
    {BW_SLOPE, BW_PARSE_NUMBER, "1 in x"},
    {BW_SLOPE, BW_PARSE_NUMBER, "1:"},
    {BW_LENGTH, BW_PARSE_NO_UNIT, "4"},
    {BW_LENGTH, BW_PARSE_NO_UNIT, "7-1/2"},
    {BW_LENGTH, BW_PARSE_NO_UNIT, "7 1/2"},
    {BW_FORCE, BW_PARSE_NO_UNIT, "300"},
    {BW_SLOPE, BW_PARSE_NO_UNIT, "0.08"},
    {BW_ANGLE, BW_PARSE_NO_UNIT, "0"},
    {BW_LENGTH, BW_PARSE_UNIT, "4 kg"},
    {BW_LENGTH, BW_PARSE_UNIT, "4 m2"},
    {BW_LENGTH, BW_PARSE_UNIT, "6 ft2"},
    {BW_LENGTH, BW_PARSE_UNIT, "6 ft\xC2\xB2"},
    {BW_LENGTH, BW_PARSE_UNIT, "6 ft/s"},
    {BW_LENGTH, BW_PARSE_UNIT, "6 furlongs"},
    {BW_LENGTH, BW_PARSE_UNIT, "6 m!"},
    {BW_LENGTH, BW_PARSE_UNIT, "6 m\nx"},
    {BW_LENGTH, BW_PARSE_UNIT, "0x10 in"},
    {BW_LENGTH, BW_PARSE_UNIT, "0x1p3 in"},
    {BW_FORCE, BW_PARSE_UNIT, "0x10"},
    {BW_LENGTH, BW_PARSE_UNIT, "6 %"},
    {BW_FORCE, BW_PARSE_UNIT, "100 kg"},
    {BW_MASS, BW_PARSE_UNIT, "100 N"},
    {BW_PRESSURE, BW_PARSE_UNIT, "100 kg/m2"},
    {BW_DENSITY, BW_PARSE_UNIT, "6 kN/m3"},
    {BW_DURATION, BW_PARSE_UNIT, "10 m"},
    {BW_NUMBER, BW_PARSE_UNIT, "3 m"},
    {BW_NUMBER, BW_PARSE_UNIT, "3 %"},
    {BW_SLOPE, BW_PARSE_UNIT, "1 in"},
    {BW_SLOPE, BW_PARSE_UNIT, "1 in 12 m"},
    {BW_SLOPE, BW_PARSE_UNIT, "5 m"},
    {BW_LENGTH, BW_PARSE_MIXED, "6 in 2 ft"},
    {BW_LENGTH, BW_PARSE_MIXED, "3 m 2 in"},
    {BW_LENGTH, BW_PARSE_MIXED, "2 m 30 cm"},
    {BW_LENGTH, BW_PARSE_MIXED, "2 ft 14 in"},
    {BW_LENGTH, BW_PARSE_MIXED, "2 ft 12 in"},
    {BW_LENGTH, BW_PARSE_MIXED, "7-12"},
    {BW_LENGTH, BW_PARSE_MIXED, "7-6 in"},
    {BW_LENGTH, BW_PARSE_MIXED, "2.5 ft 3 in"},
    {BW_LENGTH, BW_PARSE_MIXED, "2 1/2 ft 3 in"},
    {BW_LENGTH, BW_PARSE_MIXED, "6 ft 6 cm"},
    {BW_LENGTH, BW_PARSE_MIXED, "6 ft -6 in"},
    {BW_LENGTH, BW_PARSE_MIXED, "6 ft.5 in"},
    {BW_LENGTH, BW_PARSE_MIXED, "6 ft 6 in 1/2"},
    {BW_MASS, BW_PARSE_MIXED, "11 kg 4 lb"},
    {BW_AREA, BW_PARSE_UNIT, "12 in 2"},
    {BW_AREA, BW_PARSE_MIXED, "12 in2 3"},
    {BW_AREA, BW_PARSE_UNIT, "12 in22"},
    {BW_LENGTH, BW_PARSE_RANGE, "inf"},
    {BW_LENGTH, BW_PARSE_RANGE, "-infinity m"},
    {BW_LENGTH, BW_PARSE_RANGE, "NaN"},
    {BW_NUMBER, BW_PARSE_RANGE, "nan"},
    {BW_NUMBER, BW_PARSE_RANGE, "1e999"},
    {BW_LENGTH, BW_PARSE_RANGE, "-1e999 m"},
    {BW_LENGTH, BW_PARSE_RANGE, "1e-400 m"},
    {BW_STRESS, BW_PARSE_RANGE, "1e308 GPa"},
    {BW_SLOPE, BW_PARSE_RANGE, "1:0"},
    {BW_SLOPE, BW_PARSE_RANGE, "0:0"},
    {BW_SLOPE, BW_PARSE_RANGE, "90 deg"},
    {BW_SLOPE, BW_PARSE_RANGE, "135 deg"},
};
enum { n_refusals = sizeof refusals / sizeof refusals[0] };

static void faults_are_told_apart_and_leave_the_value_alone(void **state)
{
    (void)state;
    for (size_t i = 0; i < n_refusals; i++) {
        double value = 2.385;
        const bw_parse fault =
            bw_quantity_parse(refusals[i].quantity, refusals[i].text, &value);
        if (fault != refusals[i].fault) {
            fail_msg("\"%s\" gives fault %d, not %d", refusals[i].text, (int)fault,
                     (int)refusals[i].fault);
        }
        assert_true(value == 2.385);
    }
    double value = 2.385;
    assert_int_equal(bw_quantity_parse(BW_LENGTH, NULL, &value), BW_PARSE_EMPTY);
}

static void text_of_any_length_is_refused_calmly(void **state)
{
    char *text = bw_arena_alloc(*state, 100001);
    static const char fill[] = {'9', ' ', '\'', '-', 'f', '.', '/'};
    for (size_t i = 0; i < sizeof fill; i++) {
        double value = 2.385;
        memset(text, fill[i], 100000);
        assert_true(bw_quantity_parse(BW_LENGTH, text, &value) != BW_PARSE_OK);
        assert_true(value == 2.385);
    }
}

static void explanation_says_what_was_found_and_what_to_write(void **state)
{
    static const struct {
        refusal what;
        const char *message, *hint;
    } rows[] = {
        {{BW_LENGTH, BW_PARSE_EMPTY, " "},
         "an empty text where a length must stand",
         "write it as \"6 ft 6 in\" or \"2.29 m\""},
        {{BW_ANGLE, BW_PARSE_NO_UNIT, "5"},
         "\"5\" has no unit; an angle needs one",
         "write it as \"30 deg\" or \"0.5 rad\""},
        {{BW_LENGTH, BW_PARSE_NUMBER, "1,5 m"},
         "\"1,5 m\" has no number that can be read",
         "write a point before decimals and nothing between thousands; write it as "
         "\"6 ft 6 in\" or \"2.29 m\""},
        {{BW_FORCE, BW_PARSE_UNIT, "100 kg"},
         "\"100 kg\" has no unit of force",
         "a kilogram is a mass, and a force is needed; write it as \"300 lb\" or \"1.3 "
         "kN\""},
        {{BW_MASS, BW_PARSE_UNIT, "900 N"},
         "\"900 N\" has no unit of mass",
         "a newton is a force, and a mass is needed; write it as \"254 lb\" or \"115 "
         "kg\""},
        {{BW_NUMBER, BW_PARSE_UNIT, "3 m"},
         "\"3 m\" has a unit where a bare number must stand",
         "write it as \"0.35\""},
        {{BW_LENGTH, BW_PARSE_MIXED, "2 ft 14 in"},
         "\"2 ft 14 in\" has parts that do not go together",
         "only whole feet and less than 12 inches go together; write it as \"6 ft 6 in\" "
         "or "
         "\"2.29 m\""},
        {{BW_LENGTH, BW_PARSE_RANGE, "1e999 m"},
         "\"1e999 m\" is not a number of a usable size",
         "write it as \"6 ft 6 in\" or \"2.29 m\""},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const char *hint = NULL;
        const refusal *what = &rows[i].what;
        assert_string_equal(
            bw_parse_explain(*state, what->fault, what->quantity, what->text, &hint),
            rows[i].message);
        assert_string_equal(hint, rows[i].hint);
    }
}

static void every_refusal_can_be_explained(void **state)
{
    for (size_t i = 0; i < n_refusals; i++) {
        const char *hint = NULL;
        const char *message = bw_parse_explain(
            *state, refusals[i].fault, refusals[i].quantity, refusals[i].text, &hint);
        assert_true(strlen(message) > 10);
        assert_non_null(strstr(hint, bw_quantity_example(refusals[i].quantity)));
    }
    assert_non_null(bw_parse_explain(*state, BW_PARSE_EMPTY, BW_LENGTH, NULL, NULL));
}

static void long_text_is_quoted_in_part(void **state)
{
    char text[500];
    memset(text, 'x', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    memcpy(text + 46, "\xC2\xBD\xC2\xBD", 4); /* a cut must not fall inside a character */
    const char *hint = NULL;
    const char *message = bw_parse_explain(*state, BW_PARSE_UNIT, BW_LENGTH, text, &hint);
    assert_non_null(strstr(message, "x\xC2\xBD\xC2\xBD...\""));
    assert_true(strlen(message) < 100);
}

static void explanation_without_memory_is_null(void **state)
{
    (void)state;
    bool whole = false;
    for (unsigned long n = 1; !whole && n < 20; n++) {
        const char *hint = NULL;
        bw_arena *arena = bw_arena_new();
        assert_non_null(arena);
        bw_arena_fail_after(n);
        const char *message =
            bw_parse_explain(arena, BW_PARSE_NO_UNIT, BW_LENGTH, "4", &hint);
        bw_arena_fail_after(0);
        whole = message != NULL && hint != NULL;
        assert_true(n > 1 || message == NULL);
        bw_arena_free(arena);
    }
    assert_true(whole);
}

/* Any sequence of telling pieces and of arbitrary bytes: no crash, nothing but a finite
 * value, and the sign always belongs to the whole. */
static void any_bytes_are_read_or_refused(void **state)
{
    static const char *const pieces[] = {"6",
                                         "12",
                                         "1/2",
                                         ".",
                                         "5",
                                         "e",
                                         "-",
                                         "+",
                                         " ",
                                         "'",
                                         "\"",
                                         "ft",
                                         "in",
                                         "m",
                                         "lb",
                                         "kN",
                                         "/",
                                         "^",
                                         "2",
                                         "3",
                                         "%",
                                         ":",
                                         "in ",
                                         "deg",
                                         "psf",
                                         "per ",
                                         "sq ",
                                         "\xC2\xBD",
                                         "\xE2\x80",
                                         "\xB2",
                                         "\xE2\x80\xB2",
                                         ",",
                                         "0x",
                                         "inf",
                                         "1e300",
                                         "GPa4",
                                         "\x01",
                                         "\xFF",
                                         "rad",
                                         "-1/2"};
    enum { n_pieces = sizeof pieces / sizeof pieces[0], trials = 60000 };
    uint32_t seed = 20617U;
    size_t read = 0;
    for (int trial = 0; trial < trials; trial++) {
        const bw_arena_mark mark = bw_arena_now(*state);
        bw_text text = bw_text_new(*state);
        bw_text_add(&text, "-");
        for (int n = 1 + trial % 9; n > 0; n--) {
            seed = seed * 1664525U + 1013904223U;
            bw_text_add(&text, pieces[(seed >> 16U) % n_pieces]);
        }
        const char *negative = bw_arena_copy(*state, bw_text_string(&text));
        const bw_quantity quantity = (bw_quantity)(trial % BW_QUANTITY_COUNT);
        double value = 2.385;
        double opposite = 2.385;
        const bw_parse fault = bw_quantity_parse(quantity, negative + 1, &value);
        const bw_parse other = bw_quantity_parse(quantity, negative, &opposite);
        if (fault == BW_PARSE_OK) {
            assert_true(isfinite(value));
            assert_true(strchr("+- ", negative[1]) != NULL || other == BW_PARSE_OK);
            assert_true(other != BW_PARSE_OK || opposite == -value);
            assert_non_null(bw_quantity_print(*state, quantity, value, BW_IMPERIAL));
            assert_non_null(bw_quantity_print(*state, quantity, value, BW_METRIC));
            read++;
        } else {
            assert_true(value == 2.385);
            assert_non_null(bw_parse_explain(*state, fault, quantity, negative, NULL));
        }
        assert_true(other == BW_PARSE_OK || opposite == 2.385);
        bw_arena_back(*state, mark);
    }
    assert_true(read > trials / 1000); /* or the pieces are not telling enough */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(lengths_are_read_as_people_write_them),
        WITH_ARENA(minus_nothing_is_nothing),
        WITH_ARENA(other_quantities_are_read_with_their_units),
        WITH_ARENA(slopes_are_read_in_four_ways),
        WITH_ARENA(faults_are_told_apart_and_leave_the_value_alone),
        WITH_ARENA(text_of_any_length_is_refused_calmly),
        WITH_ARENA(explanation_says_what_was_found_and_what_to_write),
        WITH_ARENA(every_refusal_can_be_explained),
        WITH_ARENA(long_text_is_quoted_in_part),
        WITH_ARENA(explanation_without_memory_is_null),
        WITH_ARENA(any_bytes_are_read_or_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
