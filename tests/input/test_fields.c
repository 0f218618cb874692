/* test_fields.c - typed reading of single values. */
#include "support.h"

#include "input/fields.h"

#include <math.h>

static bw_arena *arena;
static bw_diags d;
static bwi_json doc;

/* Opens the text for one test. */
static bwi_at open_text(const char *text)
{
    arena = bw_arena_new();
    d = bw_diags_new(arena, "text");
    assert_true(bwi_json_open(&doc, arena, text, &d));
    return bwi_root(&doc);
}

static bw_status close_text(void)
{
    const bw_status status = bwi_json_close(&doc);
    bw_arena_free(arena);
    return status;
}

static const char *last_id(void)
{
    assert_true(d.count > 0);
    return d.items[d.count - 1].id;
}

static void a_length_is_read_as_people_write_it(void **state)
{
    (void)state;
    const bwi_at root = open_text("[\"6 ft 6 in\", \"2.29 m\", \"7'6\\\"\"]");
    /* The inch is 0.0254 m exactly (International Yard and Pound Agreement, 1959:
     * MEMORY). */
    static const double expected[] = {78 * 0.0254, 2.29, 90 * 0.0254};
    for (bwi_at item = bwi_first(&root); item.node != NULL; bwi_next(&item)) {
        double value = 0.0;
        assert_true(bwi_measure(&item, BW_LENGTH, (bwi_range){0.1, 10.0, false}, &value));
        assert_near(value, expected[item.index], 1e-15);
    }
    assert_int_equal(close_text(), BW_OK);
}

static void a_refused_value_leaves_the_result_alone(void **state)
{
    (void)state;
    const bwi_at root =
        open_text("[\"6\", 6, \"6 kg\", \"\", \"11 m\", null, \"6 in 2 ft\"]");
    static const char *const ids[] = {
        "quantity.no_unit", "quantity.no_unit", "quantity.unit", "quantity.empty",
        "value.range",      "value.type",       "quantity.mixed"};
    double value = 2.385;
    for (bwi_at item = bwi_first(&root); item.node != NULL; bwi_next(&item)) {
        assert_false(
            bwi_measure(&item, BW_LENGTH, (bwi_range){0.1, 10.0, false}, &value));
        assert_string_equal(last_id(), ids[item.index]);
    }
    assert_true(value > 2.384 && value < 2.386);
    assert_int_equal(d.count, 7);
    assert_int_equal(close_text(), BW_E_INPUT);
}

/* 0.05 m is printed as 1 15/16 in, which is a little less: who writes what was printed as
 * allowed must not be refused. */
static void a_limit_as_printed_is_allowed(void **state)
{
    (void)state;
    const bwi_range range = {0.05, 10.0, false};
    const bwi_at root =
        open_text("[\"1 15/16 in\", \"32 ft 9 11/16 in\", \"1 13/16 in\"]");
    double value = 0.0;
    assert_non_null(strstr(bwi_range_print(&doc, BW_LENGTH, range), "1 15/16 in"));
    assert_non_null(strstr(bwi_range_print(&doc, BW_LENGTH, range), "32 ft 9 11/16 in"));
    const bwi_at low = bwi_nth(&root, 0);
    assert_true(bwi_measure(&low, BW_LENGTH, range, &value));
    const bwi_at high = bwi_nth(&root, 1);
    assert_true(bwi_measure(&high, BW_LENGTH, range, &value));
    const bwi_at lower = bwi_nth(&root, 2);
    assert_false(bwi_measure(&lower, BW_LENGTH, range, &value));
    assert_int_equal(close_text(), BW_E_INPUT);
}

static void limits_of_numbers_hold_exactly(void **state)
{
    (void)state;
    const bwi_at root = open_text("[1, 10, 0.999, 10.001, 0, -0.0, 1e-12]");
    static const bool inside[] = {true, true, false, false, false, false, false};
    static const bool above_zero[] = {true, false, true, false, false, false, true};
    for (bwi_at item = bwi_first(&root); item.node != NULL; bwi_next(&item)) {
        double value = 0.0;
        assert_int_equal(bwi_number(&item, (bwi_range){1.0, 10.0, false}, &value),
                         inside[item.index]);
        assert_int_equal(
            bwi_measure_or_si(&item, BW_LENGTH, (bwi_range){0.0, 1.5, true}, &value),
            above_zero[item.index]);
    }
    assert_int_equal(close_text(), BW_E_INPUT);
}

static void a_bare_number_is_si_where_allowed(void **state)
{
    (void)state;
    const bwi_at root = open_text("[2.385, \"2385 mm\"]");
    const bwi_range range = {-HUGE_VAL, HUGE_VAL, false};
    for (bwi_at item = bwi_first(&root); item.node != NULL; bwi_next(&item)) {
        double value = 0.0;
        assert_true(bwi_measure_or_si(&item, BW_LENGTH, range, &value));
        assert_near(value, 2.385, 1e-15);
    }
    assert_int_equal(close_text(), BW_OK);
}

static void what_is_not_there_is_not_a_fault(void **state)
{
    (void)state;
    const bwi_at root = open_text("{}");
    const bwi_at at = bwi_key(&root, "width");
    const char *text = "kept";
    double value = 2.385;
    bool flag = true;
    int word = 7;
    assert_false(bwi_text(&at, &text) || bwi_name(&at, &text) || bwi_flag(&at, &flag) ||
                 BWI_WORD(&at, &word, "a") || bwi_list(&at, 1, 2) ||
                 BWI_OBJECT(&at, "a") || bwi_is_null(&at) ||
                 bwi_measure(&at, BW_LENGTH, (bwi_range){0.0, 1.0, false}, &value));
    assert_int_equal(d.count, 0);
    assert_string_equal(text, "kept");
    assert_int_equal(word, 7);
    const bwi_at needed = bwi_need(&root, "width");
    assert_null(needed.node);
    assert_string_equal(last_id(), "key.missing");
    assert_int_equal(close_text(), BW_E_INPUT);
}

