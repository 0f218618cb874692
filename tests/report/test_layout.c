/* Lines, paragraphs and tables: whatever stands in a case, the page holds it. */
#include "report/internal.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static int start(void **state)
{
    *state = bw_arena_new();
    return *state == NULL ? -1 : 0;
}

static int stop(void **state)
{
    bw_arena_free(*state);
    return 0;
}

static size_t widest_line(const char *text)
{
    size_t widest = 0;
    while (*text != '\0') {
        const size_t length = strcspn(text, "\n");
        char line[1024] = {0};
        assert_true(length < sizeof line);
        memcpy(line, text, length);
        const size_t columns = bw_text_columns(line);
        widest = columns > widest ? columns : widest;
        text += length + (text[length] == '\n' ? 1 : 0);
    }
    return widest;
}

/* Unicode Standard, table 3-7 (well-formed UTF-8 byte sequences), MEMORY; RFC 3629
 * section 4 gives the same grammar. */
static void malformed_utf8_has_no_length(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        size_t length;
    } rows[] = {
        {"A", 1},
        {"\xC3\xA9", 2},         /* e acute */
        {"\xE2\x80\xB3", 3},     /* double prime */
        {"\xF0\x9F\x8C\xB2", 4}, /* evergreen tree */
        {"\xC0\x80", 0},         /* overlong */
        {"\xE0\x9F\xBF", 0},     /* overlong */
        {"\xED\xA0\x80", 0},     /* surrogate */
        {"\xF4\x90\x80\x80", 0}, /* beyond U+10FFFF */
        {"\xF5\x80\x80\x80", 0},
        {"\x80", 0},     /* continuation alone */
        {"\xE2\x80", 0}, /* cut short */
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        assert_int_equal(bwi_character_length(rows[i].bytes), rows[i].length);
    }
}

static void control_characters_do_not_reach_the_terminal(void **state)
{
    const char *clean =
        bwi_clean(*state, "red \x1b[31m\nname\tof \xC2\x9B\x7F log \xFF \xC3\xA9\r");
    assert_string_equal(clean, "red ?[31m name of ?? log ? \xC3\xA9 ");
}

static void a_line_breaks_at_a_blank_if_there_is_one(void **state)
{
    (void)state;
    const char *rest = "alpha beta  gamma";
    size_t length = 0;
    const char *line = bwi_take_line(&rest, 12, &length);
    assert_int_equal(length, 10);
    assert_memory_equal(line, "alpha beta", 10);
    assert_string_equal(rest, "gamma");
    rest = "unbreakable";
    line = bwi_take_line(&rest, 4, &length);
    assert_memory_equal(line, "unbr", 4);
    assert_int_equal(length, 4);
    assert_string_equal(rest, "eakable");
}

static void a_line_that_just_fits_is_not_broken(void **state)
{
    (void)state;
    size_t length = 0;
    const char *rest = "seven 7";
    (void)bwi_take_line(&rest, 7, &length);
    assert_int_equal(length, 7);
    assert_string_equal(rest, "");
    rest = "seven 7 more";
    (void)bwi_take_line(&rest, 7, &length);
    assert_int_equal(length, 7);
    assert_string_equal(rest, "more");
}

static void a_code_point_is_never_cut_in_two(void **state)
{
    (void)state;
    const char *rest = "\xC3\xA9\xC3\xA9\xC3\xA9";
    size_t length = 0;
    (void)bwi_take_line(&rest, 2, &length);
    assert_int_equal(length, 4);
    assert_string_equal(rest, "\xC3\xA9");
}

static void a_paragraph_hangs_under_its_lead_and_fits(void **state)
{
    bw_text out = bw_text_new(*state);
    bwi_paragraph(
        &out, "  - ",
        "one two three four five six seven eight nine ten eleven twelve thirteen "
        "fourteen fifteen sixteen seventeen");
    const char *text = bw_text_string(&out);
    assert_non_null(strstr(text, "\n    "));
    assert_true(widest_line(text) <= BWI_PAGE_COLUMNS);
    assert_memory_equal(text, "  - one", 7);
}

