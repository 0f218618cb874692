/* consumer.cpp - the library linked into C++: prints its version, and a length read and
 * printed by it. */
#include <bolewright/bolewright.h>

#include <cstdio>

int main()
{
    bw_arena *arena = bw_arena_new();
    double length = 0.0;
    if (arena == nullptr ||
        bw_quantity_parse(BW_LENGTH, "7 ft 6 in", &length) != BW_PARSE_OK) {
        return 1;
    }
    const char *printed = bw_quantity_print(arena, BW_LENGTH, length, BW_METRIC);
    std::printf("%s %s\n", bw_version, printed != nullptr ? printed : "");
    bw_arena_free(arena);
    return 0;
}
