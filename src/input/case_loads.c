/* case_loads.c - loads and limits. */
#include "case.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const bwi_range rider_range = {20.0, 400.0, false}; /* [kg] */
static const bwi_range factor_range = {1.0, 10.0, false};
static const bwi_range pressure_range = {0.0, 25e3, false}; /* [Pa] */
static const bwi_range person_range = {40.0, 200.0, false}; /* [kg] */
static const bwi_range count_range = {1.0, 16.0, false};
static const bwi_range spacing_range = {0.3, 50.0, false};  /* [m] */
static const bwi_range wheelbase_range = {0.5, 2.0, false}; /* [m] */
static const bwi_range bike_range = {5.0, 60.0, false};     /* [kg] */
/* wider than what the formulas were looked at for: beyond that there is no verdict */
static const bwi_range height_range = {0.0, 20.0, false};     /* [m] */
static const bwi_range speed_range = {0.0, 40.0, false};      /* [m/s] */
static const bwi_range face_range = {-2.0, 2.0, false};       /* fall over run */
static const bwi_range travel_range = {0.05, 0.8, false};     /* [m] */
static const bwi_range sag_range = {0.005, 0.4, false};       /* [m] */
static const bwi_range radius_range = {0.3, 200.0, false};    /* [m] */
static const bwi_range lip_range = {0.01, 1.5, false};        /* [rad] */
static const bwi_range machine_range = {50.0, 3000.0, false}; /* [kg] */
static const bwi_range axles_range = {0.5, 3.0, false};       /* [m] */
static const bwi_range track_range = {0.3, 2.5, false};       /* [m] */
static const bwi_range share_range = {0.5, 1.0, false};       /* of its mass */
static const bwi_range push_range = {0.0, 3.0, false};        /* of the rider's weight */
static const bwi_range lean_range = {0.0, 0.2, false};        /* rise over run */
static const bwi_range thrust_range = {1.0, 20e3, false};     /* [N] */
static const bwi_range ratio_range = {100.0, 1000.0, false};
static const bwi_range seat_range = {0.005, 0.1, false}; /* [m] */

/* Boards full of water, chosen on the heavy side: JUDGEMENT. */
static const double soaked_board_density = 1250.0; /* [kg/m3] */

static void fall_read(const bwi_at *at, bw_ride *ride)
{
    const bwi_at height = bwi_need(at, "height");
    bwi_measure(&height, BW_LENGTH, height_range, &ride->height);
    const bwi_at speed = bwi_key(at, "speed");
    bwi_measure(&speed, BW_SPEED, speed_range, &ride->speed);
    const bwi_at slope = bwi_key(at, "slope");
    bwi_measure(&slope, BW_SLOPE, face_range, &ride->slope);
    const bwi_at sag = bwi_key(at, "sag");
    const bool has_sag = bwi_measure(&sag, BW_LENGTH, sag_range, &ride->sag);
    const bwi_at travel = has_sag ? bwi_need(at, "travel") : bwi_key(at, "travel");
    bwi_measure(&travel, BW_LENGTH, travel_range, &ride->travel);
}

static void curve_read(const bwi_at *at, double *speed, double *radius)
{
    const bwi_at speed_at = bwi_need(at, "speed");
    bwi_measure(&speed_at, BW_SPEED, speed_range, speed);
    const bwi_at radius_at = bwi_need(at, "radius");
    bwi_measure(&radius_at, BW_LENGTH, radius_range, radius);
}

