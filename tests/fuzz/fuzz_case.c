/* A case: read. */
#include "target.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    bw_arena *arena = fuzz_arena();
    bw_diags d = bw_diags_new(arena, "case.json");
    const char *text = fuzz_text(arena, data, size);
    bw_case deck;
    fuzz_check_reading(text, bw_input_case(arena, text, fuzz_species(), &deck, &d), &d);
    bw_arena_free(arena);
    return 0;
}
