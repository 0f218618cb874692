/* What people weigh on a deck by its use: ASCE 7-16, Table 4.3-1, and others. */
#include "us_asd.h"

const bw_people_use bwi_us_uses[] = {
    {"riders only", 0.0, BW_MARK_JUDGEMENT, "nobody stands on it: a sign must say so"},
    {"walkway", 2872.816, BW_MARK_READ,
     "ASCE 7-16, Table 4.3-1, walkways and elevated platforms, 60 psf"},
    {"footbridge", 4309.223, BW_MARK_MEMORY,
     "AASHTO guide to pedestrian bridges, 2009, 90 psf"},
    {"terrace", 4788.026, BW_MARK_READ,
     "ASCE 7-16, Table 4.3-1, yards and terraces for pedestrians, 100 psf"},
    {"viewing stand", 4788.026, BW_MARK_MEMORY,
     "ASCE 7-16, Table 4.3-1, bleachers and stadiums, 100 psf"},
    {"crowded", 5570.2, BW_MARK_COMPUTED,
     "7.1 people of 80 kg on a square metre, the most that stand there (Fruin, read)"},
    {NULL, 0.0, BW_MARK_NONE, NULL}};
