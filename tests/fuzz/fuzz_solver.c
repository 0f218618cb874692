/* Any bytes as a frame that holds together by construction; it must be solved, and keep
 * the laws of statics. The first byte says which law. */
#include "target.h"

#include "laws.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static void (*const laws[])(bwt_trial *) = {
        bwt_reactions_carry_the_loads,
        bwt_every_node_is_in_balance,
        bwt_work_is_stored,
        bwt_works_are_mutual,
    };
    enum { LAWS = sizeof laws / sizeof laws[0] };
    if (size == 0) {
        return 0;
    }
    bw_arena *arena = fuzz_arena();
    bwt_trial t = {.random = {.state = 2385, .bytes = data + 1, .n_bytes = size - 1},
                   .arena = arena,
                   .sketch = BW_NEW(arena, bwt_sketch, 1)};
    INSIST(t.sketch != NULL);
    bwt_sketch_random(&t.random, t.sketch);
    laws[data[0] % LAWS](&t);
    INSIST(t.misses == 0);
    bw_arena_free(arena);
    return 0;
}
