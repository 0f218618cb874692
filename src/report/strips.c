/* strips.c - long decks are drawn in parts. */
#include "internal.h"

#include <math.h>

/* Length of deck that one strip shows: logs stay thick enough to write on, unless the
 * deck is so long that there would be too many. */
static double strip_length(double whole)
{
    const double usual = 8.2, of_long = 16.4, is_long = 41.0; /* [m] */
    return whole > is_long ? of_long : usual;
}

const bwi_strip *bwi_strips(bw_arena *arena, const bw_case *deck, size_t *count)
{
    bwi_strip *strips = BW_NEW(arena, bwi_strip, deck->n_bents);
    *count = 0;
    if (strips == NULL || deck->n_bents < 2) {
        return NULL;
    }
    const double whole = bw_deck_length(deck);
    const double parts = ceil(whole / strip_length(whole) - 1e-9);
    const double start = deck->bents[0].at, share = whole / fmax(parts, 1.0);
    for (size_t first = 0; first + 1 < deck->n_bents;) {
        /* as near to an even division as the bents allow */
        const double end = start + share * (double)(*count + 1);
        size_t last = first + 1;
        while (last + 1 < deck->n_bents &&
               (deck->bents[last].at + deck->bents[last + 1].at) / 2.0 < end) {
            last++;
        }
        strips[(*count)++] = (bwi_strip){first, last};
        first = last;
    }
    return strips;
}

double bwi_longest_strip(const bw_case *deck, const bwi_strip *strips, size_t count)
{
    double longest = 0.0;
    for (size_t k = 0; k < count; k++) {
        longest = fmax(longest,
                       deck->bents[strips[k].last].at - deck->bents[strips[k].first].at);
    }
    return longest;
}