static void ride_read(const bwi_at *at, bw_ride *ride)
{
    int kind = -1;
    bwi_by_word(at, "kind");
    const bwi_at kind_at = bwi_need(at, "kind");
    BWI_WORD(&kind_at, &kind, "rolling", "small step", "landing", "transition");
    ride->kind = (bw_ride_kind)(BW_RIDE_ROLLING + kind);
    if (kind < 0) {
        ride->kind = BW_RIDE_AS_GIVEN;
        BWI_OBJECT(at, "kind", "height", "speed", "slope", "travel", "sag", "radius");
    } else if (ride->kind == BW_RIDE_ROLLING) {
        BWI_OBJECT(at, "kind");
    } else if (ride->kind == BW_RIDE_SMALL_STEP) {
        if (BWI_OBJECT(at, "kind", "height", "travel", "sag")) {
            fall_read(at, ride);
        }
    } else if (ride->kind == BW_RIDE_LANDING) {
        if (BWI_OBJECT(at, "kind", "height", "speed", "slope", "travel", "sag")) {
            fall_read(at, ride);
        }
    } else if (BWI_OBJECT(at, "kind", "speed", "radius")) {
        curve_read(at, &ride->speed, &ride->radius);
    }
}

/* Rider and bike together, or apart. */
static void masses_read(const bwi_at *at, bw_loads *loads)
{
    const bwi_at mass = bwi_key(at, "mass");
    const bwi_at rider = bwi_key(at, "rider_mass"), bike = bwi_key(at, "bike_mass");
    double bike_mass = loads->bike_mass, rider_mass = loads->mass - bike_mass;
    if (mass.node != NULL && (rider.node != NULL || bike.node != NULL)) {
        bwi_error(&mass, "rider.mass", NULL,
                  "give \"mass\", or \"rider_mass\" and \"bike_mass\"",
                  "%s is given together with the parts of it", bwi_as_written(&mass));
        return;
    }
    bwi_measure(&mass, BW_MASS, rider_range, &loads->mass);
    bwi_measure(&rider, BW_MASS, rider_range, &rider_mass);
    bwi_measure(&bike, BW_MASS, bike_range, &bike_mass);
    loads->mass = mass.node == NULL ? rider_mass + bike_mass : loads->mass;
    loads->bike_mass = mass.node == NULL ? bike_mass : 0.0; /* not told apart */
}

static void press_read(const bwi_at *at, bw_loads *loads)
{
    const bwi_at factor = bwi_key(at, "factor"), ride = bwi_key(at, "action");
    bwi_number(&factor, factor_range, &loads->factor);
    ride_read(&ride, &loads->ride);
    if (factor.node != NULL && ride.node != NULL) {
        bwi_error(&factor, "rider.factor", NULL,
                  "give \"factor\", or \"action\" from which it is worked out",
                  "%s is given together with an action", bwi_as_written(&factor));
    }
}

static void rider_read(const bwi_at *at, const bw_basis *basis, bw_loads *loads)
{
    const bwi_range duration_range = {basis->duration_least, basis->duration_most, false};
    if (bwi_is_null(at)) {
        loads->mass = 0.0;
        return;
    }
    if (BWI_OBJECT(at, "mass", "rider_mass", "bike_mass", "factor", "action",
                   "load_duration", "push", "count", "spacing", "wheelbase")) {
        masses_read(at, loads);
        press_read(at, loads);
        const bwi_at duration = bwi_key(at, "load_duration");
        bwi_number(&duration, duration_range, &loads->load_duration);
        const bwi_at count = bwi_key(at, "count");
        double riders = loads->riders;
        bwi_is_whole(&count);
        bwi_number(&count, count_range, &riders);
        if (riders != floor(riders)) {
            bwi_error(&count, "rider.count", "1 to 16", NULL, "%s is not a whole number",
                      bwi_as_written(&count));
        }
        loads->riders = (int)riders;
        const bwi_at spacing = bwi_key(at, "spacing");
        bwi_measure(&spacing, BW_LENGTH, spacing_range, &loads->rider_spacing);
        const bwi_at wheelbase = bwi_key(at, "wheelbase");
        bwi_measure(&wheelbase, BW_LENGTH, wheelbase_range, &loads->wheelbase);
        const bwi_at push = bwi_key(at, "push");
        bwi_number(&push, push_range, &loads->rider_push);
    }
}

