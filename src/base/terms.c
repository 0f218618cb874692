/* terms.c - the lines of a working. */
#include "bolewright/base.h"

const char *bw_mark_text(bw_mark mark)
{
    switch (mark) {
    case BW_MARK_NONE:
        break;
    case BW_MARK_READ:
        return "read";
    case BW_MARK_COMPUTED:
        return "computed";
    case BW_MARK_MEMORY:
        return "memory";
    case BW_MARK_PRACTICE:
        return "practice";
    case BW_MARK_JUDGEMENT:
        return "judgement";
    }
    return "";
}

bw_working bw_working_new(bw_arena *arena)
{
    const bw_working working = {.arena = arena};
    return working;
}

void bw_working_add(bw_working *working, bw_term term)
{
    bw_term *items = bw_arena_grow(working->arena, working->items, working->count,
                                   &working->capacity, sizeof(bw_term));
    if (items == NULL) {
        working->failed = true;
        return;
    }
    working->items = items;
    items[working->count++] = term;
}
