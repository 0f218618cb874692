#include "arena_fixture.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <stdalign.h>
#include <string.h>

static bool is_aligned(const void *memory)
{
    return (uintptr_t)memory % alignof(max_align_t) == 0;
}

static void every_size_is_aligned_zeroed_and_apart(void **state)
{
    unsigned char *before = NULL;
    for (size_t size = 0; size < 700; size++) {
        unsigned char *memory = bw_arena_alloc(*state, size);
        assert_non_null(memory);
        assert_true(is_aligned(memory));
        assert_ptr_not_equal(memory, before);
        for (size_t i = 0; i < size; i++) {
            assert_int_equal(memory[i], 0);
        }
        memset(memory, 0xA7, size);
        for (size_t i = 0; i + 1 < size; i++) {
            assert_int_equal(before[i], 0xA7); /* the one before was not touched */
        }
        before = memory;
    }
}

static void block_larger_than_usual_is_given_whole(void **state)
{
    const size_t size = 3U << 20U;
    unsigned char *memory = bw_arena_alloc(*state, size);
    assert_non_null(memory);
    assert_true(is_aligned(memory));
    memory[0] = 1;
    memory[size - 1] = 2;
    unsigned char *after = bw_arena_alloc(*state, 17);
    assert_non_null(after);
    assert_int_equal(memory[size - 1], 2);
}

static void product_beyond_the_address_space_is_refused(void **state)
{
    assert_null(bw_arena_alloc_array(*state, SIZE_MAX / 3, 5));
    assert_null(bw_arena_alloc(*state, SIZE_MAX));
    assert_null(bw_arena_alloc(*state, SIZE_MAX - 40));
    assert_non_null(bw_arena_alloc_array(*state, 0, 8));
    assert_non_null(bw_arena_alloc_array(*state, 8, 0));
    size_t capacity = 0;
    assert_null(bw_arena_grow(*state, NULL, SIZE_MAX / 2, &capacity, 1));
    assert_int_equal(capacity, 0);
}

static void going_back_gives_memory_again_and_zeroes_it(void **state)
{
    char *kept = bw_arena_copy(*state, "kept");
    const bw_arena_mark mark = bw_arena_now(*state);
    for (int round = 0; round < 3; round++) {
        for (int i = 0; i < 50; i++) {
            unsigned char *scratch = bw_arena_alloc(*state, 9001);
            assert_non_null(scratch);
            assert_int_equal(scratch[0], 0);
            assert_int_equal(scratch[9000], 0);
            memset(scratch, 0xFF, 9001);
        }
        bw_arena_back(*state, mark);
        assert_string_equal(kept, "kept");
    }
}

static void marks_nest(void **state)
{
    const bw_arena_mark outer = bw_arena_now(*state); /* of the empty arena */
    assert_non_null(bw_arena_alloc(*state, 31));
    const bw_arena_mark inner = bw_arena_now(*state);
    assert_non_null(bw_arena_alloc(*state, 100000));
    bw_arena_back(*state, inner);
    assert_ptr_equal(bw_arena_now(*state).block, inner.block);
    assert_int_equal(bw_arena_now(*state).used, inner.used);
    bw_arena_back(*state, outer);
    assert_null(bw_arena_now(*state).block);
    assert_non_null(bw_arena_alloc(*state, 7));
}

static void growing_keeps_what_is_there(void **state)
{
    int *items = NULL;
    size_t capacity = 0;
    size_t moves = 0;
    for (size_t i = 0; i < 5000; i++) {
        int *grown = bw_arena_grow(*state, items, i, &capacity, sizeof *items);
        assert_non_null(grown);
        assert_true(capacity > i);
        moves += grown != items ? 1 : 0;
        items = grown;
        items[i] = (int)(7 * i + 3);
    }
    for (size_t i = 0; i < 5000; i++) {
        assert_int_equal(items[i], 7 * i + 3);
    }
    assert_true(moves < 16); /* doubling, not one by one */
}