static void an_empty_paragraph_is_one_empty_line(void **state)
{
    bw_text out = bw_text_new(*state);
    bwi_paragraph(&out, "", "");
    assert_string_equal(bw_text_string(&out), "\n");
}

static void columns_align_with_accents_in_them(void **state)
{
    static const bwi_column columns[] = {{"log", false}, {"value", true}};
    bw_text out = bw_text_new(*state);
    bwi_table table = bwi_table_new(&out, columns, 2);
    bwi_table_cell(&table, "m\xC3\xA9l\xC3\xA8ze");
    bwi_table_cell(&table, "2.385");
    bwi_table_cell(&table, "pine");
    bwi_table_cell(&table, "14.2");
    bwi_table_print(&table, 2);
    assert_string_equal(bw_text_string(&out), "  log     value\n"
                                              "  m\xC3\xA9l\xC3\xA8ze  2.385\n"
                                              "  pine     14.2\n");
}

static void a_table_wider_than_the_page_wraps_its_widest_column(void **state)
{
    static const bwi_column columns[] = {
        {"name", false}, {"number", true}, {"word", false}};
    bw_text out = bw_text_new(*state);
    bwi_table table = bwi_table_new(&out, columns, 3);
    char name[301];
    memset(name, 'x', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    bwi_table_cell(&table, name);
    bwi_table_cell(&table, "123456.7");
    bwi_table_cell(&table, "OVER");
    bwi_table_print(&table, 2);
    const char *text = bw_text_string(&out);
    assert_int_equal(widest_line(text), BWI_PAGE_COLUMNS);
    assert_non_null(strstr(text, "123456.7  OVER\n"));
    size_t letters = 0;
    for (const char *at = text; *at != '\0'; at++) {
        letters += *at == 'x' ? 1U : 0U;
    }
    assert_int_equal(letters, 300);
}

static void no_line_of_a_table_ends_in_a_blank(void **state)
{
    static const bwi_column columns[] = {
        {"a", false}, {"long heading", false}, {"c", true}};
    bw_text out = bw_text_new(*state);
    bwi_table table = bwi_table_new(&out, columns, 3);
    const char *const cells[] = {"x", "", "", "y", "z", "", "", "", "7"};
    for (size_t i = 0; i < 9; i++) {
        bwi_table_cell(&table, cells[i]);
    }
    bwi_table_print(&table, 2);
    assert_null(strstr(bw_text_string(&out), " \n"));
    assert_non_null(strstr(bw_text_string(&out), "\n  x\n  y  z\n"));
}

static void a_missing_cell_is_memory_that_ran_out(void **state)
{
    static const bwi_column columns[] = {{"a", false}};
    bw_text out = bw_text_new(*state);
    bwi_table table = bwi_table_new(&out, columns, 1);
    bwi_table_cell(&table, NULL);
    bwi_table_print(&table, 0);
    assert_null(bw_text_string(&out));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(malformed_utf8_has_no_length),
        cmocka_unit_test_setup_teardown(control_characters_do_not_reach_the_terminal,
                                        start, stop),
        cmocka_unit_test(a_line_breaks_at_a_blank_if_there_is_one),
        cmocka_unit_test(a_line_that_just_fits_is_not_broken),
        cmocka_unit_test(a_code_point_is_never_cut_in_two),
        cmocka_unit_test_setup_teardown(a_paragraph_hangs_under_its_lead_and_fits, start,
                                        stop),
        cmocka_unit_test_setup_teardown(an_empty_paragraph_is_one_empty_line, start,
                                        stop),
        cmocka_unit_test_setup_teardown(columns_align_with_accents_in_them, start, stop),
        cmocka_unit_test_setup_teardown(
            a_table_wider_than_the_page_wraps_its_widest_column, start, stop),
        cmocka_unit_test_setup_teardown(no_line_of_a_table_ends_in_a_blank, start, stop),
        cmocka_unit_test_setup_teardown(a_missing_cell_is_memory_that_ran_out, start,
                                        stop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
