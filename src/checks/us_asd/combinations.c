/* ASCE 7-16 2.4.1, allowable stress (READ in part, as the set of IBC 1605.3.1): D, D + L,
 * D + S, D + 0.75 L + 0.75 S. The rider is a live load of its own, never together with a
 * full crowd. Load durations: NDS 2018 Table 2.3.2 (READ). A machine that crosses now and
 * then is a live load of its own too: in all its time on the deck no more than the seven
 * days of construction loads (JUDGEMENT). */
#include "us_asd.h"

#include "../present.h"

static const char source[] = "ASCE 7-16, 2.4.1; NDS 2018, Table 2.3.2";

static const double permanent = 0.9, occupancy = 1.0, two_months = 1.15;
static const double seven_days = 1.25, ten_minutes = 1.6;

/* How hard a rider presses is over within ten minutes, all blows together; the impact
 * value of 2.0 is not taken, since it is barred for treated wood and for connections. The
 * rider who stays, rolls and brakes is asked besides as occupancy, with 1.25 times the
 * weight: then a load of twice the weight or less is no easier as a blow. Each of both is
 * harder for a harder rider, so that no factor makes a deck look better than a smaller
 * one (JUDGEMENT). */
static const double slow_factor = 2.0 * 1.0 / 1.6;

static double rider_duration(const bw_actions_present *present)
{
    return present->rider_duration > 0.0 ? present->rider_duration : ten_minutes;
}

static double machine_duration(const bw_actions_present *present)
{
    return present->machine_duration > 0.0 ? present->machine_duration : seven_days;
}

size_t bwi_us_combinations(const bw_actions_present *present,
                           bw_combination out[BW_COMBINATIONS_MAX])
{
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
        {.title = "dead + slow rider",
         .dead = 1.0,
         .rider = 1.0,
         .slow = slow_factor,
         .duration = occupancy},
        {.title = "dead + 0.75 slow rider + 0.75 snow",
         .dead = 1.0,
         .rider = 0.75,
         .slow = slow_factor,
         .snow = 0.75,
         .duration = occupancy},
    };
    list[1].duration = list[5].duration = rider_duration(present);
    list[6].duration = list[7].duration = machine_duration(present);
    size_t n = 0;
    for (size_t k = 0; k < sizeof list / sizeof list[0]; k++) {
        if (bwi_is_present(present, &list[k])) {
            out[n] = list[k];
            out[n].strength = true;
            /* how a machine rides is no matter; a slow rider bends it less */
            out[n].service = list[k].machine == 0.0 && list[k].slow == 0.0;
            out[n].source = source;
            out[n++].mark = BW_MARK_READ;
        }
    }
    return n;
}