static void take_off_read(const bwi_case_reader *r, bw_loads *loads, const bwi_at *at)
{
    const bool curved = bwi_key(at, "radius").node != NULL ||
                        bwi_key(at, "speed").node != NULL ||
                        bwi_key(at, "lip").node != NULL;
    bwi_by_key(at, "radius");
    if (curved ? BWI_OBJECT(at, "bent", "speed", "radius", "lip")
               : BWI_OBJECT(at, "bent", "thrust")) {
        const bwi_at bent = bwi_need(at, "bent");
        int where = -1;
        const bool known = bwi_case_bent(r, &bent, &where);
        double force = 0.0;
        bw_ramp ramp = {0};
        if (curved) {
            curve_read(at, &ramp.speed, &ramp.radius);
            const bwi_at lip = bwi_need(at, "lip");
            bwi_measure(&lip, BW_ANGLE, lip_range, &ramp.lip);
        } else {
            const bwi_at thrust = bwi_need(at, "thrust");
            bwi_measure(&thrust, BW_FORCE, thrust_range, &force);
        }
        if (known) {
            loads->thrust = force;
            loads->ramp = ramp;
            loads->thrust_bent = where;
        }
    }
}

static void machine_read(const bwi_case_reader *r, bw_machine *machine, const bwi_at *at)
{
    const bw_basis *basis = r->out->basis;
    const bwi_range duration_range = {basis->duration_least, basis->duration_most, false};
    if (!BWI_OBJECT(at, "name", "mass", "wheelbase", "track", "heavy_axle_share",
                    "factor", "push", "load_duration")) {
        return;
    }
    const bwi_at name = bwi_key(at, "name");
    bwi_name(&name, &machine->name);
    const bwi_at mass = bwi_need(at, "mass");
    bwi_measure(&mass, BW_MASS, machine_range, &machine->mass);
    const bwi_at wheelbase = bwi_need(at, "wheelbase");
    bwi_measure(&wheelbase, BW_LENGTH, axles_range, &machine->wheelbase);
    const bwi_at track = bwi_need(at, "track");
    const bool known = bwi_measure(&track, BW_LENGTH, track_range, &machine->track);
    const bwi_at share = bwi_key(at, "heavy_axle_share");
    bwi_number(&share, share_range, &machine->heavy_share);
    const bwi_at factor = bwi_key(at, "factor");
    bwi_number(&factor, factor_range, &machine->factor);
    const bwi_at push = bwi_key(at, "push");
    bwi_number(&push, push_range, &machine->push);
    const bwi_at duration = bwi_key(at, "load_duration");
    bwi_number(&duration, duration_range, &machine->load_duration);
    if (known && machine->track > r->out->boards.width) {
        bwi_error(&track, "machine.track", "at most the width of the deck", NULL,
                  "%s is wider than the deck", bwi_as_written(&track));
    }
}

/* Boards whose weight is not given weigh what they weigh full of water. */
static void soaked_read(const bwi_case_reader *r, bw_loads *loads, const bwi_at *at)
{
    bw_boards *boards = &r->out->boards;
    const bwi_at deck = bwi_key(&r->root, "deck");
    const bwi_at weight = bwi_key(&deck, "board_weight");
    if (bwi_flag(at, &loads->soaked) && loads->soaked && weight.node == NULL) {
        boards->board_pressure =
            boards->board_thickness * soaked_board_density * bw_gravity;
    }
}

/* People by the use of the deck, or by their weight; how they sway follows from it. */
static void people_read(const bwi_case_reader *r, bw_loads *loads, const bwi_at *at)
{
    enum { USES = 12 };
    const bwi_at crowd = bwi_key(at, "crowd"), use = bwi_key(at, "use");
    const bw_people_use *uses = r->out->basis->uses;
    const char *names[USES];
    size_t n = 0;
    int which = 0;
    for (; n < USES && uses[n].name != NULL; n++) {
        names[n] = uses[n].name;
    }
    bwi_measure(&crowd, BW_PRESSURE, pressure_range, &loads->crowd);
    if (bwi_word(&use, names, n, &which)) {
        loads->use = &uses[which];
        loads->crowd = loads->use->pressure;
    }
    if (crowd.node != NULL && use.node != NULL) {
        bwi_error(&crowd, "people.twice", NULL, "give \"use\" or \"crowd\"",
                  "%s is given together with a use", bwi_as_written(&crowd));
    }
    const bwi_at person = bwi_key(at, "person_mass");
    bwi_measure(&person, BW_MASS, person_range, &loads->person);
    const bwi_at sway = bwi_key(at, "people_sway");
    loads->sway = loads->crowd > 0.0 ? bw_people_sway(loads->crowd) : loads->sway;
    bwi_measure(&sway, BW_PRESSURE, pressure_range, &loads->sway);
}

