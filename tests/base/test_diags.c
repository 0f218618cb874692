#include "arena_fixture.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

static const char *printed(const bw_diags *diags)
{
    bw_text out = bw_text_new(diags->arena);
    bw_diags_print(diags, &out);
    return bw_text_string(&out);
}

static void add(bw_diags *diags, int line, int column, const char *message)
{
    const bw_diag diag = {.severity = BW_ERROR,
                          .id = "case.range",
                          .line = line,
                          .column = column,
                          .message = message};
    bw_diags_add(diags, &diag);
}

static void faults_print_in_the_order_of_the_file(void **state)
{
    bw_diags diags = bw_diags_new(*state, "cases/porch.json");
    add(&diags, 0, 0, "no place");
    add(&diags, 23, 27, "third");
    add(&diags, 23, 4, "first of two");
    add(&diags, 7, 90, "top");
    add(&diags, 23, 4, "second of two");
    add(&diags, 31, 0, "line alone");
    assert_string_equal(printed(&diags),
                        "bolewright: cases/porch.json:7:90: top\n"
                        "bolewright: cases/porch.json:23:4: first of two\n"
                        "bolewright: cases/porch.json:23:4: second of two\n"
                        "bolewright: cases/porch.json:23:27: third\n"
                        "bolewright: cases/porch.json:31: line alone\n"
                        "bolewright: cases/porch.json: no place\n");
    assert_int_equal(diags.errors, 6);
    assert_string_equal(diags.items[0].message, "no place"); /* printing sorts nothing */
}

static void a_warning_is_told_once(void **state)
{
    bw_diags diags = bw_diags_new(*state, "porch.json");
    for (int k = 0; k < 3; k++) {
        bw_diags_warn(&diags, "deck.notch", "/logs/2", NULL, "a notch in the middle");
        bw_diags_warn(&diags, "deck.notch", "/logs/3", NULL, "a notch in the middle");
        bw_diags_warn(&diags, "deck.notch", NULL, NULL, "a notch in the middle");
        bw_diags_error(&diags, "deck.notch", "/logs/2", NULL, "a notch in the middle");
    }
    assert_int_equal(diags.count, 6); /* faults are counted, one by one */
    assert_int_equal(diags.errors, 3);
    bw_diags_warn(&diags, "deck.notch", "/logs/2", NULL, "another notch");
    assert_int_equal(diags.count, 7);
}

static void every_part_has_its_line(void **state)
{
    bw_diags diags = bw_diags_new(*state, "porch.json");
    const bw_diag diag = {.severity = BW_WARNING,
                          .id = "quantity.unit",
                          .path = "/logs/2/butt_girth",
                          .line = 23,
                          .column = 27,
                          .message = "\"4\" has no unit; a length needs one",
                          .allowed = "4 in to 12 ft 4 in",
                          .hint = "write it as measured, such as \"31 1/2 in\""};
    bw_diags_add(&diags, &diag);
    assert_string_equal(
        printed(&diags),
        "bolewright: porch.json:23:27: warning: /logs/2/butt_girth: \"4\" has no "
        "unit; a length needs one\n"
        "  allowed: 4 in to 12 ft 4 in\n"
        "  hint: write it as measured, such as \"31 1/2 in\"\n");
    assert_int_equal(diags.errors, 0);
}

static void pointer_is_not_said_twice(void **state)
{
    bw_diags diags = bw_diags_new(*state, NULL);
    bw_diags_error(&diags, "case.key", "/rows/1", NULL, "/rows/1 has no key \"across\"");
    bw_diags_error(&diags, "case.key", "", NULL, "no key \"bents\"");
    assert_string_equal(printed(&diags), "bolewright: /rows/1 has no key \"across\"\n"
                                         "bolewright: no key \"bents\"\n");
}

static void shorthands_count_errors_apart_from_warnings(void **state)
{
    bw_diags diags = bw_diags_new(*state, NULL);
    bw_diags_error(&diags, "frame.free", "/bents/0", "add a brace", "%s turns by %d",
                   "B1", 3);
    bw_diags_warn(&diags, "log.tip", NULL, NULL, "the tip is thicker than the butt");
    const bw_diag note = {.severity = BW_NOTE, .id = "n", .message = "as given"};
    bw_diags_add(&diags, &note);
    assert_int_equal(diags.count, 3);
    assert_int_equal(diags.errors, 1);
    assert_string_equal(printed(&diags),
                        "bolewright: /bents/0: B1 turns by 3\n"
                        "  hint: add a brace\n"
                        "bolewright: warning: the tip is thicker than the butt\n"
                        "bolewright: note: as given\n");
}

static void strings_are_copied(void **state)
{
    char id[] = "a.b";
    char path[] = "/deck";
    char message[] = "wrong";
    char hint[] = "right";
    char allowed[] = "more";
    bw_diags diags = bw_diags_new(*state, NULL);
    const bw_diag diag = {BW_ERROR, id, path, 2, 5, message, allowed, hint};
    bw_diags_add(&diags, &diag);
    id[0] = path[1] = message[0] = hint[0] = allowed[0] = '#';
    assert_string_equal(diags.items[0].id, "a.b");
    assert_string_equal(diags.items[0].path, "/deck");
    assert_string_equal(diags.items[0].message, "wrong");
    assert_string_equal(diags.items[0].allowed, "more");
    assert_string_equal(diags.items[0].hint, "right");
}

static void text_of_a_file_cannot_forge_a_line(void **state)
{
    bw_diags diags = bw_diags_new(*state, "a\nb.json");
    bw_diags_error(&diags, "x", NULL, "c\x1B[2J", "d\nbolewright: all is well");
    assert_string_equal(printed(&diags),
                        "bolewright: a\\x0Ab.json: d\\x0Abolewright: all is well\n"
                        "  hint: c\\x1B[2J\n");
}

static void nothing_found_prints_nothing(void **state)
{
    const bw_diags diags = bw_diags_new(*state, "porch.json");
    assert_string_equal(printed(&diags), "");
}

/* An error is counted even if there is no memory for it. */
static void no_error_is_lost_when_memory_runs_out(void **state)
{
    bool whole = false;
    for (unsigned long n = 1; !whole && n < 100; n++) {
        bw_arena *arena = bw_arena_new();
        assert_non_null(arena);
        bw_diags diags = bw_diags_new(arena, "porch.json");
        bw_arena_fail_after(n);
        for (int i = 0; i < 12; i++) {
            bw_diags_error(&diags, "x", "/deck", "hint", "fault %d", i);
        }
        const char *text = printed(&diags);
        bw_arena_fail_after(0);
        assert_int_equal(diags.errors, 12);
        assert_true(diags.failed || diags.count == 12);
        whole = !diags.failed && text != NULL;
        assert_true(whole || diags.failed || text == NULL);
        bw_text rest = bw_text_new(*state);
        bw_diags_print(&diags, &rest); /* what was recorded can still be read */
        assert_non_null(bw_text_string(&rest));
        assert_true(!whole || strcmp(bw_text_string(&rest), text) == 0);
        bw_arena_free(arena);
    }
    assert_true(whole);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(faults_print_in_the_order_of_the_file),
        WITH_ARENA(a_warning_is_told_once),
        WITH_ARENA(every_part_has_its_line),
        WITH_ARENA(pointer_is_not_said_twice),
        WITH_ARENA(shorthands_count_errors_apart_from_warnings),
        WITH_ARENA(strings_are_copied),
        WITH_ARENA(text_of_a_file_cannot_forge_a_line),
        WITH_ARENA(nothing_found_prints_nothing),
        WITH_ARENA(no_error_is_lost_when_memory_runs_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
