/* case_loads.c - boards, loads and limits. */
#include "case.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const bwi_range width_range = {0.2, 6.0, false};         /* [m] */
static const bwi_range thickness_range = {0.01, 0.3, false};    /* [m] */
static const bwi_range board_weight_range = {20.0, 5e3, false}; /* [Pa] */
static const bwi_range rider_range = {20.0, 400.0, false};      /* [kg] */
static const bwi_range factor_range = {1.0, 10.0, false};
static const bwi_range pressure_range = {0.0, 25e3, false}; /* [Pa] */
static const bwi_range count_range = {1.0, 16.0, false};
static const bwi_range spacing_range = {0.3, 50.0, false};  /* [m] */
static const bwi_range wheelbase_range = {0.5, 2.0, false}; /* [m] */
static const bwi_range push_range = {0.0, 3.0, false};      /* of the rider's weight */
static const bwi_range lean_range = {0.0, 0.2, false};      /* rise over run */
static const bwi_range thrust_range = {1.0, 20e3, false};   /* [N] */
static const bwi_range ratio_range = {100.0, 1000.0, false};
static const bwi_range seat_range = {0.005, 0.1, false}; /* [m] */

/* Boards where nothing is said: 1 1/2 in of wet wood with its screws. The density is
 * chosen on the heavy side: JUDGEMENT. */
static const double usual_thickness_inches = 1.5;
static const double wet_board_density = 900.0; /* [kg/m3] */

void bwi_case_boards(bwi_case_reader *r)
{
    bw_boards *boards = &r->out->boards;
    boards->board_thickness = usual_thickness_inches * bw_unit_size(BW_LENGTH, "in");
    const bwi_at deck = bwi_need(&r->root, "deck");
    if (BWI_OBJECT(&deck, "width", "board_thickness", "board_weight")) {
        const bwi_at width = bwi_need(&deck, "width");
        bwi_measure(&width, BW_LENGTH, width_range, &boards->width);
        const bwi_at thickness = bwi_key(&deck, "board_thickness");
        bwi_measure(&thickness, BW_LENGTH, thickness_range, &boards->board_thickness);
        boards->board_pressure = boards->board_thickness * wet_board_density * bw_gravity;
        const bwi_at weight = bwi_key(&deck, "board_weight");
        bwi_measure(&weight, BW_PRESSURE, board_weight_range, &boards->board_pressure);
    }
}

static void rider_read(const bwi_at *at, const bw_basis *basis, bw_loads *loads)
{
    const bwi_range duration_range = {basis->duration_least, basis->duration_most, false};
    if (bwi_is_null(at)) {
        loads->mass = 0.0;
        return;
    }
    if (BWI_OBJECT(at, "mass", "factor", "load_duration", "push", "count", "spacing",
                   "wheelbase")) {
        const bwi_at mass = bwi_key(at, "mass");
        bwi_measure(&mass, BW_MASS, rider_range, &loads->mass);
        const bwi_at factor = bwi_key(at, "factor");
        bwi_number(&factor, factor_range, &loads->factor);
        const bwi_at duration = bwi_key(at, "load_duration");
        bwi_number(&duration, duration_range, &loads->load_duration);
        const bwi_at count = bwi_key(at, "count");
        double riders = loads->riders;
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
    if (BWI_OBJECT(at, "bent", "thrust")) {
        const bwi_at bent = bwi_need(at, "bent");
        int where = -1;
        const bool known = bwi_case_bent(r, &bent, &where);
        const bwi_at thrust = bwi_need(at, "thrust");
        double force = 0.0;
        if (bwi_measure(&thrust, BW_FORCE, thrust_range, &force) && known) {
            loads->thrust = force;
            loads->thrust_bent = where;
        }
    }
}

void bwi_case_loads(bwi_case_reader *r)
{
    bw_loads *loads = &r->out->loads;
    *loads = bw_loads_default;
    const bwi_at at = bwi_key(&r->root, "loads");
    if (BWI_OBJECT(&at, "rider", "crowd", "snow", "extra_dead", "people_sway", "lean",
                   "take_off")) {
        const bwi_at rider = bwi_key(&at, "rider");
        rider_read(&rider, r->out->basis, loads);
        const bwi_at crowd = bwi_key(&at, "crowd");
        bwi_measure(&crowd, BW_PRESSURE, pressure_range, &loads->crowd);
        const bwi_at snow = bwi_key(&at, "snow");
        bwi_measure(&snow, BW_PRESSURE, pressure_range, &loads->snow);
        const bwi_at extra = bwi_key(&at, "extra_dead");
        bwi_measure(&extra, BW_PRESSURE, pressure_range, &loads->extra_dead);
        const bwi_at sway = bwi_key(&at, "people_sway");
        bwi_measure(&sway, BW_PRESSURE, pressure_range, &loads->sway);
        const bwi_at lean = bwi_key(&at, "lean");
        bwi_measure(&lean, BW_SLOPE, lean_range, &loads->lean);
        const bwi_at take_off = bwi_key(&at, "take_off");
        take_off_read(r, loads, &take_off);
    }
}

/* "span/360": the number below the line. */
static void ratio_read(const bwi_at *at, double *out)
{
    static const char begin[] = "span/";
    const char *text = NULL;
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
    if (BWI_OBJECT(&at, "deflection_live", "deflection_long_term", "seat_depth")) {
        const bwi_at live = bwi_key(&at, "deflection_live");
        ratio_read(&live, &limits->live);
        const bwi_at long_term = bwi_key(&at, "deflection_long_term");
        ratio_read(&long_term, &limits->long_term);
        const bwi_at seat = bwi_key(&at, "seat_depth");
        bwi_measure(&seat, BW_LENGTH, seat_range, &limits->seat_depth);
    }
}
