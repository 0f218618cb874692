/* arena.c - the only file that asks the system for memory.
 *
 * An arena is a stack of blocks, newest on top. Everything is handed out from the top
 * block; a mark remembers the top block and how much of it was used, so going back frees
 * the blocks above it. Memory is zeroed when handed out, not when a block is made,
 * because a mark may have given it back after use. */
#include "bolewright/base.h"

#include <stdalign.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct block {
    struct block *below;
    bw_arena *attached; /* freed with the block; or null */
    size_t size, used;  /* bytes of data */
    alignas(max_align_t) unsigned char data[];
} block;

struct bw_arena {
    block *top;  /* null while empty */
    bool failed; /* it could not give what was asked for, at some time */
};

/* Under the address sanitizer every allocation gets a block of its own, exactly as large
 * as asked for, so that reading past its end is caught. */
#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define BWI_EXACT_BLOCKS
#endif
#elif defined(__SANITIZE_ADDRESS__)
#define BWI_EXACT_BLOCKS
#endif
#ifdef BWI_EXACT_BLOCKS
static const size_t least_block_size = 1;
#else
static const size_t least_block_size = 65536;
#endif

/* Only tests set this. 0: never fail; n: the n-th allocation from now on fails. */
static _Thread_local unsigned long allocations_until_failure = 0;

void bw_arena_fail_after(unsigned long n)
{
    allocations_until_failure = n;
}

static bool failure_is_due(void)
{
    if (allocations_until_failure > 1) {
        allocations_until_failure--;
        return false;
    }
    return allocations_until_failure == 1;
}

bw_arena *bw_arena_new(void)
{
    return failure_is_due() ? NULL : calloc(1, sizeof(bw_arena));
}

void bw_arena_free(bw_arena *arena)
{
    if (arena != NULL) {
        bw_arena_back(arena, (bw_arena_mark){NULL, 0});
        free(arena);
    }
}

/* Puts a block with room for at least size bytes on top. */
static bool push_block(bw_arena *arena, size_t size)
{
    if (size < least_block_size) {
        size = least_block_size;
    }
    if (size > PTRDIFF_MAX - sizeof(block)) { /* no object may be larger */
        return false;
    }
    block *top = malloc(sizeof(block) + size);
    if (top == NULL) {
        return false;
    }
    *top = (block){.below = arena->top, .size = size, .used = 0};
    arena->top = top;
    return true;
}

/* Where in the top block the next size bytes would start; SIZE_MAX if they do not fit. */
static size_t next_start(const block *top, size_t size)
{
    const size_t step = alignof(max_align_t);
    const size_t past = top->used % step;
    const size_t gap = past == 0 ? 0 : step - past;
    if (gap > top->size - top->used || size > top->size - top->used - gap) {
        return SIZE_MAX;
    }
    return top->used + gap;
}

/* Remembered, so that what was made without this memory is never taken for a result. */
static void *fail(bw_arena *arena)
{
    arena->failed = true;
    return NULL;
}

void bw_arena_spoil(bw_arena *arena)
{
    arena->failed = true;
}

bool bw_arena_failed(const bw_arena *arena)
{
    return arena->failed;
}

void *bw_arena_alloc(bw_arena *arena, size_t size)
{
    if (failure_is_due()) {
        return fail(arena);
    }
    if (size == 0) {
        size = 1;
    }
    size_t start = arena->top == NULL ? SIZE_MAX : next_start(arena->top, size);
    if (start == SIZE_MAX) {
        if (!push_block(arena, size)) {
            return fail(arena);
        }
        start = 0;
    }
    arena->top->used = start + size;
    return memset(arena->top->data + start, 0, size);
}

void *bw_arena_alloc_array(bw_arena *arena, size_t count, size_t size)
{
    if (size != 0 && count > SIZE_MAX / size) {
        return fail(arena);
    }
    return bw_arena_alloc(arena, count * size);
}

void *bw_arena_grow(bw_arena *arena, void *items, size_t count, size_t *capacity,
                    size_t size)
{
    static const size_t first_capacity = 8;
    if (count < *capacity) {
        return items;
    }
    if (count > SIZE_MAX / 2 - first_capacity) {
        return fail(arena);
    }
    const size_t wanted = 2 * count + first_capacity;
    void *moved = bw_arena_alloc_array(arena, wanted, size);
    if (moved == NULL) {
        return NULL;
    }
    if (*capacity > 0) {
        memcpy(moved, items, *capacity * size);
    }
    *capacity = wanted;
    return moved;
}

char *bw_arena_copy(bw_arena *arena, const char *text)
{
    const size_t size = strlen(text) + 1;
    char *copy = bw_arena_alloc(arena, size);
    return copy == NULL ? NULL : memcpy(copy, text, size);
}

char *bw_arena_print(bw_arena *arena, const char *format, ...)
{
    va_list pieces;
    va_start(pieces, format);
    const int length = vsnprintf(NULL, 0, format, pieces);
    va_end(pieces);
    if (length < 0) {
        return NULL;
    }
    char *text = bw_arena_alloc(arena, (size_t)length + 1);
    if (text != NULL) {
        va_start(pieces, format);
        vsnprintf(text, (size_t)length + 1, format, pieces);
        va_end(pieces);
    }
    return text;
}

bw_arena_mark bw_arena_now(bw_arena *arena)
{
    const bw_arena_mark mark = {arena->top, arena->top == NULL ? 0 : arena->top->used};
    return mark;
}

bool bw_arena_attach(bw_arena *arena, bw_arena *other)
{
    arena->failed = arena->failed || other->failed;
    if (failure_is_due() || !push_block(arena, 0)) {
        bw_arena_free(other);
        fail(arena);
        return false;
    }
    arena->top->attached = other;
    return true;
}

void bw_arena_back(bw_arena *arena, bw_arena_mark mark)
{
    while (arena->top != NULL && arena->top != mark.block) {
        block *below = arena->top->below;
        bw_arena_free(arena->top->attached);
        free(arena->top);
        arena->top = below;
    }
    if (arena->top != NULL) {
        arena->top->used = mark.used;
    }
}
