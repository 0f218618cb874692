/* What people weigh on a deck by its use: EN 1991-1-1, 6.3.1, the most of each range
 * (MEMORY). */
#include "eurocode.h"

static const char together[] = "EN 1991-1-1, category C3, 3 to 5 kN/m2: the most";
static const char crowds[] = "EN 1991-1-1, category C5, 5 to 7.5 kN/m2: the most";

const bw_people_use bwi_ec_uses[] = {
    {"riders only", 0.0, BW_MARK_JUDGEMENT, "nobody stands on it: a sign must say so"},
    {"walkway", 5000.0, BW_MARK_MEMORY, together},
    {"footbridge", 5000.0, BW_MARK_MEMORY, together},
    {"terrace", 5000.0, BW_MARK_MEMORY, together},
    {"viewing stand", 7500.0, BW_MARK_MEMORY, crowds},
    {"crowded", 7500.0, BW_MARK_MEMORY, crowds},
    {NULL, 0.0, BW_MARK_NONE, NULL}};