void bwi_case_loads(bwi_case_reader *r)
{
    bw_loads *loads = &r->out->loads;
    *loads = bw_loads_default;
    const bwi_at at = bwi_key(&r->root, "loads");
    if (BWI_OBJECT(&at, "rider", "crowd", "snow", "extra_dead", "people_sway", "lean",
                   "take_off", "machine", "soaked", "use", "person_mass")) {
        const bwi_at rider = bwi_key(&at, "rider");
        rider_read(&rider, r->out->basis, loads);
        people_read(r, loads, &at);
        const bwi_at snow = bwi_key(&at, "snow");
        bwi_measure(&snow, BW_PRESSURE, pressure_range, &loads->snow);
        const bwi_at extra = bwi_key(&at, "extra_dead");
        bwi_measure(&extra, BW_PRESSURE, pressure_range, &loads->extra_dead);
        const bwi_at lean = bwi_key(&at, "lean");
        bwi_measure(&lean, BW_SLOPE, lean_range, &loads->lean);
        const bwi_at take_off = bwi_key(&at, "take_off");
        take_off_read(r, loads, &take_off);
        const bwi_at machine = bwi_key(&at, "machine");
        machine_read(r, &loads->machine, &machine);
        const bwi_at soaked = bwi_key(&at, "soaked");
        soaked_read(r, loads, &soaked);
    }
}

/* "span/360": the number below the line. */
static void ratio_read(const bwi_at *at, double *out)
{
    static const char begin[] = "span/";
    const char *text = NULL;
    bwi_is_written(at, "^span/(?:[0-9]+\\.?[0-9]*|\\.[0-9]+)$");
    if (!bwi_text(at, &text)) {
        return;
    }
    const bool sound = strncmp(text, begin, sizeof begin - 1) == 0;
    const char *number = sound ? text + sizeof begin - 1 : "";
    const size_t digits = strspn(number, "0123456789.");
    char *end = NULL;
    const double ratio = strtod(number, &end);
    if (digits == 0 || number[digits] != '\0' || *end != '\0') {
        bwi_error(at, "limit.ratio", "span/100 to span/1000", "write it as \"span/360\"",
                  "%s is not a part of the span", bwi_as_written(at));
    } else if (ratio < ratio_range.low || ratio > ratio_range.high) {
        bwi_error(at, "value.range", "span/100 to span/1000", NULL, "%s is out of range",
                  bwi_as_written(at));
    } else {
        *out = ratio;
    }
}

void bwi_case_limits(bwi_case_reader *r)
{
    bw_limits *limits = &r->out->limits;
    *limits = bw_limits_default;
    const bwi_at at = bwi_key(&r->root, "limits");
    if (BWI_OBJECT(&at, "deflection_live", "deflection_long_term", "deflection_boards",
                   "seat_depth")) {
        const bwi_at live = bwi_key(&at, "deflection_live");
        ratio_read(&live, &limits->live);
        const bwi_at long_term = bwi_key(&at, "deflection_long_term");
        ratio_read(&long_term, &limits->long_term);
        const bwi_at boards = bwi_key(&at, "deflection_boards");
        ratio_read(&boards, &limits->boards);
        const bwi_at seat = bwi_key(&at, "seat_depth");
        bwi_measure(&seat, BW_LENGTH, seat_range, &limits->seat_depth);
    }
}