static void a_text_outlives_the_document(void **state)
{
    (void)state;
    const bwi_at root = open_text("\"\xC3\xA9lan\"");
    const char *text = NULL;
    assert_true(bwi_name(&root, &text));
    assert_int_equal(bwi_json_close(&doc), BW_OK);
    assert_string_equal(text, "\xC3\xA9lan");
    bw_arena_free(arena);
}

static void names_are_measured_in_columns(void **state)
{
    (void)state;
    bw_arena *own = bw_arena_new();
    bw_text text = bw_text_new(own);
    bw_text_add(&text, "[\"");
    for (int i = 0; i < 60; i++) {
        bw_text_add(&text, "\xC3\xA9"); /* 120 bytes, 60 columns */
    }
    bw_text_add(&text, "\", \"");
    for (int i = 0; i < 61; i++) {
        bw_text_add(&text, "e");
    }
    bw_text_add(&text, "\"]");
    const bwi_at root = open_text(bw_text_string(&text));
    const char *name = NULL;
    const bwi_at sixty = bwi_nth(&root, 0);
    assert_true(bwi_name(&sixty, &name));
    const bwi_at more = bwi_nth(&root, 1);
    assert_false(bwi_name(&more, &name));
    assert_int_equal(close_text(), BW_E_INPUT);
    bw_arena_free(own);
}

static void control_characters_are_refused_however_written(void **state)
{
    (void)state;
    const bwi_at root = open_text(
        "[\"a\\nb\", \"a\\u001b[31m\", \"a\\u007f\", \"a\\u0085\", \"a\xC2\x9B\"]");
    for (bwi_at item = bwi_first(&root); item.node != NULL; bwi_next(&item)) {
        const char *text = NULL;
        assert_false(bwi_text(&item, &text));
        assert_string_equal(last_id(), "value.control");
    }
    assert_int_equal(d.count, 5);
    assert_int_equal(close_text(), BW_E_INPUT);
}

/* ---- names ---- */

static void names_are_found_in_any_order(void **state)
{
    (void)state;
    const bwi_at root =
        open_text("[{\"name\":\"q\"},{\"name\":\"b\"},{\"name\":\"m\"},\"x\"]");
    const char *const names[] = {"q", "b", "m", NULL};
    bwi_names all;
    assert_true(bwi_names_make(&root, "thing", "name", names, 4, &all));
    assert_int_equal(all.count, 3);
    assert_int_equal(bwi_names_find(&all, "q"), 0);
    assert_int_equal(bwi_names_find(&all, "b"), 1);
    assert_int_equal(bwi_names_find(&all, "m"), 2);
    assert_int_equal(bwi_names_find(&all, "a"), -1);
    assert_int_equal(bwi_names_find(&all, "n"), -1);
    assert_int_equal(bwi_names_find(&all, "z"), -1);
    assert_int_equal(bwi_names_find(&all, ""), -1);
    assert_int_equal(close_text(), BW_OK);
}

static void each_later_duplicate_is_told_with_the_first(void **state)
{
    (void)state;
    const bwi_at root = open_text(
        "[{\"name\":\"b\"},{\"name\":\"a\"},{\"name\":\"b\"},{\"name\":\"b\"}]");
    const char *const names[] = {"b", "a", "b", "b"};
    bwi_names all;
    assert_true(bwi_names_make(&root, "thing", "name", names, 4, &all));
    assert_int_equal(d.count, 2);
    assert_string_equal(d.items[0].path, "/2/name");
    assert_string_equal(d.items[1].path, "/3/name");
    assert_non_null(strstr(d.items[1].message, "number 1"));
    assert_int_equal(bwi_names_find(&all, "b"), 0);
    assert_int_equal(close_text(), BW_E_INPUT);
}

static void an_index_stands_for_a_name(void **state)
{
    (void)state;
    const bwi_at root = open_text("[\"b\", 1, 2, -1, 0.5, 1e300, -0.0]");
    const char *const names[] = {"a", "b"};
    static const int expected[] = {1, 1, -1, -1, -1, -1, 0};
    bwi_names all;
    assert_true(bwi_names_make(&root, "thing", "name", names, 2, &all));
    for (bwi_at item = bwi_first(&root); item.node != NULL; bwi_next(&item)) {
        int found = -1;
        assert_int_equal(bwi_reference_or_index(&item, &all, &found),
                         expected[item.index] >= 0);
        assert_int_equal(found, expected[item.index]);
    }
    assert_int_equal(d.count, 4);
    assert_int_equal(close_text(), BW_E_INPUT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_length_is_read_as_people_write_it),
        cmocka_unit_test(a_refused_value_leaves_the_result_alone),
        cmocka_unit_test(a_limit_as_printed_is_allowed),
        cmocka_unit_test(limits_of_numbers_hold_exactly),
        cmocka_unit_test(a_bare_number_is_si_where_allowed),
        cmocka_unit_test(what_is_not_there_is_not_a_fault),
        cmocka_unit_test(a_text_outlives_the_document),
        cmocka_unit_test(names_are_measured_in_columns),
        cmocka_unit_test(control_characters_are_refused_however_written),
        cmocka_unit_test(names_are_found_in_any_order),
        cmocka_unit_test(each_later_duplicate_is_told_with_the_first),
        cmocka_unit_test(an_index_stands_for_a_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
