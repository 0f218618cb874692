/* along.c - where bents stand along the deck: how they follow on each other, and a place
 * for one more behind one of them. */
#include "internal.h"

#include <math.h>
#include <stdlib.h>

typedef struct {
    double at; /* [m] */
    size_t index;
} station;

static int by_place(const void *a, const void *b)
{
    const station *p = a, *q = b;
    if (p->at < q->at || q->at < p->at) {
        return p->at < q->at ? -1 : 1;
    }
    return p->index < q->index ? -1 : p->index > q->index;
}

static station *sorted(bw_arena *arena, const bwi_lengths *lengths)
{
    station *stations = BW_NEW(arena, station, lengths->count);
    for (size_t k = 0; stations != NULL && k < lengths->count; k++) {
        stations[k] = (station){lengths->values[k], k};
    }
    if (stations != NULL) {
        qsort(stations, lengths->count, sizeof stations[0], by_place);
    }
    return stations;
}

/* Half way to the next one; behind the last, a bay as long as the one before it. */
static double place_behind(const station *stations, size_t count, size_t k)
{
    const double here = stations[k].at;
    return k + 1 < count ? 0.5 * (here + stations[k + 1].at)
                         : here + (here - stations[k - 1].at);
}

/* Behind the bent of that index, or the last one; empty where there is no bay yet. */
static const char *place(bwi_exchange *x, const station *stations, size_t count)
{
    const long after = bwi_index(bwi_argument(x->request, "after"), count);
    size_t k = count - 1;
    while (after >= 0 && k > 0 && stations[k].index != (size_t)after) {
        k--;
    }
    const double at = count < 2 ? (double)NAN : place_behind(stations, count, k);
    return isfinite(at)
               ? bw_quantity_print(x->arena, BW_LENGTH, at, bwi_units(x->request))
               : "";
}

void bwi_answer_along(bwi_exchange *x, bw_page_response *out)
{
    (void)out;
    bwi_lengths lengths;
    if (!bwi_lengths_read(x, &lengths)) {
        bw_text_add(&x->out, "{\"order\": [], \"place\": \"\"}\n");
        return;
    }
    const station *stations = sorted(x->arena, &lengths);
    const char *words = stations == NULL ? NULL : place(x, stations, lengths.count);
    bw_text_add(&x->out, "{\"order\": [");
    for (size_t k = 0; words != NULL && k < lengths.count; k++) {
        bw_text_print(&x->out, k > 0 ? ", %zu" : "%zu", stations[k].index);
    }
    bw_text_add(&x->out, "], \"place\": ");
    bw_json_string(&x->out, words != NULL ? words : "");
    x->out.failed = x->out.failed || words == NULL;
    bw_text_add(&x->out, "}\n");
}
