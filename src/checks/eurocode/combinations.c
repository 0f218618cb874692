/* EN 1990:2002, (6.10) for strength and (6.14b), the characteristic combination, for
 * deflection and for the ground, whose allowable pressures hold their own safety: gamma_G
 * = 1.35, or 1.0 where it helps, gamma_Q = 1.5 (READ in a public summary; the 1.0
 * MEMORY); psi_0 = 0.7 for people (category C) and for snow (above 1000 m; 0.5 below),
 * psi_2 = 0.6 for people and 0.2 for snow (MEMORY). The rider is a variable action of its
 * own, never together with a full crowd, and leaves nothing to creep. (6.10a) and
 * (6.10b), which lower the sum, are not used.
 *
 * Durations (EN 1995-1-1, 2.3.1.2, MEMORY) with k_mod of service class 3 (Table 3.1,
 * READ): people stand for the medium term and so does snow, the cautious of what is
 * usual; how hard a rider presses is instantaneous, and the rider who stays, rolls and
 * brakes is asked besides as short, with 1.56 times the weight: then twice the weight or
 * less is no easier as a blow, and no factor makes a deck look better than a smaller one
 * (JUDGEMENT). A machine that crosses now and then is short (JUDGEMENT), and how it rides
 * is no matter. */
#include "eurocode.h"

#include "../present.h"

enum { STRENGTH_ROWS = 15, SERVICE_ROWS = 9, ROWS = STRENGTH_ROWS + SERVICE_ROWS };

static const double permanent = 0.50, medium = 0.65, brief = 0.70, instantaneous = 0.90;
static const double psi_0 = 0.7;
static const double slow = 2.0 * 0.70 / 0.90;
static const double people_last = 0.6, snow_lasts = 0.2;

static double rider_duration(const bw_actions_present *present)
{
    return present->rider_duration > 0.0 ? present->rider_duration : instantaneous;
}

static double machine_duration(const bw_actions_present *present)
{
    return present->machine_duration > 0.0 ? present->machine_duration : brief;
}

/* Those with 1.0 dead: where the weight holds down what people elsewhere lift, it counts
 * with 1.0. */
static void strength_rows(const bw_actions_present *present, bw_combination *out)
{
    const bw_combination rows[] = {
        {.title = "1.35 dead", .duration = permanent},
        {.title = "1.35 dead + 1.5 rider",
         .rider = 1.5,
         .duration = rider_duration(present)},
        {.title = "1.35 dead + 1.5 crowd", .crowd = 1.5, .duration = medium},
        {.title = "1.35 dead + 1.5 snow", .snow = 1.5, .duration = medium},
        {.title = "1.35 dead + 1.5 crowd + 1.05 snow",
         .crowd = 1.5,
         .snow = 1.5 * psi_0,
         .duration = medium},
        {.title = "1.35 dead + 1.5 snow + 1.05 crowd",
         .crowd = 1.5 * psi_0,
         .snow = 1.5,
         .duration = medium},
        {.title = "1.35 dead + 1.5 rider + 1.05 snow",
         .rider = 1.5,
         .snow = 1.5 * psi_0,
         .duration = rider_duration(present)},
        {.title = "1.0 dead + 1.5 rider",
         .dead = 1.0,
         .rider = 1.5,
         .duration = rider_duration(present)},
        {.title = "1.0 dead + 1.5 crowd", .dead = 1.0, .crowd = 1.5, .duration = medium},
        {.title = "1.35 dead + 1.5 machine",
         .machine = 1.5,
         .duration = machine_duration(present)},
        {.title = "1.35 dead + 1.5 machine + 1.05 snow",
         .machine = 1.5,
         .snow = 1.5 * psi_0,
         .duration = machine_duration(present)},
        {.title = "1.0 dead + 1.5 machine",
         .dead = 1.0,
         .machine = 1.5,
         .duration = machine_duration(present)},
        {.title = "1.35 dead + 1.5 slow rider",
         .rider = 1.5,
         .slow = slow,
         .duration = brief},
        {.title = "1.35 dead + 1.5 slow rider + 1.05 snow",
         .rider = 1.5,
         .slow = slow,
         .snow = 1.5 * psi_0,
         .duration = brief},
        {.title = "1.0 dead + 1.5 slow rider",
         .dead = 1.0,
         .rider = 1.5,
         .slow = slow,
         .duration = brief},
    };
    for (size_t k = 0; k < STRENGTH_ROWS; k++) {
        out[k] = rows[k];
        out[k].dead = rows[k].dead > 0.0 ? rows[k].dead : 1.35;
        out[k].strength = out[k].factored = true;
        out[k].source = "EN 1990:2002, (6.10); EN 1995-1-1:2004, Table 3.1";
    }
}

static void service_rows(const bw_actions_present *present, bw_combination *out)
{
    const bw_combination rows[] = {
        {.title = "dead", .duration = permanent},
        {.title = "dead + rider", .rider = 1.0, .duration = rider_duration(present)},
        {.title = "dead + crowd", .crowd = 1.0, .lasting_share = people_last},
        {.title = "dead + snow", .snow = 1.0, .lasting_share = snow_lasts},
        {.title = "dead + crowd + 0.7 snow",
         .crowd = 1.0,
         .snow = psi_0,
         .lasting_share = people_last},
        {.title = "dead + snow + 0.7 crowd",
         .crowd = psi_0,
         .snow = 1.0,
         .lasting_share = people_last},
        {.title = "dead + rider + 0.7 snow",
         .rider = 1.0,
         .snow = psi_0,
         .lasting_share = snow_lasts,
         .duration = rider_duration(present)},
        {.title = "dead + machine",
         .machine = 1.0,
         .duration = machine_duration(present)},
        {.title = "dead + machine + 0.7 snow",
         .machine = 1.0,
         .snow = psi_0,
         .duration = machine_duration(present)},
    };
    for (size_t k = 0; k < SERVICE_ROWS; k++) {
        out[k] = rows[k];
        out[k].dead = 1.0;
        out[k].service = rows[k].machine == 0.0; /* how it rides is no matter */
        out[k].duration = rows[k].duration > 0.0 ? rows[k].duration : medium;
        out[k].source = "EN 1990:2002, (6.14b)";
    }
}

size_t bwi_ec_combinations(const bw_actions_present *present,
                           bw_combination out[BW_COMBINATIONS_MAX])
{
    bw_combination all[ROWS] = {0};
    size_t n = 0;
    strength_rows(present, all);
    service_rows(present, all + STRENGTH_ROWS);
    for (size_t k = 0; k < ROWS; k++) {
        if (bwi_is_present(present, &all[k])) {
            out[n] = all[k];
            out[n++].mark = BW_MARK_MEMORY;
        }
    }
    return n;
}
