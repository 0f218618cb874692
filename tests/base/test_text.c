#include "arena_fixture.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <string.h>

#include "base/text.h"

static void pieces_are_joined(void **state)
{
    bw_text text = bw_text_new(*state);
    assert_string_equal(bw_text_string(&text), "");
    bw_text_add(&text, "cap ");
    bw_text_add_bytes(&text, "log!!", 3);
    bw_text_print(&text, " %d/%s", 17, "B2");
    bw_text_add(&text, "");
    assert_string_equal(bw_text_string(&text), "cap log 17/B2");
    assert_int_equal(text.length, strlen("cap log 17/B2"));
}

static void long_text_grows(void **state)
{
    bw_text text = bw_text_new(*state);
    for (int i = 0; i < 4000; i++) {
        bw_text_print(&text, "%04d", i);
    }
    assert_int_equal(text.length, 16000);
    assert_memory_equal(bw_text_string(&text) + (size_t)4 * 2385, "2385", 4);
    assert_int_equal(bw_text_string(&text)[16000], '\0');
}

/* Fails the n-th allocation for every n: no crash, and no text that is half there. */
static void memory_running_out_is_remembered(void **state)
{
    (void)state;
    bool whole = false;
    for (unsigned long n = 1; !whole && n < 100; n++) {
        bw_arena *arena = bw_arena_new(); /* one that failed is of no use any more */
        assert_non_null(arena);
        bw_text text = bw_text_new(arena);
        bw_arena_fail_after(n);
        for (int i = 0; i < 300; i++) {
            bw_text_add(&text, "girth");
            bw_text_print(&text, "%d ", i);
            bwi_text_add_visible(&text, "tip\t");
        }
        bw_arena_fail_after(0);
        bw_text_add(&text, "more");
        whole = !text.failed;
        assert_true((bw_text_string(&text) != NULL) == whole);
        assert_true(bw_arena_failed(arena) != whole);
        bw_text later = bw_text_new(arena);
        assert_true((bw_text_string(&later) != NULL) == whole);
        bw_arena_free(arena);
    }
    assert_true(whole);
}

/* Lengths of characters in UTF-8: RFC 3629, section 3 (MEMORY). */
static void columns_are_code_points(void **state)
{
    (void)state;
    assert_int_equal(bw_text_columns(""), 0);
    assert_int_equal(bw_text_columns("post"), 4);
    assert_int_equal(bw_text_columns("7 \xC2\xBD in"), 6);       /* 7 1/2 in */
    assert_int_equal(bw_text_columns("6\xE2\x80\xB2"), 2);       /* 6 and a prime */
    assert_int_equal(bw_text_columns("\xF0\x9F\x8C\xB2 ok"), 4); /* a tree */
}

/* Well-formed and malformed sequences: Unicode Standard, table 3-7 (MEMORY). */
static void utf8_is_told_from_other_bytes(void **state)
{
    (void)state;
    static const struct {
        const char *bytes;
        size_t length;
    } known[] = {
        {"", 1},
        {"a", 1},
        {"\x7F", 1},
        {"\xC2\x80", 2},
        {"\xDF\xBF", 2},
        {"\xE0\xA0\x80", 3},
        {"\xED\x9F\xBF", 3},
        {"\xEF\xBF\xBF", 3},
        {"\xF0\x90\x80\x80", 4},
        {"\xF4\x8F\xBF\xBF", 4},
        {"\x80", 0},             /* a continuation alone */
        {"\xC0\x80", 0},         /* overlong */
        {"\xC1\xBF", 0},         /* overlong */
        {"\xE0\x9F\xBF", 0},     /* overlong */
        {"\xF0\x8F\xBF\xBF", 0}, /* overlong */
        {"\xED\xA0\x80", 0},     /* a surrogate */
        {"\xF4\x90\x80\x80", 0}, /* beyond U+10FFFF */
        {"\xF5\x80\x80\x80", 0}, /* beyond U+10FFFF */
        {"\xFF", 0},
        {"\xC2", 0},         /* cut short */
        {"\xE2\x80", 0},     /* cut short */
        {"\xF0\x9F\x8C", 0}, /* cut short */
        {"\xE2\x80g", 0},    /* broken off */
    };
    for (size_t i = 0; i < sizeof known / sizeof known[0]; i++) {
        assert_int_equal(bwi_utf8_length(known[i].bytes), known[i].length);
    }
}

static void what_disturbs_a_terminal_is_made_visible(void **state)
{
    bw_text text = bw_text_new(*state);
    bwi_text_add_visible(&text, "a\n\x1B[31m\x7F\xC2\x9Bz\xFF\xC2\xBD\"\\");
    assert_string_equal(bw_text_string(&text),
                        "a\\x0A\\x1B[31m\\x7F\\xC2\\x9Bz\\xFF\xC2\xBD\"\\");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(pieces_are_joined),
        WITH_ARENA(long_text_grows),
        WITH_ARENA(memory_running_out_is_remembered),
        WITH_ARENA(columns_are_code_points),
        WITH_ARENA(utf8_is_told_from_other_bytes),
        WITH_ARENA(what_disturbs_a_terminal_is_made_visible),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
