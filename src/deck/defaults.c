/* What a case starts from; every one of these is printed as an assumption. */
#include "internal.h"

#include <math.h>

/* People moving together push with 12 psf of plan (full-size deck tests, READ in part:
 * facts of the trade); a rider brakes or corners with 0.6 of the weight (MEMORY); posts
 * set by eye stand out of plumb by 1 in 50 at most (JUDGEMENT). Rider 100 kg with kit on
 * a 15 kg bike; factor for rolling and small steps. A machine at walking pace presses
 * with half as much again as its weight, 0.6 of it on one axle (JUDGEMENT), and brakes
 * with a quarter (MEMORY, of road bridges). */
const bw_loads bw_loads_default = {
    .mass = 115.0,
    .bike_mass = 15.0,
    .factor = 3.0,
    .riders = 1,
    .rider_spacing = 3.0,
    .sway = 574.6, /* 12 psf */
    .person = 90.0,
    .rider_push = 0.6,
    .lean = 0.02,
    .machine = {.name = "machine", .heavy_share = 0.6, .factor = 1.5, .push = 0.25}};

/* Span/360 under the moving load and span/240 in the long run: floor limits of IBC Table
 * 1604.3 (MEMORY). The seat: half an inch cut flat on each log. One board alone under a
 * wheel: span/120, about a quarter of an inch beside its neighbours (JUDGEMENT). */
const bw_limits bw_limits_default = {
    .live = 360.0, .long_term = 240.0, .seat_depth = 0.0127, .boards = 120.0};

/* 12 psf for crowds to 100 psf, more in proportion for denser ones (JUDGEMENT; the tests
 * were of decks full of people); never more than 45 % of their weight, which a jumping
 * crowd pushes fore and aft (READ, facts of the trade). */
double bw_people_sway(double crowd)
{
    const double tested = bw_loads_default.sway, full = 4788.0; /* [Pa] 100 psf */
    return fmin(tested * fmax(1.0, crowd / full), 0.45 * crowd);
}

size_t bwi_combinations(const bw_case *deck, bw_combination out[BW_COMBINATIONS_MAX])
{
    const bw_loads *l = &deck->loads;
    const bool unknown = l->mass > 0.0 && bwi_rider_unknown(deck) != NULL;
    const bw_actions_present present = {.crowd = l->crowd > 0.0,
                                        .snow = l->snow > 0.0,
                                        /* what is not known is not moved about */
                                        .rider = l->mass > 0.0 && !unknown,
                                        .machine = l->machine.mass > 0.0,
                                        .rider_duration = l->load_duration,
                                        .machine_duration = l->machine.load_duration};
    return deck->basis->combinations(&present, out);
}

const char *bwi_rider_unknown(const bw_case *deck)
{
    const char *ramp = NULL;
    const bw_blow blow = bw_rider_blow(&deck->loads, NULL);
    (void)bw_ramp_thrust(&deck->loads, NULL, &ramp);
    return blow.cannot_say != NULL ? blow.cannot_say : ramp;
}
