/* inverse.c - see inverse.h. The case is text: nothing of the sizing layer makes it. */
#include "inverse.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>

#include <cmocka.h>

bwt_request bwt_random_request(bwt_random *r, const bw_species_table *table)
{
    bwt_request out;
    const bool metric = bwt_random_chance(r, 0.5);
    const bw_use use = (bw_use)bwt_random_below(r, BW_USE_COUNT);
    out.species = &table->items[bwt_random_below(r, (int)table->count)];
    out.duty = bw_duty_default(use, metric ? BW_METRIC : BW_IMPERIAL);
    out.duty.basis = bwt_random_chance(r, 0.3) ? &bw_eurocode : &bw_us_asd;
    out.duty.deck_width = bwt_random_between(r, 0.61, 2.43);
    out.duty.row_spacing = out.duty.deck_width * bwt_random_between(r, 0.57, 0.98);
    out.duty.bays =
        bwt_random_chance(r, 0.75) ? 1 : 1 + bwt_random_below(r, BW_DUTY_BAYS);
    if (use != BW_USE_PEOPLE) {
        out.duty.loads.mass = bwt_random_between(r, 61.0, 187.0);
        out.duty.loads.factor = bwt_random_between(r, 1.0, 4.3);
    }
    if (use != BW_USE_RIDERS) {
        bw_duty_people(&out.duty, bwt_random_between(r, 1430.0, 6870.0));
    }
    out.sound = bwt_random_chance(r, 0.3);
    return out;
}

bw_eye_grade bwt_grade_of(const bwt_request *request)
{
    const bw_answer best = {true, 0.0};
    const bw_eye_grade sound = {best,  best, best, best, best, BW_INSECTS_NONE,
                                BW_NO, BW_NO};
    return request->sound ? sound : (bw_eye_grade){0};
}

/* A log without a length goes on with its taper, 10 cm beyond both outer supports. */
static void add_logs(bw_text *out, const bwt_request *request, const bw_log *log,
                     double place)
{
    const char *grade =
        request->sound ? ", \"grade\": {\"largest_knot\": 0, \"knots_in_foot\": 0, "
                         "\"spiral_grain\": \"0 %\", \"drying_check\": 0, \"sweep\": "
                         "{\"bow\": \"0 m\", \"over\": \"1 m\"}, \"insects\": \"none\", "
                         "\"decay\": \"none\", \"dead_when_cut\": false}"
                       : "";
    const double more = log->length > 0.0 ? 0.0 : 0.2;
    const double taper = (log->butt_diameter - log->tip_diameter) / place;
    const double length = log->length > 0.0 ? log->length : place + more;
    bw_text_print(out,
                  "\"logs\": [{\"name\": \"log\", \"species\": \"%s\", \"bark\": "
                  "\"off\", \"butt_diameter\": \"%.15g m\", \"tip_diameter\": "
                  "\"%.15g m\"%s",
                  request->species->id, log->butt_diameter,
                  log->tip_diameter - taper * more, grade);
    bw_text_print(out, ", \"length\": \"%.15g m\"", length);
    const double mid = (log->butt_diameter + log->tip_diameter) / 2.0;
    bw_text_print(out,
                  "}, {\"name\": \"sill\", \"species\": \"%s\", \"bark\": \"off\", "
                  "\"butt_diameter\": \"%.15g m\", \"tip_diameter\": \"%.15g "
                  "m\"%s}], ",
                  request->species->id, mid, mid, grade);
}

static void add_frame(bw_text *out, const bw_duty *duty, double span)
{
    bw_text_print(out,
                  "\"rows\": [{\"name\": \"l\", \"across\": \"%.15g m\"}, {\"name\": "
                  "\"r\", \"across\": \"%.15g m\"}], \"bents\": [",
                  -duty->row_spacing / 2.0, duty->row_spacing / 2.0);
    for (int k = 0; k <= duty->bays; k++) {
        bw_text_print(out,
                      "%s{\"name\": \"%c\", \"at\": \"%.15g m\", \"deck_height\": "
                      "\"3 m\", \"sill\": \"sill\"}",
                      k == 0 ? "" : ", ", 'A' + k, k * span);
    }
    bw_text_add(out, "], \"stringers\": [");
    for (int k = 0; k < 2; k++) {
        bw_text_print(out,
                      "%s{\"row\": \"%c\", \"log\": \"log\", \"from\": \"A\", "
                      "\"to\": \"%c\"}",
                      k == 0 ? "" : ", ", k == 0 ? 'l' : 'r', 'A' + duty->bays);
    }
    bw_text_add(out, "], ");
}

static void add_loads(bw_text *out, const bw_loads *loads)
{
    bw_text_add(out, "\"loads\": {\"rider\": ");
    if (loads->mass > 0.0) {
        bw_text_print(out, "{\"mass\": \"%.15g kg\", \"factor\": %.15g}", loads->mass,
                      loads->factor);
    } else {
        bw_text_add(out, "null");
    }
    if (loads->crowd > 0.0) {
        bw_text_print(out, ", \"crowd\": \"%.15g kPa\"", loads->crowd / 1e3);
    }
    bw_text_add(out, "}}");
}

double bwt_case_utilisation(bw_arena *arena, const bw_species_table *table,
                            const bwt_request *request, const bw_log *log, double span)
{
    const bw_arena_mark mark = bw_arena_now(arena);
    bw_text text = bw_text_new(arena);
    bw_diags d = bw_diags_new(arena, NULL);
    bw_case deck;
    bw_assessment out;
    bw_text_print(&text,
                  "{\"format\": 1, \"title\": \"T\", \"units\": \"metric\", "
                  "\"basis\": \"%s\", \"deck\": {\"width\": \"%.15g m\"}, ",
                  request->duty.basis->id, request->duty.deck_width);
    add_logs(&text, request, log, span * request->duty.bays);
    add_frame(&text, &request->duty, span);
    add_loads(&text, &request->duty.loads);
    const bw_status read = bw_input_case(arena, bw_text_string(&text), table, &deck, &d);
    bw_text faults = bw_text_new(arena);
    bw_diags_print(&d, &faults);
    if (read != BW_OK) {
        fail_msg("%s\n%s", bw_text_string(&text), bw_text_string(&faults));
    }
    assert_int_equal(bw_deck_assess(arena, &deck, &out, &d), BW_OK);
    const double left = out.members[0].worst, right = out.members[1].worst;
    bw_arena_back(arena, mark);
    return isnan(left) || !(left <= right) ? left : right;
}
