#include "arena_fixture.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void marks_have_the_words_of_the_tables(void **state)
{
    (void)state;
    assert_string_equal(bw_mark_text(BW_MARK_NONE), "");
    assert_string_equal(bw_mark_text(BW_MARK_READ), "read");
    assert_string_equal(bw_mark_text(BW_MARK_COMPUTED), "computed");
    assert_string_equal(bw_mark_text(BW_MARK_MEMORY), "memory");
    assert_string_equal(bw_mark_text(BW_MARK_PRACTICE), "practice");
    assert_string_equal(bw_mark_text(BW_MARK_JUDGEMENT), "judgement");
    assert_string_equal(bw_mark_text((bw_mark)(BW_MARK_JUDGEMENT + 1)), "");
}

static void terms_stay_in_the_order_added(void **state)
{
    bw_working working = bw_working_new(*state);
    for (int i = 0; i < 40; i++) {
        const bw_term term = {.symbol = "M", .value = 2.385 * i, .quantity = BW_MOMENT};
        bw_working_add(&working, term);
    }
    assert_int_equal(working.count, 40);
    assert_false(working.failed);
    for (int i = 0; i < 40; i++) {
        assert_true(working.items[i].value == 2.385 * i);
        assert_int_equal(working.items[i].quantity, BW_MOMENT);
    }
}

static void memory_running_out_is_remembered(void **state)
{
    bw_working working = bw_working_new(*state);
    const bw_term term = {.symbol = "M", .value = 2.385};
    bw_arena_fail_after(1);
    bw_working_add(&working, term);
    bw_arena_fail_after(0);
    assert_true(working.failed);
    assert_int_equal(working.count, 0);
    bw_working_add(&working, term);
    assert_true(working.failed);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(marks_have_the_words_of_the_tables),
        WITH_ARENA(terms_stay_in_the_order_added),
        WITH_ARENA(memory_running_out_is_remembered),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
