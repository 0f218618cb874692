#include "base/number.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

static void assert_plain(const char *text, const char *expected)
{
    char plain[bwi_plain_size];
    assert_true(bwi_plain_write(text, plain));
    assert_string_equal(plain, expected);
}

/* Code points: Unicode character names list (MEMORY). */
static void typographic_characters_become_plain(void **state)
{
    (void)state;
    assert_plain("  6 FT \t 6  In ", "6 ft 6 in");
    assert_plain("7\xE2\x80\xB2"
                 "6\xE2\x80\xB3",
                 "7'6\""); /* primes */
    assert_plain("7\xE2\x80\x99"
                 "6\xE2\x80\x9D",
                 "7'6\"");          /* quotes */
    assert_plain("7'6''", "7'6\""); /* two for one */
    assert_plain("\xE2\x88\x92"
                 "3\xC2\xA0m",
                 "-3 m"); /* minus, no-break */
    assert_plain("5 kN/m\xC2\xB2", "5 kn/m^2");
    assert_plain("5 m\xE2\x81\xB4", "5 m^4");
    assert_plain("3 kN\xC2\xB7m", "3 kn*m");
    assert_plain("30\xC2\xB0", "30 deg");
    assert_plain("7\xC2\xBD in", "7 1/2 in");
    assert_plain("\xC2\xBE\"", "3/4 \"");
    assert_plain("1\xE2\x81\x84"
                 "2 in",
                 "1/2 in"); /* fraction slash */
}

static void what_has_no_place_becomes_a_question_mark(void **state)
{
    (void)state;
    assert_plain("5\nm", "5?m");
    assert_plain("5\x01m", "5?m");
    assert_plain("5\xFFm", "5?m");
    assert_plain("5\xE2\x82m", "5??m");    /* cut short */
    assert_plain("5 \xCE\xBCm", "5 ?m");   /* a micro sign */
    assert_plain("\xEF\xBC\x95 m", "? m"); /* a full-width five */
}

static void text_that_is_too_long_is_refused(void **state)
{
    (void)state;
    char plain[bwi_plain_size];
    char text[3 * bwi_plain_size];
    for (size_t length = 1; length < sizeof text; length++) {
        memset(text, '7', length);
        text[length] = '\0';
        assert_true(bwi_plain_write(text, plain) == (length < bwi_plain_size));
        assert_true(strlen(plain) < bwi_plain_size);
    }
    memset(text, ' ', sizeof text - 1);
    text[sizeof text - 2] = '3';
    assert_plain(text, "3");
}

static void assert_number(const char *text, double value, const char *rest, bool is_whole)
{
    const char *at = text;
    double found = -1.0;
    bool whole = !is_whole;
    assert_int_equal(bwi_number_read(&at, &found, &whole), BW_PARSE_OK);
    assert_true(found == value);
    assert_string_equal(at, rest);
    assert_true(whole == is_whole);
}

static void numbers_are_read_as_carpenters_write_them(void **state)
{
    (void)state;
    assert_number("25", 25.0, "", true);
    assert_number("25 in", 25.0, " in", true);
    assert_number("2.385 m", 2.385, " m", false);
    assert_number(".5in", 0.5, "in", false);
    assert_number("5. in", 5.0, " in", false);
    assert_number("1.08e6 psi", 1.08e6, " psi", false);
    assert_number("1e-3m", 0.001, "m", false);
    assert_number("2e+2", 200.0, "", false);
    assert_number("5/8 in", 0.625, " in", false);
    assert_number("3/2 in", 1.5, " in", false);
    assert_number("25 1/2 in", 25.5, " in", false);
    assert_number("25-1/2 in", 25.5, " in", false);
    assert_number("7-6", 7.0, "-6", true);
    assert_number("1 in 12", 1.0, " in 12", true);
    assert_number("5e", 5.0, "e", true);
    assert_number("0x1p3", 0.0, "x1p3", true);
}

static void assert_no_number(const char *text, bw_parse fault)
{
    const char *at = text;
    double found = 2.385;
    bool whole = false;
    assert_int_equal(bwi_number_read(&at, &found, &whole), fault);
    assert_true(found == 2.385);
    assert_ptr_equal(at, text);
}

static void malformed_numbers_are_refused(void **state)
{
    (void)state;
    static const char *const texts[] = {
        "",      "in",        ".",     "-5", "1,5", "1.2.3", "1..2", "1/0",   "5 1/0",
        "1/2/3", "25 3/2 in", "1/2.5", "3/", "/3",  "e5",    "?5",   "1.5/2", "1e2/3"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        assert_no_number(texts[i], BW_PARSE_NUMBER);
    }
}

static void numbers_that_are_not_finite_are_refused(void **state)
{
    (void)state;
    static const char *const texts[] = {"inf",   "infinity", "nan",
                                        "1e999", "1e-999",   "1e-310"};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        assert_no_number(texts[i], BW_PARSE_RANGE);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(typographic_characters_become_plain),
        cmocka_unit_test(what_has_no_place_becomes_a_question_mark),
        cmocka_unit_test(text_that_is_too_long_is_refused),
        cmocka_unit_test(numbers_are_read_as_carpenters_write_them),
        cmocka_unit_test(malformed_numbers_are_refused),
        cmocka_unit_test(numbers_that_are_not_finite_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
