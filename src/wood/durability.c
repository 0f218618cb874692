/* How long an untreated log may last with its foot in the ground. Field trials give years
 * for posts of one place and soil; the ranges here lie on their short side: an inspection
 * must come before the rot, not after. */
#include <string.h>

#include "bolewright/wood.h"

static const char trials[] =
    "chosen, on the short side of: Oregon post farm (1976: every untreated series had "
    "failed), fence posts of white oak 15 and red oak 7 years, cedar 10 to 15, logs of "
    "durable wood usually under 20 (USFS notebook)";

static const bw_durability classes[] = {
    [BW_DURABILITY_UNKNOWN] = {BW_DURABILITY_UNKNOWN, 2, 5, BW_MARK_JUDGEMENT, trials},
    [BW_DURABILITY_SLIGHT] = {BW_DURABILITY_SLIGHT, 2, 5, BW_MARK_JUDGEMENT, trials},
    [BW_DURABILITY_MODERATE] = {BW_DURABILITY_MODERATE, 4, 8, BW_MARK_JUDGEMENT, trials},
    [BW_DURABILITY_RESISTANT] = {BW_DURABILITY_RESISTANT, 7, 15, BW_MARK_JUDGEMENT,
                                 trials},
};

const bw_durability bw_durability_sapwood = {
    BW_DURABILITY_SLIGHT, 2, 4, BW_MARK_JUDGEMENT,
    "sapwood of every species is perishable in the ground, a few years (FPL digest); the "
    "years are chosen"};

const char bw_durability_warning[] =
    "Only heartwood resists decay. Logs under about 8 in across, and young trees of any "
    "size, are mostly sapwood: count on the sapwood years unless you have seen the "
    "heartwood on the cut end.";

const bw_sourced_text bw_durability_helps[] = {
    {"take the bark off: it keeps the wood under it wet (one trial in a dry country "
     "found "
     "the opposite)",
     BW_MARK_READ, "trade; Journal of Forestry 39(8), 1941 for the contrary"},
    {"drain the hole: gravel under and around the foot; concrete that forms a cup keeps "
     "water",
     BW_MARK_PRACTICE, "trade"},
    {"keep seats drained: a spacer or a slope, no flat cup that fills; slope post tops, "
     "keep end grain covered",
     BW_MARK_READ, "British Columbia trail notes 7-7; USFS notebook"},
    {"keep stringers and sills off the soil, gaps of 3/4 in between boards", BW_MARK_READ,
     "USFS Trail Construction and Maintenance Notebook"},
    {NULL, BW_MARK_NONE, NULL}};

const bw_sourced_text bw_durability_claims[] = {
    {"charring the foot: popular, opinions are split, no test data were found; it counts "
     "for nothing here",
     BW_MARK_READ, "forums of the trade"},
    {NULL, BW_MARK_NONE, NULL}};

static bw_durability_class class_of_number(char digit)
{
    return digit <= '2'   ? BW_DURABILITY_RESISTANT
           : digit == '3' ? BW_DURABILITY_MODERATE
                          : BW_DURABILITY_SLIGHT;
}

/* The poorest of the classes 1 to 5 of EN 350 that the words name; unknown if none. */
static bw_durability_class poorest_number(const char *words)
{
    bw_durability_class poorest = BW_DURABILITY_UNKNOWN;
    for (const char *at = words; *at != '\0'; at++) {
        const bool alone =
            (at == words || at[-1] < '0' || at[-1] > '9') && (at[1] < '0' || at[1] > '9');
        if (*at >= '1' && *at <= '5' && alone) {
            const bw_durability_class found = class_of_number(*at);
            if (poorest == BW_DURABILITY_UNKNOWN || found < poorest) {
                poorest = found;
            }
        }
    }
    return poorest;
}

static char lower(char letter)
{
    return letter >= 'A' && letter <= 'Z' ? (char)(letter - 'A' + 'a') : letter;
}

/* Whether the part (in small letters) stands in the words: "Not resistant" must not read
 * as "resistant". */
static bool holds(const char *words, const char *part)
{
    for (; *words != '\0'; words++) {
        size_t n = 0;
        while (part[n] != '\0' && lower(words[n]) == part[n]) {
            n++;
        }
        if (part[n] == '\0') {
            return true;
        }
    }
    return false;
}

static bw_durability_class class_of_words(const char *words)
{
    if (words == NULL) {
        return BW_DURABILITY_UNKNOWN;
    }
    if (holds(words, "slight") || holds(words, "not ") || holds(words, "non") ||
        holds(words, "perish")) {
        return BW_DURABILITY_SLIGHT;
    }
    if (holds(words, "moderate")) {
        return BW_DURABILITY_MODERATE;
    }
    if (holds(words, "resistant") || holds(words, "durable")) {
        return BW_DURABILITY_RESISTANT;
    }
    return poorest_number(words);
}

bw_durability bw_durability_of(const bw_species *species)
{
    return classes[class_of_words(species->durability)];
}
