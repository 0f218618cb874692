/* arena_fixture.h - an arena for every test of the base layer. */
#ifndef BW_ARENA_FIXTURE_H
#define BW_ARENA_FIXTURE_H

#include "bolewright/base.h"

static int make_arena(void **state)
{
    bw_arena_fail_after(0);
    *state = bw_arena_new();
    return *state == NULL ? -1 : 0;
}

static int free_arena(void **state)
{
    bw_arena_fail_after(0);
    bw_arena_free(*state);
    return 0;
}

#define WITH_ARENA(test) cmocka_unit_test_setup_teardown(test, make_arena, free_arena)

#endif