static void text_is_copied_and_printed(void **state)
{
    char original[] = "bole";
    char *copy = bw_arena_copy(*state, original);
    original[0] = 'h';
    assert_string_equal(copy, "bole");
    assert_string_equal(bw_arena_print(*state, "%s %d %.3f", "post", 42, 2.385),
                        "post 42 2.385");
    assert_string_equal(bw_arena_print(*state, "%s", ""), "");
}

static void nth_allocation_and_all_after_it_fail(void **state)
{
    bw_arena_fail_after(3);
    assert_non_null(bw_arena_alloc(*state, 5));
    assert_non_null(bw_arena_copy(*state, "a"));
    assert_null(bw_arena_alloc(*state, 5));
    assert_null(bw_arena_copy(*state, "a"));
    assert_null(bw_arena_print(*state, "%d", 1));
    assert_null(BW_NEW(*state, int, 4));
    assert_null(bw_arena_new());
    size_t capacity = 0;
    assert_null(bw_arena_grow(*state, NULL, 0, &capacity, 4));
    assert_int_equal(capacity, 0);
    bw_arena_fail_after(0);
    assert_non_null(bw_arena_alloc(*state, 5));
}

/* Leaks and uses after freeing are seen by the sanitizers. */
static void an_attached_arena_lives_as_long_as_what_came_after_it(void **state)
{
    char *before = bw_arena_copy(*state, "before");
    const bw_arena_mark mark = bw_arena_now(*state);
    for (int round = 0; round < 3; round++) {
        bw_arena *other = bw_arena_new(), *inner = bw_arena_new();
        char *own = bw_arena_copy(other, "its own");
        assert_true(bw_arena_attach(other, inner));
        char *deep = bw_arena_copy(inner, "deep");
        assert_true(bw_arena_attach(*state, other));
        char *after = bw_arena_copy(*state, "after");
        char *more = bw_arena_copy(other, "more"); /* it may still grow */
        assert_string_equal(own, "its own");
        assert_string_equal(deep, "deep");
        assert_string_equal(after, "after");
        assert_string_equal(more, "more");
        bw_arena_back(*state, mark);
    }
    assert_string_equal(before, "before");
    bw_arena *last = bw_arena_new();
    assert_non_null(bw_arena_copy(last, "goes with all"));
    assert_true(bw_arena_attach(*state, last));
}

static void what_failed_in_an_attached_arena_failed_here(void **state)
{
    bw_arena *other = bw_arena_new();
    bw_arena_spoil(other);
    assert_false(bw_arena_failed(*state));
    assert_true(bw_arena_attach(*state, other));
    assert_true(bw_arena_failed(*state));
}

static void without_memory_the_other_is_freed(void **state)
{
    bw_arena *other = bw_arena_new();
    assert_non_null(bw_arena_copy(other, "gone"));
    bw_arena_fail_after(1);
    assert_false(bw_arena_attach(*state, other));
    bw_arena_fail_after(0);
    assert_true(bw_arena_failed(*state));
}

static void nothing_can_be_freed(void **state)
{
    (void)state;
    bw_arena_free(NULL);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        WITH_ARENA(every_size_is_aligned_zeroed_and_apart),
        WITH_ARENA(block_larger_than_usual_is_given_whole),
        WITH_ARENA(product_beyond_the_address_space_is_refused),
        WITH_ARENA(going_back_gives_memory_again_and_zeroes_it),
        WITH_ARENA(marks_nest),
        WITH_ARENA(growing_keeps_what_is_there),
        WITH_ARENA(text_is_copied_and_printed),
        WITH_ARENA(nth_allocation_and_all_after_it_fail),
        WITH_ARENA(an_attached_arena_lives_as_long_as_what_came_after_it),
        WITH_ARENA(what_failed_in_an_attached_arena_failed_here),
        WITH_ARENA(without_memory_the_other_is_freed),
        WITH_ARENA(nothing_can_be_freed),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
