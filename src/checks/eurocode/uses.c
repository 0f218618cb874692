/* What people weigh on a deck by its use: EN 1991-1-1, 6.3.1, the most of each range
 * (MEMORY). */
#include "eurocode.h"

static const char together[] = "EN 1991-1-1, category C3, 3 to 5 kN/m2: the most";
static const char crowds[] = "EN 1991-1-1, category C5, 5 to 7.5 kN/m2: the most";

static const char together_person[] = "EN 1991-1-1:2002, Table 6.2, C3: Q_k = 4 kN";
static const char crowds_person[] = "EN 1991-1-1:2002, Table 6.2, C5: Q_k = 4.5 kN";

const bw_people_use bwi_ec_uses[] = {
    {.name = "riders only",
     .pressure = 0.0,
     .mark = BW_MARK_JUDGEMENT,
     .source = "nobody stands on it: a sign must say so"},
    {.name = "walkway",
     .pressure = 5000.0,
     .mark = BW_MARK_MEMORY,
     .source = together,
     .person = {4000.0, BW_MARK_MEMORY, together_person}},
    {.name = "footbridge",
     .pressure = 5000.0,
     .mark = BW_MARK_MEMORY,
     .source = together,
     .person = {4000.0, BW_MARK_MEMORY, together_person}},
    {.name = "terrace",
     .pressure = 5000.0,
     .mark = BW_MARK_MEMORY,
     .source = together,
     .person = {4000.0, BW_MARK_MEMORY, together_person}},
    {.name = "viewing stand",
     .pressure = 7500.0,
     .mark = BW_MARK_MEMORY,
     .source = crowds,
     .person = {4500.0, BW_MARK_MEMORY, crowds_person}},
    {.name = "crowded",
     .pressure = 7500.0,
     .mark = BW_MARK_MEMORY,
     .source = crowds,
     .person = {4500.0, BW_MARK_MEMORY, crowds_person}},
    {.name = NULL}};
