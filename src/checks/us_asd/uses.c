/* What people weigh on a deck by its use: ASCE 7-16, Table 4.3-1, and others. */
#include "us_asd.h"

const bw_people_use bwi_us_uses[] = {
    {.name = "riders only",
     .pressure = 0.0,
     .mark = BW_MARK_JUDGEMENT,
     .source = "nobody stands on it: a sign must say so"},
    {.name = "walkway",
     .pressure = 2872.816,
     .mark = BW_MARK_READ,
     .source = "ASCE 7-16, Table 4.3-1, walkways and elevated platforms, 60 psf"},
    {.name = "footbridge",
     .pressure = 4309.223,
     .mark = BW_MARK_MEMORY,
     .source = "AASHTO guide to pedestrian bridges, 2009, 90 psf"},
    {.name = "terrace",
     .pressure = 4788.026,
     .mark = BW_MARK_READ,
     .source = "ASCE 7-16, Table 4.3-1, yards and terraces for pedestrians, 100 psf"},
    {.name = "viewing stand",
     .pressure = 4788.026,
     .mark = BW_MARK_MEMORY,
     .source = "ASCE 7-16, Table 4.3-1, bleachers and stadiums, 100 psf"},
    {.name = "crowded",
     .pressure = 5570.2,
     .mark = BW_MARK_COMPUTED,
     .source = "7.1 people of 80 kg on a square metre, the most that stand there (Fruin, "
               "read)"},
    {.name = NULL}};
