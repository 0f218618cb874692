/* Guards, falls and width: what others ask of a deck as high, long and narrow as this.
 * Flags for the reader, no design rules; nothing here is checked. */
#include "internal.h"

#include <math.h>

typedef struct {
    const char *words;
    double higher, longer; /* [m] it speaks of decks above and beyond these; 0: any */
    double narrower;       /* [m] and below this; 0: any */
    bool half_height;      /* narrower than half the height */
    bw_mark mark;
    const char *source;
} rule;

static const char trails[] = "width and height of features by difficulty of the trail, a "
                             "club's page that restates a table (nobmob.com)";
static const char county[] =
    "Hampshire County Council, Countryside design standards, 2013";

static const rule rules[] = {
    {"a side rail", 0.680, 0.0, 0.0, false, BW_MARK_READ,
     "European leaflet on bike trails (imba-europe.org)"},
    {"a second handrail", 0.700, 0.0, 0.0, false, BW_MARK_READ, county},
    {"a guard 42 in high whose lower part lets no 4 in sphere through", 0.762, 0.0, 0.0,
     false, BW_MARK_READ, "IBC 2006, 1013, as quoted by the USFS (2007)"},
    {"a standard railing beside what is walked on at work", 1.2192, 0.0, 0.0, false,
     BW_MARK_READ, "OSHA 1910.23, older edition"},
    {"a complex structure: an inspector of a higher grade", 1.524, 6.096, 0.0, false,
     BW_MARK_READ, "USFS, Trail Bridge Inspection 101"},
    {"for very difficult trails or harder ones", 0.6, 0.0, 0.0, false, BW_MARK_READ,
     trails},
    {"for extremely difficult trails only", 1.2, 0.0, 0.0, false, BW_MARK_READ, trails},
    {"narrower than half its height: counts as harder than its height alone says", 0.0,
     0.0, 0.0, true, BW_MARK_MEMORY, trails},
    {"not for easy trails", 0.0, 0.0, 0.9, false, BW_MARK_READ, trails},
    {"for extremely difficult trails only: too narrow", 0.0, 0.0, 0.6, false,
     BW_MARK_READ, trails},
    {"too narrow for a footbridge", 0.0, 0.0, 1.0, false, BW_MARK_READ, county},
    {"too narrow for people on foot", 0.0, 0.0, 0.4572, false, BW_MARK_READ,
     "USFS Trail Construction and Maintenance Notebook, 18 in"},
};
enum { RULES = sizeof rules / sizeof rules[0] };

static bool speaks_at(const rule *r, const bw_case *deck, double height)
{
    const double width = deck->boards.width;
    const double length = bw_deck_length(deck);
    return height > r->higher && length > r->longer &&
           (r->narrower == 0.0 || width < r->narrower) &&
           (!r->half_height || width < height / 2.0);
}

/* The first bents where it speaks, and how many more. */
static const char *bents_of(const rule *r, const bw_case *deck, bw_arena *arena)
{
    enum { NAMED = 6 };
    bw_text names = bw_text_new(arena);
    size_t count = 0;
    for (size_t k = 0; k < deck->n_bents; k++) {
        if (speaks_at(r, deck, deck->bents[k].deck_height) && count++ < NAMED) {
            bw_text_print(&names, "%s%s", count == 1 ? "at bent " : ", ",
                          deck->bents[k].name);
        }
    }
    if (count > NAMED) {
        bw_text_print(&names, " and %zu more", count - NAMED);
    }
    return bw_text_string(&names);
}

static const char *when(const rule *r, const bw_case *deck, bw_arena *arena)
{
    bw_text text = bw_text_new(arena);
    const struct {
        const char *words;
        double value;
    } limits[] = {{"deck above", r->higher},
                  {"longer than", r->longer},
                  {"narrower than", r->narrower}};
    for (size_t k = 0; k < sizeof limits / sizeof limits[0]; k++) {
        const char *value =
            bw_quantity_print(arena, BW_LENGTH, limits[k].value, deck->units);
        if (limits[k].value > 0.0) {
            bw_text_print(&text, "%s%s %s", text.length > 0 ? ", " : "", limits[k].words,
                          value != NULL ? value : "?");
        }
    }
    bw_text_add(&text, r->half_height ? "width below half the height" : "");
    return bw_text_string(&text);
}

bw_status bwi_flags(const bwi_plan *p, bw_assessment *out)
{
    const bw_case *deck = p->deck;
    out->flags = BW_NEW(p->arena, bw_flag, RULES);
    for (size_t k = 0; out->flags != NULL && k < RULES; k++) {
        const rule *r = &rules[k];
        const bool by_height = r->higher > 0.0 || r->half_height;
        bw_flag *f = &out->flags[k];
        *f = (bw_flag){.words = r->words,
                       .when = when(r, deck, p->arena),
                       .speaks = speaks_at(r, deck, bw_deck_highest(deck)),
                       .where = by_height ? bents_of(r, deck, p->arena) : "",
                       .mark = r->mark,
                       .source = r->source};
        if (f->when == NULL || f->where == NULL) {
            return BW_E_MEMORY;
        }
    }
    out->n_flags = RULES;
    return out->flags != NULL ? BW_OK : BW_E_MEMORY;
}
