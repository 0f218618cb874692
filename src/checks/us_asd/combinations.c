/* ASCE 7-16 2.4.1, allowable stress (READ in part, as the set of IBC 1605.3.1): D, D + L,
 * D + S, D + 0.75 L + 0.75 S. The rider is a live load of its own, never together with a
 * full crowd. Load durations: NDS 2018 Table 2.3.2 (READ). A machine that crosses now and
 * then is a live load of its own too: in all its time on the deck no more than the seven
 * days of construction loads (JUDGEMENT). */
#include "us_asd.h"

static const char source[] = "ASCE 7-16, 2.4.1; NDS 2018, Table 2.3.2";

/* A factor of 2 and more is a blow of well under ten minutes; less is someone standing.
 * The impact value of 2.0 is not taken: it is barred for treated wood and for
 * connections. */
static double rider_duration(const bw_actions_present *present)
{
    const double ten_minutes = 1.6, occupancy = 1.0;
    if (present->rider_duration > 0.0) {
        return present->rider_duration;
    }
    return present->rider_factor >= 2.0 ? ten_minutes : occupancy;
}

static double machine_duration(const bw_actions_present *present)
{
    const double seven_days = 1.25;
    return present->machine_duration > 0.0 ? present->machine_duration : seven_days;
}

size_t bwi_us_combinations(const bw_actions_present *present,
                           bw_combination out[BW_COMBINATIONS_MAX])
{
    const double permanent = 0.9, occupancy = 1.0, two_months = 1.15;
    bw_combination list[] = {
        {.title = "dead", .dead = 1.0, .duration = permanent},
        {.title = "dead + rider", .dead = 1.0, .rider = 1.0},
        {.title = "dead + crowd", .dead = 1.0, .crowd = 1.0, .duration = occupancy},
        {.title = "dead + snow", .dead = 1.0, .snow = 1.0, .duration = two_months},
        {.title = "dead + 0.75 crowd + 0.75 snow",
         .dead = 1.0,
         .crowd = 0.75,
         .snow = 0.75,
         .duration = two_months},
        {.title = "dead + 0.75 rider + 0.75 snow",
         .dead = 1.0,
         .rider = 0.75,
         .snow = 0.75},
        {.title = "dead + machine", .dead = 1.0, .machine = 1.0},
        {.title = "dead + 0.75 machine + 0.75 snow",
         .dead = 1.0,
         .machine = 0.75,
         .snow = 0.75},
    };
    list[1].duration = list[5].duration = rider_duration(present);
    list[6].duration = list[7].duration = machine_duration(present);
    const bool wanted[] = {true,
                           present->rider,
                           present->crowd,
                           present->snow,
                           present->crowd && present->snow,
                           present->rider && present->snow,
                           present->machine,
                           present->machine && present->snow};
    size_t n = 0;
    for (size_t k = 0; k < sizeof list / sizeof list[0]; k++) {
        if (wanted[k]) {
            out[n] = list[k];
            out[n].strength = true;
            out[n].service = list[k].machine == 0.0; /* how it rides is no matter */
            out[n].source = source;
            out[n++].mark = BW_MARK_READ;
        }
    }
    return n;
}
